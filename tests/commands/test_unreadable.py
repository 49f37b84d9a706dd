"""A file that cannot be read: what it costs, and what it stops."""

import builtins
import errno
import io
import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from unittest.mock import patch

import pytest

from tests.commands.refusing import publish
from tests.commands.running import DAY, run
from tests.pictures.images import encoded, halves
from tests.swapping import state_of
from tests.tern import put_file, sheet_text


@pytest.fixture
def unreadable(content: Path) -> Iterator[Path]:
    """A sheet that nobody may open, also where everybody is allowed everything."""
    file, real = content / DAY, os.open

    def refuse(path: object, *more: object, **how: object) -> int:
        if str(path).endswith(DAY):
            raise PermissionError(errno.EACCES, "Permission denied", str(path))
        return real(path, *more, **how)  # type: ignore[arg-type]

    with patch.object(os, "open", refuse):
        yield file


def test_file_that_cannot_be_read__is_named_and_costs_itself_alone(
    content: Path, tmp_path: Path, key: Path, unreadable: Path
) -> None:
    result = publish(content, tmp_path / "archive")
    told = "error[unreadable-file]: the file cannot be read: permission denied"
    assert (1, True) == (result.exit_code, told in result.stderr)
    assert (tmp_path / "archive/index.html").is_file()
    result = run("seal", content, "--up-to", "2024-03-05", "--key", key)
    told = "not all that is written can be read (2024-03-05-gearbox); journal check says why"
    assert (2, f"Error: {told}\n") == (result.exit_code, result.stderr)
    result = run("statement", content, "--to", "2024-03-05")
    told = "what is written holds 1 error, and money might be missing; journal check says what is wrong"
    assert (2, f"Error: {told}\n") == (result.exit_code, result.stderr)


_UNREADABLE = [
    "photos/2024-03-05/bench.jpg", "papers/record.jpg", "papers/papers.yaml", "register.yaml",
    "sheets/2024/2024-03-05-gearbox.md",
]  # fmt: skip


@contextmanager
def _nobody_may_open(file: Path) -> Iterator[None]:
    """As for a file that belongs to somebody else, also where everybody is allowed everything."""

    def refusing(call: Callable[..., Any]) -> Callable[..., Any]:
        def one(path: object, *more: object, **how: object) -> Any:
            if str(path) == str(file):
                raise PermissionError(errno.EACCES, "Permission denied", str(path))
            return call(path, *more, **how)

        return one

    opening = refusing(io.open)
    with (
        patch.object(os, "open", refusing(os.open)),
        patch.object(io, "open", opening),
        patch.object(builtins, "open", opening),
        # Other processes would open it.
        patch.object(os, "cpu_count", lambda: 1),
    ):
        yield


@pytest.fixture
def sealed(content: Path, key: Path) -> Path:
    """A car with a photograph and a paper, its record closed."""
    photo = "photos:\n  - {file: bench.jpg, of: gearbox/laygear, alt: The laygear}\n"
    put_file(content, DAY, sheet_text(f"hours: {{MT: 1}}\n{photo}").encode())
    put_file(content, "tern/photos/2024-03-05/bench.jpg", encoded(halves(60, 40)))
    put_file(content, "tern/papers/record.jpg", encoded(halves(60, 50)))
    papers = "papers:\n  record: {title: The record, file: record.jpg, alt: A page}\n"
    put_file(content, "tern/papers/papers.yaml", papers.encode())
    words = ("seal", content, "--up-to", "2024-03-05", "--sealed", "2024-03-06", "--key", key)
    assert 0 == run(*words).exit_code
    return content


@pytest.mark.parametrize("path", _UNREADABLE)
def test_sealed_file_that_cannot_be_read__stops_what_tells_of_seals(
    sealed: Path, tmp_path: Path, key: Path, path: str
) -> None:
    """Nobody can tell then whether the seal still holds."""
    target, cache = tmp_path / "out", ("--cache", tmp_path / "cache")
    before = state_of(sealed)
    handing = ("handover", sealed, "--to", target, "--key", key, "--with-reservations", *cache)
    with _nobody_may_open(sealed / "tern" / path):
        told = [run(*handing), publish(sealed, target), run("verify", sealed),
                run("show", "gate", sealed)]  # fmt: skip
    said = f"Error: tern/{path} cannot be read: permission denied; nothing is written\n"
    assert [(2, said)] * 4 == [(result.exit_code, result.stderr) for result in told]
    assert not target.exists()
    assert before == state_of(sealed)


def test_photograph_that_cannot_be_read__costs_itself_alone_in_an_archive(
    sealed: Path, tmp_path: Path
) -> None:
    shutil.rmtree(sealed / "tern" / "seals")
    with _nobody_may_open(sealed / "tern/photos/2024-03-05/bench.jpg"):
        result = publish(sealed, tmp_path / "archive")
    told = "warning[bad-picture]: the picture cannot be shown: the file cannot be opened"
    assert (0, True) == (result.exit_code, told in result.stderr)
    assert (tmp_path / "archive/index.html").is_file()

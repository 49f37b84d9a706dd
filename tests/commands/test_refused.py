"""What a person is told where nothing can be written or read, and what stays as it was."""

import builtins
import errno
import io
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from subprocess import PIPE
from threading import Thread
from typing import Any
from unittest.mock import patch

import pytest

from tests.breaking import refused
from tests.commands.running import DAY, NEW, run
from tests.pictures.images import encoded, halves
from tests.publishing import a_publishing, published_again
from tests.swapping import state_of
from tests.tern import put_file, sheet_text

FULL = "the disk is full"


@pytest.fixture
def key(tmp_path: Path) -> Path:
    file = tmp_path / "workshop.key"
    run("make-key", "--to", file)
    return file


def publish(content: Path, to: Path, *more: object):
    cache = content.parent / "cache"
    return run("publish", content, "--for", "workshop", "--to", to, "--cache", cache, *more)


def _run_out(folder: Path, *words: object) -> tuple[int, str]:
    """A command while nothing can be written below a folder: exit code and what is said of it."""
    ended = refused(folder, 0, _run_to_its_end, *words)
    return ended.code, ended.said


def _run_to_its_end(*words: object) -> None:
    result = run(*words)
    ended = SystemExit(result.exit_code)
    ended.add_note(result.stderr)
    raise ended


# The disk is full


def test_publish__on_a_full_disk(content: Path, tmp_path: Path) -> None:
    target = tmp_path / "at" / "archive"
    words = ("publish", content, "--for", "workshop", "--to", target, "--cache", tmp_path / "cache")
    target.parent.mkdir()
    code, said = _run_out(tmp_path / "at", *words)
    assert (2, f"Error: archive is not written: {FULL}; nothing is there yet\n") == (code, said)
    assert [] == [*target.parent.iterdir()]
    assert 0 == publish(content, target).exit_code
    before = state_of(target)
    put_file(content, "tern/sheets/2024/2024-03-06-more.md", (content / DAY).read_bytes())
    code, said = _run_out(tmp_path / "at", *words)
    assert (2, f"Error: archive is not written: {FULL}; what was there is as it was\n") == (
        code,
        said,
    )
    assert before == state_of(target)
    assert 1 == publish(content, target).exit_code
    assert (target / "sheets/2024-03-06-more.html").is_file()


def test_seal_statement_and_handover__on_a_full_disk(
    content: Path, tmp_path: Path, key: Path
) -> None:
    before = state_of(content)
    sealing = ("seal", content, "--up-to", "2024-03-05", "--sealed", "2024-03-06", "--key", key)
    stating = ("statement", content, "--to", "2024-03-05", "--issued", "2024-03-06")
    handing = ("handover", content, "--to", tmp_path / "at" / "bag", "--key", key, "--cache",
               tmp_path / "cache", "--with-reservations")  # fmt: skip
    assert (2, f"Error: the seal is not written: {FULL}; nothing is sealed\n") == (
        _run_out(content, *sealing)
    )
    told = f"tern/statements/2024-03-05.yaml is not written: {FULL}; nothing is stated"
    assert (2, f"Error: {told}\n") == _run_out(content, *stating)
    assert before == state_of(content)
    assert 0 == run(*stating).exit_code
    assert 0 == run(*sealing[:3], "2024-03-06", *sealing[4:]).exit_code
    (tmp_path / "at").mkdir()
    assert (2, f"Error: bag is not written: {FULL}; nothing is there yet\n") == (
        _run_out(tmp_path / "at", *handing)
    )
    assert [] == [*(tmp_path / "at").iterdir()]


def test_write__on_a_full_disk_keeps_the_text(
    content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    before = state_of(content)
    words = (
        "write",
        content,
        "--date",
        "2024-03-06",
        "--hand",
        "MT",
        "--hours",
        "2",
        "--note",
        "Apart.",
    )
    code, said = _run_out(content, *words)
    (kept,) = (tmp_path / "state").rglob("2024-03-06*.md")
    path = "tern/sheets/2024/2024-03-06-gearbox.md"
    assert (1, f"{path} is not saved: {FULL}; the text is kept in {kept}\n") == (code, said)
    assert "Apart." in kept.read_text()
    assert before == state_of(content)
    assert 0 == run(*words).exit_code


def test_book_in__on_a_full_disk(content: Path) -> None:
    before = state_of(content)
    words = ("book-in", content, *NEW)
    told = f"the car file aldermoor-plover is not written: {FULL}; nothing of the car is there yet"
    assert (2, f"Error: {told}\n") == _run_out(content, *words)
    assert before == state_of(content)
    assert 0 == run(*words).exit_code


@pytest.fixture
def mounted(tmp_path: Path) -> Iterator[Path]:
    """A disk of its own with room for 64 kB."""
    place = tmp_path / "stick"
    place.mkdir()
    call = ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(place)]
    if os.name != "posix" or os.getuid() or subprocess.run(call, check=False).returncode:
        pytest.skip("nobody here may mount a disk")
    yield place
    subprocess.run(["umount", "-l", str(place)], check=True)


def test_publish__onto_a_stick_that_is_too_small(content: Path, mounted: Path) -> None:
    result = publish(content, mounted / "archive")
    told = f"Error: archive is not written: {FULL}; nothing is there yet\n"
    assert (2, told) == (result.exit_code, result.stderr)
    assert [] == [*mounted.iterdir()]


def test_publish__onto_a_stick_as_a_whole_is_refused(content: Path, mounted: Path) -> None:
    """What is new could not be moved to its place in one step."""
    result = publish(content, mounted)
    told = f"Error: stick is a disk of its own; choose a folder on it, such as {mounted}/archive\n"
    assert (2, told) == (result.exit_code, result.stderr)
    assert [] == [*mounted.iterdir()]


def test_publish__onto_another_disk_than_that_of_temporary_files(
    content: Path, mounted: Path
) -> None:
    subprocess.run(["mount", "-o", "remount,size=8m", str(mounted)], check=True)
    assert 0 == publish(content, mounted / "archive").exit_code
    assert (mounted / "archive/index.html").is_file()
    subprocess.run(["mount", "-o", "remount,ro", str(mounted)], check=True)
    before = state_of(mounted)
    result = publish(content, mounted / "archive")
    told = "Error: archive is not written: the disk can only be read; what was there is as it was\n"
    assert (2, told) == (result.exit_code, result.stderr)
    result = publish(content, mounted / "other")
    told = "Error: other is not written: the disk can only be read; nothing is there yet\n"
    assert (2, told) == (result.exit_code, result.stderr)
    assert before == state_of(mounted)


# Where nothing can go


def test_publish__where_it_may_not_go(content: Path, tmp_path: Path) -> None:
    put_file(tmp_path, "letters/mine.txt", b"dear")
    put_file(tmp_path, "file", b"mine")
    (tmp_path / "link").symlink_to(content)
    before = state_of(tmp_path)
    inside = "lies inside the content folder; choose a folder outside it"
    told = {
        content / "out": f"out {inside}",
        content: f"content {inside}",
        tmp_path / "link": f"content {inside}",
        tmp_path: f"{tmp_path.name} holds the content folder; choose an empty folder",
        tmp_path / "file": "file is a file; choose a folder",
        tmp_path / "file/archive": "file is a file; choose a folder",
        tmp_path
        / "letters": "letters holds files that journal did not write; choose an empty folder",
    }
    for target, sentence in told.items():
        result = publish(content, target)
        assert (2, f"Error: {sentence}\n") == (result.exit_code, result.stderr)
    assert before == {k: v for k, v in state_of(tmp_path).items() if not k.startswith("cache")}


def test_folder_that_is_not_ours__is_never_emptied(
    content: Path, tmp_path: Path, key: Path
) -> None:
    """Nor one in which there is nothing but what is hidden, whoever asks for it and however."""
    put_file(tmp_path, "letters/mine.txt", b"dear")
    put_file(tmp_path, "hidden/.mine", b"dear")
    put_file(tmp_path, "half/.journal-archive/mine.txt", b"dear")
    sealing = ("seal", content, "--up-to", "2024-03-05", "--sealed", "2024-03-06", "--key", key)
    assert 0 == run(*sealing).exit_code
    before = state_of(tmp_path)
    cache = ("--cache", tmp_path / "cache")
    for name in ("letters", "hidden", "half"):
        told = f"Error: {name} holds files that journal did not write; choose an empty folder\n"
        to = ("--to", tmp_path / name, *cache)
        for words in (
            ("publish", content, "--for", "owner", *to),
            ("publish", content, "--for", "owner", "--full", *to),
            ("handover", content, "--key", key, "--with-reservations", *to),
        ):
            result = run(*words)
            assert (2, told) == (result.exit_code, result.stderr)
    address = (tmp_path / "letters").as_uri()
    result = run("publish", content, "--for", "owner", "--full", "--to", address, *cache)
    told = f"Error: {address} holds files that journal did not write; choose an empty place\n"
    assert (2, told) == (result.exit_code, result.stderr)
    assert before == {k: v for k, v in state_of(tmp_path).items() if not k.startswith("cache")}


def test_publish__into_a_folder_that_is_nearly_ours(content: Path, tmp_path: Path) -> None:
    """The archive of another workshop, and a bag, are not taken for an older archive of this one."""
    target = tmp_path / "archive"
    assert 0 == publish(content, target).exit_code
    before = state_of(target)
    shop = (content / "workshop.yaml").read_text()
    (content / "workshop.yaml").write_text(shop.replace("Saltmarsh Lane", "Quarry Bank"))
    result = publish(content, target)
    told = "Error: archive holds the archive of Saltmarsh Lane Workshop; choose another folder\n"
    assert (2, told) == (result.exit_code, result.stderr)
    assert before == state_of(target)
    (target / ".journal-archive").write_text(
        "Made by journal handover. The next handover replaces this folder.\n"
        "It holds the bag of tern.\n"
    )
    before = state_of(target)
    result = publish(content, target)
    told = "Error: archive holds the bag of tern; choose another folder\n"
    assert (2, told) == (result.exit_code, result.stderr)
    assert before == state_of(target)


# What cannot be read


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


# Two at once, and clocks


def test_two_publishing_processes_at_once__come_to_one_archive(
    content: Path, tmp_path: Path
) -> None:
    """Whichever comes second waits and says so, and finds nothing to do."""
    target, cache = tmp_path / "archive", tmp_path / "cache"
    words = ["publish", content, "--for", "workshop", "--to", target, "--cache", cache]
    call = [sys.executable, "-m", "journal", *map(str, words)]
    two = [subprocess.Popen(call, stdout=PIPE, stderr=PIPE, text=True) for _ in range(2)]
    told = [(*process.communicate(timeout=100), process.returncode) for process in two]
    assert {0} == {code for _, _, code in told}
    assert 1 == len({said for said, _, _ in told})
    waits = "archive is being written already; waiting for that\n"
    assert {errors for _, errors, _ in told} <= {"", waits}
    assert 0 == publish(content, tmp_path / "alone").exit_code
    assert state_of(tmp_path / "alone") == state_of(target)
    assert not list(tmp_path.glob(".archive*"))


def test_two_publishings_at_once__one_waits_and_says_so(content: Path, tmp_path: Path) -> None:
    folder = tmp_path / "place"
    folder.mkdir()
    put = [a_publishing(folder, content) for _ in range(2)]
    threads = [Thread(target=published_again, args=(one,)) for one in put]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(100)
    said = [words for one in put for words in one.said]
    assert said in ([], ["archive is being written already; waiting for that"])
    assert not published_again(a_publishing(folder, content)).anew
    assert {"archive", "kept", "pictures"} == {file.name for file in folder.iterdir()}


def test_clock_that_jumps__hides_no_change(content: Path, tmp_path: Path) -> None:
    """Whatever the clock said at each publishing, what was written in between is on the page."""
    sheet = content / DAY
    for turn, hours in enumerate((0, 48, -48, 72, -100, 0)):
        head = sheet.read_text(encoding="utf-8").rpartition("---\n")[0]
        before = sheet.stat()
        sheet.write_text(f"{head}---\nTurn {turn}.\n", encoding="utf-8")
        if turn % 2:
            os.utime(sheet, ns=(before.st_atime_ns, before.st_mtime_ns))
        clock = before.st_mtime_ns + hours * 3_600_000_000_000
        told = published_again(a_publishing(tmp_path, content, clock=clock))
        page = (tmp_path / "archive/sheets/2024-03-05-gearbox.html").read_text(encoding="utf-8")
        assert told.anew
        assert f"Turn {turn}." in page


def test_clock_that_went_back__closes_and_states_no_day_to_come(content: Path, key: Path) -> None:
    before = state_of(content)
    result = run("seal", content, "--up-to", "2024-03-05", "--sealed", "2024-03-01", "--key", key)
    told = "Error: 2024-03-05 is still to come; a seal closes days that are over\n"
    assert (2, told) == (result.exit_code, result.stderr)
    result = run("statement", content, "--to", "2024-03-05", "--issued", "2024-03-01")
    told = "Error: the period ends on 2024-03-05; it cannot be issued on 2024-03-01 before that\n"
    assert (2, told) == (result.exit_code, result.stderr)
    assert before == state_of(content)

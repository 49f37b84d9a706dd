"""Nothing that the writer wrote is changed: not by reading it, nor by anything made of it."""

import hashlib
import os
from collections.abc import Callable
from pathlib import Path

import pytest

from journal.outputs.tables import SEALED_TABLES, TABLES
from journal.words.vocabulary import Reader
from tests.commands.running import run
from tests.hostile.filling import put_filled
from tests.hostile.test_markup import MARKUP
from tests.tern import put_content, put_file, sheet_text


def _state(root: Path) -> dict[str, tuple[object, ...]]:
    """Every file, folder and link: its bytes, its time of change and its rights, but not of reading."""
    found = {}
    for path in (root, *sorted(root.rglob("*"))):
        about = path.lstat()
        if path.is_symlink():
            what = os.readlink(path)
        else:
            what = hashlib.sha256(path.read_bytes()).hexdigest() if path.is_file() else "folder"
        found[str(path)] = (what, about.st_mtime_ns, about.st_mode, about.st_size, about.st_ino)
    return found


def _good(root: Path) -> Path:
    return put_content(root, **{f"tern/sheets/2024-03-0{n}-a.md": sheet_text() for n in (4, 5)})


def _hostile(root: Path) -> Path:
    put_filled(root, lambda _: MARKUP[0], MARKUP[1])
    put_file(root, "tern/sheets/broken.md", b"---\ndate: [\n---\n")
    put_file(root, "tern/sheets/latin.md", "Coupé".encode("latin-1"))
    put_file(root, "tern/photos/2024-03-05/broken.jpg", b"\xff\xd8\xff")
    put_file(root, "tern/photos/.hidden/a.jpg", b"x")
    (root / "tern/photos/out.jpg").symlink_to("/etc/hostname")
    (root / "tern/photos/loop").symlink_to("loop")
    return root


@pytest.mark.parametrize("make", [_good, _hostile], ids=["good", "hostile"])
def test_check_publish_and_show__leave_every_file_as_it_is(
    make: Callable[[Path], Path], tmp_path: Path
) -> None:
    content = make(tmp_path / "content")
    car = (content / "tern/car.yaml").read_text(encoding="utf-8")
    put_file(content, "tern/car.yaml", f"{car}public: yes\n".encode())
    before = _state(content)
    for form in ("text", "json"):
        run("check", content, "--as", form)
    for reader in Reader:
        run("publish", content, "--for", reader.value, "--to", tmp_path / reader.value)
        # The second time takes its pictures from the cache and puts aside the archive that is there.
        run("publish", content, "--for", reader.value, "--to", tmp_path / reader.value)
    for table in (*TABLES, *SEALED_TABLES):
        for form in ("table", "csv", "json"):
            run("show", table, content, "--as", form)
    assert before == _state(content)
    assert {"content", *(reader.value for reader in Reader)} >= {p.name for p in tmp_path.iterdir()}


@pytest.mark.parametrize("place", ["", "tern", "tern/photos", "../content/new"])
def test_archive_in_the_content__is_refused_before_anything_is_written(
    place: str, tmp_path: Path
) -> None:
    content = _good(tmp_path / "content")
    before = _state(content)
    result = run("publish", content, "--for", "workshop", "--to", content / place)
    assert 2 == result.exit_code
    assert before == _state(content)

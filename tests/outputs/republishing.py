"""A small workshop that was published, to be changed and published again."""

import os
import shutil
from pathlib import Path

from journal.outputs.archive import Order
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from tests.editing import put_small
from tests.plainly import publish
from tests.publishing import Publishing, a_publishing, published_again
from tests.swapping import state_of

DAY = "tern/sheets/2024/2024-03-05-day-1.md"


def published_once(folder: Path) -> Path:
    """A small workshop below a folder, published there, long before now."""
    root = put_small(folder / "content")
    for file in root.rglob("*"):
        os.utime(file, ns=(1, 1))
    published_again(now_of(folder))
    for file in (folder / "archive").rglob("*"):
        os.utime(file, ns=(1, 1))
    published_again(now_of(folder))
    return folder


def now_of(folder: Path, **more: object) -> Publishing:
    """A publishing of it at this moment."""
    return a_publishing(folder, folder / "content", **more)  # type: ignore[arg-type]


def plain(folder: Path) -> dict[str, bytes | None]:
    """The archive of it as it is made from nothing."""
    root, target = folder / "content", folder / "plain"
    shutil.rmtree(target, ignore_errors=True)
    publish(read_content(root), Order(root, target, Reader.WORKSHOP))
    return state_of(target)


def stats(folder: Path) -> dict[str, tuple[int, int]]:
    """By what it shows whether a file was written or touched."""
    return {
        f.relative_to(folder).as_posix(): (f.stat().st_ino, f.stat().st_mtime_ns)
        for f in folder.rglob("*")
        if f.is_file()
    }


def edit(folder: Path, old: str = "---\n", new: str = "---\nNew words.\n") -> None:
    """Write something else in one sheet."""
    sheet = folder / "content" / DAY
    head, _, tail = sheet.read_text(encoding="utf-8").rpartition(old)
    sheet.write_text(f"{head}{new}{tail}", encoding="utf-8")

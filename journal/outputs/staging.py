"""One writer: everything goes to a staging folder beside the target and is swapped in at the end.

A run that is killed leaves the previous archive whole; what it left behind is cleared by the next.
"""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from journal.words.wrong import WrongCall

# Marks a folder that this program made and may replace.
MARK = ".journal-archive"
MARK_TEXT = b"Made by journal publish. The next publish replaces this folder.\n"


@contextmanager
def staged(target: Path, *, keep_out_of: Path) -> Iterator[Path]:
    """A fresh staging folder that takes the place of `target` when the block ends well.

    Raises WrongCall when the target lies inside `keep_out_of` or around it, is a file, or holds
    things that this program did not write.
    """
    target, source = target.resolve(), keep_out_of.resolve()
    refuse_target(target, source)
    target.parent.mkdir(parents=True, exist_ok=True)
    staging = target.with_name(f".{target.name}.staging")
    previous = target.with_name(f".{target.name}.previous")
    if previous.exists() and not target.exists():
        previous.rename(target)
    for left in (staging, previous):
        shutil.rmtree(left, ignore_errors=True)
    staging.mkdir()
    (staging / MARK).write_bytes(MARK_TEXT)
    try:
        yield staging
        if target.exists():
            target.rename(previous)
        staging.rename(target)
    finally:
        shutil.rmtree(staging, ignore_errors=True)
        if target.exists():
            shutil.rmtree(previous, ignore_errors=True)


def refuse_target(target: Path, source: Path) -> None:
    """Raise WrongCall for a folder that is not ours to replace, or that the source lies in."""
    if target == source or target.is_relative_to(source):
        raise WrongCall(f"{target.name} lies inside the content folder; choose a folder outside it")
    if source.is_relative_to(target):
        raise WrongCall(f"{target.name} holds the content folder; choose an empty folder")
    if target.exists() and not target.is_dir():
        raise WrongCall(f"{target.name} is a file; choose a folder")
    if target.exists() and any(target.iterdir()) and not (target / MARK).exists():
        raise WrongCall(
            f"{target.name} holds files that journal did not write; choose an empty folder"
        )


def put(folder: Path, path: str, data: bytes) -> None:
    """Write one file below a folder, making the folders it needs."""
    file = folder / path
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(data)

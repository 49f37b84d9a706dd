"""One writer: everything goes to a staging folder beside the target and is swapped in at the end.

A run that is killed leaves the previous archive whole; what it left behind is cleared by the next.
"""

import os
import re
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from journal.outputs.alone import alone
from journal.outputs.exchange import exchanged
from journal.outputs.refused import reading, writing
from journal.outputs.undisturbed import undisturbed
from journal.words.wrong import WrongCall

# Marks a folder that this program made and may replace.
MARK = ".journal-archive"
_HOLDS = re.compile(r"It holds (the (?:archive|bag) of .+)\.")


def archive_mark(workshop: str) -> bytes:
    """The mark of an archive: whose it is, so that no other workshop's takes its place."""
    return _mark("publish", f"the archive of {workshop}")


def bag_mark(car: str) -> bytes:
    """The mark of a folder with the bag of a car."""
    return _mark("handover", f"the bag of {car}")


def _mark(command: str, what: str) -> bytes:
    told = " ".join(what.split())
    return (
        f"Made by journal {command}. The next {command} replaces this folder.\nIt holds {told}.\n"
    ).encode()


@contextmanager
def staged(
    target: Path, mark: bytes, *, keep_out_of: Path, notice: Callable[[str], None]
) -> Iterator[Path]:
    """A fresh staging folder that takes the place of `target` when the block ends well, and nobody
    else's meanwhile.

    Raises WrongCall when the target lies inside `keep_out_of` or around it, is a file, or holds
    things that this program did not write or that are another's, when something of `keep_out_of` cannot
    be read, and when the disk refuses what is written.
    """
    target, source = target.resolve(), keep_out_of.resolve()
    refuse_target(target, source)
    with writing(target.name, lambda: standing(target)), reading(source):
        target.parent.mkdir(parents=True, exist_ok=True)
        with alone(target, notice):
            staging, previous = _taken_up(target)
            refuse_target(target, source)
            refuse_other(target, mark)
            try:
                staging.mkdir()
                (staging / MARK).write_bytes(mark)
                yield staging
                with undisturbed():
                    _put_in_place(staging, target, previous)
            finally:
                shutil.rmtree(staging, ignore_errors=True)
                if target.exists():
                    shutil.rmtree(previous, ignore_errors=True)


def _taken_up(target: Path) -> tuple[Path, Path]:
    """Where the new one is staged and where the old one waits, free of what a killed run left."""
    staging = target.with_name(f".{target.name}.staging")
    previous = target.with_name(f".{target.name}.previous")
    if previous.exists() and not target.exists():
        previous.rename(target)
    for left in (staging, previous):
        shutil.rmtree(left, ignore_errors=True)
    return staging, previous


def _put_in_place(staging: Path, target: Path, previous: Path) -> None:
    """In one step; where the system has none, the old one waits beside between two."""
    if target.exists():
        if exchanged(staging, target):
            return
        target.rename(previous)
    try:
        staging.rename(target)
    except OSError:
        if previous.exists():
            previous.rename(target)
        raise


def standing(target: Path) -> str:
    """How a folder stands that was not written after all."""
    return "what was there is as it was" if target.exists() else "nothing is there yet"


def refuse_target(target: Path, source: Path) -> None:
    """Raise WrongCall for a folder that is not ours to replace, or that the source lies in, or beside
    which nothing can be staged."""
    if target == source or target.is_relative_to(source):
        raise WrongCall(f"{target.name} lies inside the content folder; choose a folder outside it")
    if source.is_relative_to(target):
        raise WrongCall(f"{target.name} holds the content folder; choose an empty folder")
    if target.exists() and not target.is_dir():
        raise WrongCall(f"{target.name} is a file; choose a folder")
    above = next((one for one in target.parents if one.exists()), target)
    if not above.is_dir():
        raise WrongCall(f"{above.name} is a file; choose a folder")
    if os.path.ismount(target):
        raise WrongCall(
            f"{target.name} is a disk of its own; choose a folder on it, such as {target / 'archive'}"
        )
    if target.exists() and any(target.iterdir()) and not (target / MARK).is_file():
        raise WrongCall(
            f"{target.name} holds files that journal did not write; choose an empty folder"
        )


def refuse_other(target: Path, mark: bytes) -> None:
    """Raise WrongCall for a folder whose mark tells of something else than the mark that it would get.
    A mark that tells nothing stands against nothing."""
    if not (target / MARK).is_file():
        return
    text = (target / MARK).read_text(encoding="utf-8", errors="replace")
    if other := others_mark(text, mark):
        raise WrongCall(f"{target.name} holds {other}; choose another folder")


def others_mark(text: str, mark: bytes) -> str:
    """What a mark says that a folder holds, where that is something else than `mark` says; else nothing."""
    there = _HOLDS.search(text)
    return there[1] if there and _HOLDS.findall(mark.decode()) != [there[1]] else ""


def put(folder: Path, path: str, data: bytes) -> None:
    """Write one file below a folder, making the folders it needs."""
    file = folder / path
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(data)

"""Files brought to the disk: whole and for good, or not at all.

Data is written beside its place under a hidden name, brought to the disk, and then given its name in one
step, so that a power cut at any moment leaves what was there or what was to be there.
"""

import errno
import os
import re
import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from threading import get_ident

try:
    import fcntl
except ImportError:  # a system without these locks
    fcntl = None  # type: ignore[assignment]

# A file that starts with this and two numbers is being written, or was when the power went.
_WRITING = ".writing-"
_BEGUN = re.compile(rf"{re.escape(_WRITING)}\d+-\d+")


@contextmanager
def locked(folder: Path) -> Iterator[None]:
    """The lock of a folder, waited for; it is free again when the process that holds it ends, however."""
    if fcntl is None:
        yield
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def put_new(file: Path, data: bytes) -> bool:
    """Write a file that must not be there; whether it was not."""
    make_folders(file.parent)
    writing = _written(file.parent, data)
    try:
        os.link(writing, file)
    except FileExistsError:
        return False
    except OSError as fault:
        if fault.errno not in (errno.EPERM, errno.ENOTSUP, errno.EOPNOTSUPP, errno.ENOSYS):
            raise
        # A memory stick knows no second names; under the lock nobody else gives this one.
        if file.exists():
            return False
        writing.rename(file)
    finally:
        writing.unlink(missing_ok=True)
    settle(file.parent)
    return True


def put_over(file: Path, data: bytes) -> None:
    """Write a file in place of the one that is there, for the same people to read."""
    writing = _written(file.parent, data)
    try:
        shutil.copymode(file, writing)
        writing.replace(file)
    finally:
        writing.unlink(missing_ok=True)
    settle(file.parent)


def _written(folder: Path, data: bytes) -> Path:
    """Data under a hidden name, brought to the disk. What an earlier writer left goes away."""
    clear_left(folder)
    writing = folder / f"{_WRITING}{os.getpid()}-{get_ident()}"
    try:
        written_to(writing, data)
    except OSError:
        with suppress(OSError):
            writing.unlink(missing_ok=True)
        raise
    return writing


def clear_left(folder: Path) -> None:
    """Take away what a writer that was killed left in a folder. Whoever asks holds the lock of those that
    write there."""
    if fcntl is not None:
        for left in folder.glob(f"{_WRITING}*"):
            if is_begun(left.name):
                left.unlink(missing_ok=True)


def clear_ended(folder: Path, owner: Path) -> None:
    """The same for a folder where all write under the lock of `owner`: what nobody holds any more. While
    one writes, and where there are no locks or the disk lets nothing go, it stays for the next to clear."""
    if fcntl is None:
        return
    with suppress(OSError):
        handle = os.open(owner, os.O_RDONLY)
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
            clear_left(folder)
        finally:
            os.close(handle)


def is_begun(name: str) -> bool:
    """Whether a file of this name is being written, or was when its writer ended."""
    return _BEGUN.fullmatch(name) is not None


def make_folders(folder: Path) -> None:
    """Make a folder and those above it, each brought to the disk."""
    if folder.is_dir():
        return
    make_folders(folder.parent)
    folder.mkdir(exist_ok=True)
    settle(folder.parent)


def settle(folder: Path) -> None:
    """Bring the names in a folder to the disk, where the system can."""
    try:
        handle = os.open(folder, os.O_RDONLY)
    except PermissionError:  # folders cannot be opened on every system
        return
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def written_to(file: Path, data: bytes) -> None:
    """Write a file and bring what it holds to the disk."""
    with file.open("wb") as out:
        out.write(data)
        out.flush()
        os.fsync(out.fileno())


# Why a disk may refuse, as the end of a sentence.
REASONS = {
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "no more room is granted on the disk",
    errno.EROFS: "the disk can only be read",
    errno.EACCES: "the folder may not be written to",
    errno.EPERM: "the folder may not be written to",
    errno.EIO: "the disk does not answer",
    errno.ENAMETOOLONG: "the name is too long",
}


def refusal(fault: OSError) -> str:
    """Why a disk refused, as the end of a sentence."""
    return REASONS.get(fault.errno or 0) or (fault.strerror or "the disk refused it").lower()

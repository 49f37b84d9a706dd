"""Folders for a while, among the temporary files of the system. One whose process was killed is taken
away by the next that needs one."""

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

try:
    import fcntl
except ImportError:  # a system without these locks
    fcntl = None  # type: ignore[assignment]

_PREFIX = "restoration-journal-"


@contextmanager
def held_for_a_while() -> Iterator[Path]:
    """An empty folder of this person's alone, gone when the block ends."""
    _clear()
    folder, handle = _made()
    try:
        yield folder
    finally:
        shutil.rmtree(folder, ignore_errors=True)
        if handle is not None:
            os.close(handle)


def _made() -> tuple[Path, int | None]:
    """A folder and the lock of it, which tells that it is in use."""
    while True:
        folder = Path(tempfile.mkdtemp(prefix=_PREFIX))
        if fcntl is None:
            return folder, None
        with suppress(FileNotFoundError):
            handle = os.open(folder, os.O_RDONLY)
            fcntl.flock(handle, fcntl.LOCK_EX)
            # Before it was locked, another process may have taken it for a killed one's.
            if folder.exists():
                return folder, handle
            os.close(handle)


def _clear() -> None:
    """Take away what killed processes of this person left."""
    if fcntl is None:
        return
    for left in Path(tempfile.gettempdir()).glob(f"{_PREFIX}*"):
        with suppress(OSError):
            if left.is_symlink() or left.stat().st_uid != os.getuid():
                continue
            handle = os.open(left, os.O_RDONLY | os.O_DIRECTORY)
            try:
                fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
                shutil.rmtree(left, ignore_errors=True)
            finally:
                os.close(handle)

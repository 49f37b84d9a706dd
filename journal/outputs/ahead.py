"""What is done ahead of moving files to their places, so that the moves take a moment and no longer.

A file that takes another's name costs its system what takes time: the new one must be given its room on the
disk, and that of the old one is freed. Both can be done at another time.
"""

import os
from contextlib import suppress
from pathlib import Path


def send_to_disk(file: Path) -> None:
    """Have a file that was just written given its room on the disk now. Nothing waits for the disk."""
    if not hasattr(os, "posix_fadvise"):
        return
    handle = os.open(file, os.O_RDONLY)
    try:
        os.posix_fadvise(handle, 0, 0, os.POSIX_FADV_DONTNEED)
    finally:
        os.close(handle)


def hold_back(file: Path, name: Path) -> None:
    """Give a file, if it is there, another name as well, so that its room is freed with that one."""
    # A system without second names frees it when the file goes, which takes longer and is as good.
    with suppress(OSError):
        os.link(file, name)

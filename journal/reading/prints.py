"""By what a file that has not changed is known, without reading it."""

import os
from typing import NamedTuple

# The clocks of file systems tick in steps of up to two seconds.
TICK_NS = 2_000_000_000


class Print(NamedTuple):
    """A file's times in ns, size, number and kind.

    `moved` is when the file system last noted anything about it, which no program can set: it shows a
    change whose date was put back. Where a system has no such time it is that of creation.
    """

    changed: int
    size: int
    node: int
    moved: int
    mode: int

    @classmethod
    def of(cls, found: os.stat_result) -> "Print":
        """The print that a look at a file gives."""
        return cls(found.st_mtime_ns, found.st_size, found.st_ino, found.st_ctime_ns, found.st_mode)


def is_fresh(changed: int, since: int) -> bool:
    """Whether a file was changed so shortly before it was read, at `since`, that it may have changed
    again within one tick."""
    return changed > since - TICK_NS

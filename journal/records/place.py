"""Where something was written: a file, a line, and the source that knows the line of every value."""

from collections.abc import Mapping
from typing import NamedTuple

from msgspec import Struct, field

Key = str | int
Loc = tuple[Key, ...]


class Place(NamedTuple):
    """A line of a file. `path` is relative to the content folder, with `/`; lines count from 1."""

    path: str
    line: int


class Source(Struct, frozen=True, eq=False):
    """A file as it was read: its path, its lines, and the line of every value by its key path.

    `lines` are the file's own lines without line ends; `marks` maps a key path such as
    `("work", "gearbox/laygear", "now")` to the line its value starts on. The empty path marks the
    start of the data.
    """

    path: str
    lines: tuple[str, ...] = ()
    marks: Mapping[Loc, int] = field(default_factory=dict)

    def place(self, *loc: Key) -> Place:
        """The place of the value at a key path, or of the nearest value that encloses it.

        Empty keys are those that a short form left out, and are passed over.
        """
        loc = tuple(key for key in loc if key != "")
        for length in range(len(loc), -1, -1):
            line = self.marks.get(loc[:length])
            if line is not None:
                return Place(self.path, line)
        return Place(self.path, 1)

    def text_at(self, line: int) -> str:
        """The author's own line, or nothing when the file has no such line."""
        return self.lines[line - 1] if 0 < line <= len(self.lines) else ""

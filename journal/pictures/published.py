"""What is published of one photograph: the same picture in a few widths, without metadata."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Rendition:
    """One published file: its path relative to the car's folder in the archive, and its size in pixels."""

    path: str
    width: int
    height: int


@dataclass(frozen=True)
class Published:
    """All renditions of one photograph, narrowest first; the last is the one that opens large."""

    renditions: tuple[Rendition, ...]

    @property
    def small(self) -> Rendition:
        """The narrowest, for lists."""
        return self.renditions[0]

    @property
    def large(self) -> Rendition:
        """The widest."""
        return self.renditions[-1]

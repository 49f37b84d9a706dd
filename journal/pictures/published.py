"""What is published of one photograph: the same picture in a few widths, without metadata."""

from msgspec import Struct

from journal.records.photofacts import PhotoFacts


class Rendition(Struct, frozen=True):
    """One published file: its path relative to the archive's car folder, and its size in pixels."""

    path: str
    width: int
    height: int


class Published(Struct, frozen=True):
    """All renditions of one photograph: `webp` narrowest first, and one `jpeg` in the widest width
    for whatever cannot show the others. `facts` are those of the photograph itself.
    """

    webp: tuple[Rendition, ...]
    jpeg: Rendition
    facts: PhotoFacts

    @property
    def small(self) -> Rendition:
        """The narrowest, for lists."""
        return self.webp[0]

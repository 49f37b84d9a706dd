"""In which sizes a photograph is published, known before any of them is made, and one of them once it is."""

from msgspec import Struct

WIDTHS = (400, 800, 1600)
# A width this near the next one is not worth a file.
APART = 1.2

# A picture is at most this many times as tall as the widest is wide; encoders refuse taller ones.
_TALLEST = 4


class Encoded(Struct, frozen=True):
    """One rendition as bytes: `form` is `webp` or `jpg`, the size is in pixels."""

    form: str
    width: int
    height: int
    data: bytes


def sizes_of(width: int, height: int) -> tuple[tuple[int, int], ...]:
    """The sizes in which a picture of this size will be published, narrowest first, before it is made."""
    widest = size_within(width, height, WIDTHS[-1])
    widths = (w for w in widths_for(widest[0]) if w != widest[0])
    return (*(narrower(widest, w) for w in widths), widest)


def narrower(widest: tuple[int, int], width: int) -> tuple[int, int]:
    """The size of a narrower one of a picture that is published at most so large."""
    return width, max(1, round(widest[1] * width / widest[0]))


def widths_for(width: int) -> tuple[int, ...]:
    """The widths in which a picture of this width is published; none is wider than it is."""
    widest = min(width, WIDTHS[-1])
    return (*(w for w in WIDTHS if w * APART <= widest), widest)


def size_within(width: int, height: int, widest: int) -> tuple[int, int]:
    """The size of a picture drawn at most `widest` wide, and not too tall for that."""
    aim = min(widest, width, max(1, _TALLEST * widest * width // height))
    return aim, max(1, round(height * aim / width))

"""What the file of a photograph says of itself: evidence that a later change would show."""

from datetime import date, time

from msgspec import Struct


class PhotoFacts(Struct, frozen=True):
    """A photograph's file as it lies in the content folder.

    `sha256` is the hash of its bytes in hexadecimal, `size` their number; `width` and `height` are in
    pixels, upright; `form` is the format that its bytes are in, whatever its name says. `taken_on`
    and `taken_at` are what the camera's clock said, in its own time zone, absent when the file does
    not tell.
    """

    sha256: str
    size: int
    width: int
    height: int
    form: str
    taken_on: date | None = None
    taken_at: time | None = None

"""Published pictures for tests, without any file behind them."""

from datetime import date, time

from journal.pictures.published import Published, Rendition
from journal.records.photofacts import PhotoFacts

SHA = "0123456789abcdef" * 4


def facts(taken: date | None = date(2024, 3, 5), at: time | None = time(14, 20)) -> PhotoFacts:
    """The facts of a photograph of twelve million dots, taken on a day."""
    return PhotoFacts(SHA, 3_214_551, 4032, 3024, "JPEG", taken, at if taken else None)


def published(
    stem: str = "a", width: int = 800, height: int = 533, *, folder: str = "pictures/files"
) -> Published:
    """A picture published in its own width and in half of it."""
    half = Rendition(f"{folder}/{stem}-{width // 2}.webp", width // 2, height // 2)
    full = Rendition(f"{folder}/{stem}-{width}.webp", width, height)
    jpeg = Rendition(f"{folder}/{stem}-{width}.jpg", width, height)
    return Published((half, full), jpeg, facts())

"""Pictures for tests, drawn here, as the bytes of a file."""

import io
from typing import Any

import pillow_heif
from PIL import Image

pillow_heif.register_heif_opener(thumbnails=False)

MAKE, ORIENTATION, EXIF_BLOCK, TAKEN, GPS_BLOCK = 0x010F, 0x0112, 0x8769, 0x9003, 0x8825

RED, GREEN, BLUE = (200, 30, 30), (30, 200, 30), (30, 30, 200)


def encoded(image: Image.Image, form: str = "JPEG", **how: Any) -> bytes:
    """A picture as the bytes of a file of this form."""
    out = io.BytesIO()
    image.save(out, form, **how)
    return out.getvalue()


def halves(width: int = 2000, height: int = 1000) -> Image.Image:
    """A picture that is red on the left and blue on the right."""
    image = Image.new("RGB", (width, height), RED)
    image.paste(BLUE, (width // 2, 0, width, height))
    return image


def corners(width: int = 64, height: int = 32) -> Image.Image:
    """Green at the top left, red at the bottom left, blue on the right."""
    image = halves(width, height)
    image.paste(GREEN, (0, 0, width // 2, height // 2))
    return image


def camera(*, taken: str = "", orientation: int = 1, marker: str = "a maker") -> Image.Exif:
    """What a camera writes: its maker, how it was held, the moment, and where it was."""
    exif = Image.Exif()
    exif[MAKE] = marker
    exif[ORIENTATION] = orientation
    if taken:
        exif.get_ifd(EXIF_BLOCK)[TAKEN] = taken
    exif.get_ifd(GPS_BLOCK)[1] = "N"
    exif.get_ifd(GPS_BLOCK)[29] = marker
    return exif


def opened(data: bytes) -> Image.Image:
    """A picture read again from bytes, with its pixels."""
    image = Image.open(io.BytesIO(data))
    image.load()
    return image


def hue(image: Image.Image, x: int, y: int) -> tuple[int, int, int]:
    """Which of red, green and blue a pixel is nearest to."""
    pixel = image.convert("RGB").getpixel((x, y))
    assert isinstance(pixel, tuple)
    return (RED, GREEN, BLUE)[max(range(3), key=lambda channel: pixel[channel])]

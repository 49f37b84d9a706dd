"""Photographs by the thousand: a few are drawn, and each file is one of them with its own camera data.

So every file has bytes and a hash of its own, costs what a photograph of its size costs to decode, and
takes no longer to write than to copy.
"""

import io
from collections.abc import Iterator
from datetime import date

import numpy as np
from PIL import Image

# How many are drawn; neighbours in a gallery differ.
_DRAWN = 24
_TAKEN, _CAMERA, _NAMED = 0x9003, 0x8769, 0xA420


def drawn(seed: int, megapixels: float, grain: float = 2.0, quality: int = 85) -> Iterator[bytes]:
    """JPEGs of shapes and light with the `grain` of a sensor (its spread, of 255), 4 wide to 3 high."""
    height = max(12, round((megapixels * 1e6 * 3 / 4) ** 0.5 / 4) * 4)
    size = (height * 4 // 3, height)
    for number in range(_DRAWN):
        yield photograph(seed * _DRAWN + number, size, grain, quality)


def photograph(seed: int, size: tuple[int, int], grain: float, quality: int) -> bytes:
    """One picture of a size in pixels, drawn from a seed."""
    chance = np.random.default_rng(seed)
    small = chance.integers(0, 255, (30, 40, 3), dtype=np.uint8)
    shapes = Image.fromarray(small).resize(size, Image.Resampling.BICUBIC)
    noise = chance.normal(0, grain, (size[1], size[0], 1)).astype(np.int16)
    pixels = (np.asarray(shapes).astype(np.int16) + noise).clip(0, 255).astype(np.uint8)
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, "JPEG", quality=quality)
    return out.getvalue()


def stamped(picture: bytes, number: int, day: date) -> bytes:
    """The same picture as the camera's file of a number, taken at noon of a day."""
    told = Image.Exif()
    camera = told.get_ifd(_CAMERA)
    camera[_TAKEN] = f"{day:%Y:%m:%d} 12:00:00"
    camera[_NAMED] = f"{number:032x}"
    data = told.tobytes()
    # Segment APP1 (ISO/IEC 10918-1, B.2.4.6), first after the start of the image.
    return picture[:2] + b"\xff\xe1" + (len(data) + 2).to_bytes(2, "big") + data + picture[2:]

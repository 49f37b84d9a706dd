"""A photograph's bytes to plain pixels: upright, in sRGB, no wider than asked, within bounded memory.

Only the formats of phones, cameras and scanners are read. Whatever a file may hold, the answer is a
picture or a reason in words, never a crash of the build.
"""

import io
import struct
import warnings
import zlib
from collections.abc import Callable
from datetime import date, datetime, time
from hashlib import sha256
from typing import TypeVar

import pillow_heif
from PIL import Image, ImageCms

from journal.pictures.forms import FORMS, Unreadable
from journal.pictures.sizes import size_within
from journal.records.photofacts import PhotoFacts

T = TypeVar("T")

# MPO has no opener of its own: the one for JPEG tells it apart.
_OPENED = tuple(name for name in FORMS if name != "MPO")

# A JPEG is read at a half, quarter or eighth of its size, so that it may be larger than the others,
# of which every pixel is held at once.
PIXELS_AT_MOST = 120_000_000
PIXELS_AT_MOST_JPEG = 250_000_000
BYTES_AT_MOST = 400_000_000

# How pixels are turned for each value of the EXIF tag Orientation (CIPA DC-008, Exif 2.32, 4.6.4 A).
_TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT, 3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM, 5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270, 7: Image.Transpose.TRANSVERSE, 8: Image.Transpose.ROTATE_90,
}  # fmt: skip
_SIDEWAYS = (5, 6, 7, 8)
_ORIENTATION, _EXIF, _TAKEN, _DIGITIZED = 0x0112, 0x8769, 0x9003, 0x9004

_SRGB = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB"))

# Every way in which the decoders refuse a file; found by feeding them damaged files.
_REFUSED = (
    OSError, ValueError, SyntaxError, EOFError, OverflowError, RuntimeError, MemoryError,
    struct.error, zlib.error,
)  # fmt: skip

# The bounds above are ours and hold for every format; they are checked before a pixel is decoded.
Image.MAX_IMAGE_PIXELS = None
pillow_heif.register_heif_opener(thumbnails=False)


def decode(raw: bytes, widest: int) -> Image.Image | Unreadable:
    """The picture upright as sRGB, at most `widest` wide."""
    return reading(raw, lambda opened: _picture(opened, widest))


def facts_of(raw: bytes) -> PhotoFacts | Unreadable:
    """The facts of a file without decoding its pixels: a file cut short is not noticed."""
    return reading(raw, lambda opened: _facts(opened, raw))


def reading(raw: bytes, read: Callable[[Image.Image], T]) -> T | Unreadable:
    """What is read of a picture that has been opened, or why it cannot be."""
    refused = _refused_unopened(raw)
    if refused:
        return Unreadable(refused)
    with warnings.catch_warnings():
        # What a decoder grumbles about and still reads is shown as it comes out.
        warnings.simplefilter("ignore")
        try:
            with Image.open(io.BytesIO(raw), formats=_OPENED) as opened:
                refused = _too_large(opened)
                return Unreadable(refused) if refused else read(opened)
        except _REFUSED as fault:
            short = "truncated" in str(fault).lower()
            return Unreadable("it is cut short" if short else "it cannot be read as a picture")


def _refused_unopened(raw: bytes) -> str:
    if not raw:
        return "it is empty"
    if len(raw) > BYTES_AT_MOST:
        return "it is too large to be a photograph"
    start = raw[:1000].lstrip(b"\xef\xbb\xbf \t\r\n").lower()
    if start.startswith((b"<svg", b"<?xml", b"<!doctype", b"<html")):
        return "it is a drawing or a page, not a photograph"
    return ""


def _too_large(opened: Image.Image) -> str:
    most = PIXELS_AT_MOST_JPEG if opened.format in ("JPEG", "MPO") else PIXELS_AT_MOST
    width, height = opened.size
    if width * height <= most:
        return ""
    return f"it claims to be {width} by {height} pixels, more than a photograph has"


def _picture(opened: Image.Image, widest: int) -> Image.Image:
    turn = orientation_in(opened)
    width, height = _upright(opened, turn)
    profile = opened.info.get("icc_profile")
    size = size_within(width, height, widest)
    if turn in _SIDEWAYS:
        size = (size[1], size[0])
    opened.draft(None, size)
    image = _in_colour(_shrunk(opened, size))
    if image.size != size:
        image = image.resize(size, Image.Resampling.LANCZOS)
    image = _in_srgb(image, profile)
    if turn in _TURNS:
        image = image.transpose(_TURNS[turn])
    image.info.clear()
    return image


def _shrunk(opened: Image.Image, size: tuple[int, int]) -> Image.Image:
    """The pixels, brought near the wanted size in whole steps before anything is copied."""
    opened.load()
    factor = min(opened.width // size[0], opened.height // size[1]) // 2
    if factor < 2 or opened.mode in ("P", "1") or opened.mode.startswith("I;"):
        return opened
    return opened.reduce(factor)


def _in_colour(image: Image.Image) -> Image.Image:
    """RGB, or CMYK and grey as they are when only their profile can tell their colours; white shines
    through."""
    if image.mode == "I" or image.mode.startswith("I;16"):
        image = image.convert("I").point(lambda level: level * (1 / 257)).convert("L")
    if image.mode in ("RGBA", "LA", "PA", "La", "RGBa") or "transparency" in image.info:
        image = image.convert("RGBA")
        ground = Image.new("RGB", image.size, "white")
        ground.paste(image, mask=image.getchannel("A"))
        return ground
    return image if image.mode in ("RGB", "CMYK", "L") else image.convert("RGB")


def _in_srgb(image: Image.Image, profile: bytes | None) -> Image.Image:
    if profile:
        try:
            source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            turned = ImageCms.profileToProfile(image, source, _SRGB, outputMode="RGB")
        except (ImageCms.PyCMSError, OSError):
            # A profile that does not fit its picture says nothing of its colours.
            turned = None
        if turned is not None:
            return turned
    return image.convert("RGB")


def orientation_in(opened: Image.Image) -> int:
    """How the pixels must be turned; a TIFF or HEIF turns its own while it is loaded."""
    if opened.format in ("TIFF", "HEIF"):
        return 1
    try:
        found = opened.getexif().get(_ORIENTATION, 1)
    except _REFUSED:
        return 1
    return found if isinstance(found, int) else 1


def _upright(opened: Image.Image, turn: int) -> tuple[int, int]:
    width, height = opened.size
    return (height, width) if turn in _SIDEWAYS else (width, height)


def _facts(opened: Image.Image, raw: bytes) -> PhotoFacts:
    width, height = _upright(opened, orientation_in(opened))
    day, clock = _taken(opened)
    form, _ = FORMS[str(opened.format)]
    return PhotoFacts(sha256(raw).hexdigest(), len(raw), width, height, form, day, clock)


def _taken(opened: Image.Image) -> tuple[date, time] | tuple[None, None]:
    """The moment of exposure by the camera's clock (Exif 2.32: DateTimeOriginal, else
    DateTimeDigitized, which for a camera is the same)."""
    try:
        exif = opened.getexif().get_ifd(_EXIF)
        said = str(exif.get(_TAKEN) or exif.get(_DIGITIZED) or "")
        taken = datetime.strptime(said.strip("\0 "), "%Y:%m:%d %H:%M:%S")
    except _REFUSED:
        # A clock that was never set, or a block that cannot be read, tells no time.
        return None, None
    return taken.date(), taken.time()

"""A picture in full size with nothing in it but the picture, so that it looks right wherever it is opened.

A JPEG that lies upright keeps its very pixels: what is needed to decode them is taken over, and nothing
else. What must be turned or is in colours that few programs show is decoded and written anew: upright, in
sRGB, as JPEG where it was made by a camera, as PNG where nothing had been left out of it.
"""

import io
import re
import struct

from msgspec import Struct
from PIL import Image

from journal.pictures.decode import decode, orientation_in, reading
from journal.pictures.forms import Unreadable
from journal.pictures.profile import channels_of, plain_profile

# The endings that the name of a file may have by what it is cleaned to.
ENDINGS = {"jpg": (".jpg", ".jpeg"), "png": (".png",)}

_SOI, _EOI = b"\xff\xd8", b"\xff\xd9"
_SCAN = 0xDA
# ITU-T T.81, table B.1: frames, Huffman and quantisation tables, restart interval, number of lines, scan.
_FRAMES = (0xC0, 0xC1, 0xC2)
_NEEDED = (*_FRAMES, 0xC4, 0xDB, 0xDD, 0xDC, _SCAN)
_JFIF, _ADOBE, _ICC = 0xE0, 0xEE, 0xE2
# JFIF 1.01 without density and thumbnail.
_PLAIN_JFIF = b"JFIF\0\x01\x01\x00\x00\x01\x00\x01\x00\x00"
_ICC_NAME, _ICC_ROOM = b"ICC_PROFILE\0", 65_519
# The end of a scan: a marker that is neither a stuffed byte nor a restart (T.81, B.1.1.2).
_AFTER_SCAN = re.compile(rb"\xff+([\x01-\xcf\xd8-\xfe])")
# Encoders leave out colour detail below this; nothing that an eye sees is lost.
_FINE: dict[str, int | bool] = {"quality": 95, "subsampling": 0, "optimize": True}
# Pillow writes no longer ones (libjpeg, JPEG_MAX_DIMENSION).
_LONGEST_JPEG = 65_500
# Forms that hold every pixel as it was are written as one.
_EXACT = ("PNG", "TIFF")
# Wide enough to have every scan of a JPEG decoded, and small enough to take little time.
_LOOKED_AT = 200


class Cleaned(Struct, frozen=True):
    """A picture without anything else.

    `form` is `jpg` or `png`; `same` when the coded pixels of the file were taken over as they are.
    """

    form: str
    data: bytes
    same: bool


class _Told(Struct, frozen=True):
    """What a file says that decides how it is cleaned."""

    form: str
    turn: int
    profile: bytes | None
    widest: int


def clean(raw: bytes) -> Cleaned | Unreadable:
    """The picture alone, upright and in full size, or why there is none."""
    told = reading(raw, _told)
    if isinstance(told, Unreadable):
        return told
    if told.form in ("JPEG", "MPO") and told.turn == 1:
        data = stripped(raw, told.profile)
        if data is not None:
            seen = decode(data, _LOOKED_AT)
            return seen if isinstance(seen, Unreadable) else Cleaned("jpg", data, True)
    image = decode(raw, told.widest)
    return image if isinstance(image, Unreadable) else _anew(image, told.form)


def _anew(image: Image.Image, form: str) -> Cleaned | Unreadable:
    out = io.BytesIO()
    if form in _EXACT:
        image.save(out, "PNG")
        return Cleaned("png", out.getvalue(), False)
    if max(image.size) > _LONGEST_JPEG:
        return Unreadable("it is longer than a JPEG can be")
    image.save(out, "JPEG", **_FINE)
    return Cleaned("jpg", out.getvalue(), False)


def _told(opened: Image.Image) -> _Told:
    turn = orientation_in(opened)
    profile = opened.info.get("icc_profile")
    return _Told(str(opened.format), turn if 1 <= turn <= 8 else 1, profile, max(opened.size))


def stripped(raw: bytes, profile: bytes | None) -> bytes | None:
    """A JPEG of its first picture and nothing else, or None for one that has to be written anew.

    That is one in four colours, with a profile made of tables, or in a coding that few programs read.
    """
    told = _segments(raw)
    if told is None:
        return None
    segments, jfif, adobe = told
    colours = next((body[5] for marker, body in segments if marker in _FRAMES), 0)
    if colours not in (1, 3):
        return None
    kept = None
    if profile and channels_of(profile) == colours:
        kept = plain_profile(profile)
        if kept is None:
            return None
    parts = [_SOI]
    if jfif:
        parts.append(_segment(_JFIF, _PLAIN_JFIF))
    if kept:
        parts += _profile_segments(kept)
    if adobe is not None:
        parts.append(_segment(_ADOBE, b"Adobe" + struct.pack(">HHHB", 100, 0, 0, adobe)))
    parts += [_segment(marker, body) for marker, body in segments]
    return b"".join((*parts, _EOI))


def _segments(raw: bytes) -> tuple[list[tuple[int, bytes]], bool, int | None] | None:
    """What is needed to decode the first picture; whether it is JFIF; the transform that Adobe's
    marker names, when it is there. What a scan holds stands with its header."""
    kept: list[tuple[int, bytes]] = []
    jfif, adobe = False, None
    here = 2
    while raw[here : here + 1] == b"\xff":
        while raw[here : here + 1] == b"\xff":
            here += 1
        marker = raw[here] if here < len(raw) else 0
        if marker == _EOI[1]:
            return kept, jfif, adobe
        size = int.from_bytes(raw[here + 1 : here + 3], "big")
        body, here = raw[here + 3 : here + 1 + size], here + 1 + size
        if size < 2 or here > len(raw) or (0xC0 <= marker < 0xD0 and marker not in _NEEDED):
            return None
        if marker == _JFIF and body.startswith(b"JFIF\0"):
            jfif = True
        elif marker == _ADOBE and body.startswith(b"Adobe") and len(body) >= 12:
            adobe = body[11]
        elif marker == _SCAN:
            end = _AFTER_SCAN.search(raw, here)
            if end is None:
                return None
            kept.append((marker, body + raw[here : end.start()]))
            here = end.start()
        elif marker in _NEEDED:
            kept.append((marker, body))
    return None


def _segment(marker: int, body: bytes) -> bytes:
    """A segment with its length; that of a scan is the length of its header alone."""
    size = 2 + (4 + 2 * body[0] if marker == _SCAN else len(body))
    return struct.pack(">BBH", 0xFF, marker, size) + body


def _profile_segments(profile: bytes) -> list[bytes]:
    """A profile in as many segments as it needs (ICC.1:2022, annex B.4)."""
    pieces = [profile[n : n + _ICC_ROOM] for n in range(0, len(profile), _ICC_ROOM)]
    return [
        _segment(_ICC, _ICC_NAME + bytes((n, len(pieces))) + piece)
        for n, piece in enumerate(pieces, 1)
    ]

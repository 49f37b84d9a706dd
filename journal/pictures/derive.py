"""Renditions of one photograph: which widths and encodings are published, and how they are made.

The photograph is decoded once; each narrower width is made from the one before. What is kept and
what was tried is told with its figures in DEVELOPERS.md.
"""

import io
import json
from hashlib import sha256

import PIL
import pillow_heif
from PIL import Image, features

from journal.pictures.decode import decode
from journal.pictures.forms import Unreadable
from journal.pictures.sizes import APART, WIDTHS, Encoded, narrower, widths_for

_WEBP = {"quality": 80, "method": 2}
_JPEG = {"quality": 80, "optimize": True}


def recipe() -> str:
    """A short name for how renditions are made: it changes with the settings and the encoders, so
    that what another recipe made is never taken for this one's."""
    made_with = [
        WIDTHS, _WEBP, _JPEG, APART, PIL.__version__, pillow_heif.__version__,
        *(features.version(name) for name in ("jpg", "webp", "littlecms2")),
    ]  # fmt: skip
    return sha256(json.dumps(made_with).encode()).hexdigest()[:12]


def derive(raw: bytes) -> tuple[Encoded, ...] | Unreadable:
    """Decode a photograph and encode what is published of it, without any metadata: WebP narrowest
    first, and the JPEG last."""
    widest = decode(raw, WIDTHS[-1])
    if isinstance(widest, Unreadable):
        return widest
    made = [_encoded(widest, "jpg", "JPEG", _JPEG)]
    image = widest
    for width in reversed(widths_for(widest.width)):
        if width != widest.width:
            image = image.resize(narrower(widest.size, width), Image.Resampling.LANCZOS)
        made.append(_encoded(image, "webp", "WEBP", _WEBP))
    return tuple(reversed(made))


def small_of(raw: bytes) -> Encoded | Unreadable:
    """The narrowest rendition alone."""
    narrow = decode(raw, WIDTHS[0])
    return narrow if isinstance(narrow, Unreadable) else _encoded(narrow, "webp", "WEBP", _WEBP)


def _encoded(image: Image.Image, form: str, name: str, how: dict[str, int | bool]) -> Encoded:
    out = io.BytesIO()
    image.save(out, name, **how)
    return Encoded(form, image.width, image.height, out.getvalue())

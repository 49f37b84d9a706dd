"""Pictures with a mark in every place where a file can hold words."""

import io
import zlib
from collections.abc import Callable
from typing import Any

from PIL import Image, ImageCms
from PIL.PngImagePlugin import PngInfo

_TEXT = {
    "image description": 0x010E, "maker": 0x010F, "model": 0x0110, "software": 0x0131, "artist": 0x013B,
    "copyright": 0x8298, "title in two bytes": 0x9C9B, "comment in two bytes": 0x9C9C,
}  # fmt: skip
_BLOCKS = {"maker note": (0x8769, 0x927C), "user comment": (0x8769, 0x9286), "serial": (0x8769, 0xA431),
           "lens": (0x8769, 0xA434), "place": (0x8825, 0x001C), "area": (0x8825, 0x001D)}  # fmt: skip

Mark = Callable[[str], str]


def telling_pictures(mark: Mark) -> dict[str, bytes]:
    """Files by name: JPEG, PNG, WebP and TIFF; `mark` gives the word for a place."""
    return {
        "one.jpg": _jpeg(mark), "two.png": _png(mark), "three.webp": _webp(mark), "four.tif": _tiff(mark),
    }  # fmt: skip


def _saved(form: str, **how: Any) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (48, 32), "darkgreen").save(out, form, **how)
    return out.getvalue()


def _exif(mark: Mark, form: str) -> Image.Exif:
    exif = Image.Exif()
    for name, tag in _TEXT.items():
        word = mark(f"{form} {name}")
        exif[tag] = f"{word}\0".encode("utf-16-le") if "two bytes" in name else word
    for name, (block, tag) in _BLOCKS.items() if form != "TIFF" else ():
        exif.get_ifd(block)[tag] = mark(f"{form} {name}").encode()
    return exif


def _xmp(mark: Mark, form: str) -> bytes:
    return (
        '<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">'
        f'<rdf:Description xmlns:dc="http://purl.org/dc/elements/1.1/" dc:title="{mark(f"{form} XMP")}"/>'
        "</rdf:RDF></x:xmpmeta>"
    ).encode()


def _profile(mark: Mark, form: str) -> bytes:
    """A profile of colours whose description is a mark, in one byte a character or in two."""
    raw = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    old, new = "sRGB built-in", mark(f"{form} profile").ljust(13)
    wide = raw.replace(old.encode("utf-16-be"), new.encode("utf-16-be"))
    told = wide.replace(old.encode(), new.encode())
    assert told != raw
    return told


def _segment(marker: int, data: bytes) -> bytes:
    return bytes((0xFF, marker)) + (len(data) + 2).to_bytes(2, "big") + data


def _jpeg(mark: Mark) -> bytes:
    plain = _saved(
        "JPEG", exif=_exif(mark, "JPEG"), icc_profile=_profile(mark, "JPEG"),
        comment=mark("JPEG comment").encode(), xmp=_xmp(mark, "JPEG"),
    )  # fmt: skip
    # A small picture within the picture has words of its own.
    small = _saved("JPEG", comment=mark("JPEG thumbnail").encode())
    more = _segment(0xED, b"Photoshop 3.0\x008BIM\x04\x04" + mark("JPEG IPTC").encode())
    more += _segment(0xE0, b"JFXX\x00\x10" + small)
    return plain[:2] + more + plain[2:] + mark("after the JPEG").encode()


def _png(mark: Mark) -> bytes:
    info = PngInfo()
    info.add_text("Comment", mark("PNG text"))
    info.add_text("Author", mark("PNG packed text"), zip=True)
    info.add_itxt("Title", mark("PNG text in Unicode"), zip=True)
    info.add_itxt("XML:com.adobe.xmp", _xmp(mark, "PNG").decode())
    return _saved("PNG", pnginfo=info, exif=_exif(mark, "PNG"), icc_profile=_profile(mark, "PNG"))


def _webp(mark: Mark) -> bytes:
    return _saved(
        "WEBP", exif=_exif(mark, "WebP"), xmp=_xmp(mark, "WebP"), icc_profile=_profile(mark, "WebP")
    )


def _tiff(mark: Mark) -> bytes:
    return _saved("TIFF", exif=_exif(mark, "TIFF"), icc_profile=_profile(mark, "TIFF"))


def with_packed(raw: bytes) -> bytes:
    """Bytes with all that is packed in them after them, unpacked."""
    out = [raw]
    for n in range(len(raw) - 1):
        if raw[n] == 0x78 and raw[n + 1] in (0x01, 0x5E, 0x9C, 0xDA):
            try:
                out.append(zlib.decompressobj().decompress(raw[n:]))
            except zlib.error:
                continue
    return b"\n".join(out)

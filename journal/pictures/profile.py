"""Colour profiles with nothing in them but colour (ICC.1:2022, and ICC.1:2001-04 for version 2).

A profile can name its maker, a device, an owner and a day. What a picture needs to look right is a white
point, three primaries and the curves; those are taken over, each cut to the length that its type has.
"""

import struct
from collections.abc import Iterator, Mapping

_HEADER, _ENTRY = 128, 12
_CLASSES = (b"mntr", b"scnr", b"spac")
# What must be there for each kind of picture, and what is taken over when it is there.
_NEEDED: Mapping[bytes, tuple[bytes, ...]] = {
    b"RGB ": (b"rXYZ", b"gXYZ", b"bXYZ", b"rTRC", b"gTRC", b"bTRC", b"wtpt"),
    b"GRAY": (b"kTRC", b"wtpt"),
}
_ADAPTATION = b"chad"
# A profile with tables looks otherwise without them.
_TABLES = (b"A2B0", b"A2B1", b"A2B2", b"D2B0", b"D2B1", b"D2B2", b"D2B3")
# Length of the parameters of a curve by its function (ICC.1:2022, table 68).
_PARAMETERS = (4, 12, 16, 20, 28)
_NAME = "Colours as photographed"
# The header wants a day; this one tells nothing.
_DAY = struct.pack(">6H", 2000, 1, 1, 0, 0, 0)
_D50 = bytes.fromhex("0000f6d6 00010000 0000d32d")


def channels_of(profile: bytes) -> int:
    """For how many channels a profile is, 0 for one that is of no use."""
    return {b"RGB ": 3, b"GRAY": 1, b"CMYK": 4}.get(profile[16:20], 0)


def plain_profile(profile: bytes) -> bytes | None:
    """The same colours without a word, or None where they are told by tables or cannot be read."""
    tags = _tags(profile)
    needed = _NEEDED.get(profile[16:20])
    if tags is None or needed is None or profile[12:16] not in _CLASSES:
        return None
    if profile[20:24] != b"XYZ " or any(name in tags for name in _TABLES):
        return None
    kept = {name: _value(tags[name]) for name in needed if name in tags}
    if _ADAPTATION in tags:
        kept[_ADAPTATION] = _value(tags[_ADAPTATION])
    values = {name: value for name, value in kept.items() if value is not None}
    if len(values) != len(kept) or any(name not in values for name in needed):
        return None
    return _written(profile, {**_words(profile[8]), **values})


def _tags(profile: bytes) -> dict[bytes, bytes] | None:
    """The values by their names, or None where the table does not fit the profile."""
    if len(profile) < _HEADER + 4 or profile[36:40] != b"acsp":
        return None
    (count,) = struct.unpack_from(">I", profile, _HEADER)
    if _HEADER + 4 + count * _ENTRY > len(profile):
        return None
    tags = {}
    for n in range(count):
        name, start, size = struct.unpack_from(">4sII", profile, _HEADER + 4 + n * _ENTRY)
        if start + size > len(profile):
            return None
        tags[name] = profile[start : start + size]
    return tags


def _value(tag: bytes) -> bytes | None:
    """A number, a curve or a matrix cut to its length, or None for any other type."""
    kind = tag[:4]
    if kind == b"XYZ ":
        size = 20
    elif kind == b"sf32":
        size = 44
    elif kind == b"curv" and len(tag) >= 12:
        size = 12 + 2 * int.from_bytes(tag[8:12], "big")
    elif kind == b"para" and len(tag) >= 12 and tag[9] < len(_PARAMETERS):
        size = 12 + _PARAMETERS[tag[9]]
    else:
        return None
    return tag[:size] if len(tag) >= size else None


def _words(major: int) -> dict[bytes, bytes]:
    """The description and the rights that every profile must have, in the form of its version."""
    if major >= 4:
        text = _NAME.encode("utf-16-be")
        told = b"mluc" + bytes(4) + struct.pack(">II2s2sII", 1, 12, b"en", b"GB", len(text), 28)
        return {b"desc": told + text, b"cprt": told + text}
    line = _NAME.encode("ascii") + b"\0"
    described = b"desc" + bytes(4) + struct.pack(">I", len(line)) + line + bytes(8 + 3 + 67)
    return {b"desc": described, b"cprt": b"text" + bytes(4) + line}


def _written(profile: bytes, tags: Mapping[bytes, bytes]) -> bytes:
    start = _HEADER + 4 + len(tags) * _ENTRY
    places, body = [], b""
    for name, value in tags.items():
        places.append(struct.pack(">4sII", name, start + len(body), len(value)))
        body += value + bytes(-len(value) % 4)
    header = b"".join(_header(profile, start + len(body)))
    return header + struct.pack(">I", len(tags)) + b"".join(places) + body


def _header(profile: bytes, size: int) -> Iterator[bytes]:
    """Size, version, class, spaces, day and intent; maker, model, device and creator stay empty."""
    yield struct.pack(">I4x", size) + profile[8:10] + bytes(2)
    yield profile[12:24] + _DAY + b"acsp" + bytes(24)
    yield profile[64:68] + _D50 + bytes(_HEADER - 80)

"""Reading photographs: upright, in true colours, within bounds, and whatever the file holds."""

import struct
import subprocess
import sys
import zlib
from datetime import date, time
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageCms

from journal.pictures import decode as module
from journal.pictures.decode import decode, facts_of
from journal.pictures.forms import FORMS, Unreadable, misnamed
from journal.records.photofacts import PhotoFacts
from tests.pictures.images import (
    BLUE,
    GREEN,
    RED,
    camera,
    corners,
    encoded,
    halves,
    hue,
)

_FORMS: tuple[tuple[str, dict[str, Any]], ...] = (
    ("JPEG", {}), ("JPEG", {"progressive": True}), ("PNG", {}), ("WEBP", {}), ("HEIF", {}),
    ("TIFF", {}), ("TIFF", {"compression": "tiff_lzw"}),
)  # fmt: skip


def _decoded(data: bytes, widest: int = 1600) -> Image.Image:
    image = decode(data, widest)
    assert isinstance(image, Image.Image)
    return image


def _facts(data: bytes) -> PhotoFacts:
    facts = facts_of(data)
    assert isinstance(facts, PhotoFacts)
    return facts


# The scene, and where Exif 2.32 (CIPA DC-008, 4.6.4 A, tag Orientation) says its pixels lie when
# the tag has that value: the 0th row of the pixels is the scene's top, right side, bottom ...
_AS_STORED = {
    1: lambda scene: scene,
    2: lambda scene: scene[:, ::-1],
    3: lambda scene: scene[::-1, ::-1],
    4: lambda scene: scene[::-1],
    5: lambda scene: scene.transpose(1, 0, 2),
    6: lambda scene: np.rot90(scene, 1),
    7: lambda scene: scene.transpose(1, 0, 2)[::-1, ::-1],
    8: lambda scene: np.rot90(scene, -1),
}


@pytest.mark.parametrize("value", sorted(_AS_STORED))
@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP", "TIFF"])
def test_orientation__is_applied_as_the_standard_says(form: str, value: int) -> None:
    scene = corners()
    stored = Image.fromarray(np.ascontiguousarray(_AS_STORED[value](np.asarray(scene))))
    data = encoded(stored, form, exif=camera(orientation=value))
    image = _decoded(data)
    assert (64, 32) == image.size
    assert (64, 32) == (_facts(data).width, _facts(data).height)
    found = [hue(image, x, y) for x, y in ((5, 5), (58, 5), (5, 26), (58, 26))]
    assert [GREEN, BLUE, RED, BLUE] == found


@pytest.mark.parametrize(("form", "how"), _FORMS)
def test_large_picture__comes_out_no_wider_than_asked(form: str, how: dict[str, Any]) -> None:
    image = _decoded(encoded(halves(1700, 850), form, **how), 400)
    assert (400, 200) == image.size
    assert "RGB" == image.mode
    assert (RED, BLUE) == (hue(image, 50, 100), hue(image, 350, 100))


def test_small_picture__is_never_enlarged() -> None:
    assert (300, 200) == _decoded(encoded(halves(300, 200), "PNG")).size


def test_very_tall_picture__is_kept_within_what_encoders_take() -> None:
    image = _decoded(encoded(Image.new("RGB", (400, 60_000)), "PNG"), 400)
    assert (10, 1500) == image.size


def _wide_gamut_profile() -> bytes:
    """A profile with the colorants of Display P3 (as its published ICC profile gives them, adapted
    to D50) and a plain gamma of 2.2, laid out by ICC.1:2010, section 7."""

    def xyz(*values: float) -> bytes:
        return b"XYZ \0\0\0\0" + b"".join(struct.pack(">i", round(v * 65536)) for v in values)

    gamma = b"curv\0\0\0\0" + struct.pack(">IH", 1, round(2.2 * 256)) + b"\0\0"
    text = b"desc\0\0\0\0" + struct.pack(">I", 5) + b"test\0" + b"\0" * 79
    tags = {
        b"desc": text, b"wtpt": xyz(0.9642, 1.0, 0.8249), b"rXYZ": xyz(*_P3[0]),
        b"gXYZ": xyz(*_P3[1]), b"bXYZ": xyz(*_P3[2]),
        b"rTRC": gamma, b"gTRC": gamma, b"bTRC": gamma, b"cprt": b"text\0\0\0\0none\0\0\0\0",
    }  # fmt: skip
    place, table, body = 128 + 4 + 12 * len(tags), b"", b""
    for name, data in tags.items():
        data += b"\0" * (-len(data) % 4)
        table += name + struct.pack(">II", place + len(body), len(data))
        body += data
    size = place + len(body)
    head = struct.pack(">I4s4s4s4s4s", size, b"\0" * 4, b"\x02\x10\0\0", b"mntr", b"RGB ", b"XYZ ")
    head += b"\0" * 12 + b"acsp" + b"\0" * 28 + xyz(0.9642, 1.0, 0.8249)[8:]
    return head.ljust(128, b"\0") + struct.pack(">I", len(tags)) + table + body


_P3 = ((0.5151, 0.2412, -0.0011), (0.2920, 0.6922, 0.0419), (0.1571, 0.0666, 0.7841))
# sRGB colorants adapted to D50, as in IEC 61966-2-1 profiles (ICC sRGB v2 colorant tags).
_SRGB = ((0.4360, 0.2225, 0.0139), (0.3851, 0.7169, 0.0971), (0.1431, 0.0606, 0.7141))


def _srgb_of_p3(*levels: int) -> list[int]:
    """The sRGB levels of a colour, by the definition of matrix profiles: gamma, to XYZ, to linear
    sRGB, and the curve of IEC 61966-2-1."""
    linear = [(level / 255) ** 2.2 for level in levels]
    xyz = np.array(_P3).T @ np.array(linear)
    out = np.linalg.solve(np.array(_SRGB).T, xyz).clip(0, 1)
    curve = [12.92 * c if c <= 0.0031308 else 1.055 * c ** (1 / 2.4) - 0.055 for c in out]
    return [round(255 * c) for c in curve]


def test_colours__are_turned_from_the_embedded_profile_to_srgb() -> None:
    colour = (180, 90, 60)
    data = encoded(Image.new("RGB", (32, 32), colour), "PNG", icc_profile=_wide_gamut_profile())
    pixel = _decoded(data).getpixel((16, 16))
    assert isinstance(pixel, tuple)
    assert max(abs(a - b) for a, b in zip(_srgb_of_p3(*colour), pixel, strict=True)) <= 2
    # The same levels without a profile are sRGB already; the two must differ to tell anything.
    assert max(abs(a - b) for a, b in zip(colour, pixel, strict=True)) > 5


def test_profile__that_does_not_fit_is_passed_over() -> None:
    lab = ImageCms.ImageCmsProfile(ImageCms.createProfile("LAB")).tobytes()
    image = _decoded(encoded(halves(60, 40), "PNG", icc_profile=lab))
    assert (RED, BLUE) == (hue(image, 5, 5), hue(image, 55, 5))


def test_transparency__becomes_white() -> None:
    image = _decoded(encoded(Image.new("RGBA", (70, 70), (0, 0, 0, 0)), "PNG"))
    assert (255, 255, 255) == image.getpixel((10, 10))
    palette = Image.new("P", (70, 70), 0)
    palette.putpalette([0, 0, 0])
    assert (255, 255, 255) == _decoded(encoded(palette, "PNG", transparency=0)).getpixel((10, 10))


@pytest.mark.parametrize("form", ["PNG", "TIFF"])
def test_scan_in_sixteen_bits__keeps_its_greys(form: str) -> None:
    levels = np.array([[0, 128 * 257, 255 * 257]] * 3, dtype="uint16").repeat(10, 0).repeat(10, 1)
    image = _decoded(encoded(Image.fromarray(levels), form))
    assert [(n, n, n) for n in (0, 128, 255)] == [image.getpixel((x, 15)) for x in (5, 15, 25)]


def test_print_colours__are_read() -> None:
    cmyk = Image.new("CMYK", (40, 40), (0, 255, 255, 0))
    assert RED == hue(_decoded(encoded(cmyk, "JPEG")), 20, 20)


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP", "HEIF"])
def test_capture_time__is_what_the_camera_wrote(form: str) -> None:
    facts = _facts(encoded(halves(64, 64), form, exif=camera(taken="2024:03:05 14:20:31")))
    assert (date(2024, 3, 5), time(14, 20, 31)) == (facts.taken_on, facts.taken_at)


@pytest.mark.parametrize("clock", ["", "0000:00:00 00:00:00", "    :  :     :  :  ", "yesterday"])
def test_capture_time__that_no_clock_wrote_is_not_known(clock: str) -> None:
    facts = _facts(encoded(halves(64, 64), exif=camera(taken=clock)))
    assert (None, None) == (facts.taken_on, facts.taken_at)


def test_facts__are_of_the_bytes_themselves() -> None:
    data = encoded(halves(64, 32), "PNG")
    facts = _facts(data)
    shell = subprocess.run(["sha256sum"], input=data, capture_output=True, check=True).stdout
    assert shell.decode().split()[0] == facts.sha256
    assert (len(data), 64, 32, "PNG") == (facts.size, facts.width, facts.height, facts.form)


@pytest.mark.parametrize(
    ("data", "reason"),
    [
        (b"", "it is empty"),
        (b"not a picture at all", "it cannot be read as a picture"),
        (encoded(halves())[:3000], "it is cut short"),
        (encoded(halves(), "PNG")[:2000], "it is cut short"),
        (encoded(halves(300, 200), "HEIF")[:400], "it cannot be read as a picture"),
        (b'<svg xmlns="http://www.w3.org/2000/svg"/>', "it is a drawing or a page, not a photograph"),
        (b'\xef\xbb\xbf<?xml version="1.0"?><svg/>', "it is a drawing or a page, not a photograph"),
        (encoded(halves(60, 40), "GIF"), "it cannot be read as a picture"),
    ],
    ids=["empty", "no picture", "JPEG cut", "PNG cut", "HEIC cut", "SVG", "SVG with a mark", "GIF"],
)  # fmt: skip
def test_bad_file__is_told_apart(data: bytes, reason: str) -> None:
    assert Unreadable(reason) == decode(data, 1600)


def _claiming(width: int, height: int) -> bytes:
    """A PNG of a few bytes that claims to be of another size (PNG, third edition, 11.2.1)."""
    data = bytearray(encoded(Image.new("1", (8, 8)), "PNG"))
    data[16:24] = struct.pack(">II", width, height)
    data[29:33] = struct.pack(">I", zlib.crc32(data[12:29]))
    return bytes(data)


def test_bomb__is_refused_before_a_pixel_is_read() -> None:
    reason = "it claims to be 40000 by 40000 pixels, more than a photograph has"
    assert Unreadable(reason) == decode(_claiming(40_000, 40_000), 1600)
    assert Unreadable(reason) == facts_of(_claiming(40_000, 40_000))


def test_file_too_large__is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "BYTES_AT_MOST", 1000)
    assert Unreadable("it is too large to be a photograph") == decode(encoded(halves()), 1600)


_GOOD = tuple(
    encoded(corners(), form, exif=camera(taken="2024:03:05 14:20:31"), **how)
    for form, how in _FORMS
)


@given(st.sampled_from(_GOOD), st.data())
def test_damaged_file__never_breaks_the_reading(good: bytes, data: st.DataObject) -> None:
    damaged = bytearray(good)
    for _ in range(data.draw(st.integers(1, 4))):
        damaged[data.draw(st.integers(0, len(good) - 1))] = data.draw(st.integers(0, 255))
    cut = bytes(damaged)[: data.draw(st.integers(0, len(good)))]
    assert isinstance(decode(cut, 40), Image.Image | Unreadable)
    assert isinstance(facts_of(cut), PhotoFacts | Unreadable)


@given(st.binary(max_size=400))
def test_any_bytes__never_break_the_reading(data: bytes) -> None:
    assert isinstance(decode(data, 40), Image.Image | Unreadable)


@pytest.mark.parametrize(
    ("name", "better"),
    [("a.jpg", None), ("A.JPEG", None), ("a.png", ".jpg"), ("a", ".jpg"), ("a.heic", ".jpg")],
)
def test_name__is_held_against_what_the_file_is(name: str, better: str | None) -> None:
    assert better == misnamed(_facts(encoded(halves(64, 64))), name)


def test_forms__are_those_that_the_readme_promises() -> None:
    assert {"JPEG", "HEIF", "PNG", "WebP", "TIFF"} == {form for form, _ in FORMS.values()}


_PANORAMA = """
import sys
from journal.pictures.decode import decode
raw = open(sys.argv[1], "rb").read()
assert decode(raw, 1600).size == (1600, 400)
# The peak of this process alone: what getrusage tells goes back to before it was started.
print(next(line.split()[1] for line in open("/proc/self/status") if line.startswith("VmHWM")))
"""


@pytest.mark.parametrize(
    ("form", "how"),
    [("JPEG", {}), ("JPEG", {"progressive": True}), ("PNG", {"compress_level": 1}), ("TIFF", {})],
)
def test_panorama_of_a_hundred_megapixels__is_read_within_a_gibibyte(
    form: str, how: dict[str, Any], tmp_path: Any
) -> None:
    file = tmp_path / "panorama"
    file.write_bytes(encoded(Image.new("RGB", (20_000, 5_000), RED), form, **how))
    told = subprocess.run(
        [sys.executable, "-c", _PANORAMA, str(file)], capture_output=True, text=True, check=True
    ).stdout
    assert int(told) * 1024 < 2**30

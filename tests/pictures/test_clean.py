"""A picture in full size and nothing else, held against exiftool, libjpeg and LittleCMS."""

import io
import json
import struct
import subprocess
from pathlib import Path

import cv2
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageCms

from journal.pictures.clean import Cleaned, clean
from journal.pictures.forms import Unreadable
from journal.pictures.profile import plain_profile
from tests.pictures.images import BLUE, GREEN, RED, camera, corners, encoded, hue, opened
from tests.pictures.telling import telling_pictures

# What exiftool tells of any file: of itself, of the file as a file, and how its pixels are laid out.
STRUCTURE = ("ExifTool", "File", "SourceFile", "PNG:ImageWidth", "PNG:ImageHeight", "PNG:BitDepth",
             "PNG:ColorType", "PNG:Compression", "PNG:Filter", "PNG:Interlace", "JFIF:", "Composite:",
             "APP14:", "ICC_Profile:")  # fmt: skip

WORDS = ("File:Comment", "Composite:GPSPosition")


def _words_of_exiftool(folder: Path) -> list[str]:
    told = subprocess.run(
        ["exiftool", "-json", "-G0", "-a", "-u", str(folder)], capture_output=True, check=True
    )
    return [
        f"{key}: {value}"
        for file in json.loads(told.stdout)
        for key, value in file.items()
        if not key.startswith(STRUCTURE) or key in WORDS
    ]


def good(raw: bytes) -> Cleaned:
    cleaned = clean(raw)
    assert isinstance(cleaned, Cleaned)
    return cleaned


def pixels(data: bytes) -> np.ndarray:
    return np.asarray(opened(data).convert("RGB")).astype(int)


def with_segment(jpeg: bytes, marker: int, body: bytes) -> bytes:
    """A JPEG with one more segment after its start."""
    return jpeg[:2] + struct.pack(">BBH", 0xFF, marker, len(body) + 2) + body + jpeg[2:]


def test_every_place_that_can_hold_words__is_empty_afterwards(tmp_path: Path) -> None:
    marks: list[str] = []

    def mark(name: str) -> str:
        marks.append(f"QZ{len(marks):03d}X")
        return marks[-1]

    files = telling_pictures(mark)
    for name, raw in files.items():
        cleaned = good(raw)
        (tmp_path / f"{name}.{cleaned.form}").write_bytes(cleaned.data)
        for word in marks:
            assert word.encode() not in cleaned.data, (name, word)
            assert word.encode("utf-16-be") not in cleaned.data, (name, word)
    assert len(marks) > 20
    assert [] == _words_of_exiftool(tmp_path)


def test_what_hides_in_a_jpeg__is_gone_and_the_pixels_are_the_same(tmp_path: Path) -> None:
    plain = encoded(corners(), quality=90)
    thumbnail = encoded(corners(16, 8), quality=50)
    exif = camera(marker="QZMAKER")
    full = encoded(corners(), quality=90, exif=exif.tobytes(), comment=b"QZCOMMENT")
    full = with_segment(full, 0xE1, b"http://ns.adobe.com/xap/1.0/\0<x:xmpmeta>QZXMP</x:xmpmeta>")
    # IPTC, as Photoshop resource 0x0404 with one data set 2:120 (caption).
    iptc = b"\x1c\x02\x78" + struct.pack(">H", 6) + b"QZIPTC"
    resource = b"Photoshop 3.0\0" + b"8BIM\x04\x04\0\0" + struct.pack(">I", len(iptc)) + iptc
    full = with_segment(full, 0xED, resource)
    full = with_segment(full, 0xE2, b"MPF\0QZMPF")
    full = with_segment(full, 0xE0, b"JFXX\0\x10" + thumbnail)
    full += thumbnail + b"QZTRAILER"
    (tmp_path / "before.jpg").write_bytes(full)
    assert [] != _words_of_exiftool(tmp_path)
    (tmp_path / "before.jpg").unlink()
    cleaned = good(full)
    assert cleaned.same
    assert b"QZ" not in cleaned.data
    assert 1 == cleaned.data.count(b"\xff\xd8\xff")
    assert np.array_equal(pixels(plain), pixels(cleaned.data))
    (tmp_path / "after.jpg").write_bytes(cleaned.data)
    assert [] == _words_of_exiftool(tmp_path)


@pytest.mark.parametrize(
    "how", [{"progressive": True}, {"restart_marker_rows": 1}, {"optimize": True}]
)
def test_jpeg_of_any_coding__keeps_its_pixels(how: dict[str, int]) -> None:
    grain = Image.effect_noise((200, 120), 60).convert("RGB")
    raw = encoded(grain, quality=85, exif=camera().tobytes(), **how)
    cleaned = good(raw)
    assert cleaned.same
    assert len(cleaned.data) < len(raw)
    assert np.array_equal(pixels(raw), pixels(cleaned.data))


@pytest.mark.parametrize("turn", range(1, 9))
@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
def test_orientation__is_right_for_a_program_that_knows_nothing_of_it(form: str, turn: int) -> None:
    # CIPA DC-008 (Exif 2.32), 4.6.4 A: which way the stored pixels must be turned to stand upright.
    back = {
        2: Image.Transpose.FLIP_LEFT_RIGHT, 3: Image.Transpose.ROTATE_180,
        4: Image.Transpose.FLIP_TOP_BOTTOM, 5: Image.Transpose.TRANSPOSE,
        6: Image.Transpose.ROTATE_90, 7: Image.Transpose.TRANSVERSE, 8: Image.Transpose.ROTATE_270,
    }  # fmt: skip
    upright = corners(160, 80)
    stored = upright.transpose(back[turn]) if turn in back else upright
    how = {"lossless": True} if form == "WEBP" else {}
    cleaned = good(encoded(stored, form, exif=camera(orientation=turn).tobytes(), **how))
    seen = cv2.imdecode(
        np.frombuffer(cleaned.data, np.uint8), cv2.IMREAD_COLOR | cv2.IMREAD_IGNORE_ORIENTATION
    )
    assert (80, 160, 3) == seen.shape
    image = Image.fromarray(seen[:, :, ::-1])
    assert (GREEN, RED, BLUE) == tuple(hue(image, x, y) for x, y in ((20, 10), (20, 70), (140, 40)))


# Display P3 by its definition (SMPTE EG 432-1 primaries, D65, the curve of sRGB), adapted to D50:
# the colorants of the profile that the ICC registry shows for it, from memory; the test needs no more
# than that they differ from those of sRGB.
P3 = {
    b"rXYZ": (0.51512, 0.24120, -0.00105), b"gXYZ": (0.29198, 0.69225, 0.04189),
    b"bXYZ": (0.15710, 0.06657, 0.78407),
}  # fmt: skip


def p3_profile() -> bytes:
    """The sRGB profile of LittleCMS with the colorants of Display P3 and words of a maker."""
    raw = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    for n in range(struct.unpack_from(">I", raw, 128)[0]):
        name, start, _ = struct.unpack_from(">4sII", raw, 132 + 12 * n)
        if name in P3:
            struct.pack_into(">3i", raw, start + 8, *(round(v * 65536) for v in P3[name]))
    raw[48:52] = b"QZMK"
    return bytes(raw).replace(b"sRGB built-in", b"QZ of somebody")


def in_srgb(image: Image.Image, profile: bytes) -> np.ndarray:
    source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
    turned = ImageCms.profileToProfile(image, source, ImageCms.createProfile("sRGB"))
    assert turned is not None
    return np.asarray(turned)


def test_profile__keeps_its_colours_and_loses_its_words() -> None:
    profile = p3_profile()
    plain = plain_profile(profile)
    assert plain is not None
    assert b"QZ" not in plain
    ramp = Image.fromarray(np.random.default_rng(5).integers(0, 256, (40, 40, 3), np.uint8))
    assert np.array_equal(in_srgb(ramp, profile), in_srgb(ramp, plain))
    assert not np.array_equal(np.asarray(ramp), in_srgb(ramp, plain))


def test_wide_colours__stay_wide_in_the_same_pixels() -> None:
    raw = encoded(corners(), quality=95, icc_profile=p3_profile())
    cleaned = good(raw)
    assert cleaned.same
    assert np.array_equal(pixels(raw), pixels(cleaned.data))
    before, after = (
        in_srgb(opened(d).convert("RGB"), opened(d).info["icc_profile"])
        for d in (raw, cleaned.data)
    )
    assert np.array_equal(before, after)


def test_wide_colours_of_a_turned_picture__are_brought_into_srgb() -> None:
    stored = corners()
    raw = encoded(
        stored, quality=100, subsampling=0, icc_profile=p3_profile(), exif=camera(orientation=3).tobytes()
    )  # fmt: skip
    cleaned = good(raw)
    assert not cleaned.same
    assert "icc_profile" not in opened(cleaned.data).info
    wanted = in_srgb(stored.transpose(Image.Transpose.ROTATE_180), p3_profile()).astype(int)
    assert np.abs(wanted - pixels(cleaned.data))[4:12, 4:12].max() <= 4


def test_profile_that_is_none__is_left_out() -> None:
    assert plain_profile(b"no profile") is None
    cleaned = good(encoded(corners(), icc_profile=b"QZ" * 100))
    assert b"QZ" not in cleaned.data


@given(st.data())
def test_damaged_profile__never_breaks_the_cleaning(data: st.DataObject) -> None:
    raw = bytearray(p3_profile())
    for _ in range(data.draw(st.integers(1, 8))):
        raw[data.draw(st.integers(0, len(raw) - 1))] = data.draw(st.integers(0, 255))
    plain_profile(bytes(raw[: data.draw(st.integers(0, len(raw)))]))


def test_printing_colours__are_turned_into_those_of_a_screen() -> None:
    ink = Image.new("CMYK", (32, 32), (0, 255, 255, 0))
    cleaned = good(encoded(ink))
    assert ("jpg", "RGB") == (cleaned.form, opened(cleaned.data).mode)
    assert RED == hue(opened(cleaned.data), 16, 16)


def test_grey_jpeg__stays_grey_and_the_same() -> None:
    raw = encoded(Image.linear_gradient("L"), quality=90, exif=camera().tobytes())
    cleaned = good(raw)
    assert cleaned.same
    assert "L" == opened(cleaned.data).mode
    assert np.array_equal(pixels(raw), pixels(cleaned.data))


def test_scan_in_tiff__becomes_png_with_every_pixel() -> None:
    grain = Image.effect_noise((60, 40), 80).convert("RGB")
    cleaned = good(encoded(grain, "TIFF"))
    assert "png" == cleaned.form
    assert np.array_equal(np.asarray(grain), np.asarray(opened(cleaned.data)))


def test_picture_of_a_telephone__becomes_a_jpeg_that_opens_anywhere() -> None:
    cleaned = good(encoded(corners(), "HEIF", quality=90, exif=camera(marker="QZ").tobytes()))
    assert "jpg" == cleaned.form
    assert b"QZ" not in cleaned.data
    assert (64, 32) == opened(cleaned.data).size


def test_cleaning_again__changes_nothing() -> None:
    once = good(encoded(corners(), icc_profile=p3_profile(), exif=camera().tobytes()))
    assert once == good(once.data)


@pytest.mark.parametrize(
    ("raw", "reason"),
    [
        (b"", "it is empty"),
        (b"no picture", "it cannot be read as a picture"),
        (encoded(Image.effect_noise((200, 200), 60))[:4000], "it is cut short"),
    ],
)
def test_what_is_no_picture__is_told_with_its_reason(raw: bytes, reason: str) -> None:
    assert Unreadable(reason) == clean(raw)


@given(st.data())
def test_damaged_picture__never_breaks_the_cleaning(data: st.DataObject) -> None:
    raw = bytearray(encoded(corners(), exif=camera().tobytes()))
    for _ in range(data.draw(st.integers(1, 4))):
        raw[data.draw(st.integers(0, len(raw) - 1))] = data.draw(st.integers(0, 255))
    clean(bytes(raw[: data.draw(st.integers(0, len(raw)))]))

"""Renditions: three widths without any metadata, and as good as another library would make them."""

import json
import subprocess
from pathlib import Path
from typing import Any

import cv2
import numpy as np
import pytest
from PIL import ImageCms, PngImagePlugin

from journal.pictures.derive import derive
from journal.pictures.forms import Unreadable
from journal.pictures.sizes import WIDTHS, Encoded, widths_for
from tests.pictures.images import camera, encoded, halves, opened
from tests.published import CONTENT

_PHOTOGRAPHS = tuple(sorted((CONTENT / "aldermoor-tern" / "photos").rglob("*.jpg")))[::12]


def _derived(data: bytes) -> tuple[Encoded, ...]:
    made = derive(data)
    assert not isinstance(made, Unreadable)
    return made


def test_renditions__are_webp_narrowest_first_and_one_jpeg_as_wide_as_the_widest() -> None:
    made = _derived(encoded(halves(2000, 1000)))
    assert [
        ("webp", 400, 200), ("webp", 800, 400), ("webp", 1600, 800), ("jpg", 1600, 800),
    ] == [(m.form, m.width, m.height) for m in made]  # fmt: skip
    for one in made:
        image = opened(one.data)
        assert {"webp": "WEBP", "jpg": "JPEG"}[one.form] == image.format
        assert (one.width, one.height) == image.size


@pytest.mark.parametrize(
    ("width", "widths"),
    [
        (300, (300,)), (400, (400,)), (470, (470,)), (480, (400, 480)), (820, (400, 820)),
        (960, (400, 800, 960)), (1600, (400, 800, 1600)), (4000, (400, 800, 1600)),
    ],
)  # fmt: skip
def test_widths__never_exceed_the_picture_and_are_never_almost_the_same(
    width: int, widths: tuple[int, ...]
) -> None:
    assert widths == widths_for(width)
    assert WIDTHS == (400, 800, 1600)


def _full_of_marks(form: str) -> bytes:
    """A file with a marker in every place where its form keeps words about a picture."""
    icc = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    how: dict[str, Any] = {"icc_profile": icc, "exif": camera(marker="MARKER")}
    if form == "JPEG":
        how |= {"comment": b"MARKER comment", "xmp": b"<x:xmpmeta>MARKER</x:xmpmeta>"}
    if form in ("WEBP", "HEIF"):
        how |= {"xmp": b"<x:xmpmeta>MARKER</x:xmpmeta>"}
    if form == "PNG":
        text = PngImagePlugin.PngInfo()
        text.add_text("Comment", "MARKER in the open")
        text.add_itxt("XML:com.adobe.xmp", "<x:xmpmeta>MARKER</x:xmpmeta>")
        how |= {"pnginfo": text}
    if form == "TIFF":
        how |= {"description": "MARKER", "artist": "MARKER", "software": "MARKER"}
    return encoded(halves(900, 600), form, **how)


# What exiftool tells of any file: of itself, of the file as a file, and how its pixels are laid out.
_NO_METADATA = {"SourceFile", "ExifTool", "File", "Composite"}
_LAYOUT = {
    "JFIF:JFIFVersion", "JFIF:ResolutionUnit", "JFIF:XResolution", "JFIF:YResolution",
    "RIFF:VP8Version", "RIFF:ImageWidth", "RIFF:ImageHeight", "RIFF:HorizontalScale",
    "RIFF:VerticalScale",
}  # fmt: skip


def _told_by_exiftool(folder: Path) -> list[str]:
    answer = subprocess.run(
        ["exiftool", "-json", "-G0", "-a", "-u", str(folder)],
        capture_output=True, check=True, text=True,
    ).stdout  # fmt: skip
    told = {key for file in json.loads(answer) for key in file}
    return sorted(k for k in told if k.split(":")[0] not in _NO_METADATA and k not in _LAYOUT)


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP", "TIFF", "HEIF"])
def test_metadata__is_gone_from_every_rendition(form: str, tmp_path: Path) -> None:
    data = _full_of_marks(form)
    assert b"MARKER" in data
    (tmp_path / f"original.{form.lower()}").write_bytes(data)
    # Exiftool must see what is to go, or its silence about the renditions would tell nothing.
    assert [] != _told_by_exiftool(tmp_path)
    renditions = tmp_path / "made"
    renditions.mkdir()
    for one in _derived(data):
        assert b"MARKER" not in one.data
        (renditions / f"{one.width}.{one.form}").write_bytes(one.data)
    assert [] == _told_by_exiftool(renditions)


def _likeness(one: np.ndarray, other: np.ndarray) -> float:
    """The structural similarity of two grey pictures, by the formula of Wang, Bovik, Sheikh and
    Simoncelli (2004), with their constants and their Gaussian window of 11 by 11, sigma 1.5."""
    a, b = one.astype(float), other.astype(float)

    def blurred(picture: np.ndarray) -> np.ndarray:
        return cv2.GaussianBlur(picture, (11, 11), 1.5)

    mean_a, mean_b = blurred(a), blurred(b)
    var_a, var_b = blurred(a * a) - mean_a**2, blurred(b * b) - mean_b**2
    both = blurred(a * b) - mean_a * mean_b
    c1, c2 = (0.01 * 255) ** 2, (0.03 * 255) ** 2
    top = (2 * mean_a * mean_b + c1) * (2 * both + c2)
    return float((top / ((mean_a**2 + mean_b**2 + c1) * (var_a + var_b + c2))).mean())


@pytest.mark.parametrize("file", _PHOTOGRAPHS, ids=lambda file: file.stem)
def test_renditions__look_like_those_of_another_library(file: Path) -> None:
    # OpenCV decodes, and averages over areas: no code in common with the way ours are made.
    original = cv2.imread(str(file), cv2.IMREAD_GRAYSCALE)
    assert original is not None
    for one in _derived(file.read_bytes()):
        ours = np.asarray(opened(one.data).convert("L"))
        theirs = cv2.resize(original, (one.width, one.height), interpolation=cv2.INTER_AREA)
        # 1 is the same picture; below 0.9 people see a difference (common practice, no source).
        assert _likeness(ours, theirs) > 0.93


def test_renditions__are_the_same_bytes_every_time() -> None:
    data = encoded(halves(900, 600))
    assert derive(data) == derive(data)

"""What is published of a photograph: upright, in two widths, in sRGB, and nothing but its pixels."""

import io
from pathlib import Path

import pytest
from PIL import Image, ImageCms

from journal.pictures.make import WIDTHS, make_pictures
from journal.pictures.published import Published
from journal.records.problem import Problem


def _made(tmp_path: Path, name: str, data: bytes) -> tuple[Published | None, list[Problem]]:
    (tmp_path / name).write_bytes(data)
    made, problems = make_pictures(tmp_path, {"p": name}, tmp_path / "out", "files", workers=1)
    return made.get("p"), problems


def _encoded(image: Image.Image, form: str = "JPEG", **how: object) -> bytes:
    out = io.BytesIO()
    image.save(out, form, **how)
    return out.getvalue()


def _plain(width: int = 2000, height: int = 1000) -> Image.Image:
    """A picture that is red on the left and blue on the right."""
    image = Image.new("RGB", (width, height), (200, 30, 30))
    image.paste((30, 30, 200), (width // 2, 0, width, height))
    return image


def _opened(tmp_path: Path, published: Published, which: int = -1) -> Image.Image:
    raw = (tmp_path / "out" / published.renditions[which].path).read_bytes()
    image = Image.open(io.BytesIO(raw))
    image.load()
    return image


def test_renditions__are_narrower_copies_with_the_size_they_say(tmp_path: Path) -> None:
    published, problems = _made(tmp_path, "a.jpg", _encoded(_plain()))
    assert [] == problems
    assert published is not None
    assert [(w, w // 2) for w in WIDTHS] == [(r.width, r.height) for r in published.renditions]
    for number, rendition in enumerate(published.renditions):
        assert (rendition.width, rendition.height) == _opened(tmp_path, published, number).size


def test_small_picture__is_never_enlarged(tmp_path: Path) -> None:
    published, _ = _made(tmp_path, "a.png", _encoded(_plain(300, 200), "PNG"))
    assert published is not None
    assert [(300, 200)] == [(r.width, r.height) for r in published.renditions]


def test_metadata__is_gone(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[0x010F] = "MARKER maker"  # Make
    exif.get_ifd(0x8825)[1] = "N"  # GPS latitude reference
    icc = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    raw = _encoded(_plain(), exif=exif, icc_profile=icc, comment=b"MARKER comment")
    assert b"MARKER" in raw
    published, _ = _made(tmp_path, "a.jpg", raw)
    assert published is not None
    for number, rendition in enumerate(published.renditions):
        assert b"MARKER" not in (tmp_path / "out" / rendition.path).read_bytes()
        image = _opened(tmp_path, published, number)
        assert {} == dict(image.getexif())
        assert not {"icc_profile", "comment", "exif", "xmp"} & set(image.info)


def test_orientation__is_applied(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[0x0112] = 6  # the camera was turned: the top of the scene is at the right of the pixels
    published, _ = _made(tmp_path, "a.jpg", _encoded(_plain(), exif=exif))
    assert published is not None
    assert (640, 1280) == (published.small.width, published.small.height)
    red, _, blue = _opened(tmp_path, published, 0).getpixel((320, 100))  # type: ignore[misc]
    assert red > 150 > blue


def test_name__tells_nothing_of_the_file(tmp_path: Path) -> None:
    published, _ = _made(tmp_path, "Mrs Harrow TD 58-0417.jpg", _encoded(_plain()))
    assert published is not None
    assert all("Harrow" not in r.path and "0417" not in r.path for r in published.renditions)


def test_transparency__becomes_white(tmp_path: Path) -> None:
    image = Image.new("RGBA", (700, 700), (0, 0, 0, 0))
    published, _ = _made(tmp_path, "a.png", _encoded(image, "PNG"))
    assert published is not None
    assert (255, 255, 255) == _opened(tmp_path, published, 0).getpixel((10, 10))


@pytest.mark.parametrize(
    ("form", "name"), [("WEBP", "a.webp"), ("TIFF", "a.tif"), ("PNG", "a.jpg")]
)
def test_formats__of_phones_and_scanners_are_read_whatever_their_name(
    tmp_path: Path, form: str, name: str
) -> None:
    published, problems = _made(tmp_path, name, _encoded(_plain(), form))
    assert [] == problems
    assert published is not None


@pytest.mark.parametrize(
    ("data", "reason"),
    [
        (b"", "it is empty"),
        (b"not a picture at all", "it cannot be read as a picture"),
        (_encoded(_plain())[:3000], "it cannot be read as a picture"),
    ],
    ids=["empty", "no picture", "cut short"],
)
def test_bad_file__costs_one_problem_with_its_name(
    tmp_path: Path, data: bytes, reason: str
) -> None:
    published, problems = _made(tmp_path, "bad.jpg", data)
    assert published is None
    assert [("bad.jpg", f"the picture cannot be shown: {reason}")] == [
        (p.place.path, p.message) for p in problems
    ]


def test_bomb__is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Image, "MAX_IMAGE_PIXELS", 1000)
    _, problems = _made(tmp_path, "bomb.png", _encoded(_plain(), "PNG"))
    told = "the picture cannot be shown: it is too large to be a photograph"
    assert [told] == [p.message for p in problems]

"""Pictures in the bag: every one that the reader is told of, whole, clean, and under a safe name."""

from hashlib import sha256
from pathlib import Path

import pytest

from journal.outputs.bag.pictures import Packed, pack_pictures, safe_path
from journal.outputs.bag.renamed import renamed
from journal.outputs.pictures import Means
from journal.readers import car_for
from journal.reading.content import read_content
from journal.records.carfile import CarFile
from journal.records.problem import Problem
from journal.words.vocabulary import Reader
from tests.pictures.images import camera, corners, encoded, opened
from tests.tern import put_content, put_file, sheet_text

SHEET = "tern/sheets/2024/2024-03-05-gearbox.md"
PHOTOS = "tern/photos/2024-03-05"


def a_car(root: Path, front: str, body: str = "", **photos: bytes) -> CarFile:
    put_content(root, **{SHEET: sheet_text(front, body)})
    for name, data in photos.items():
        put_file(root, f"{PHOTOS}/{name}", data)
    (car,) = read_content(root).cars
    return car_for(Reader.OWNER, car)


def pack(
    root: Path, car: CarFile, workers: int = 1
) -> tuple[dict[str, Packed], tuple[Problem, ...], Path]:
    target = root.parent / f"bag-{workers}"
    packed, problems = pack_pictures(car, root, target, Means(root.parent / "cache", workers))
    return {p.source: p for p in packed}, problems, target


def test_picture__lies_in_the_bag_in_full_size_with_both_hashes(tmp_path: Path) -> None:
    raw = encoded(corners(2000, 1200), exif=camera(marker="QZ").tobytes())
    car = a_car(tmp_path / "c", "photos: [one.jpg]", **{"one.jpg": raw})
    packed, problems, target = pack(tmp_path / "c", car)
    assert () == problems
    one = packed[f"{PHOTOS}/one.jpg"]
    data = (target / one.path).read_bytes()
    assert (2000, 1200) == opened(data).size
    assert b"QZ" not in data
    assert (sha256(raw).hexdigest(), sha256(data).hexdigest()) == (one.original, one.sha256)
    assert (f"{PHOTOS}/one.jpg", len(data), True) == (one.path, one.size, one.same)
    assert [one.path] == [
        p.relative_to(target).as_posix() for p in target.rglob("*") if p.is_file()
    ]


def test_picture_that_no_sheet_tells_of_or_the_reader_may_not_see__stays_out(
    tmp_path: Path,
) -> None:
    front = "photos: [one.jpg, {file: two.jpg, for: workshop}]"
    raw = encoded(corners())
    files = {f"{name}.jpg": raw for name in ("one", "two", "three")}
    packed, _, _ = pack(tmp_path / "c", a_car(tmp_path / "c", front, **files))
    assert [f"{PHOTOS}/one.jpg"] == list(packed)


def test_broken_picture__is_a_problem_and_not_the_end_of_the_bag(tmp_path: Path) -> None:
    files = {"a.jpg": b"no picture", "b.jpg": encoded(corners())}
    car = a_car(tmp_path / "c", "photos: [a.jpg, b.jpg]", **files)
    packed, problems, target = pack(tmp_path / "c", car)
    assert [f"{PHOTOS}/b.jpg"] == list(packed)
    (problem,) = problems
    assert (f"{PHOTOS}/a.jpg", "bad-picture") == (problem.place.path, problem.code)
    assert "the picture is not in the bag: it cannot be read as a picture" == problem.message
    assert ["b.jpg"] == [p.name for p in target.rglob("*") if p.is_file()]


def test_pictures__are_the_same_whoever_does_the_work(tmp_path: Path) -> None:
    files = {f"{n}.jpg": encoded(corners(64 + n, 32)) for n in range(6)}
    files["7.jpg"] = b"no picture"
    car = a_car(tmp_path / "c", f"photos: [{', '.join(files)}]", **files)
    alone, several = pack(tmp_path / "c", car), pack(tmp_path / "c", car, workers=2)
    assert alone[:2] == several[:2]
    for one in alone[0].values():
        assert (alone[2] / one.path).read_bytes() == (several[2] / one.path).read_bytes()


@pytest.mark.parametrize(
    ("path", "form", "safe"),
    [
        ("tern/photos/2024-03-05/laygear-1.jpg", "jpg", "tern/photos/2024-03-05/laygear-1.jpg"),
        ("tern/photos/2024-03-05/IMG_0001.JPG", "jpg", "tern/photos/2024-03-05/IMG_0001.JPG"),
        ("tern/photos/2024-03-05/phone.heic", "jpg", "tern/photos/2024-03-05/phone.jpg"),
        ("tern/papers/scan.tif", "png", "tern/papers/scan.png"),
    ],
)
def test_name__stays_where_it_is_safe_and_tells_what_the_file_is(
    path: str, form: str, safe: str
) -> None:
    assert safe == safe_path(path, form)


@pytest.mark.parametrize(
    "name", ["con.jpg", "a:b.jpg", "über uns?.jpg", "trailing .jpg", ".. .jpg"]
)
def test_name_that_some_system_refuses__is_made_anew(name: str) -> None:
    # Names that Windows refuses: devices, these signs, a blank at the end (common practice, no source).
    made = safe_path(f"tern/photos/{name}", "jpg").rpartition("/")[2]
    assert made.isascii()
    assert not set(made) & set(' <>:"|?*\\')
    assert made.endswith(".jpg")
    assert name != made


def test_two_pictures_that_would_have_one_name__get_two(tmp_path: Path) -> None:
    files = {
        "a.jpg": encoded(corners()),
        "a.heic": encoded(corners(), "HEIF"),
        "A.jpg": encoded(corners(32, 64)),
    }
    car = a_car(tmp_path / "c", "photos: [a.jpg, a.heic, A.jpg]", **files)
    packed, _, _ = pack(tmp_path / "c", car)
    assert 3 == len({p.path.casefold() for p in packed.values()})


def test_sheets__call_the_pictures_as_they_lie_in_the_bag(tmp_path: Path) -> None:
    body = (
        "See ![teeth](phone one.heic) and ![again](<phone one.heic>), ![code](phone%20one.heic).\n"
    )
    body = body.replace("](phone one.heic)", "](phone%20one.heic)", 1)
    files = {"phone one.heic": encoded(corners(), "HEIF"), "b.jpg": encoded(corners())}
    car = a_car(tmp_path / "c", 'photos: ["phone one.heic", b.jpg]', body, **files)
    packed, _, target = pack(tmp_path / "c", car)
    called = renamed(car, packed.values())
    (sheet,) = called.sheets
    first, second = sheet.front.photos
    assert "b.jpg" == second.file
    assert (target / PHOTOS / first.file).is_file()
    assert f"See ![teeth]({first.file}) and ![again]({first.file}), ![code]({first.file})." == (
        sheet.body[0].text
    )
    assert {f"2024-03-05/{p.file}" for p in sheet.front.photos} == called.photo_files

"""A whole content folder: what is broken costs itself alone, and is told once."""

import os
from pathlib import Path

import pytest

from journal.outputs.findings import problems_of
from journal.reading.content import car_names, read_content
from journal.records.carfile import Content
from tests.tern import SHEET, put_content, put_file, sheet_text

DAYS = "tern/sheets/2024"


def _codes(content: Content) -> list[tuple[str, int, str]]:
    return [(p.place.path, p.place.line, p.code) for p in problems_of(content)]


def _read(root: Path, **overlay: str) -> Content:
    return read_content(put_content(root, **overlay))


def test_content__is_the_workshop_and_its_cars(tmp_path: Path) -> None:
    content = _read(tmp_path, **{f"{DAYS}/2024-03-05-a.md": sheet_text()})
    assert [] == _codes(content)
    (car,) = content.cars
    assert ("tern", ["2024-03-05-a"]) == (car.name, [s.name for s in car.sheets])
    assert frozenset({"2024-03-05/laygear.jpg"}) == car.photo_files
    keys = ["gearbox/laygear", "gearbox/front-bearing", "brakes/pipes", "brightwork/front-bumper"]
    assert keys == [c.key for c in car.register.components]


def test_broken_sheet__costs_that_sheet_alone(tmp_path: Path) -> None:
    good = {f"{DAYS}/2024-03-0{n}-a.md": sheet_text(date=f"2024-03-0{n}") for n in (4, 5, 7)}
    content = _read(tmp_path, **good, **{f"{DAYS}/2024-03-06-a.md": "---\ndate: [\n---\n"})
    assert ["2024-03-04-a", "2024-03-05-a", "2024-03-07-a"] == [
        s.name for s in content.cars[0].sheets
    ]
    assert [(f"{DAYS}/2024-03-06-a.md", 2, "bad-yaml")] == _codes(content)


def test_sheet_with_a_broken_line__is_there_and_known_to_be_read_in_part(tmp_path: Path) -> None:
    broken = SHEET.replace("gearbox", "broken")
    content = _read(tmp_path, **{SHEET: sheet_text(), broken: sheet_text("hours: {MT: x}")})
    (car,) = content.cars
    assert (2, {"2024-03-05-broken"}) == (len(car.sheets), set(car.partly))
    assert not car.unread


def test_broken_car_file__costs_that_car_alone(tmp_path: Path) -> None:
    other = {"plover/register.yaml": "components: {}\n", "plover/car.yaml": "name: [\n"}
    content = _read(tmp_path, **other)
    assert ["tern"] == [car.name for car in content.cars]
    assert [("plover/car.yaml", 1, "bad-yaml")] == _codes(content)


def test_broken_workshop__leaves_nothing_to_read_and_is_told(tmp_path: Path) -> None:
    content = _read(tmp_path, **{"workshop.yaml": "name: Saltmarsh Lane\n"})
    assert content.workshop is None
    assert () == content.cars
    assert [("workshop.yaml", 1, "missing-key")] == _codes(content)


def test_two_sheets_of_a_day__are_in_order_of_their_names(tmp_path: Path) -> None:
    names = ("2024-03-05-b", "2024-03-05-a", "2024-03-04-z")
    content = _read(tmp_path, **{f"{DAYS}/{name}.md": sheet_text(date=name[:10]) for name in names})
    assert ["2024-03-04-z", "2024-03-05-a", "2024-03-05-b"] == [
        s.name for s in content.cars[0].sheets
    ]


def test_sheets__may_lie_in_any_folder_below_sheets(tmp_path: Path) -> None:
    content = _read(
        tmp_path,
        **{
            "tern/sheets/2024-03-05-a.md": sheet_text(),
            "tern/sheets/x/y/2024-03-05-b.md": sheet_text(),
        },
    )
    assert [] == _codes(content)
    assert 2 == len(content.cars[0].sheets)


def test_hidden_files_and_folders__are_not_read(tmp_path: Path) -> None:
    root = put_content(tmp_path)
    for path in (".tern.staging/car.yaml", "tern/sheets/.a.md.swp", "tern/sheets/.trash/a.md",
                 "tern/photos/.thumbs/a.jpg"):  # fmt: skip
        put_file(root, path, b"x")
    content = read_content(root)
    assert [] == _codes(content)
    assert ("tern",) == car_names(root)
    assert frozenset({"2024-03-05/laygear.jpg"}) == content.cars[0].photo_files


@pytest.mark.skipif(not hasattr(os, "symlink"), reason="no links here")
def test_link_that_leads_out_of_the_content__is_not_followed(tmp_path: Path) -> None:
    root = put_content(tmp_path / "content")
    put_file(tmp_path, "outside/private.jpg", b"x")
    put_file(tmp_path, "outside/2024-03-06-x.md", sheet_text(date="2024-03-06").encode())
    (root / "tern/photos/2024-03-05/out.jpg").symlink_to(tmp_path / "outside/private.jpg")
    (root / "tern/sheets").mkdir()
    (root / "tern/sheets/out").symlink_to(tmp_path / "outside")
    (root / "tern/sheets/2024-03-06-x.md").symlink_to(tmp_path / "outside/2024-03-06-x.md")
    (car,) = read_content(root).cars
    assert frozenset({"2024-03-05/laygear.jpg"}) == car.photo_files
    assert () == car.sheets


def test_photo_by_a_path_that_climbs_out__is_unknown(tmp_path: Path) -> None:
    front = "photos:\n  - ../../../workshop.yaml\n  - /etc/hostname\n  - 2024-03-05/../2024-03-05/laygear.jpg"
    content = _read(tmp_path, **{f"{DAYS}/2024-03-05-a.md": sheet_text(front)})
    assert [(5, "unknown-photo"), (6, "unknown-photo"), (7, "unknown-photo")] == [
        (line, code) for _, line, code in _codes(content)
    ]


WORK = sheet_text("work: {gearbox/laygear: removed}\npapers: factory-record")


@pytest.mark.parametrize(
    ("path", "text", "told"),
    [
        ("tern/register.yaml", "components: [\n", (1, "bad-yaml")),
        ("tern/register.yaml", "- laygear\n", (1, "wrong-shape")),
        ("tern/register.yaml", "components:\n  gearbox:\n    laygear: frist-fit\n", (3, "bad-word")),
        ("tern/register.yaml", "components:\n  gearbox:\n    laygear:\n", (3, "empty-entry")),
        ("tern/papers/papers.yaml", "papers: {{\n", (1, "bad-yaml")),
        ("tern/papers/papers.yaml", "papers:\n  factory-record: {kind: x}\n", (2, "missing-key")),
        ("tern/papers/papers.yaml", "papers:\n  factory-record: x\n", (2, "wrong-shape")),
    ],
)  # fmt: skip
def test_mistake_in_a_list_of_names__is_not_told_again_wherever_a_name_is_used(
    tmp_path: Path, path: str, text: str, told: tuple[int, str]
) -> None:
    content = _read(tmp_path, **{path: text, f"{DAYS}/2024-03-05-a.md": WORK})
    assert [(path, *told)] == _codes(content)


def test_no_papers_file__leaves_papers_unknown(tmp_path: Path) -> None:
    put_content(tmp_path, **{f"{DAYS}/2024-03-05-a.md": WORK})
    (tmp_path / "tern/papers/papers.yaml").unlink()
    assert [(f"{DAYS}/2024-03-05-a.md", 5, "unknown-paper")] == _codes(read_content(tmp_path))


def test_reading__changes_nothing_in_the_content(tmp_path: Path) -> None:
    root = put_content(tmp_path, **{f"{DAYS}/2024-03-05-a.md": WORK})

    def state() -> dict[str, tuple[bytes, int]]:
        files = (p for p in root.rglob("*") if p.is_file())
        return {str(p): (p.read_bytes(), p.stat().st_mtime_ns) for p in files}

    before = state()
    problems_of(read_content(root))
    assert before == state()

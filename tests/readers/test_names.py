"""Names that tell a number or a person: pages and their places are called otherwise for the public."""

from typing import Any

import pytest
from msgspec.structs import replace

from journal.readers import car_for
from journal.records.carfile import CarFile
from journal.records.sheet import Block, Sheet
from journal.words.vocabulary import Reader
from tests.writing import a_car, a_sheet

NUMBERS = {"chassis": {"found": "TD 58/0417"}, "body": {"found": "41"}}
OWNER = {"name": "Mrs Eleanor Harrow", "address": "Pound House, Little Ebbing"}


def _seen(*sheets: Sheet, register: dict[str, Any] | None = None, **car: Any) -> CarFile:
    parts = register or {"hood/frame": "first-fit"}
    return car_for(Reader.PUBLIC, a_car(parts, sheets, numbers=NUMBERS, owner=OWNER, **car))


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("pipes-made", "pipes-made"),
        ("mrs-harrow-looks-in", "looks-in"),
        ("harrowing-day", "harrowing-day"),
        ("the-harrows-came", "the-came"),
        ("eleanor-harrow", "day-sheet"),
        ("eleanor", "day-sheet"),
        ("birkett-on-holiday", "on-holiday"),
        ("jb-on-holiday", "on-holiday"),
        ("td-58-0417-found", "found"),
        ("td580417-found", "found"),
        ("t-d-5-8-0417", "day-sheet"),
        ("plate-reads-0417", "plate-reads"),
        ("0417-04-17", "04-17"),
        ("41-bolts", "41-bolts"),
        ("northgate-late", "late"),
        ("to-little-ebbing", "to"),
        ("quiet-lane-trimmers", "day-sheet"),
    ],
)
def test_sheet__is_called_without_what_its_name_tells(name: str, told: str) -> None:
    (sheet,) = _seen(a_sheet("2024-03-05", name=name)).sheets
    assert f"2024-03-05-{told}" == sheet.name


def test_sheet__without_a_title_has_it_from_its_new_name() -> None:
    plain, titled = _seen(
        a_sheet("2024-03-05", name="mrs-harrow-looks-in"),
        a_sheet("2024-03-06", name="harrow-again", title="Again"),
    ).sheets
    assert ("Looks in", "Again") == (plain.title, titled.title)


def test_sheets__of_one_day_whose_new_names_are_the_same_are_told_apart() -> None:
    sheets = [a_sheet("2024-03-05", name=name) for name in ("harrow-in", "in", "jonah-in")]
    seen = _seen(*sheets)
    assert ["2024-03-05-in-2", "2024-03-05-in", "2024-03-05-in-3"] == [s.name for s in seen.sheets]
    assert 3 == len({s.source.path for s in seen.sheets})


def test_links__lead_to_the_new_name() -> None:
    first = a_sheet("2024-03-05", name="mrs-harrow-looks-in")
    body = "See [there](2024-03-05-mrs-harrow-looks-in), [and](2024-03-05-mrs-harrow-looks-in.md)."
    later = a_sheet("2024-03-06", body=body, corrects="2024-03-05-mrs-harrow-looks-in")
    sheet = _seen(first, later).sheets[1]
    assert "See [there](2024-03-05-looks-in), [and](2024-03-05-looks-in.md)." == sheet.body[0].text
    assert ["2024-03-05-looks-in"] == [c.sheet for c in sheet.front.corrects]


def test_names_of_entries__are_called_otherwise_wherever_they_are_named() -> None:
    key = "papers/td-58-0417-plate"
    sheet = a_sheet(
        "2024-03-05", work={key: {"did": "cleaned", "part": "harrow-rivets", "paper": "eleanors-book"}},
        parts={"harrow-rivets": {"of": key}}, papers="eleanors-book",
        snags={"ask-jonah": {"raise": "x", "for": "public"}},
        measured={"TD 58/0417 height": {"on": key, "read": "1", "unit": "mm"}},
        photos=[{"file": "a.jpg", "of": [key, "hood/frame"]}],
    )  # fmt: skip
    seen = _seen(
        sheet, register={key: "first-fit", "hood/frame": "first-fit"},
        papers={"eleanors-book": {"title": "Book", "for": "public"}},
    )  # fmt: skip
    front = seen.sheets[0].front
    assert ["papers/plate", "hood/frame"] == [c.key for c in seen.register.components]
    assert ["papers/plate"] == list(front.work.names())
    work = front.work.get("papers/plate")
    assert work is not None
    assert ("rivets", ("book",)) == (work.part, work.paper)
    assert [("rivets", ("papers/plate",))] == [(n, p.of) for n, p in front.parts]
    assert (("book",), ("ask",)) == (front.papers, front.snags.names())
    assert [("TD 58/0••• height", "papers/plate")] == [(n, m.on) for n, m in front.measured]
    assert ("papers/plate", "hood/frame") == front.photos[0].of
    assert ("book",) == seen.papers.names()


def test_component__without_a_name_has_it_from_its_new_one() -> None:
    seen = _seen(register={"papers/harrow-folder": "first-fit"})
    assert ["Folder"] == [c.label for c in seen.register.components]


def test_names_of_ours__stay_whoever_is_called_so() -> None:
    sheet = a_sheet("2024-03-05", proving={"chassis/welds": "good", "hood/frame": "in"})
    car = a_car(
        {}, [sheet], workshop={"name": "W", "hands": {"RH": "Robin Hood", "OW": "Olga Welds"}}
    )
    assert ("chassis/welds", "hood/frame") == car_for(Reader.PUBLIC, car).sheets[
        0
    ].front.proving.names()


def test_photograph__with_a_telling_file_name_is_still_set_in_its_text() -> None:
    body = "Here ![the plate](td-58-0417.jpg) of TD 58/0417."
    sheet = a_sheet("2024-03-05", body=body, photos=["td-58-0417.jpg"])
    told = _seen(sheet, photos=["2024-03-05/td-58-0417.jpg"]).sheets[0]
    assert "Here ![the plate](td-58-0417.jpg) of TD 58/0•••." == told.body[0].text
    assert ["td-58-0417.jpg"] == [photo.file for photo in told.front.photos]


def test_owner__has_all_names_as_they_were_written() -> None:
    car = a_car({}, [a_sheet("2024-03-05", name="td-58-0417")], numbers=NUMBERS, owner=OWNER)
    assert ["2024-03-05-td-58-0417"] == [s.name for s in car_for(Reader.OWNER, car).sheets]


def test_name_of_another_car__is_left_out_too() -> None:
    other = replace(a_car({}, [], owner={"name": "Mr Daniel Pennock"}), name="lapwing")
    car = a_car({}, [replace(a_sheet("2024-03-05", name="daniel-pennock-came"), body=())])
    assert ["2024-03-05-came"] == [s.name for s in car_for(Reader.PUBLIC, car, [other]).sheets]


def test_sheet__is_the_same_block_for_block() -> None:
    sheet = replace(
        a_sheet("2024-03-05", name="harrow"),
        body=(Block(Reader.PUBLIC, "One.", 7), Block(Reader.OWNER, "Two.", 9)),
    )
    assert [Block(Reader.PUBLIC, "One.", 7)] == list(_seen(sheet).sheets[0].body)

"""Who sees what. What a reader may not see is not in the car file that pages are made from."""

from collections.abc import Iterator
from typing import Any

import pytest
from msgspec import Struct
from msgspec.structs import replace
from pydantic import BaseModel

from journal.readers import car_for
from journal.readers.numbers import mask_number
from journal.readers.rules import SEEN
from journal.records.car import Car
from journal.records.fields import Named
from journal.records.goods import OutworkLine, PartLine
from journal.records.sections import Measured
from journal.records.sheet import Block, Photo
from journal.records.work import Work
from journal.words.vocabulary import Reader
from tests.readers.a_record import PART, PHOTOS, car_with
from tests.writing import WORKSHOP, a_car, a_sheet


def _front(reader: Reader, **front: Any) -> Any:
    return car_for(reader, car_with(**front)).sheets[0].front


def test_workshop__sees_everything() -> None:
    car = car_with()
    assert car is car_for(Reader.WORKSHOP, car)


@pytest.mark.parametrize("reader", [Reader.OWNER, Reader.KEEPER, Reader.PUBLIC])
def test_lists__name_only_fields_that_there_are(reader: Reader) -> None:
    for record, seen in SEEN[reader].items():
        assert set() == seen - set(record.model_fields), record.__name__


@pytest.mark.parametrize("reader", [Reader.OWNER, Reader.KEEPER, Reader.PUBLIC])
def test_a_field_that_is_not_listed__comes_back_as_never_written(reader: Reader) -> None:
    work = {"brakes/pipes": {"did": "fitted", "now": "pattern", "note": "n", "checked": "JB",
            "decided": {"by": "owner", "on": "2024-01-01"}, "was": "pattern"}}  # fmt: skip
    full = car_with(
        work=work, parts={"cylinder": PART}, hours={"MT": "2"},
        outwork={"plating": {"sent": "2", "cost": "20", "note": "late again"}},
        measured={"bore": {"read": "1", "unit": "mm", "limit": {"most": "2"}, "note": "n"}},
        snags={"a": {"raise": "x", "by": "MT", "ask": "owner", "for": "public"}},
        photos=["a.jpg"], corrects="2023-12-31-day",
    )  # fmt: skip
    car = car_for(reader, full)
    met: set[type[BaseModel]] = set()
    for record in _records(car):
        met.add(type(record))
        for name, field in type(record).model_fields.items():
            if name not in SEEN[reader].get(type(record), frozenset()):
                value = getattr(record, name)
                default = None if field.is_required() else field.get_default()
                assert value == default or not value or isinstance(value, BaseModel), name
    assert {Car, Work, PartLine, OutworkLine, Measured, Photo} <= met


def _records(value: object) -> Iterator[BaseModel]:
    """Every record within a value, at any depth."""
    if isinstance(value, BaseModel):
        yield value
        for name in type(value).model_fields:
            yield from _records(getattr(value, name))
    elif isinstance(value, Named):
        for _, entry in value:
            yield from _records(entry)
    elif isinstance(value, tuple):
        for entry in value:
            yield from _records(entry)
    elif isinstance(value, Struct):
        for name in value.__struct_fields__:
            yield from _records(getattr(value, name))


def test_sheet_for_the_workshop__is_not_there_for_anyone_else() -> None:
    car = car_with(for_="workshop")
    assert 1 == len(car_for(Reader.WORKSHOP, car).sheets)
    assert () == car_for(Reader.OWNER, car).sheets
    assert () == car_for(Reader.PUBLIC, car).sheets


def test_sheet_for_the_owner__is_not_there_for_the_public() -> None:
    car = car_with(for_="owner")
    assert 1 == len(car_for(Reader.OWNER, car).sheets)
    assert () == car_for(Reader.PUBLIC, car).sheets


@pytest.mark.parametrize(
    ("reader", "told"),
    [
        (Reader.OWNER, ["story", "for who has it next", "for you"]),
        (Reader.KEEPER, ["story", "for who has it next"]),
        (Reader.PUBLIC, ["story"]),
    ],
)
def test_blocks__are_there_for_their_readers_alone(reader: Reader, told: list[str]) -> None:
    car = car_with()
    blocks = (
        Block(Reader.PUBLIC, "story", 9),
        Block(Reader.KEEPER, "for who has it next", 10),
        Block(Reader.OWNER, "for you", 11),
        Block(Reader.WORKSHOP, "between us", 15),
    )
    car = replace(car, sheets=(replace(car.sheets[0], body=blocks),))
    assert told == [b.text for b in car_for(reader, car).sheets[0].body]


def test_what_says_for_the_owner__is_not_the_next_keepers() -> None:
    car = car_with(snags={"a": {"raise": "pin missing"}, "b": {"raise": "bill", "for": "owner"}})
    keeper = car_for(Reader.KEEPER, car)
    # Papers and snags are handed on unless they say otherwise.
    assert ("a",) == keeper.sheets[0].front.snags.names()
    assert ("record", "letter") == keeper.papers.names()
    assert () == car_for(Reader.KEEPER, car_with(for_="owner")).sheets


def test_lines_of_the_file__are_the_workshops() -> None:
    for reader in (Reader.OWNER, Reader.KEEPER, Reader.PUBLIC):
        car = car_for(reader, car_with())
        sources = (car.source, car.register.source, car.papers_source, car.sheets[0].source)
        assert [(), (), (), ()] == [source.lines for source in sources]


def test_part__the_owner_sees_where_it_came_from_and_not_the_grumble() -> None:
    part = _front(Reader.OWNER, parts={"cylinder": PART}).parts.get("cylinder")
    assert "northgate" == part.from_
    assert part.price is not None
    assert (None, None) == (part.why, part.note)


def test_part__the_public_sees_neither_money_nor_supplier() -> None:
    part = _front(Reader.PUBLIC, parts={"cylinder": PART}).parts.get("cylinder")
    assert "Cylinder" == part.what
    assert (None, None, None, None) == (part.price, part.from_, part.why, part.note)


def test_supplier__kept_by_the_workshop_is_not_named_to_the_owner() -> None:
    quiet = {"seat": {"from": "quiet-lane", "what": "Hide"}}
    car = car_for(Reader.OWNER, car_with(parts=quiet))
    part = car.sheets[0].front.parts.get("seat")
    assert part is not None
    assert part.from_ is None
    assert ("northgate",) == car.workshop.suppliers.names()


def test_rates__are_known_to_the_owner_who_pays_them() -> None:
    hands = car_for(Reader.OWNER, car_with()).workshop.hands
    assert ["Margit Tolland", "Jonah Birkett"] == [hand.name for _, hand in hands]
    assert 0 == len(car_for(Reader.PUBLIC, car_with()).workshop.hands)


# What names a thing that a reader does not see


def test_thing_that_is_not_seen__is_not_named_either() -> None:
    work = {"brakes/pipes": {"did": "fitted", "part": "gift", "paper": ["letter", "record"]}}
    private = a_sheet("2024-01-01", name="money", for_="workshop")
    sheet = a_sheet(
        "2024-01-02", work=work, papers=["letter", "record"], corrects="2024-01-01-money",
        parts={"gift": {"what": "A gift", "for": "workshop"}},
    )  # fmt: skip
    register = {"brakes/pipes": {"as-found": "first-fit", "paper": ["record", "letter"]}}
    papers = {
        "letter": {"title": "L", "for": "workshop"},
        "record": {"title": "R", "for": "public"},
    }
    car = a_car(register, [private, sheet], papers=papers)
    for reader in (Reader.OWNER, Reader.KEEPER, Reader.PUBLIC):
        seen = car_for(reader, car)
        front = seen.sheets[0].front
        line = front.work.get("brakes/pipes")
        assert line is not None
        assert (None, ("record",)) == (line.part, line.paper)
        assert (("record",), ()) == (front.papers, front.corrects)
        assert ("record",) == seen.register.components[0].line.paper


# Persons


def test_public__meets_no_person() -> None:
    work = {"brakes/pipes": {"did": "fitted", "decided": "MT", "checked": "JB"}}
    car = car_for(Reader.PUBLIC, car_with(hours={"MT": "2", "JB": "1.5"}, work=work))
    front = car.sheets[0].front
    hours = [(hand, line.hours) for _, hands in front.hours for hand, (line,) in hands]
    assert [("", 3.5)] == [(hand, float(h)) for hand, h in hours]
    line = front.work.get("brakes/pipes")
    assert line is not None
    assert line.decided is not None
    assert ("workshop", None) == (line.decided.by, line.checked)
    assert () == car.workshop.hands.names()
    assert "" == car.car.owner.name


def test_public__persons_named_in_the_text_are_not_named() -> None:
    car = car_with()
    text = "Mrs Harrow rang. JB held the drum for Margit Tolland; northgate gears were late."
    car = replace(car, sheets=(replace(car.sheets[0], body=(Block(Reader.PUBLIC, text, 9),)),))
    told = "The owner rang. A colleague held the drum for a colleague; a supplier were late."
    assert told == car_for(Reader.PUBLIC, car).sheets[0].body[0].text
    assert text == car_for(Reader.OWNER, car).sheets[0].body[0].text


# Numbers


def test_number__is_masked_by_its_last_characters() -> None:
    assert "TD 58/0•••" == mask_number("TD 58/0417")
    assert "D 0•••" == mask_number("D 0398")
    assert "••" == mask_number("41")


def test_public__numbers_are_masked_wherever_they_stand() -> None:
    work = {
        "papers/chassis-plate": {
            "did": "cleaned",
            "number": "TD 58/0417",
            "found": "reads td58-0417",
        }
    }
    car = car_for(Reader.PUBLIC, car_with(work=work, title="TD 58/0417 and SVX 417"))
    line = car.sheets[0].front.work.get("papers/chassis-plate")
    assert line is not None
    assert ("TD 58/0•••", "reads td58-0•••") == (line.number, line.found)
    assert "TD 58/0••• and SVX •••" == car.sheets[0].front.title
    assert ["TD 58/0•••"] == [n.found for _, n in car.car.numbers]
    assert ["TD 58/0•••"] == [v for _, p in car.papers for _, v in p.numbers]
    assert car.car.plate is None


def test_owner__sees_the_numbers_of_the_car() -> None:
    assert ["TD 58/0417"] == [n.found for _, n in car_for(Reader.OWNER, car_with()).car.numbers]


# Photographs, papers, snags


def test_photographs__go_with_their_readers() -> None:
    photos = [
        "a.jpg",
        {"file": "plate.jpg", "of": "papers/chassis-plate"},
        {"file": "owner.jpg", "for": "owner"},
    ]
    assert set(PHOTOS) == car_for(Reader.OWNER, car_with(photos=photos)).photo_files
    public = car_for(Reader.PUBLIC, car_with(photos=photos))
    assert {"2024-01-01/a.jpg"} == public.photo_files
    assert ["a.jpg"] == [p.file for p in public.sheets[0].front.photos]


def test_cover__is_seen_by_those_who_see_its_sheet() -> None:
    photos = [{"file": "owner.jpg", "for": "owner"}]
    car = car_with(photos=photos)
    covered = car.car.model_copy(update={"cover": "2024-01-01/owner.jpg"})
    car = replace(car, car=covered)
    assert "2024-01-01/owner.jpg" == car_for(Reader.OWNER, car).car.cover
    assert car_for(Reader.PUBLIC, car).car.cover is None


def test_papers__are_the_owners_unless_marked() -> None:
    assert ("record", "letter") == car_for(Reader.OWNER, car_with()).papers.names()
    assert ("record",) == car_for(Reader.PUBLIC, car_with()).papers.names()


def test_scan__that_shows_a_number_or_a_keeper_is_not_the_publics() -> None:
    papers = {
        "card": {"title": "Card", "file": "card.jpg", "numbers": {"chassis": "TD 58/0417"}, "for": "public"},
        "book": {"title": "Book", "file": "book.jpg", "keepers": ["Mr Edwin Lathom"], "for": "public"},
        "test": {"title": "Test", "file": "test.jpg", "registration": "SVX 417", "for": "public"},
        "view": {"title": "View", "file": "view.jpg", "for": "public"},
    }  # fmt: skip
    car = replace(a_car({}, papers=papers), paper_files=frozenset(f"{n}.jpg" for n in papers))
    public = car_for(Reader.PUBLIC, car)
    assert [None, None, None, "view.jpg"] == [paper.file for _, paper in public.papers]
    assert {"view.jpg"} == public.paper_files
    assert car.paper_files == car_for(Reader.OWNER, car).paper_files


def test_snags__are_not_the_publics_unless_marked() -> None:
    snags = {
        "a": {"raise": "pin missing"},
        "b": {"raise": "rattle", "for": "public"},
        "c": {"raise": "bill unpaid", "for": "workshop"},
    }
    assert ("a", "b") == _front(Reader.OWNER, snags=snags).snags.names()
    assert ("b",) == _front(Reader.PUBLIC, snags=snags).snags.names()


def test_brief_and_estimate__are_between_owner_and_workshop() -> None:
    assert "A car for long summers." == car_for(Reader.OWNER, car_with()).car.brief
    public = car_for(Reader.PUBLIC, car_with()).car
    assert (None, 0) == (public.brief, len(public.estimate))


# Extras, titles, what could not be read


def test_extras__for_the_workshop_are_not_the_owners() -> None:
    extras = {
        "lamps": {"what": "Lamps", "decided": "owner"},
        "margin": {"what": "Margin", "decided": "workshop", "for": "workshop"},
    }
    assert ("lamps",) == _front(Reader.OWNER, extras=extras).extras.names()
    assert 0 == len(_front(Reader.PUBLIC, extras=extras).extras)


def test_sheet__whose_file_name_tells_a_number_is_called_otherwise_for_the_public() -> None:
    car = car_with()
    car = replace(car, sheets=(replace(car.sheets[0], name="2024-01-01-td-58-0417-found"),))
    (public,) = car_for(Reader.PUBLIC, car).sheets
    assert ("2024-01-01-found", "Found") == (public.name, public.title)
    (owner,) = car_for(Reader.OWNER, car).sheets
    assert ("2024-01-01-td-58-0417-found", "Td 58 0417 found") == (owner.name, owner.title)


def test_labels_of_the_workshops_own__are_masked_and_its_name_is_not() -> None:
    own = {"proving": {"brakes/seal": "As Jonah Birkett likes"}}
    car = a_car({}, workshop={**WORKSHOP, "name": "Birkett and Tolland", **own})
    shop = car_for(Reader.PUBLIC, car).workshop
    assert "Birkett and Tolland" == shop.name
    assert ["As a colleague likes"] == [proof.label for _, proof in shop.proving]


@pytest.mark.parametrize("reader", list(Reader))
def test_sheets_that_could_not_be_read__are_known_to_every_reckoning(reader: Reader) -> None:
    car = replace(car_with(), unread=frozenset({"a"}), partly=frozenset({"b"}))
    assert ({"a"}, {"b"}) == (car_for(reader, car).unread, car_for(reader, car).partly)

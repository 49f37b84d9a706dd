"""Provenance as W3C PROV: loaded by the library `prov`, and counted by hand from a small car."""

import json
import re
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import given
from prov.model import ProvDocument

from journal.ledgers.originality.fold import fold_originality
from journal.outputs.bag.identity import car_urn
from journal.outputs.bag.items import story_of
from journal.outputs.bag.prov import prov_json
from journal.pages.view import CarView, view_of
from journal.readers import car_for
from journal.reading.content import read_content
from journal.records.carfile import CarFile
from journal.words.vocabulary import Origin, Reader
from tests.ledgers.histories import fold_one, worked
from tests.ledgers.test_laws import cars
from tests.published import CONTENT
from tests.tern import put_content, sheet_text

# Four components: two of the gearbox, brake pipes, and a bumper that is absent.
SHEETS = {
    "tern/sheets/2024/2024-03-05-apart.md": sheet_text(
        """\
hours: {MT: 2}
work:
  gearbox/laygear: {did: inspected, found: pitted}
  gearbox/front-bearing: {did: cleaned, checked: JB}
"""
    ),
    "tern/sheets/2024/2024-03-06-new-gear.md": sheet_text(
        """\
hours: {MT: 3}
parts: {gear: {from: northgate, of: gearbox/laygear, ordered: 2024-03-05, got: 1}}
work:
  gearbox/laygear:
    {now: pattern, original: scrapped, part: gear, decided: owner, why: pitted}
  brakes/pipes: {now: made, came-off: shelf B}
""",
        date="2024-03-06",
    ),
    "tern/sheets/2024/2024-03-07-plating.md": sheet_text(
        "outwork: {brackets: {what: for zinc, to: ravensdyke, of: gearbox/front-bearing, sent: 1}}",
        date="2024-03-07",
    ),
    "tern/sheets/2024/2024-03-11-back.md": sheet_text(
        "outwork: {brackets: {back: 1, finish: zinc}}", date="2024-03-11"
    ),
}


def view_in(root: Path, reader: Reader = Reader.OWNER, name: str = "tern") -> CarView:
    cars = read_content(root).cars
    car = next(car for car in cars if car.name == name)
    seen = car_for(reader, car, tuple(other for other in cars if other is not car))
    return view_of(seen, reader, pictures={})


@pytest.fixture
def view(tmp_path: Path) -> CarView:
    return view_in(put_content(tmp_path, **SHEETS))


def load(text: str) -> ProvDocument:
    return ProvDocument.deserialize(content=text, format="json")


def test_small_car__has_as_many_records_of_each_kind_as_were_counted_by_hand(view: CarView) -> None:
    text = prov_json(view)
    told = json.loads(text)
    counted = {
        # The car, four places, and these states: the laygear found and the new one; the bearing found,
        # cleaned and plated; the pipes found and those made. Nothing was ever on the bumper's place.
        "entity": 1 + 4 + 2 + 3 + 2,
        # Four lines of work and one lot.
        "activity": 4 + 1,
        # The workshop, MT, JB, the owner, the gear's supplier and the plater.
        "agent": 6,
        # Every state is one of its place.
        "specializationOf": 7,
        # Each line of work used what was there, and the plater the bearing.
        "used": 4 + 1,
        # The bearing cleaned and plated, the new laygear, the pipes made.
        "wasGeneratedBy": 4,
        # The bearing twice from itself, the pipes from their sample.
        "wasDerivedFrom": 3,
        # The old laygear, scrapped.
        "wasInvalidatedBy": 1,
        # The new laygear, by its supplier.
        "wasAttributedTo": 1,
        # MT did four, JB checked one, the owner decided one, the plater did one.
        "wasAssociatedWith": 4 + 1 + 1 + 1,
        # MT and JB work for the workshop.
        "actedOnBehalfOf": 2,
    }
    assert counted == {kind: len(records) for kind, records in told.items() if kind != "prefix"}
    kinds = Counter(type(record).__name__ for record in load(text).get_records())
    assert sum(counted.values()) == sum(kinds.values())
    assert {
        "ProvEntity": 12, "ProvActivity": 5, "ProvAgent": 6, "ProvSpecialization": 7, "ProvUsage": 5,
        "ProvGeneration": 4, "ProvDerivation": 3, "ProvInvalidation": 1, "ProvAttribution": 1,
        "ProvAssociation": 7, "ProvDelegation": 2,
    } == dict(kinds)  # fmt: skip


def test_records__survive_the_library_and_come_back_the_same(view: CarView) -> None:
    document = load(prov_json(view))
    assert document == load(document.serialize(format="json"))


def relation(view: CarView, kind: str) -> list[dict[str, str]]:
    return [
        {key: value for key, value in told.items() if isinstance(value, str)}
        for told in json.loads(prov_json(view))[kind].values()
    ]


def test_scrapped_item__ends_with_the_line_that_says_so(view: CarView) -> None:
    assert [
        {
            "prov:entity": "here:item/gearbox/laygear/0.0",
            "prov:activity": "here:work/2024-03-06-new-gear/gearbox/laygear",
        }
    ] == relation(view, "wasInvalidatedBy")


def test_what_was_made__comes_from_its_sample(view: CarView) -> None:
    assert {
        "prov:generatedEntity": "here:item/brakes/pipes/1.0",
        "prov:usedEntity": "here:item/brakes/pipes/0.0",
        "prov:activity": "here:work/2024-03-06-new-gear/brakes/pipes",
        "prov:type": "made to the sample",
    } in relation(view, "wasDerivedFrom")


def test_outwork__ends_on_the_day_on_which_all_came_home(view: CarView) -> None:
    told = json.loads(prov_json(view))["activity"]["here:outwork/brackets"]
    assert ("2024-03-07T00:00:00", "2024-03-11T23:59:59") == (
        told["prov:startTime"], told["prov:endTime"],
    )  # fmt: skip


def test_item_put_back__is_the_same_entity_as_before(tmp_path: Path) -> None:
    sheets = {
        "tern/sheets/2024/2024-03-05-off.md": sheet_text(
            "work: {gearbox/laygear: {now: service, original: bin G-4}}"
        ),
        "tern/sheets/2024/2024-03-06-on.md": sheet_text(
            "work: {gearbox/laygear: {now: first-fit, did: fitted}}", date="2024-03-06"
        ),
    }
    view = view_in(put_content(tmp_path, **sheets))
    line = view.originality.line("gearbox/laygear")
    assert line is not None
    story = story_of(line, ())
    assert (0, Origin.FIRST_FIT, ()) == (story.now.item, story.now.origin, story.off)
    assert 2 == len(story.states)


@pytest.mark.parametrize("name", ["aldermoor-tern", "pellmarsh-lapwing"])
def test_items__end_where_the_ledger_says(name: str) -> None:
    view = view_in(CONTENT, name=name)
    for line in view.originality.lines:
        story = story_of(line, view.outwork.batches)
        there = None if line.now.origin is Origin.ABSENT else line.now.origin
        assert there == (story.now.origin if story.now else None), line.component.key
        off = [d.item for d in line.displaced if d.item.origin is not Origin.ABSENT]
        assert [item.origin for item in off] == [state.origin for state in story.off]
        gone = {(state.place, state.item) for _, state in story.gone}
        assert [item.gone for item in off] == [(s.place, s.item) in gone for s in story.off]


# PROV-N, section 3.7.1, QUALIFIED_NAME: prefix and local part, in the letters that need no escape.
_NAME = re.compile(r"here:[A-Za-z0-9_]([A-Za-z0-9_./-]|%[0-9A-F]{2})*(?<!\.)")


def test_names__are_qualified_names_and_all_that_are_used_are_declared() -> None:
    told = json.loads(prov_json(view_in(CONTENT, name="aldermoor-tern")))
    elements = {kind: set(told[kind]) for kind in ("entity", "activity", "agent")}
    declared = set().union(*elements.values())
    assert not [name for name in declared if not _NAME.fullmatch(name)]
    relations = (
        r
        for kind, records in told.items()
        if kind not in (*elements, "prefix")
        for r in records.values()
    )
    used = {
        (key, value)
        for record in relations
        for key, value in record.items()
        if isinstance(value, str) and value.startswith("here:")
    }
    assert set() == {value for _, value in used} - declared
    assert {v for k, v in used if k == "prov:activity"} <= elements["activity"]
    assert {v for k, v in used if k in ("prov:agent", "prov:delegate")} <= elements["agent"]


def test_name_of_the_car__is_the_same_for_every_reader(tmp_path: Path) -> None:
    root = put_content(tmp_path)
    assert car_urn(view_in(root).car) == car_urn(view_in(root, Reader.WORKSHOP).car)


def test_what_the_reader_may_not_see__is_not_in_it(tmp_path: Path) -> None:
    sheets = {
        "tern/sheets/2024/2024-03-05-quarrel.md": sheet_text(
            "for: workshop\nwork: {gearbox/laygear: {now: upgrade, came-off: scrapped}}"
        )
    }
    root = put_content(tmp_path, **sheets)
    assert "quarrel" in prov_json(view_in(root, Reader.WORKSHOP))
    assert "quarrel" not in prov_json(view_in(root))
    assert "upgrade" not in prov_json(view_in(root))


def test_item_of_the_works_that_is_gone__is_not_the_one_that_is_there() -> None:
    sheets = [
        worked("2024-01-01", "brakes/pipes", original="scrapped", why="as told"),
        worked("2024-01-02", "brakes/pipes", now="first-fit", why="one was found"),
    ]
    story = story_of(fold_one("brakes/pipes", "period-used", *sheets), ())
    assert frozenset() == story.ended


@given(cars())
def test_items_of_any_history__end_where_the_ledger_says(car: CarFile) -> None:
    for line in fold_originality(car).lines:
        if line.learned:
            # What was found is told by what is known of it last; the ledger changed its mind on the way.
            continue
        story = story_of(line, ())
        there = None if line.now.origin is Origin.ABSENT else line.now.origin
        assert there == (story.now.origin if story.now else None)
        off = [d.item.origin for d in line.displaced if d.item.origin is not Origin.ABSENT]
        assert off == [state.origin for state in story.off]
        gone = [d.item.gone for d in line.displaced if d.item.origin is not Origin.ABSENT]
        assert gone == [state.item in story.ended for state in story.off]
        assert len(set(story.states)) == len(story.states)
        assert {s for _, s in story.used} | {s for _, s in story.gone} <= set(story.states)

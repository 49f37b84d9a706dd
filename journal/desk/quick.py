"""Goods in and snags, quickly: one thing at a time, put into the sheet of the day that holds such things.

The first of a day on a subsystem makes the sheet; the others are added to it. Several phones may add at
once: each addition starts from the sheet as it lies, and is tried again where another came before it.
"""

from collections.abc import Callable
from datetime import date
from typing import Any, NamedTuple

from msgspec import Struct

from journal.desk.desk import Desk
from journal.desk.filled import Opened, opened_of
from journal.desk.saving import Asked, InBook, Outcome, Refused, empty_tray, save, sheet_of
from journal.desk.state import CarState
from journal.outputs.sheets.checked import Remark
from journal.outputs.sheets.form import Form
from journal.outputs.sheets.store import Conflict, hash_of, stem_of
from journal.records.place import Place
from journal.records.problem import Problem
from journal.words.names import slug_of

GOODS, SNAGS = "Goods in", "Snags"
# As often may others come before; a workshop has fewer phones.
_TRIES = 30
_WORDS = 4


class Received(Struct, frozen=True):
    """A part that came in: which one of those awaited, how it was found, and pictures by their ids."""

    part: str
    outcome: str
    why: str = ""
    photos: tuple[str, ...] = ()


class Raised(Struct, frozen=True):
    """Something open: what, on which subsystem, whether it stops the handover, and pictures."""

    text: str
    subsystem: str
    hold: bool = False
    photos: tuple[str, ...] = ()


class _Addition(NamedTuple):
    """What is to be added to the sheet of which title and subsystem."""

    title: str
    subsystem: str
    add: Callable[[Form], Form]


def receive(desk: Desk, car: CarState, draft: str, came: Received, today: date) -> Outcome:
    """Write down that a part came in."""
    awaited = next((item for item in car.view.waiting.items if item.name == came.part), None)
    subsystem = awaited.subsystems[0] if awaited and awaited.subsystems else ""
    known = car.view.car.workshop.all_subsystems()
    of = [*awaited.components] if awaited else []

    def add(form: Form) -> Form:
        told = {
            "name": came.part, "received": today.isoformat(), "outcome": came.outcome, "why": came.why,
        }  # fmt: skip
        others = [entry for entry in form["parts"] if entry["name"] != came.part]
        words = f"{awaited.what}, as it came in" if awaited else ""
        return {
            **form, "parts": [*others, told],
            "photos": _with(form["photos"], came.photos, {"of": of, "caption": words}),
        }  # fmt: skip

    if awaited is None and desk.drafts.find(draft) is None:
        return _refused(
            "parts",
            "unknown-part",
            f'"{came.part}" is not awaited any more; it may be in the book already',
        )
    return _added(desk, car, draft, _Addition(GOODS, subsystem or next(iter(known)), add), today)


def raise_snag(desk: Desk, car: CarState, draft: str, snag: Raised, today: date) -> Outcome:
    """Write down something open."""
    taken = {told.name for told in car.view.snags.snags}

    def add(form: Form) -> Form:
        here = {entry["name"]: entry for entry in form["snags"]}
        name = _name_of(snag.text, taken, here)
        told = {"name": name, "raise": snag.text, "hold": snag.hold}
        others = [entry for key, entry in here.items() if key != name]
        photos = _with(form["photos"], snag.photos, {})
        return {**form, "snags": [*others, told], "photos": photos}

    if not snag.text.strip():
        return _refused("snags", "missing-key", "say what is open")
    return _added(desk, car, draft, _Addition(SNAGS, snag.subsystem, add), today)


def _with(
    photos: list[dict[str, Any]], ids: tuple[str, ...], words: dict[str, Any]
) -> list[dict[str, Any]]:
    return [*photos, *({"id": id, **words} for id in ids)]


def _name_of(text: str, taken: set[str], here: dict[str, Any]) -> str:
    """A name of the first words, that no other snag has. The same words on the same day are one snag."""
    base = "-".join(slug_of(text).split("-")[:_WORDS]) or "snag"
    number = 1
    while True:
        name = base if number == 1 else f"{base}-{number}"
        if name in here and here[name].get("raise") == text.strip():
            return name
        if name not in taken and name not in here:
            return name
        number += 1


def _added(
    desk: Desk, car: CarState, draft: str, addition: _Addition, today: date
) -> Outcome:  # fmt: skip
    """Add to the sheet of the day, once however often it is asked."""
    outcome: Outcome | None = None
    with desk.drafts.adding:
        note = desk.drafts.find(draft)
        there = sheet_of(desk.root, note) if note and note.car == car.file.name else None
        if note is not None and there is not None:
            empty_tray(desk, note.files)
            return InBook(there.path, hash_of(there.raw))
        for _ in range(_TRIES):
            opened = _sheet_of_day(desk, car.file.name, addition, today)
            form = addition.add(opened.shown if opened else _blank(addition, today))
            outcome = save(desk, Asked(draft, car, form, opened), today)
            if not isinstance(outcome, Conflict):
                break
    assert outcome is not None
    return outcome


def _blank(addition: _Addition, today: date) -> Form:
    return {
        "date": today.isoformat(), "title": addition.title, "subsystem": [addition.subsystem],
        "hours": {}, "body": "", "work": [], "parts": [], "measured": [], "snags": [], "photos": [],
    }  # fmt: skip


def _sheet_of_day(desk: Desk, car: str, addition: _Addition, today: date) -> Opened | None:
    """The sheet of today on the subsystem that is called so, as it lies on the disk by now."""
    stem = stem_of(today, addition.title)
    folder = desk.root / car / "sheets" / f"{today:%Y}"
    for file in sorted(folder.glob(f"{stem}*.md")):
        opened = opened_of(file.relative_to(desk.root).as_posix(), file.read_bytes())
        if opened is not None and opened.shown["subsystem"] == [addition.subsystem]:
            return opened
    return None


def _refused(field: str, code: str, words: str) -> Refused:
    return Refused((Remark((field,), Problem(Place("", 1), code, words)),))

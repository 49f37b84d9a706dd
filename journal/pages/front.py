"""The front page of a car: where it stands, how original it is, every day of the work."""

from datetime import date
from fractions import Fraction
from typing import NamedTuple

from journal.ledgers.originality import Line
from journal.ledgers.originality.items import Displacement
from journal.pages.charts import LANE_HEIGHT, DayRow, Lane, day_lanes
from journal.pages.common import frame
from journal.pages.figures import kept_words, three_figures
from journal.pages.lines import left_works
from journal.pages.links import Links, Ref, subsystem_names
from journal.pages.page import Page
from journal.pages.plates import cover_of
from journal.pages.problemwords import problem_count, problem_words
from journal.pages.standing import standing_sentences
from journal.pages.view import CarView
from journal.pages.words import (
    day_words,
    days_words,
    hours_number,
    hours_words,
    in_words,
    some,
    who,
)
from journal.pages.workwords import Fact, day_entry

PATH = "index.html"
LATEST = 4


class LaneRow(NamedTuple):
    """A subsystem's lane, with what it shows in words and as a row of the table beside it."""

    ref: Ref
    lane: Lane
    words: str
    days: str
    hours: str
    first: str
    last: str
    departures: tuple[str, ...]


class OpenThing(NamedTuple):
    """Something that holds the car, or waits for a word."""

    text: str
    note: str
    hold: bool
    ref: Ref


def page_front(view: CarView) -> tuple[Page, ...]:
    """The front page."""
    links = Links(view, PATH)
    rows = _day_rows(view)
    drawn = day_lanes(rows, view.car.car.booked_in, view.until)
    latest = tuple(day_entry(view, links, s) for s in reversed(view.car.sheets[-LATEST:]))
    values = {
        **frame(links, ""),
        "cover": cover_of(view, links),
        "standing": standing_sentences(view),
        "facts": _facts(view),
        "brief": view.car.car.brief or "",
        "condition": view.car.car.condition or "",
        "figures": three_figures(view.originality.whole, kept_words(_recoverable(view))),
        "counted": bool(view.originality.lines),
        "ledger": links.to("ledger.html"),
        "axis": drawn.axis,
        "lane_height": LANE_HEIGHT,
        "lanes": tuple(
            _lane_row(links, row, lane) for row, lane in zip(rows, drawn.lanes, strict=True)
        ),
        "latest": latest,
        "all_sheets": links.to("sheets/index.html"),
        "held": bool(view.snags.holds),
        "open_things": _open_things(view, links),
        "snags": links.to("snags.html"),
        "open_count": in_words(len(view.snags.open)),
        "waiting": _waiting(view),
        "parts": links.to("parts.html"),
        "problems": problem_words(view.problems),
        "problem_count": problem_count(view.problems),
    }
    return (Page(view.base + PATH, "front.html", values),)


def _facts(view: CarView) -> tuple[Fact, ...]:
    car = view.car.car
    known = (
        ("Body", car.body), ("Engine", car.engine), ("Colour", car.colour),
        ("Registration", car.plate), ("Mileage at booking in", car.mileage),
        ("Owner", car.owner.name),
    )  # fmt: skip
    return tuple(Fact(label, text) for label, text in known if text)


def _recoverable(view: CarView) -> int:
    return sum(d.recoverable for line in view.originality.lines for d in line.displaced)


def _day_rows(view: CarView) -> tuple[DayRow, ...]:
    days: dict[str, dict[date, Fraction]] = {name: {} for name in subsystem_names(view)}
    for sheet in view.car.sheets:
        for name in sheet.front.subsystem:
            days[name].setdefault(sheet.date, Fraction(0))
    for spent in view.hours.spent:
        worked = days[spent.subsystem]
        worked[spent.day] = worked.get(spent.day, Fraction(0)) + spent.hours
    return tuple(
        DayRow(name, worked, _departures(view, name)) for name, worked in days.items() if worked
    )


def _departures(view: CarView, subsystem: str) -> tuple[tuple[date, str], ...]:
    """Changes away from the works specification, with the words for their marks."""
    lines = [line for line in view.originality.lines if line.component.subsystem == subsystem]
    return tuple(
        _departure(line, line.departure)
        for line in lines
        if line.departure is not None and left_works(line)
    )


def _departure(line: Line, departure: Displacement) -> tuple[date, str]:
    words = f"{line.component.label}, {line.now.origin.value}, {day_words(departure.day)}"
    return departure.day, words


def _lane_row(links: Links, row: DayRow, lane: Lane) -> LaneRow:
    hours = sum(row.days.values(), Fraction(0))
    departures = f", {some(len(row.departures), 'departure')}" if row.departures else ""
    return LaneRow(
        links.subsystem(row.name),
        lane,
        f"{some(len(row.days), 'day')}, {hours_words(hours)}{departures}",
        str(len(row.days)),
        hours_number(hours),
        day_words(min(row.days)),
        day_words(max(row.days)),
        tuple(words for _, words in row.departures),
    )


def _open_things(view: CarView, links: Links) -> tuple[OpenThing, ...]:
    things = []
    for snag in view.snags.open:
        if not snag.hold and not snag.asks:
            continue
        asked = f"a word wanted from {who(view.car.workshop, snag.asks)}; " if snag.asks else ""
        age = days_words(snag.age(view.until))
        put_off = "; put off" if snag.deferred else ""
        note = f"{links.subsystem(snag.subsystem).text}; {asked}open for {age}{put_off}"
        things.append(OpenThing(snag.text, note, snag.hold, links.sheet(snag.raised_in)))
    return tuple(things)


def _waiting(view: CarView) -> str:
    """Parts on order and lots out for work, as half a sentence; empty when nothing is awaited."""
    parts, lots = len(view.parts.waiting), len(view.outwork.out)
    said = [some(parts, "part") + " on order"] if parts else []
    said += [some(lots, "lot") + " out for work"] if lots else []
    return " and ".join(said)

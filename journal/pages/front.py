"""The front page of a car: where it stands, how original it is, every day of the work."""

from datetime import date
from fractions import Fraction

from journal.ledgers.originality import Line
from journal.ledgers.originality.items import Displacement
from journal.ledgers.proving import ProofState
from journal.pages.charts import LANE_HEIGHT, DayRow, Lane, day_lanes
from journal.pages.common import frame, has_page
from journal.pages.figures import kept_words, three_figures
from journal.pages.lines import left_works
from journal.pages.links import Links, Ref, subsystem_names
from journal.pages.newswords import (
    asked_words,
    came_in_words,
    due_words,
    lately_words,
    since_words,
    week_words,
)
from journal.pages.page import Page
from journal.pages.plates import cover_of
from journal.pages.problemwords import problem_count, problem_words
from journal.pages.provingwords import HoldWords, counted_states, proving_holds
from journal.pages.recheckwords import rechecks_link
from journal.pages.standing import balance_words, is_delivered, standing_sentences
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import (
    day_words,
    days_words,
    hours_number,
    hours_words,
    in_words,
    owner_words,
    sentence,
    some,
)
from journal.pages.workwords import Fact, day_entry
from journal.words.vocabulary import Reader

PATH = "index.html"
LATEST = 4
# With more subsystems than this still to prove, a list of them would say nothing.
NEAR_THE_END = 3


class LaneRow(Value, frozen=True):
    """A subsystem's lane, with what it shows in words and as a row of the table beside it."""

    ref: Ref
    lane: Lane
    words: str
    days: str
    hours: str
    first: str
    last: str
    departures: tuple[str, ...]


class OpenThing(Value, frozen=True):
    """Something that holds the car."""

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
        "facts": car_facts(view),
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
        "since": since_words(view) if has_page(view.reader, "money.html") else "",
        "statements": links.to("money.html") if has_page(view.reader, "money.html") else "",
        "delivered": is_delivered(view),
        "balance": _balance(view),
        "held": bool(view.snags.holds or view.proving.holds),
        "open_things": _holds(view, links),
        "proofs": _proofs(view, links),
        "asked_of": owner_words(view.reader),
        "asked": asked_words(view, links, resting=False),
        "put_off": asked_words(view, links, resting=True),
        "morning": view.reader is Reader.WORKSHOP,
        "week": week_words(view),
        "lately": lately_words(),
        "came_in": came_in_words(view, links),
        "due": due_words(view, links),
        "snags": links.to("snags.html"),
        "open_count": in_words(len(view.snags.open)) if view.snags.open else "none",
        "rechecks": rechecks_link(view, links),
        "all_done": is_delivered(view) and not (view.snags.open or view.proving.holds),
        "waiting": _waiting(view),
        "waiting_page": links.to(_where_waiting(view)),
        "problems": problem_words(view.problems),
        "problem_count": problem_count(view.problems),
    }
    return (Page(view.base + PATH, "front.html", values),)


def car_facts(view: CarView) -> tuple[Fact, ...]:
    """What the car is, in short: only what is known."""
    car = view.car.car
    known = (
        ("Marque", car.marque), ("Body", car.body), ("Engine", car.engine),
        ("Colour", car.colour), ("Steering", sentence(f"{car.drive.value}-hand drive")),
        ("Registration", car.plate), ("Mileage at booking in", car.mileage),
        ("Owner", car.owner.name),
    )  # fmt: skip
    return tuple(Fact(label, text) for label, text in known if text)


def _balance(view: CarView) -> str:
    """How the account stands, for those who see money, once there is an account."""
    if not view.statements.shown or not has_page(view.reader, "money.html"):
        return ""
    return balance_words(view, view.statements.balance)


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


def _holds(view: CarView, links: Links) -> tuple[OpenThing, ...]:
    """Snags that stop the handover."""
    things = []
    for snag in view.snags.holds:
        put_off = "; put off" if snag.deferred else ""
        note = (
            f"{links.subsystem(snag.subsystem).text}; open for {days_words(snag.age(view.until))}"
        )
        things.append(OpenThing(snag.text, note + put_off, snag.hold, links.sheet(snag.raised_in)))
    return tuple(things)


def _proofs(view: CarView, links: Links) -> tuple[HoldWords, ...]:
    """What is still to be proved: by subsystem near the end of the work, in one line before."""
    by_subsystem = proving_holds(view, links)
    if len(by_subsystem) <= NEAR_THE_END:
        return by_subsystem
    wanting = list(view.proving.holds)
    place = Ref("Proving", links.to("proving.html"))
    text = f"{some(len(wanting), 'proof')} still to record before the handover"
    some_tried = any(line.state is not ProofState.MISSING for line in wanting)
    note = counted_states(wanting) if some_tried else ""
    return (HoldWords(sentence(text), note, True, place),)


def _where_waiting(view: CarView) -> str:
    return "waiting.html" if has_page(view.reader, "waiting.html") else "parts.html"


def _waiting(view: CarView) -> str:
    """Parts on order and lots out for work, as half a sentence; empty when nothing is awaited."""
    parts, lots = len(view.parts.waiting), len(view.outwork.out)
    said = [some(parts, "part") + " on order"] if parts else []
    said += [some(lots, "lot") + " out for work"] if lots else []
    return " and ".join(said)

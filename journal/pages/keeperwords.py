"""Keepers, registrations and odometer readings in words, and what does not fit among them."""

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from fractions import Fraction

from journal.ledgers.keepers import Plate
from journal.ledgers.keepers.chain import Finding, Stint, Trouble
from journal.ledgers.keepers.counts import Count
from journal.pages.charts import grid_step
from journal.pages.curves import Curve, Step, curve_of
from journal.pages.links import Links, Ref
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words, days_words, sentence
from journal.words.groups import grouped
from journal.words.text import counted
from journal.words.units import converted, partner_unit
from journal.words.vocabulary import OdometerUnit

CAR_FILE = "booked in"
CURVE_HEIGHT = 150
# As many readings as the drawing can show apart.
CURVE_MOST = 200


class KeeperLine(Value, frozen=True):
    """One keeper, or, when `trouble` says so, what is wrong with the chain at this place."""

    when: str
    text: str
    note: str
    sources: tuple[Ref, ...]
    trouble: bool


class PlateWords(Value, frozen=True):
    """One registration with all that give it."""

    value: str
    sources: tuple[tuple[Ref, str], ...]


class CountWords(Value, frozen=True):
    """One odometer reading in both units, who took it, and the higher one before it, if any."""

    day: str
    value: str
    other: str
    sources: tuple[Ref, ...]
    lower: str
    lower_by: Ref | None


def keeper_lines(view: CarView, links: Links) -> tuple[KeeperLine, ...]:
    """The chain in order, with what is wrong at the place where it is wrong."""
    lines: list[KeeperLine] = []
    for stint in view.keepers.stints:
        at = [f for f in view.keepers.findings if f.other == stint]
        within = [
            f for f in view.keepers.findings if f.other is None and f.one.told[0] in stint.told
        ]
        lines += [_finding(links, f) for f in at]
        lines.append(_keeper(links, stint))
        lines += [_finding(links, f) for f in within]
    return tuple(lines)


def _sources(links: Links, papers: tuple[str | None, ...]) -> tuple[Ref, ...]:
    return tuple(links.paper(paper) if paper else Ref(CAR_FILE) for paper in papers)


def _keeper(links: Links, stint: Stint) -> KeeperLine:
    places = dict.fromkeys(t.place for t in stint.told if t.place)
    when = _stretch(stint.from_, stint.to)
    sources = _sources(links, stint.papers)
    return KeeperLine(when, stint.name, ", ".join(places), sources, False)


def _stretch(from_: date | None, to: date | None) -> str:
    if from_ and to:
        return f"{day_words(from_)} to {day_words(to)}"
    if from_:
        return f"from {day_words(from_)}"
    return f"to {day_words(to)}" if to else "days not told"


def _finding(links: Links, f: Finding) -> KeeperLine:
    words = sentence(_trouble(f))
    return KeeperLine(_length(f), words, "", _sources(links, f.papers), True)


def _length(f: Finding) -> str:
    if f.trouble in (Trouble.GAP, Trouble.OVERLAP) and f.from_ and f.to:
        return days_words((f.to - f.from_).days)
    return ""


def _trouble(f: Finding) -> str:
    one, other = f.one.name, f.other.name if f.other else ""
    first, last = (day_words(day) if day else "" for day in (f.from_, f.to))
    match f.trouble:
        case Trouble.GAP:
            return f"no paper tells who had the car from {first} to {last}"
        case Trouble.OVERLAP:
            return f"{one} and {other} are both given from {first} to {last}"
        case Trouble.DATES:
            return f"the papers give {one} different days, {first} and {last}"
        case Trouble.BACKWARDS:
            return f"{one} is given from {first}, and to {last} before it"
        case Trouble.EARLY:
            return f"{first} lies before the year in which the car was built"
        case Trouble.OWNER:
            return f"the papers end with {one}, and the car was brought in by {other}"
        case Trouble.UNTOLD:
            return f"no paper tells when the car passed from {one} to {other}"


def plate_words(links: Links, plate: Plate) -> PlateWords:
    """A registration with the papers that give it, and the car file."""
    return PlateWords(
        plate.value,
        tuple(
            (links.paper(paper) if paper else Ref("As booked in"), day_words(day) if day else "")
            for paper, day in plate.given
        ),
    )


def count_words(view: CarView, links: Links) -> tuple[CountWords, ...]:
    """Odometer readings in order; those of one day that agree are one line."""
    return tuple(count_line(view, links, line) for line in counts_in_lines(view))


def counts_in_lines(view: CarView) -> tuple[tuple[Count, ...], ...]:
    """Odometer readings in order, those together that are of one day and agree."""
    numbered = grouped(enumerate(view.keepers.counts), lambda c: (c[1].day or c[0], c[1].value))
    return tuple(tuple(count for _, count in line) for line in numbered.values())


def count_line(view: CarView, links: Links, line: tuple[Count, ...]) -> CountWords:
    """Readings of one day that agree, as one line."""
    first, unit = line[0], view.keepers.unit
    before = view.once(_higher_before).get(first)
    other = partner_unit(unit.value)
    told = converted(first.value, unit.value, other) if other else first.value
    return CountWords(
        _day(view, first),
        distance_words(first.value, unit.value),
        distance_words(told, other) if other else "",
        tuple(_source(links, count) for count in line),
        f"{distance_words(before.value, unit.value)} on {_day(view, before)}" if before else "",
        _source(links, before) if before else None,
    )


def _higher_before(view: CarView) -> dict[Count, Count]:
    return {now: before for before, now in view.keepers.backwards}


def _day(view: CarView, count: Count) -> str:
    if count.day:
        return day_words(count.day)
    paper = view.car.papers.get(count.paper or "")
    return (paper.dated if paper else None) or "day not told"


def _source(links: Links, count: Count) -> Ref:
    if count.paper:
        return links.paper(count.paper)
    return links.sheet(count.sheet) if count.sheet else Ref(CAR_FILE)


def distance_words(value: Decimal, unit: str) -> str:
    """`48,206 miles`, `1 mile`, `77,580 km`."""
    if unit == OdometerUnit.MILE.value and value == value.to_integral_value():
        return counted(int(value), "mile")
    return f"{value:,f}\N{NO-BREAK SPACE}{'miles' if unit == OdometerUnit.MILE.value else unit}"


def count_curve(view: CarView) -> Curve | None:
    """The readings over the years, as many as such a drawing can show; None with fewer than two days."""
    unit = view.keepers.unit.value
    lower = view.once(_higher_before)
    all_steps = [
        Step(
            c.day, (Fraction(c.value),), (f"{distance_words(c.value, unit)}, {day_words(c.day)}",),
            (c not in lower,),
        )
        for c in view.keepers.counts
        if c.day
    ]  # fmt: skip
    if len({step.day for step in all_steps}) < 2:
        return None
    steps = _shown(all_steps)
    most = max(step.mean for step in steps)
    grid = grid_step(most)
    levels = [(grid * n, f"{int(grid * n):,}") for n in range(1, int(most / grid) + 1)]
    return curve_of(steps, levels, height=CURVE_HEIGHT, floor=Fraction(0), rising=True)


def _shown(steps: Sequence[Step]) -> list[Step]:
    """Every so many of the steps, with the last, and each that is lower than one before it beside that."""
    every = -(-len(steps) // CURVE_MOST)
    falls = [not all(step.kept) for step in (*steps, steps[-1])]
    return [
        step
        for n, step in enumerate(steps)
        if n % every == 0 or n + 1 == len(steps) or falls[n] or falls[n + 1]
    ]

"""The chain of keepers: stretches of time, who tells of each, and where the chain does not hold."""

import re
from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from enum import StrEnum

from msgspec import Struct

from journal.records.carfile import CarFile
from journal.records.problem import Problem, Severity, problem_at
from journal.words.dates import year_in
from journal.words.text import comparable

_TITLE = re.compile(r"\b(mr|mrs|miss|ms|dr|sir|lady|lord)\b\.?", re.IGNORECASE)
_A_DAY = timedelta(days=1)


class Trouble(StrEnum):
    """What is wrong with a chain of keepers."""

    GAP = "gap"
    OVERLAP = "overlap"
    DATES = "dates differ"
    BACKWARDS = "ends before it begins"
    EARLY = "before the car was built"
    UNTOLD = "no paper says when"
    OWNER = "not the owner"


class Told(Struct, frozen=True):
    """What one paper says of one keeper; without a paper it is the car file that says it."""

    name: str
    paper: str | None
    from_: date | None
    to: date | None
    place: str | None = None


class Stint(Struct, frozen=True):
    """One keeper for one stretch of time, with all that tell of it. `from_` is the first day that any
    of them gives and `to` the last; either is absent when no paper gives it."""

    told: tuple[Told, ...]

    @property
    def name(self) -> str:
        """The keeper's name as first told."""
        return self.told[0].name

    @property
    def from_(self) -> date | None:
        """The first day given."""
        return min((t.from_ for t in self.told if t.from_), default=None)

    @property
    def to(self) -> date | None:
        """The last day given, unless it lies before the first."""
        end = max((t.to for t in self.told if t.to), default=None)
        return None if end and self.from_ and end < self.from_ else end

    @property
    def papers(self) -> tuple[str | None, ...]:
        """Who tells of it, each once."""
        return tuple(dict.fromkeys(t.paper for t in self.told))


class Finding(Struct, frozen=True):
    """One trouble with the chain: whom it touches, between which days, and the papers that speak."""

    trouble: Trouble
    one: Stint
    other: Stint | None = None
    from_: date | None = None
    to: date | None = None

    @property
    def papers(self) -> tuple[str | None, ...]:
        """The papers of both, each once; None is the car file."""
        return tuple(dict.fromkeys((*self.one.papers, *(self.other.papers if self.other else ()))))


def same_person(one: str, other: str) -> bool:
    """Whether two names are the same but for title, case and punctuation."""
    return comparable(_TITLE.sub("", one)) == comparable(_TITLE.sub("", other))


def stints_of(car: CarFile) -> Iterator[Stint]:
    """Keepers in the order in which they came; the owner of the car file is the last of them."""
    told = [Told(k.name, name, k.from_, k.to, k.place) for name, p in car.papers for k in p.keepers]
    if not told:
        return
    groups: list[list[Told]] = []
    for line in sorted(told, key=lambda t: (t.from_ is None, t.from_ or date.max)):
        group = next((g for g in groups if _same_stint(g, line, told)), None)
        if group is None:
            groups.append([line])
        else:
            group.append(line)
    stints = sorted((Stint(tuple(group)) for group in groups), key=_began)
    owner = car.car.owner.name
    if owner and not any(same_person(s.name, owner) and s.to is None for s in stints):
        stints.append(Stint((Told(owner, None, None, None),)))
    yield from stints


def _began(stint: Stint) -> date:
    return stint.from_ or stint.to or date.max


def _same_stint(group: list[Told], line: Told, told: Iterable[Told]) -> bool:
    """Whether a line tells of the stretch that a group tells of: the same person, with nobody
    else's beginning between the two."""
    if not same_person(group[0].name, line.name):
        return False
    first = min((t.from_ for t in group if t.from_), default=None)
    if first is None or line.from_ is None:
        return True
    others = (t.from_ for t in told if t.from_ and not same_person(t.name, line.name))
    return not any(first < begun < line.from_ for begun in others)


def findings_of(car: CarFile, stints: tuple[Stint, ...]) -> Iterator[Finding]:
    """Everything in which the chain does not hold, in order of its keepers."""
    built = year_in(car.car.year)
    for stint in stints:
        if built and stint.from_ and stint.from_.year < built:
            yield Finding(Trouble.EARLY, stint, from_=stint.from_)
        yield from _at_odds(stint)
    for n, stint in enumerate(stints[1:], 1):
        yield from _handed_over(car, stints[:n], stint)


def _at_odds(stint: Stint) -> Iterator[Finding]:
    """Papers that give the same keeper other days, and a day of leaving before that of coming."""
    for line in stint.told:
        if line.from_ and line.to and line.to < line.from_:
            yield Finding(Trouble.BACKWARDS, Stint((line,)), from_=line.from_, to=line.to)
    for days in ({t.from_ for t in stint.told if t.from_}, {t.to for t in stint.told if t.to}):
        if len(days) > 1:
            yield Finding(Trouble.DATES, stint, from_=min(days), to=max(days))


def _handed_over(car: CarFile, before: tuple[Stint, ...], stint: Stint) -> Iterator[Finding]:
    """How a keeper follows on those before: with a gap, over them, or nobody knows."""
    last = before[-1]
    known = [s for s in before if s.to]
    reach = max(known, key=lambda s: s.to or date.min, default=None)
    end = reach.to if reach else None
    owner = stint.papers == (None,)
    begun = stint.from_
    if owner and last.to is None:
        yield Finding(Trouble.OWNER, last, stint)
    elif begun is None:
        yield Finding(Trouble.UNTOLD, last, stint, last.to, car.car.booked_in if owner else None)
    elif reach and end and begun < end:
        yield Finding(Trouble.OVERLAP, reach, stint, begun, min(end, stint.to or end))
    elif last.to is None:
        yield Finding(Trouble.UNTOLD, last, stint, None, begun)
    elif reach and end and begun > end + _A_DAY:
        yield Finding(Trouble.GAP, reach, stint, end, begun)


def problems_of_keepers(car: CarFile) -> Iterator[Problem]:
    """Keepers in one line of a paper who leave before they come."""
    for name, paper in car.papers:
        for n, keeper in enumerate(paper.keepers):
            if keeper.from_ and keeper.to and keeper.to < keeper.from_:
                yield problem_at(
                    car.papers_source, ("papers", name, "keepers", n, "to"), "keeper-backwards",
                    f"{keeper.name} has the car to {keeper.to}, and from {keeper.from_} on",
                    severity=Severity.WARNING,
                    help="correct the days, or leave out the one that the paper does not give",
                )  # fmt: skip

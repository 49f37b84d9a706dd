"""The fold: dated work into each component's line of the ledger.

Hears `work`, `outwork` and `photos` in sheets, and the register; ignores all else.
"""

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from typing import NamedTuple

from msgspec.structs import replace

from journal.ledgers.originality import Line, Originality
from journal.ledgers.originality.items import Contradiction, Link
from journal.ledgers.originality.moves import come_back, sent_out, step
from journal.ledgers.originality.state import Moment, State, as_found, recovered
from journal.records.carfile import CarFile
from journal.records.problem import Problem, Severity, problem_at
from journal.records.sheet import Sheet, photo_path
from journal.records.work import Work
from journal.words.vocabulary import Evidence, Origin


class _Event(NamedTuple):
    """One thing that happens to one component. `order` settles what comes first on a day."""

    order: tuple[date, date, str, int, int]
    component: str
    at: Moment
    work: Work | None = None
    out: bool = False


def fold_originality(
    car: CarFile, *, disputed: frozenset[str] = frozenset(), as_of: date | None = None
) -> Originality:
    """The ledger of a car file. `disputed` are components whose stamped numbers are disputed.

    The result does not depend on the order in which sheets were read: events are sorted by the
    day they were true, the day they were told, and the path of their sheet.
    """
    states = {c.key: as_found(c) for c in car.register.components}
    for event in sorted(_events(car), key=lambda e: e.order):
        state = states.get(event.component)
        if state is None:
            continue
        if event.work is not None:
            states[event.component] = step(state, event.work, event.at)
        else:
            move = sent_out if event.out else come_back
            states[event.component] = move(state, event.at)
    photos = _photo_links(car)
    lines = tuple(
        _line(state, photos.get(key, ()), key in disputed) for key, state in states.items()
    )
    return Originality(lines, as_of, tuple(_problems(car, lines)))


def _events(car: CarFile) -> Iterator[_Event]:
    """Within a sheet, things come back first, then the work is done, then things go out.

    A lot of outwork says once what is in it; lines of later sheets need not say it again.
    """
    lots: dict[str, tuple[str, ...]] = {}
    for sheet in car.sheets:
        path = sheet.source.path
        here = Moment(sheet.date, sheet.date, sheet.name, bool(sheet.front.corrects))
        for name, lot in sheet.front.outwork:
            lots[name] = lot.of or lots.get(name, ())
            for key in lots[name]:
                if lot.back:
                    yield _Event((sheet.date, sheet.date, path, 0, 0), key, here)
                if lot.sent:
                    yield _Event((sheet.date, sheet.date, path, 2, 0), key, here, out=True)
        for place, (key, work) in enumerate(sheet.front.work):
            day = min(work.since or sheet.date, sheet.date)
            at = Moment(day, sheet.date, sheet.name, here.corrects)
            yield _Event((day, sheet.date, path, 1, place), key, at, work)


def _photo_links(car: CarFile) -> dict[str, list[Link]]:
    found: dict[str, list[Link]] = {}
    for sheet in car.sheets:
        for photo in sheet.front.photos:
            path = photo_path(sheet.date, photo.file)
            if path not in car.photo_files:
                continue
            for key in photo.of:
                found.setdefault(key, []).append(Link("photo", path, sheet.name, sheet.date))
    return found


def _line(state: State, photos: Iterable[Link], disputed: bool) -> Line:
    papers = tuple(Link("paper", p, None, None) for p in state.component.line.paper)
    links = tuple(
        sorted((*papers, *state.links, *photos), key=lambda x: (x.day or date.min, x.kind, x.ref))
    )
    return Line(
        state.component, state.as_found, state.now, recovered(state), state.position,
        _grade(state, links, disputed), state.learned, state.displaced, links,
        state.biography, state.contradictions, state.stand_in,
    )  # fmt: skip


def _grade(state: State, links: tuple[Link, ...], disputed: bool) -> Evidence:
    """The grade of what is there now: only evidence since the item took its place counts."""
    if disputed or any(c.disputes for c in state.contradictions):
        return Evidence.DISPUTED
    since = state.now.since
    kinds = {link.kind for link in links if since is None or (link.day and link.day >= since)}
    if "photo" in kinds and kinds & {"paper", "number"}:
        return Evidence.PROVEN
    return Evidence.SHOWN if "photo" in kinds else Evidence.STATED


def _problems(car: CarFile, lines: tuple[Line, ...]) -> Iterator[Problem]:
    sheets = {sheet.name: sheet for sheet in car.sheets}
    for line in lines:
        yield from (_problem(sheets, contradiction) for contradiction in line.contradictions)


def _problem(sheets: Mapping[str, Sheet], contradiction: Contradiction) -> Problem:
    sheet = sheets[contradiction.sheet]
    against = sheets.get(contradiction.against) if contradiction.against else None
    problem = problem_at(
        sheet.source, ("work", contradiction.component), contradiction.code,
        f"{contradiction.component}: {contradiction.says}", severity=Severity.WARNING,
        help=_WAY_OUT.get(contradiction.code),
    )  # fmt: skip
    if against is None:
        return problem
    place = against.source.place("work", contradiction.component)
    return replace(problem, note="the sheet that says otherwise", note_place=place)


_WAY_OUT = {
    "refit-of-gone": f"correct where it went, or say now: {Origin.PERIOD_USED.value} or what it is",
    "displaced-twice": "write came-off: for the item that comes off now",
    "not-original": "write came-off: instead of original:, or say with was: what was found",
    "two-first-fit": "correct one of the two; only one item can be the one the works fitted",
    "already-there": "leave now: out when the same item is fitted again",
    "removed-twice": "say when it was fitted in between, or leave removed out",
    "fitted-while-out": "count it back under outwork: first",
    "proved-unfitted": "say when it was fitted",
    "retained-rises": "correct the share, or name the sheet it corrects with corrects:",
    "work-after-gone": "say with now: what is there instead",
    "work-on-absent": "say with now: what was fitted, or with was: what was found after all",
}

"""Progress: earned against spent by subsystem, the finishing date, and every component's steps."""

from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from journal.digests.progress import SubsystemProgress
from journal.digests.progress.earned import Earned
from journal.digests.progress.steps import PATHS, STEPS, ComponentProgress, Step
from journal.pages.bars import HourBar, Stretch, hour_bars, stretch
from journal.pages.common import frame, has_page
from journal.pages.forecastwords import forecast_method, forecast_sentences
from journal.pages.links import Links, Ref
from journal.pages.page import Page
from journal.pages.standing import is_delivered
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import (
    Figure,
    decimals_in,
    exact_hours,
    hours_figure,
    hours_words,
    in_words,
    sentence,
    some,
)
from journal.words.amounts import percent, plain_number

PATH = "progress.html"
BAR_HEIGHT = 26


class ProgressRow(Value, frozen=True):
    """One subsystem's hours as figures, and its bar. What cannot be reckoned is empty."""

    ref: Ref
    bar: HourBar | None
    words: str
    agreed: Figure
    extras: str
    planned: Figure
    earned: Figure
    spent: Figure
    done: str
    pace: str
    comes_to: str


class Decimals(Struct, frozen=True):
    """How many decimals each column of hours has."""

    agreed: int
    planned: int
    earned: int
    spent: int


class StepMark(Value, frozen=True):
    """One step of a component: done, to come, or not asked of it."""

    name: str
    state: str


class ComponentRow(Value, frozen=True):
    """How far a component has come."""

    ref: Ref
    path: str
    marks: tuple[StepMark, ...]
    words: str


class ReadyBranch(Value, frozen=True):
    """The components of a subsystem."""

    ref: Ref
    ready: str
    rows: tuple[ComponentRow, ...]


def page_progress(view: CarView) -> tuple[Page, ...]:
    """The whole in words, the finishing date, hours by subsystem, components by their steps."""
    if not has_page(view.reader, PATH):
        return ()
    links = Links(view, PATH)
    told = view.progress.subsystems
    counted = [s for s in told if s.hours.budget or s.hours.spent]
    drawn = hour_bars([s.hours for s in counted])
    decimals = _decimals([*(s.hours for s in counted), view.progress.whole])
    values = {
        **frame(links, "Progress"),
        "any": bool(counted),
        "lead": _lead(view.progress.whole, is_delivered(view)),
        "finish": "Handed over" if is_delivered(view) else "When it may be finished",
        "forecast": forecast_sentences(view),
        "method": forecast_method(view),
        "stretch": _stretch(view),
        "scale": drawn.scale,
        "bar_height": BAR_HEIGHT,
        "rows": tuple(
            _row(links.subsystem(s.name), s.hours, s.agreed, s.share, bar, decimals)
            for s, bar in zip(counted, drawn.bars, strict=True)
        ),
        "whole": _whole(view, decimals),
        "planned": view.progress.whole.planned is not None,
        "branches": tuple(_branch(links, s) for s in told if s.components),
        "steps": tuple((sentence(s.value), str(r.parts), r.done) for s, r in STEPS.items()),
        "paths": _paths(),
    }
    return (Page(view.base + PATH, "progress.html", values),)


# Below this share earned the pace still jumps about. Common practice, no source.
_EARLY = Fraction(1, 5)


def _lead(whole: Earned, delivered: bool) -> str:
    if not whole.budget:
        return f"No hours were agreed by subsystem; {hours_words(whole.spent)} are spent."
    said = (
        f"Of {hours_words(whole.budget)} agreed, {_round(whole.earned)} are earned and "
        f"{_round(whole.spent)} spent."
    )
    if delivered:
        return said
    if whole.at_completion is None:
        return f"{said} What it comes to in the end cannot be reckoned before something is earned."
    more = whole.at_completion - whole.budget
    than = "more" if more > 0 else "less"
    beside = f", {_round(abs(more))} {than} than agreed" if int(_round(abs(more))) else ""
    early = "; less than a fifth is earned, so take that lightly"
    light = early if whole.earned < whole.budget * _EARLY else ""
    comes_to = f"about {_round(whole.at_completion)} hours{beside}{light}"
    return f"{said} Going on as so far it comes to {comes_to}."


def _round(hours: Fraction) -> str:
    return plain_number(hours, 0)


def _hours(hours: Fraction) -> str:
    return exact_hours(hours)


def _decimals(lines: list[Earned]) -> Decimals:
    """No more decimals in a column than its lines need, which add up to their sum as printed."""
    return Decimals(
        decimals_in(line.budget for line in lines),
        decimals_in(line.planned for line in lines),
        decimals_in(line.earned for line in lines),
        decimals_in(line.spent for line in lines),
    )


def _pace(pace: Fraction) -> str:
    """Always two decimals, so that paces can be read against each other."""
    whole, rest = divmod(int(pace * 100 + Fraction(1, 2)), 100)
    return f"{whole}.{rest:02d}"


def _stretch(view: CarView) -> Stretch | None:
    told = view.forecast
    if told.early is None or told.middle is None or told.late is None:
        return None
    return stretch(told.day, told.early, told.middle, told.late, view.car.car.target)


def _row(
    ref: Ref,
    hours: Earned,
    agreed: Fraction,
    share: Fraction | None,
    bar: HourBar | None,
    decimals: Decimals,
) -> ProgressRow:
    return ProgressRow(
        ref,
        bar,
        f"{_hours(hours.earned)} earned, {_hours(hours.spent)} spent of {_hours(hours.budget)} agreed",
        hours_figure(hours.budget, decimals.agreed),
        f"{_hours(agreed)} of them extras" if agreed else "",
        hours_figure(hours.planned, decimals.planned),
        hours_figure(hours.earned, decimals.earned),
        hours_figure(hours.spent, decimals.spent),
        f"{percent(share)}\N{NO-BREAK SPACE}%" if share is not None else "",
        _pace(hours.cpi) if hours.cpi is not None else "",
        _round(hours.at_completion) if hours.at_completion is not None else "",
    )


def _whole(view: CarView, decimals: Decimals) -> ProgressRow:
    """Sums of the lines. What they come to is not summed: each line has a pace of its own."""
    whole = view.progress.whole
    agreed = sum((s.agreed for s in view.progress.subsystems), Fraction(0))
    share = whole.earned / whole.budget if whole.budget else None
    return replace(_row(Ref("The whole car"), whole, agreed, share, None, decimals), comes_to="")


def _branch(links: Links, told: SubsystemProgress) -> ReadyBranch:
    through = sum(c.next is None for c in told.components)
    ready = f"{_none_or(through)} of {in_words(len(told.components))} through all their steps"
    rows = tuple(_component(links, c) for c in told.components)
    return ReadyBranch(links.subsystem(told.name), ready, rows)


def _component(links: Links, told: ComponentProgress) -> ComponentRow:
    marks = tuple(StepMark(step.value, _state(told, step)) for step in Step)
    if not told.steps:
        words = "no step asked of it"
    elif told.next is None:
        words = "all steps done"
    else:
        done = sum(step in told.done for step in told.steps)
        words = f"{_none_or(done)} of {some(len(told.steps), 'step')} done; next: {told.next.value}"
    return ComponentRow(links.component(told.key), told.path, marks, words)


def _none_or(number: int) -> str:
    return in_words(number) if number else "none"


def _state(told: ComponentProgress, step: Step) -> str:
    if step not in told.steps:
        return "none"
    return "done" if step in told.done else "open"


def _paths() -> tuple[tuple[str, str, str], ...]:
    """Each kind of component with its steps and the reason."""
    return tuple(
        (sentence(name), ", ".join(step.value for step in path.steps) or "none", path.why)
        for name, path in PATHS.items()
    )

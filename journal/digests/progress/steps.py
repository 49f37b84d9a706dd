"""The steps that a component takes from the car and back on to it, and how far it has come.

Which steps a component has to take is in `PATHS`, how much of its work each step is in `STEPS`;
both stand on the page.
"""

from enum import StrEnum
from fractions import Fraction
from typing import NamedTuple

from msgspec import Struct

from journal.ledgers.originality import Line
from journal.ledgers.originality.items import Entry
from journal.records.workshop import Workshop
from journal.words.vocabulary import EFFECT, Act, Origin, Position, Treatment, Verdict


class Step(StrEnum):
    """The steps of a component from the car and back on to it, in their order."""

    STRIP = "strip"
    ASSESS = "assess"
    REPAIR = "repair"
    TRIAL = "trial fit"
    FIT = "fit"
    PROVE = "prove"


class StepRule(NamedTuple):
    """How many parts of a component's work a step is, and when it is done."""

    parts: int
    done: str


# Parts of the work: common practice of the trade, no source. They weigh steps against each other
# and nothing else; the page prints them.
STEPS: dict[Step, StepRule] = {
    Step.STRIP: StepRule(2, "it has been off the car, or work was done on it where it is"),
    Step.ASSESS: StepRule(1, "a sheet tells what was found, measured or decided, or work followed"),
    Step.REPAIR: StepRule(
        4, "it was repaired, refinished, rebuilt, machined or conserved, another item takes its "
        "place, or it was found good; not while it is out for work or a verdict asks for more",
    ),
    Step.TRIAL: StepRule(1, "it was tried in its place, or is fitted"),
    Step.FIT: StepRule(2, "it is fitted and has not come off again; a stand-in does not count"),
    Step.PROVE: StepRule(
        1, "it is proved, or every proof asked of its subsystem is recorded, and it has not come "
        "off again",
    ),
}  # fmt: skip

# Panels, glass, trim and bright parts are tried in place before they are finished; the rest is
# assembled to measure. Common practice, no source.
TRIED: frozenset[str] = frozenset({"body", "brightwork", "exhaust", "glass", "hood", "trim"})


class Path(NamedTuple):
    """The steps of a kind of component, and why it takes these."""

    steps: tuple[Step, ...]
    why: str


_ALL = (Step.STRIP, Step.ASSESS, Step.REPAIR, Step.TRIAL, Step.FIT, Step.PROVE)

PATHS: dict[str, Path] = {
    "not part of the job": Path(
        (), "the car was handed over and it was never touched, so nothing was asked of it"
    ),
    "left alone": Path(
        (Step.ASSESS, Step.PROVE), "it was looked at, found good to use, and stays where it is"
    ),
    "worked on in place": Path(
        (Step.ASSESS, Step.REPAIR, Step.PROVE), "it was repaired where it is and never came off"
    ),
    "left out for good": Path(
        (Step.STRIP, Step.ASSESS), "it came off, and nothing is to be in its place"
    ),
    "to be found": Path(
        (Step.REPAIR, Step.TRIAL, Step.FIT, Step.PROVE), "nothing was there to strip or to assess"
    ),
    "off and back": Path(_ALL, "it comes off the car and goes back"),
    "not touched yet": Path(
        _ALL, "until a sheet says otherwise, what nobody has touched still has all its steps to go"
    ),
}


class ComponentProgress(Struct, frozen=True):
    """How far one component has come on its path; `path` is a key of `PATHS`."""

    key: str
    path: str
    steps: tuple[Step, ...]
    done: frozenset[Step]
    weight: Fraction

    @property
    def share(self) -> Fraction | None:
        """Share of its steps done, each by its parts; absent when it has none to take."""
        whole = sum(STEPS[step].parts for step in self.steps)
        done = sum(STEPS[step].parts for step in self.steps if step in self.done)
        return Fraction(done, whole) if whole else None

    @property
    def next(self) -> Step | None:
        """The first step that is not done, or None."""
        return next((step for step in self.steps if step not in self.done), None)


def share_done(components: tuple[ComponentProgress, ...]) -> Fraction | None:
    """sum(w s) / sum(w) over components that have steps to take; absent without any."""
    counted = [(c.weight, c.share) for c in components if c.share is not None]
    weight = sum((w for w, _ in counted), Fraction(0))
    done = sum((w * s for w, s in counted if s is not None), Fraction(0))
    return done / weight if weight else None


def component_progress(
    line: Line, workshop: Workshop, *, delivered: bool = False, proved: bool = False
) -> ComponentProgress:
    """Which steps a component has to take, and which of them are done.

    `proved` tells that every proof asked of its subsystem is recorded, which proves what is in it.
    """
    done = _done(line)
    name = _path(line, done, delivered)
    subsystem = workshop.all_subsystems().get(line.component.subsystem)
    safety = line.component.line.safety or (subsystem is not None and subsystem.safety)
    tried = line.component.subsystem in TRIED or any(
        Act.TRIAL_FITTED in e.acts for e in line.biography
    )
    skipped = (set() if safety else {Step.PROVE}) | (set() if tried else {Step.TRIAL})
    steps = tuple(step for step in PATHS[name].steps if step not in skipped)
    if proved and set(steps) - done <= {Step.PROVE}:
        done |= {Step.PROVE}
    return ComponentProgress(line.component.key, name, steps, done, line.weight)


# Acts that leave a component where and as it is.
_LOOKED = frozenset({Act.INSPECTED, Act.MEASURED, Act.STORED})
# Acts that take a component off its place, or bring it back.
_MOVED = frozenset({Act.REMOVED, Act.STRIPPED, Act.TRIAL_FITTED, Act.FITTED})
# Acts that do a repair without leaving a treatment on the item.
_MENDED = frozenset({Act.MADE, Act.ADJUSTED})
_GOOD = frozenset({Verdict.REUSE, Verdict.WATCH})
_MORE = frozenset({Verdict.REPAIR, Verdict.REPLACE})
_BACK = frozenset({Position.FITTED, Position.PROVED})


def _path(line: Line, done: frozenset[Step], delivered: bool) -> str:
    acts = {act for entry in line.biography for act in entry.acts}
    touched = line.changed or bool(acts - _LOOKED) or line.position is Position.OUT
    wanted = any(entry.work.verdict in _MORE for entry in line.biography)
    if delivered and not touched and not wanted and Step.REPAIR not in done:
        return "not part of the job"
    if line.changed and line.now.origin is Origin.ABSENT:
        return "left out for good"
    if line.as_found.origin is Origin.ABSENT:
        return "to be found"
    if line.changed or acts & _MOVED or line.position not in (Position.ON, Position.PROVED):
        return "off and back"
    if Step.REPAIR in done:
        return "worked on in place" if any(_mends(act) for act in acts) else "left alone"
    return "off and back" if touched else "not touched yet"


def _mends(act: Act) -> bool:
    """Whether an act repairs the item: cleaning alone does not."""
    return act in _MENDED or EFFECT[act].treatment not in (None, Treatment.CLEANED)


def _done(line: Line) -> frozenset[Step]:
    """The steps done, from the biography in order, then from where the item is now."""
    done: frozenset[Step] = frozenset()
    for entry in line.biography:
        done = _after(done, entry)
    if line.position is Position.OUT or line.now.gone:
        done = (done | {Step.STRIP, Step.ASSESS}) - {Step.REPAIR}
    if line.position is Position.OFF and line.as_found.origin is not Origin.ABSENT:
        done |= {Step.STRIP, Step.ASSESS}
    if line.position not in _BACK or line.stand_in is not None:
        return done - {Step.FIT, Step.PROVE}
    proved = {Step.PROVE} if line.position is Position.PROVED else set()
    return done | (frozenset(Step) - {Step.PROVE}) | proved


def _after(done: frozenset[Step], entry: Entry) -> frozenset[Step]:
    """The steps done after one more line of the biography."""
    work = entry.work
    if work.verdict in _MORE:
        done -= {Step.REPAIR}
    if work.now is not None:
        # Another item: it has been neither tried nor fitted yet.
        done = (done - {Step.TRIAL}) | {Step.STRIP, Step.ASSESS, Step.REPAIR}
    if work.found or work.verdict or {Act.INSPECTED, Act.MEASURED} & set(entry.acts):
        done |= {Step.ASSESS}
    if work.verdict in _GOOD:
        done |= {Step.REPAIR}
    for act in entry.acts:
        done |= _brings(act)
    return done


def _brings(act: Act) -> frozenset[Step]:
    """The steps that an act shows to be done."""
    if _mends(act):
        return frozenset({Step.STRIP, Step.ASSESS, Step.REPAIR})
    if act in (Act.TRIAL_FITTED, Act.FITTED):
        return frozenset({Step.STRIP, Step.ASSESS, Step.TRIAL})
    return frozenset({Step.STRIP} if act in (Act.REMOVED, Act.STRIPPED) else ())

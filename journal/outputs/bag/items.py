"""The items of a car through their states, one after another: what provenance is written from.

The same sheets that the ledger folds are followed once more, since the ledger keeps no item that was
replaced in its turn. A test holds the two against each other.
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from typing import NamedTuple

from msgspec import Struct
from msgspec.structs import replace

from journal.ledgers.originality import Line
from journal.ledgers.originality.items import Entry
from journal.ledgers.outwork import Batch
from journal.words.vocabulary import EFFECT, Fate, Origin

_FATES = frozenset(fate.value for fate in Fate)


class State(NamedTuple):
    """An item as it was from one treatment to the next. `item` counts the items of a place from 0,
    `state` the states of an item."""

    place: str
    item: int
    state: int
    origin: Origin


class Made(NamedTuple):
    """A state and the act that brought it about. `of` is the state it comes from: that of the same
    item before, or of the item that it was copied from."""

    state: State
    by: str
    of: State | None = None
    part: str | None = None


class Act(NamedTuple):
    """What was done to one component: a line of a sheet."""

    name: str
    place: str
    entry: Entry


class Story(Struct, frozen=True):
    """All that happened in one place on the car.

    `used` and `gone` pair an act with the state that it was done to, or that it was the end of. `now` is
    what is there, absent where nothing is; `off` are the items that came off and stay off, oldest first;
    `ended` are the items that are no more.
    """

    place: str
    states: tuple[State, ...] = ()
    acts: tuple[Act, ...] = ()
    made: tuple[Made, ...] = ()
    used: tuple[tuple[str, State], ...] = ()
    gone: tuple[tuple[str, State], ...] = ()
    now: State | None = None
    off: tuple[State, ...] = ()
    ended: frozenset[int] = frozenset()


class _Event(NamedTuple):
    order: tuple[date, int, int]
    act: str
    entry: Entry | None = None
    back: bool = False


def story_of(line: Line, lots: Sequence[Batch]) -> Story:
    """The story of a component: every line of its biography and every lot of outwork it was in."""
    found = line.as_found.origin
    first = State(line.component.key, 0, 0, found)
    there = found is not Origin.ABSENT
    story = Story(line.component.key, (first,) if there else (), now=first if there else None)
    for event in sorted(_events(line, lots), key=lambda e: e.order):
        if event.entry is None:
            story = _outside(story, event)
        else:
            story = _worked(story, Act(event.act, story.place, event.entry))
    return story


def _events(line: Line, lots: Sequence[Batch]) -> Iterator[_Event]:
    """Within a day things come back first, then work is done, then things go out."""
    key = line.component.key
    for place, entry in enumerate(line.biography):
        yield _Event((entry.day, 1, place), f"work/{entry.sheet}/{key}", entry)
    for place, lot in enumerate(lots):
        if key in lot.of and lot.first_sent is not None:
            yield _Event((lot.first_sent, 2, place), f"outwork/{lot.name}")
            if lot.home is not None:
                yield _Event((lot.home, 0, place), f"outwork/{lot.name}", back=True)


def _outside(story: Story, event: _Event) -> Story:
    """An item goes out as it is, and comes home in another state."""
    if story.now is None:
        return story
    if not event.back:
        return replace(story, used=(*story.used, (event.act, story.now)))
    return _treated(story, event.act)


def _treated(story: Story, act: str) -> Story:
    assert story.now is not None
    after = story.now._replace(state=story.now.state + 1)
    made = Made(after, act, story.now)
    return replace(story, states=(*story.states, after), made=(*story.made, made), now=after)


def _worked(story: Story, act: Act) -> Story:
    entry = act.entry
    story = replace(story, acts=(*story.acts, act))
    if story.now is not None:
        story = replace(story, used=(*story.used, (act.name, story.now)))
    if entry.work.now is not None:
        return _exchanged(story, act)
    if story.now is not None and any(EFFECT[done].treatment for done in entry.acts):
        story = _treated(story, act.name)
    told = entry.work.original or entry.work.came_off
    return _lost(story, act) if told in _FATES else story


def _lost(story: Story, act: Act) -> Story:
    """What is said to be gone: the works' own item, off or there, or whatever is there. An item that
    nobody can tell the origin of may be the works' own."""
    away = story.now
    if act.entry.work.original and not _is_own(away):
        unknown = away is not None and away.origin is Origin.UNKNOWN
        away = _own(story) or (away if unknown else None)
    return story if away is None else _ended(story, act, away)


def _ended(story: Story, act: Act, state: State) -> Story:
    """The end of an item. It has one, however often it is told."""
    if state.item in story.ended:
        return story
    gone = (*story.gone, (act.name, state))
    return replace(story, gone=gone, ended=story.ended | {state.item})


def _exchanged(story: Story, act: Act) -> Story:
    work = act.entry.work
    own = _own(story)
    if work.now is Origin.FIRST_FIT and own is not None:
        kept = story.off[: story.off.index(own)]
        used = (*story.used, (act.name, own))
        return replace(story, now=own, off=kept, used=used, ended=story.ended - {own.item})
    before = story.now
    stays = before is not None and _is_own(before) and before.item not in story.ended
    if work.now is Origin.FIRST_FIT and stays:
        return story
    if before is not None:
        story = _came_off(story, act, before)
    if work.now is None or work.now is Origin.ABSENT:
        return replace(story, now=None)
    number = 1 + max((state.item for state in story.states), default=0)
    after = State(story.place, number, 0, work.now)
    # What is made in the workshop is made to the sample that came off.
    sample = before if work.now is Origin.MADE else None
    made = Made(after, act.name, sample, work.part)
    return replace(story, states=(*story.states, after), made=(*story.made, made), now=after)


def _came_off(story: Story, act: Act, before: State) -> Story:
    """What was there is off: kept, which it cannot be when it is no more, or at its end."""
    told = act.entry.work.original or act.entry.work.came_off
    story = replace(story, off=(*story.off, before))
    if told in _FATES:
        return _ended(story, act, before)
    return replace(story, ended=story.ended - {before.item}) if told else story


def _own(story: Story) -> State | None:
    """The works' own item among those that came off, the latest of them."""
    return next((state for state in reversed(story.off) if _is_own(state)), None)


def _is_own(state: State | None) -> bool:
    return state is not None and state.origin is Origin.FIRST_FIT


def by_part(suppliers: Mapping[str, str | None], made: Made) -> str | None:
    """Who supplied what was fitted, by the part that it was."""
    return suppliers.get(made.part) if made.part else None

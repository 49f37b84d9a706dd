"""What a line of a day sheet does to a component, one rule of the trade a function.

Each rule takes the state and the line and returns the state after it. A line that cannot be true
beside what was written before leaves a contradiction on record; what the later line says stands.
"""

from collections.abc import Callable

from msgspec.structs import replace

from journal.ledgers.originality.items import Displacement, Entry, Item, Learned, Link, StandIn
from journal.ledgers.originality.state import Moment, State, contradicted
from journal.records.work import Work
from journal.words.amounts import WHOLE
from journal.words.vocabulary import EFFECT, Act, Fate, Origin, Position, Treatment

Rule = Callable[[State, Work, Moment], State]


def learn(state: State, work: Work, at: Moment) -> State:
    """`was`: what is known of the car as found changes, wherever that item is by now."""
    if work.was is None:
        return state
    was = work.was
    told = replace(
        state.as_found,
        origin=was.origin,
        retained=was.retained or state.as_found.retained,
        conforms=was.conforms if was.conforms is not None else state.as_found.conforms,
        conforms_why=work.why or state.as_found.conforms_why,
    )
    lesson = Learned(at.told, at.sheet, state.as_found.origin)
    if was.origin is Origin.FIRST_FIT and _another_first_fit(state):
        says = "what was found is said to be first-fit, but another item is said to be that"
        state = contradicted(
            state, at, "two-first-fit", says, against=state.moved_in, disputes=True
        )

    def corrected(item: Item) -> Item:
        if item.since is not None:
            return item
        share = was.retained or item.retained
        return replace(item, origin=told.origin, retained=share, conforms=told.conforms)

    return replace(
        state,
        as_found=told,
        now=corrected(state.now),
        displaced=tuple(replace(d, item=corrected(d.item)) for d in state.displaced),
        learned=(*state.learned, lesson),
        moved_in=at.sheet,
    )


def _another_first_fit(state: State) -> bool:
    """Whether an item that came after booking in is said to be the one the works fitted."""
    items = (state.now, *(d.item for d in state.displaced))
    return any(i.origin is Origin.FIRST_FIT and i.since is not None for i in items)


def exchange(state: State, work: Work, at: Moment) -> State:
    """`now`: another item takes the place; the one that was there is displaced."""
    if work.now is None:
        return state
    if work.now is Origin.FIRST_FIT:
        off = state.first_fit_off
        if off is not None:
            return _put_back(state, off, work, at)
        if state.now.origin is Origin.FIRST_FIT and not state.now.gone:
            says = "another item is said to take its place, but the first-fit one is there already"
            return contradicted(state, at, "already-there", says, against=state.moved_in)
    item = Item(
        work.now, work.retained or WHOLE, work.conforms,
        work.why if work.conforms else None, at.day, at.sheet, part=work.part,
    )  # fmt: skip
    off_item = _lying(state.now, work)
    displaced = Displacement(
        off_item,
        at.day,
        at.sheet,
        work.why,
        work.decided,
        work.reversible,
        work.undo,
        work.usable is not False,
    )
    return replace(state, now=item, displaced=(*state.displaced, displaced), moved_in=at.sheet)


def _put_back(state: State, off: Displacement, work: Work, at: Moment) -> State:
    """The displaced first-fit item goes back; what had been put in its place is gone from it."""
    if off.item.gone:
        fate = off.item.fate.value if off.item.fate else ""
        says = f"the item the works fitted is put back, but it was {fate}"
        state = contradicted(state, at, "refit-of-gone", says, against=off.sheet, disputes=True)
    item = replace(off.item, kept=None, fate=None)
    place = max(n for n, displaced in enumerate(state.displaced) if displaced is off)
    kept = state.displaced[:place]
    return replace(state, now=item, displaced=kept, moved_in=at.sheet)


def _lying(item: Item, work: Work) -> Item:
    """The item where a line says that it is: kept at a place, or what became of it."""
    told = work.original or work.came_off
    if told is None:
        return item
    if told in [fate.value for fate in Fate]:
        return replace(item, kept=None, fate=Fate(told))
    return replace(item, kept=told, fate=None)


def claim_original(state: State, work: Work, at: Moment) -> State:
    """`original` with `now`: the item that comes off is said to be the works' own. Is it?"""
    if work.original is None or work.now is None:
        return state
    if state.now.origin in (Origin.FIRST_FIT, Origin.UNKNOWN):
        return state
    off = state.first_fit_off
    if off is not None:
        says = "the original is said to come off, but it came off before"
        return contradicted(state, at, "displaced-twice", says, against=off.sheet, disputes=True)
    says = f"the original is said to come off, but what was there is {state.now.origin.value}"
    return contradicted(state, at, "not-original", says, against=state.moved_in, disputes=True)


def relocate(state: State, work: Work, at: Moment) -> State:
    """`original` or `came-off` without `now`: the item has come off, or lies elsewhere now."""
    if work.now is not None or not (work.original or work.came_off):
        return state
    off = state.first_fit_off
    if work.original and off is not None and state.now.origin is not Origin.FIRST_FIT:
        return _move_displaced(state, off, work, at)
    if work.original and state.now.origin not in (Origin.FIRST_FIT, Origin.UNKNOWN):
        says = f"the original is said to be kept, but what was there is {state.now.origin.value}"
        return contradicted(state, at, "not-original", says, against=state.moved_in, disputes=True)
    if state.now.gone:
        return _gone(state, at)
    return replace(state, now=_lying(state.now, work), moved_in=at.sheet)


def _move_displaced(state: State, off: Displacement, work: Work, at: Moment) -> State:
    if off.item.gone:
        fate = off.item.fate.value if off.item.fate else ""
        says = f"the original is said to be kept, but it was {fate}"
        return contradicted(state, at, "work-after-gone", says, against=off.sheet)
    usable = off.usable if work.usable is None else work.usable
    moved = replace(off, item=_lying(off.item, work), usable=usable)
    stack = tuple(moved if d is off else d for d in state.displaced)
    return replace(state, displaced=stack)


def _gone(state: State, at: Moment) -> State:
    fate = state.now.fate.value if state.now.fate else ""
    says = f"there is work on it, but it was {fate}"
    return contradicted(state, at, "work-after-gone", says, against=state.moved_in)


def shares(state: State, work: Work, at: Moment) -> State:
    """`retained` and `conforms` of the item that is there; original material cannot come back."""
    if work.now is not None and work.now is not Origin.FIRST_FIT:
        return state
    item = state.now
    if work.retained is not None:
        if work.retained.low > item.retained.high and not at.corrects:
            says = "more original material is left in it than before"
            state = contradicted(state, at, "retained-rises", says, against=state.moved_in)
        item = replace(item, retained=work.retained)
    if work.conforms is not None:
        item = replace(item, conforms=work.conforms, conforms_why=work.why)
    return state if item is state.now else replace(state, now=item)


# Acts that can be done to what is no longer there: looking at a place, and putting things away.
_OF_NO_ITEM = frozenset({Act.INSPECTED, Act.MEASURED, Act.STORED})


def acts(state: State, work: Work, at: Moment) -> State:
    """`did`: treatments and positions, in the order written."""
    on_item = work.now is None and any(act not in _OF_NO_ITEM for act in work.did)
    if on_item and state.now.gone and not (work.original or work.came_off):
        state = _gone(state, at)
    if on_item and state.now.origin is Origin.ABSENT:
        says = "there is work on it, but nothing is there"
        state = contradicted(state, at, "work-on-absent", says, against=state.moved_in)
    if work.now is not None:
        # Told without an act, an item is in its place; told with the making of it, not yet.
        state = replace(state, position=Position.OFF if work.did else Position.FITTED)
    for act in work.did:
        state = _act(state, act, work, at)
    return state


def _act(state: State, act: Act, work: Work, at: Moment) -> State:
    treatment, position = EFFECT[act]
    item = _treated(state.now, treatment)
    if position is None:
        return state if item is state.now else replace(state, now=item)
    state = _check_position(state, act, work, at)
    held = state.stand_in
    if position in (Position.FITTED, Position.PROVED):
        item = item if item.kept is None else replace(item, kept=None)
        held = None
    return replace(state, now=item, position=position, moved_in=at.sheet, stand_in=held)


def _treated(item: Item, treatment: Treatment | None) -> Item:
    if treatment is None or treatment in item.treatments:
        return item
    return replace(item, treatments=(*item.treatments, treatment))


def _check_position(state: State, act: Act, work: Work, at: Moment) -> State:
    """Positions that cannot follow each other."""
    off, out = state.position is Position.OFF, state.position is Position.OUT
    if act is Act.REMOVED and (off or out) and work.now is None:
        says = "it is taken off twice, and not fitted in between"
        return contradicted(state, at, "removed-twice", says, against=state.moved_in)
    if out and act in (Act.FITTED, Act.TRIAL_FITTED, Act.PROVED):
        says = "it is fitted while it is out for work"
        return contradicted(state, at, "fitted-while-out", says, against=state.moved_in)
    if act is Act.PROVED and (off or state.position is Position.TRIAL):
        says = "it is proved before it is fitted"
        return contradicted(state, at, "proved-unfitted", says, against=state.moved_in)
    return state


def stand_in(state: State, work: Work, at: Moment) -> State:
    """`stand-in`: something is in place only for now."""
    if work.stand_in is None:
        return state
    return replace(state, stand_in=StandIn(work.stand_in, at.day, at.sheet))


def record(before: State, after: State, work: Work, at: Moment) -> State:
    """The line joins the biography, and its papers, numbers and words the evidence."""
    links = [Link("paper", name, at.sheet, at.day) for name in work.paper]
    if work.number:
        links.append(Link("number", work.number, at.sheet, at.day))
    links.append(Link("words", at.sheet, at.sheet, at.day))
    changed = work.now is not None
    entry = Entry(
        at.day, at.told, at.sheet, work,
        before.now.origin if changed else None, after.now.origin if changed else None,
    )  # fmt: skip
    return replace(after, links=(*after.links, *links), biography=(*after.biography, entry))


# In the order a line is understood: knowledge first, then the exchange, then the item that is
# there after it.
RULES: tuple[Rule, ...] = (learn, claim_original, exchange, relocate, shares, acts, stand_in)


def step(state: State, work: Work, at: Moment) -> State:
    """The state of a component after one line of a sheet."""
    after = state
    for rule in RULES:
        after = rule(after, work, at)
    return record(state, after, work, at)


def sent_out(state: State, at: Moment) -> State:
    """The item goes out for work."""
    return replace(state, position=Position.OUT, moved_in=at.sheet)


def come_back(state: State, at: Moment) -> State:
    """The item comes back from outwork and lies in the workshop."""
    if state.position is not Position.OUT:
        return state
    return replace(state, position=Position.OFF, moved_in=at.sheet)

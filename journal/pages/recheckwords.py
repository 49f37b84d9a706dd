"""Re-checks in words: what is to be looked at, when it falls due, what was found."""

from journal.ledgers.rechecks import Recheck, RecheckState
from journal.pages.anchors import anchor
from journal.pages.common import has_page
from journal.pages.keeperwords import distance_words
from journal.pages.links import Links, Ref
from journal.pages.placing import RECHECKS
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words, in_words, limit_words, sentence, some, unit_words
from journal.pages.workwords import view_hand
from journal.records.recheck import Wanted
from journal.words.groups import grouped
from journal.words.stretch import stretch_words
from journal.words.text import counted

# The drawing of each state, of those that proofs have too.
_MARKS = {
    RecheckState.LATE: "out-of-date",
    RecheckState.DUE: "out-of-date",
    RecheckState.AHEAD: "",
    RecheckState.WAITING: "",
    RecheckState.DONE: "proved",
}


class RecheckWords(Value, frozen=True):
    """One re-check. `state` is empty while it is ahead; `done` and those after it are empty until
    somebody looked. `anchor` is empty for all turns of a name but the last."""

    anchor: str
    mark: str
    what: str
    on: tuple[Ref, ...]
    value: str
    asked: str
    asked_in: Ref
    state: str
    pressing: bool
    when: str
    left: str
    done: str
    done_iso: str
    done_in: Ref | None
    found: str
    by: str


def recheck_words(view: CarView, links: Links, recheck: Recheck) -> RecheckWords:
    """A re-check as its page tells it."""
    state, done = recheck.state(view.until), recheck.done
    pressing = state in (RecheckState.LATE, RecheckState.DUE)
    when = when_words(view, recheck)
    return RecheckWords(
        anchor("recheck", recheck.name) if _is_last(view, recheck) else "",
        _MARKS[state],
        sentence(recheck.what),
        links.components(recheck.on) or (links.subsystem(recheck.subsystem),),
        value_words(recheck.value),
        day_words(recheck.asked),
        links.sheet(recheck.asked_in),
        _state_words(recheck, state),
        pressing,
        when if done or pressing else sentence(when),
        sentence(_left(view, recheck, state)),
        day_words(done.day) if done else "",
        done.day.isoformat() if done else "",
        links.sheet(done.sheet) if done else None,
        sentence(done.found) if done else "",
        view_hand(view, done.by) if done and done.by else "",
    )


def _is_last(view: CarView, recheck: Recheck) -> bool:
    return view.once(_last_turns)[recheck.name] == recheck.turn


def _last_turns(view: CarView) -> dict[str, int]:
    turns = grouped(view.rechecks.rechecks, lambda recheck: recheck.name)
    return {name: max(recheck.turn for recheck in of) for name, of in turns.items()}


def recheck_ref(links: Links, recheck: Recheck) -> Ref:
    """A re-check at its place on the page, for the readers who have it."""
    there = has_page(links.view.reader, RECHECKS)
    return Ref(sentence(recheck.what), links.recheck(recheck.name) if there else None)


def _state_words(recheck: Recheck, state: RecheckState) -> str:
    if state is RecheckState.DONE:
        return "Done after it was due" if recheck.was_late else ""
    return {RecheckState.LATE: "Past due", RecheckState.DUE: "Due now"}.get(state, "")


def value_words(value: Wanted | None) -> str:
    """What should be found: `48 to 52 lbf ft; cold, as the handbook gives it`."""
    if value is None:
        return ""
    limit = limit_words(value.limit.least, value.limit.most) if value.limit else None
    figure = f"{limit} {unit_words(value.unit)}" if limit and value.unit else limit
    return "; ".join(text for text in (figure, value.says) if text)


def when_words(view: CarView, recheck: Recheck) -> str:
    """When it falls due: `at 48,871 miles or on 1 August 2025, whichever comes first`."""
    asked = stretch_words(recheck.after)
    if recheck.start is None or recheck.start > view.until:
        return f"{asked} after delivery{_first(recheck)}"
    unit, told = view.rechecks.unit.value, []
    if recheck.due_at is not None:
        told.append(f"at {distance_words(recheck.due_at, unit)}")
    if recheck.due_on is not None:
        told.append(f"on {day_words(recheck.due_on)}")
    if recheck.due_at is not None or recheck.after.distance is None:
        return f"{' or '.join(told)}{_first(recheck)}"
    return "; ".join((f"{asked} after {day_words(recheck.start)}", *told, _untold(recheck)))


def _first(recheck: Recheck) -> str:
    return ", whichever comes first" if recheck.after.distance and recheck.after.time else ""


def _untold(recheck: Recheck) -> str:
    """Why nobody can tell at which reading it is due."""
    if recheck.exchanged is not None:
        other = day_words(recheck.exchanged)
        return f"another odometer went in on {other}, so that the distance cannot be told from it"
    return "the odometer was not read by then, so that the distance cannot be told from it"


def _left(view: CarView, recheck: Recheck, state: RecheckState) -> str:
    """How much is left, or how far past due it is, as far as anybody wrote down."""
    if state in (RecheckState.WAITING, RecheckState.DONE):
        return ""
    said = []
    left, reading = recheck.distance_left(), recheck.reading
    if left is not None and reading is not None and reading != recheck.start_at:
        far = distance_words(abs(left), view.rechecks.unit.value)
        read = f"when the odometer was last read, on {day_words(reading.day)}"
        said.append(
            f"{far} {'to go' if left > 0 else 'past'} {read}" if left else f"reached {read}"
        )
    if recheck.due_on is not None and recheck.due_on < view.until:
        said.append(f"{counted((view.until - recheck.due_on).days, 'day')} past")
    return "; ".join(said)


def lead_words(view: CarView) -> str:
    """How many there are, and how many are due; empty when nothing is asked for."""
    rechecks = view.rechecks
    if not rechecks.rechecks:
        return ""
    still, done = len(rechecks.open), len(rechecks.done)
    if not still:
        return f"Everything that was to be looked at again has been: {in_words(done)} in all."
    words = f"{some(still, 'thing')} {'is' if still == 1 else 'are'} to be looked at again"
    pressing = len(rechecks.in_state(view.until, RecheckState.LATE, RecheckState.DUE))
    due = f"{in_words(pressing) if pressing else 'none'} {'is' if pressing == 1 else 'are'} due"
    after = f"; {in_words(done)} {'has' if done == 1 else 'have'} been done" if done else ""
    waiting = len(rechecks.in_state(view.until, RecheckState.WAITING)) == still
    if waiting:
        return sentence(f"{words} once the car is on the road{after}.")
    return sentence(f"{words}; {due} by {day_words(view.until)}{after}.")


def counting_words(view: CarView) -> str:
    """From when and from which reading everything counts that was asked for before delivery."""
    delivered = view.car.car.delivered
    if delivered is None or delivered > view.until:
        return ""
    begun = next((r for r in view.rechecks.rechecks if r.start == delivered and r.start_at), None)
    if begun is None or begun.start_at is None:
        return f"Times count from delivery on {day_words(delivered)}."
    at = begun.start_at
    read = distance_words(at.value, view.rechecks.unit.value)
    when = "when the odometer read" if at.day == delivered else "distances from"
    on = "" if at.day == delivered else f", read on {day_words(at.day)}"
    return f"Everything counts from delivery on {day_words(delivered)}, {when} {read}{on}."


def rechecks_due(view: CarView) -> str:
    """What is due, as one sentence; empty when nothing is, and for those who have no page of it."""
    if not has_page(view.reader, RECHECKS):
        return ""
    due = len(view.rechecks.in_state(view.until, RecheckState.LATE, RecheckState.DUE))
    verb = "is" if due == 1 else "are"
    return sentence(f"{some(due, 're-check')} {verb} due.") if due else ""


def rechecks_link(view: CarView, links: Links) -> Ref | None:
    """Where all of them stand, while any is open and for those who have the page."""
    if not view.rechecks.open or not has_page(view.reader, RECHECKS):
        return None
    due = len(view.rechecks.in_state(view.until, RecheckState.LATE, RecheckState.DUE))
    return Ref(f"All re-checks, {in_words(due) if due else 'none'} of them due", links.to(RECHECKS))


def rechecks_of_sheet(view: CarView, links: Links, sheet: str) -> tuple[tuple[Ref, str], ...]:
    """What a sheet says of re-checks: where each leads, and that it is asked for or done."""
    lines = []
    for recheck in view.rechecks.of_sheet(sheet):
        ref = recheck_ref(links, recheck)
        if recheck.done is not None and recheck.done.sheet == sheet:
            lines.append((ref, f"done: {recheck.done.found}"))
        if recheck.asked_in == sheet:
            lines.append((ref, f"to be looked at after {stretch_words(recheck.after)}"))
    return tuple(lines)

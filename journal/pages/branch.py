"""A subsystem in sentences, counted from the ledgers: shared by its page and the list of all."""

from collections.abc import Sequence
from fractions import Fraction

from journal.ledgers.originality import Line
from journal.pages.standing import not_fitted
from journal.pages.view import CarView
from journal.pages.words import hours_words, in_words, sentence, some
from journal.words.text import listed
from journal.words.vocabulary import Origin, Position


def branch_sentences(view: CarView, name: str) -> tuple[str, ...]:
    """Days and hours, how many components are the car's own and how many are fitted, and holds."""
    return tuple(s for s in (_work(view, name), _own(view, name), _holds(view, name)) if s)


def _work(view: CarView, name: str) -> str:
    days = {s.date for s in view.car.sheets if name in s.front.subsystem}
    days |= {s.day for s in view.hours.spent if s.subsystem == name}
    if not days:
        return "No work on it is written yet."
    hours = view.hours.by_subsystem().get(name, Fraction(0))
    spent = f", {hours_words(hours)}" if hours else ""
    return sentence(f"{some(len(days), 'day')}{spent}.")


def _own(view: CarView, name: str) -> str:
    lines = [line for line in view.originality.lines if line.component.subsystem == name]
    if not lines:
        return ""
    own = sum(line.now.origin is Origin.FIRST_FIT and not line.now.gone for line in lines)
    return sentence(f"{_first_fit(own, len(lines))}; {_where(lines)}.")


def _first_fit(own: int, of: int) -> str:
    components = some(of, "component")
    if own == of:
        return f"its {components} is first-fit" if of == 1 else f"all {components} are first-fit"
    verb = "is" if own == 1 else "are"
    return f"{in_words(own) if own else 'none'} of {components} {verb} first-fit"


def _where(lines: Sequence[Line]) -> str:
    done = sum(line.position in (Position.FITTED, Position.PROVED) for line in lines)
    if done == len(lines):
        return "fitted again" if done == 1 else "all fitted again"
    fitted = [f"{in_words(done)} fitted again"] if done else []
    return listed(fitted + not_fitted(lines))


def _holds(view: CarView, name: str) -> str:
    holds = sum(snag.subsystem == name for snag in view.snags.holds)
    if not holds:
        return ""
    verb = "holds" if holds == 1 else "hold"
    return sentence(f"{some(holds, 'open snag')} {verb} the handover.")

"""What is waited for, in words: for the page of it, and for a front page that shows the first few."""

from collections.abc import Iterable

from journal.digests.waiting import Awaited, Kind
from journal.pages.links import Links, Ref
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import (
    day_words,
    in_words,
    owner_words,
    plain_count,
    sentence,
    some,
    supplier_words,
    who,
)
from journal.words.text import counted
from journal.words.vocabulary import Reader

_SUPPLIED = (Kind.ORDER, Kind.OUTWORK)


class AwaitedWords(Value, frozen=True):
    """One thing waited for. `age` is in days, `unit` the word for them; on the first day there is
    no figure. `facts` are told after another; what is held up is told by component, else by
    subsystem. `put_off` is the reason for which a question rests."""

    label: str
    what: str
    sheet: Ref
    age: str
    unit: str
    facts: tuple[str, ...]
    late: str
    held: tuple[Ref, ...]
    holds: tuple[str, ...]
    put_off: str


def still_awaited(view: CarView) -> tuple[Awaited, ...]:
    """What is waited for, without the questions that were put off."""
    return tuple(item for item in view.waiting.items if not item.put_off)


def awaited_words(
    view: CarView, links: Links, items: Iterable[Awaited]
) -> tuple[AwaitedWords, ...]:
    """Each item as a person says it."""
    return tuple(_words(view, links, item) for item in items)


def _words(view: CarView, links: Links, item: Awaited) -> AwaitedWords:
    components = tuple(links.component(key, full=True) for key in item.components)
    subsystems = tuple(links.subsystem(name) for name in item.subsystems)
    snags = {snag.name: snag.text for snag in view.snags.holds}
    return AwaitedWords(
        _label(view, item),
        awaited_what(view, item),
        links.sheet(item.sheet),
        str(item.age) if item.age else "",
        "today" if not item.age else "day" if item.age == 1 else "days",
        tuple(_facts(view, item)),
        f"{counted(item.late, 'working day')} late" if item.late else "",
        components or subsystems,
        tuple(snags[name] for name in item.holds if snags.get(name, item.what) != item.what),
        item.put_off or "",
    )


def _label(view: CarView, item: Awaited) -> str:
    if item.kind is Kind.QUESTION:
        return f"Asked of {asked_of(view, item)}"
    named = {Kind.ORDER: "On order", Kind.OUTWORK: "Out for work"}
    return named.get(item.kind, "Who decided it?")


def asked_of(view: CarView, item: Awaited) -> str:
    """Who a question was put to, as the reader would say it."""
    if item.whom == "owner":
        return owner_words(view.reader)
    return who(view.car.workshop, item.whom or "")


def awaited_what(view: CarView, item: Awaited) -> str:
    """What is waited for; for a departure nobody is said to have decided, the item in place."""
    if item.kind is not Kind.DEPARTURE:
        return sentence(item.what)
    component = view.car.component(item.components[0]) if item.components else None
    return f"{component.label if component else item.name}, now {item.what}"


def _facts(view: CarView, item: Awaited) -> list[str]:
    facts = []
    if item.kind in _SUPPLIED and item.whom:
        facts.append(supplier_words(view.car.workshop, item.whom) or "")
    if item.count is not None and item.kind in _SUPPLIED:
        facts.append(f"{plain_count(item.count)} still to come")
    verb = {Kind.ORDER: "ordered", Kind.OUTWORK: "sent out", Kind.QUESTION: "asked"}
    facts.append(f"{verb.get(item.kind, 'in place since')} {day_words(item.since)}")
    if item.due:
        facts.append(f"promised for {day_words(item.due)}")
    return facts


def waiting_lead(view: CarView) -> str:
    """How much is waited for, and how much of it hurts."""
    items = still_awaited(view)
    if not items:
        return "Nothing is waited for."
    said = [
        f"{sentence(some(len(items), 'thing'))} {'is' if len(items) == 1 else 'are'} waited for"
    ]
    if len(items) == 1:
        return f"{said[0]}."
    whose = "your" if view.reader is Reader.OWNER else "the owner’s"
    for count, words in (
        (sum(bool(item.holds) for item in items), "with a hold on the handover"),
        (sum(item.late > 0 for item in items), "late"),
        (len([item for item in items if item.whom == "owner"]), f"for {whose} word"),
    ):
        said += [f"{in_words(count)} {words}"] if count else []
    return ", ".join(said) + "."

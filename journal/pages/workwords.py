"""What a day did to a component, and the day itself in a list: shared by several pages."""

from msgspec import Struct

from journal.ledgers.originality.items import Entry
from journal.pages.common import OriginMark, origin_mark
from journal.pages.lines import WITNESS
from journal.pages.links import Links, Ref
from journal.pages.plates import Plate, plates_of
from journal.pages.prose import excerpt
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words, decided_words, sentence, share_words
from journal.records.sheet import Sheet
from journal.records.work import Locking, Work
from journal.words.dates import WEEKDAYS, month_name
from journal.words.text import listed
from journal.words.vocabulary import Fate, Verdict

VERDICT_WORDS = {
    Verdict.REUSE: "good to use again",
    Verdict.REPAIR: "to be repaired",
    Verdict.REPLACE: "to be replaced",
    Verdict.WATCH: "to be watched",
    Verdict.ASK: "to be asked about",
}


class Fact(Value, frozen=True):
    """A short label and what stands under it."""

    label: str
    text: str


class Change(Value, frozen=True):
    """Another item took the place."""

    before: OriginMark | None
    after: OriginMark


class WorkWords(Value, frozen=True):
    """One line of a day's work."""

    ref: Ref
    acts: str
    change: Change | None
    facts: tuple[Fact, ...]


class Told(Struct, frozen=True):
    """What a line of work says, wherever it stands."""

    acts: str
    change: Change | None
    facts: tuple[Fact, ...]


class DayEntry(Value, frozen=True):
    """A day sheet in a list."""

    ref: Ref
    day: str
    weekday: str
    month: str
    iso: str
    subsystems: str
    excerpt: str
    picture: Plate | None


def day_entry(view: CarView, links: Links, sheet: Sheet) -> DayEntry:
    """A day sheet as a list shows it."""
    plates = plates_of(view, links, view.gallery.in_sheet(sheet.name))
    return DayEntry(
        links.sheet(sheet.name),
        str(sheet.date.day),
        WEEKDAYS[sheet.date.weekday()],
        month_name(sheet.date.year, sheet.date.month),
        sheet.date.isoformat(),
        listed([links.subsystem(name).text for name in sheet.front.subsystem]),
        excerpt(sheet.body),
        plates[0] if plates else None,
    )


def work_of_sheet(
    view: CarView, links: Links, sheet: Sheet, subsystem: str | None = None
) -> tuple[WorkWords, ...]:
    """Every line of a sheet's work, or those on one subsystem, in the order written.

    Components tell their subsystem when the lines go beyond one.
    """
    lines = [(k, w) for k, w in sheet.front.work if subsystem in (None, k.split("/")[0])]
    full = len({key.split("/")[0] for key, _ in lines}) > 1
    return tuple(
        _worded(links.component(key, full=full), _told(view, sheet.name, key, work))
        for key, work in lines
    )


def work_of_entry(view: CarView, links: Links, component: str, entry: Entry) -> WorkWords:
    """One line of a component's biography, under its sheet."""
    return _worded(links.sheet(entry.sheet), _told(view, entry.sheet, component, entry.work))


def _worded(ref: Ref, told: Told) -> WorkWords:
    return WorkWords(ref, told.acts, told.change, told.facts)


def _told(view: CarView, sheet: str, component: str, work: Work) -> Told:
    """A line of work in words: put into them once, though four pages and the search tell of it."""
    known = view.once(_nothing_told)
    if (sheet, component) not in known:
        line = view.originality.line(component)
        known[sheet, component] = _telling(view, work, line.entry(sheet) if line else None)
    return known[sheet, component]


def _nothing_told(_view: CarView) -> dict[tuple[str, str], Told]:
    return {}


def _telling(view: CarView, work: Work, entry: Entry | None) -> Told:
    change = None
    if entry is not None and entry.after is not None:
        before = origin_mark(entry.before) if entry.before else None
        change = Change(before, origin_mark(entry.after))
    acts = sentence(listed([act.value for act in work.did]))
    facts = (*_findings(work), *_reasons(view, work), *_proofs(view, work))
    return Told(acts, change, facts)


def _findings(work: Work) -> list[Fact]:
    facts = []
    if work.found:
        facts.append(Fact("Found", work.found))
    if work.verdict:
        facts.append(Fact("Verdict", VERDICT_WORDS[work.verdict]))
    if work.was:
        facts.append(Fact("As found it was", f"{work.was.origin.value}, as this day showed"))
    if work.retained:
        facts.append(Fact("Original material kept", share_words(work.retained)))
    if work.original:
        facts.append(_where("The original", work.original))
    if work.came_off:
        facts.append(_where("What came off", work.came_off))
    if work.usable is False:
        facts.append(Fact("Kept", WITNESS))
    if work.stand_in:
        facts.append(Fact("On the car for now", work.stand_in))
    return facts


def _where(what: str, where: str) -> Fact:
    gone = where in {fate.value for fate in Fate}
    return Fact(what, where if gone else f"kept, {where}")


def _reasons(view: CarView, work: Work) -> list[Fact]:
    facts = []
    if work.conforms:
        facts.append(Fact("Conforms", share_words(work.conforms)))
    if work.why:
        facts.append(Fact("Why", work.why))
    if work.decided:
        words = decided_words(view.car.workshop, work.decided.by, work.decided.on)
        facts.append(Fact("Decided by", words))
    if work.reversible is not None:
        facts.append(Fact("Can be undone", "yes" if work.reversible else "no"))
    if work.undo:
        facts.append(Fact("The way back", work.undo))
    return facts


def _proofs(view: CarView, work: Work) -> list[Fact]:
    facts = []
    if work.number:
        facts.append(Fact("Number read", work.number))
    if work.paper:
        papers = [view.car.papers.get(name) for name in work.paper]
        titles = [p.title for p in papers if p is not None]
        facts += [Fact("Paper", listed(titles))] if titles else []
    if work.dated:
        facts.append(Fact("Made", work.dated))
    if work.locking:
        facts.append(Fact("Locked by", listed([_locked(locking) for locking in work.locking])))
    if work.by:
        facts.append(Fact("Done by", view_hand(view, work.by)))
    if work.checked:
        facts.append(Fact("Checked by", view_hand(view, work.checked)))
    if work.since:
        facts.append(Fact("True since", day_words(work.since)))
    if work.note:
        facts.append(Fact("Note", work.note))
    return facts


def _locked(locking: Locking) -> str:
    """`new split pin`, `compound on degreased threads`."""
    what = locking.by.value.replace("-", " ")
    new = {True: "new ", False: "used ", None: ""}[locking.new]
    threads = {True: " on degreased threads", False: " on threads as they were", None: ""}
    return f"{new}{what}{threads[locking.degreased]}"


def view_hand(view: CarView, name: str) -> str:
    """A hand by name where names may be seen, else as written."""
    hand = view.car.workshop.hands.get(name)
    return hand.name if hand and hand.name else name

"""Lines of the originality ledger as pages show them."""

from datetime import date

from msgspec.structs import replace

from journal.ledgers.originality import Line
from journal.ledgers.originality.items import Contradiction, Displacement, Item
from journal.pages.common import OriginMark, origin_mark
from journal.pages.links import Links, Ref
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words, decided_words, share_words
from journal.words.amounts import plain_number
from journal.words.vocabulary import Fate, Origin

# Said of an item that a reader might otherwise take for a spare.
WITNESS = "as a witness, not to go back into use"

FATE_WORDS = {Fate.SCRAPPED: "scrapped", Fate.EXCHANGED: "exchanged", Fate.LOST: "lost"}


class ItemWords(Value, frozen=True):
    """An item: its origin, its two shares, and what was done to it or became of it."""

    mark: OriginMark
    material: str
    conformity: str
    treatments: str
    gone: str
    why: str


class LedgerRow(Value, frozen=True):
    """One component's line. `counts_as` is the origin under which it counts now."""

    ref: Ref
    counts_as: str
    weight: str
    found: ItemWords
    now: ItemWords
    changed: bool
    departs: bool
    position: str
    evidence: str
    kept: tuple[str, ...]
    undo: str
    learned: str
    stand_in: str
    contradicted: bool


class DisplacedWords(Value, frozen=True):
    """An item that came off for another: why, by whose word, where it is, and the way back.

    `witness` marks an item kept for what it proves, not to be used again; `back` answers whether
    it can go back.
    """

    item: ItemWords
    sheet: Ref
    day: str
    why: str
    decided: str
    reversible: str
    undo: str
    where: str
    recoverable: bool
    witness: bool
    back: str


class ContradictionWords(Value, frozen=True):
    """Two statements that cannot both hold."""

    says: str
    sheet: Ref
    against: Ref | None


def item_words(item: Item) -> ItemWords:
    """An item in words."""
    return ItemWords(
        origin_mark(item.origin),
        share_words(item.material),
        share_words(item.conformity),
        ", ".join(t.value for t in item.treatments),
        FATE_WORDS[item.fate] if item.fate else "",
        (item.conforms_why or "") if item.conforms is not None else "",
    )


def origin_counted(item: Item) -> Origin:
    """The origin under which an item counts: what is scrapped, exchanged or lost is not there."""
    return Origin.ABSENT if item.gone else item.origin


def ledger_row(line: Line, links: Links) -> LedgerRow:
    """A line of the ledger in words."""
    return LedgerRow(
        links.component(line.component.key),
        origin_counted(line.now).value,
        plain_number(line.weight),
        item_words(line.as_found),
        item_words(line.now),
        line.changed,
        line.now.departs,
        line.position.value,
        line.evidence.value,
        tuple(_kept_words(d) for d in line.displaced if d.item.kept),
        line.departure.undo or "" if line.departure else "",
        _learned_words(line),
        line.stand_in.what if line.stand_in else "",
        bool(line.contradictions),
    )


def _kept_words(displaced: Displacement) -> str:
    item = displaced.item
    witness = "" if displaced.usable else f" {WITNESS}"
    return f"{item.origin.value} item kept{witness}: {item.kept}"


def _learned_words(line: Line) -> str:
    if not line.learned:
        return ""
    return learned_words(line.learned[0].before, line.learned[-1].day)


def learned_words(before: Origin, day: date) -> str:
    """What was thought of an item as found, and until when."""
    thought = "not known" if before is Origin.UNKNOWN else f"taken for {before.value}"
    return f"{thought} until {day_words(day)}"


def left_works(line: Line) -> bool:
    """Whether work on the car made it leave the works specification here.

    It did not where the item that gave way is known to have departed already.
    """
    return line.departure is not None and not departed_before(line.departure)


def departed_before(displaced: Displacement) -> bool:
    """Whether an item that came off was itself a departure, whatever became of it since."""
    item = replace(displaced.item, fate=None)
    return item.departs


def displaced_words(view: CarView, links: Links, displaced: Displacement) -> DisplacedWords:
    """A displacement in words."""
    decided = displaced.decided
    return DisplacedWords(
        item_words(displaced.item),
        links.sheet(displaced.sheet),
        day_words(displaced.day),
        displaced.why or "",
        decided_words(view.car.workshop, decided.by, decided.on) if decided else "",
        _reversible(displaced.reversible),
        displaced.undo or "",
        where_words(displaced.item),
        displaced.recoverable,
        displaced.item.kept is not None and not displaced.usable,
        _back(displaced),
    )


def where_words(item: Item) -> str:
    """Where an item that came off is now."""
    if item.kept:
        return item.kept
    return FATE_WORDS[item.fate] if item.fate else "not written down"


def _back(displaced: Displacement) -> str:
    if displaced.recoverable:
        return "yes"
    if displaced.item.kept and not displaced.usable:
        return f"no; kept {WITNESS}"
    return _reversible(displaced.reversible)


def _reversible(answer: bool | None) -> str:
    if answer is None:
        return "not written down"
    return "yes" if answer else "no"


def contradiction_words(links: Links, found: Contradiction) -> ContradictionWords:
    """A contradiction with the sheets that stand against each other."""
    against = links.sheet(found.against) if found.against else None
    return ContradictionWords(found.says, links.sheet(found.sheet), against)

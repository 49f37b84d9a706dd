"""In which order snags, parts, lots of outwork, proofs and re-checks stand, and on which page each is."""

from collections.abc import Callable, Sequence

from journal.ledgers.parts import Part, PartState
from journal.ledgers.proving import ProofLine, Recorded
from journal.ledgers.rechecks import RecheckState
from journal.ledgers.snags import Snag, SnagKind
from journal.pages.anchors import anchor
from journal.pages.parting import Leaf, Section, parted
from journal.pages.view import CarView
from journal.words.groups import grouped

SNAGS, PARTS, OUTWORK, PROVING = "snags.html", "parts.html", "outwork.html", "proving.html"
RECHECKS = "rechecks.html"
# As many of each as one page holds.
SNAGS_ROOM, PARTS_ROOM, LOTS_ROOM, RECHECKS_ROOM = 225, 150, 120, 120
# As many proofs, records of them and acts as one page holds in all.
PROVING_ROOM = 450
# As many records of a proof as stand under its latest one.
EARLIER = 12

_BACK = (PartState.REJECTED, PartState.RETURNED)
_CLOSED_ONES = ("cleared", "since-fitted")

# Each group of parts: its heading, and which belong to it; a part stands in the first that has it.
GROUPS: tuple[tuple[str, Callable[[Part], bool]], ...] = (
    ("Still to come", lambda part: part.waiting),
    ("Rejected or sent back", lambda part: part.state in _BACK),
    ("On the car", lambda part: part.state is PartState.FITTED),
    ("Noted, not ordered", lambda part: part.state is PartState.NOTED),
    ("Here, not fitted yet", lambda part: True),
)
# The order in which groups are printed, by heading.
PRINTED = (
    "Still to come", "Here, not fitted yet", "Rejected or sent back", "On the car",
    "Noted, not ordered",
)  # fmt: skip


def snag_leaves(view: CarView) -> tuple[Leaf, ...]:
    """The pages of snags: what holds the handover, what else is open, then what is cleared, the latest
    first."""
    held: dict[str, list[Snag]] = {
        key: [] for key in ("holds", "open", "tried", "deferred", *_CLOSED_ONES)
    }
    for snag in (*view.snags.open, *view.snags.cleared):
        held[_standing(snag)].append(snag)
    sections = (
        Section(key, tuple(snags), newest_first=key in _CLOSED_ONES) for key, snags in held.items()
    )
    return parted(SNAGS, sections, SNAGS_ROOM)


def _standing(snag: Snag) -> str:
    tried = snag.kind is SnagKind.TRIAL_FIT
    if not snag.open:
        return "since-fitted" if tried else "cleared"
    if snag.hold:
        return "holds"
    if snag.deferred:
        return "deferred"
    return "tried" if tried else "open"


def grouped_parts(view: CarView) -> dict[str, tuple[Part, ...]]:
    """All parts by the point of their life that they are at; empty groups are left out."""
    held: dict[str, list[Part]] = {heading: [] for heading in PRINTED}
    for part in view.parts.parts:
        held[next(heading for heading, belongs in GROUPS if belongs(part))].append(part)
    return {heading: tuple(parts) for heading, parts in held.items() if parts}


def part_leaves(view: CarView) -> tuple[Leaf, ...]:
    """The pages of parts, group by group: the first group under the key `group-1`."""
    groups = enumerate(grouped_parts(view).values(), 1)
    return parted(PARTS, (Section(f"group-{n}", parts) for n, parts in groups), PARTS_ROOM)


def lot_leaves(view: CarView) -> tuple[Leaf, ...]:
    """The pages of outwork: lots with anything out, then those that are home."""
    home = tuple(lot for lot in view.outwork.batches if lot.out <= 0)
    sections = (Section("out", view.outwork.out), Section("back", home))
    return parted(OUTWORK, sections, LOTS_ROOM)


def proving_leaves(view: CarView) -> tuple[Leaf, ...]:
    """The pages of proving: the list of each subsystem; then acts, those first of which something is left
    out, the others by subsystem; last the records of proofs for which a list has no room."""
    proving = view.proving
    lists = (
        Section(anchor("proving", name), proving.of(name), weigh=_room_of_proof)
        for name in proving.subsystems
    )
    whole = grouped(view.completeness.whole, lambda act: act.subsystem)
    acts = (
        Section(anchor("whole", name), whole[name])
        for name in view.car.workshop.all_subsystems()
        if name in whole
    )
    before = (
        Section(anchor("before", name), earlier_records(proving.of(name)), newest_first=True)
        for name in proving.subsystems
    )
    wanting = Section("wanting", view.completeness.wanting)
    return parted(PROVING, (*lists, wanting, *acts, *before), PROVING_ROOM)


def _room_of_proof(line: ProofLine) -> int:
    return 1 + min(len(line.records), EARLIER)


def earlier_records(lines: Sequence[ProofLine]) -> tuple[tuple[ProofLine, Recorded], ...]:
    """The records of proofs that do not stand under the latest ones, the latest first."""
    told = ((line, record) for line in lines for record in line.records[: -1 - EARLIER])
    return tuple(sorted(told, key=lambda pair: pair[1].day, reverse=True))


def proving_pages(view: CarView) -> dict[str, str]:
    """The page on which the list of each subsystem begins."""
    lists = {anchor("proving", name): name for name in view.proving.subsystems}
    return {
        lists[stretch.key]: leaf.path
        for leaf in reversed(view.once(proving_leaves))
        for stretch in leaf.stretches
        if stretch.key in lists
    }


def recheck_leaves(view: CarView) -> tuple[Leaf, ...]:
    """The pages of re-checks: those due, those to come, then those done, the latest first."""
    rechecks, day = view.rechecks, view.until
    due = rechecks.in_state(day, RecheckState.LATE, RecheckState.DUE)
    ahead = rechecks.in_state(day, RecheckState.AHEAD, RecheckState.WAITING)
    done = Section("done", rechecks.done, newest_first=True)
    return parted(RECHECKS, (Section("due", due), Section("to-come", ahead), done), RECHECKS_ROOM)


def recheck_pages(view: CarView) -> dict[str, str]:
    """The page that the last turn of each re-check is on, by its name."""
    turns = sorted(
        (recheck.turn, recheck.name, leaf.path)
        for leaf in view.once(recheck_leaves)
        for stretch in leaf.stretches
        for recheck in stretch.entries
    )
    return {name: path for _, name, path in turns}


def snag_pages(view: CarView) -> dict[str, str]:
    """The page that each snag is on, by its name."""
    return _pages(view.once(snag_leaves))


def part_pages(view: CarView) -> dict[str, str]:
    """The page that each part is on, by its name."""
    return _pages(view.once(part_leaves))


def lot_pages(view: CarView) -> dict[str, str]:
    """The page that each lot is on, by its name."""
    return _pages(view.once(lot_leaves))


def _pages(leaves: Sequence[Leaf]) -> dict[str, str]:
    return {
        entry.name: leaf.path
        for leaf in leaves
        for stretch in leaf.stretches
        for entry in stretch.entries
    }

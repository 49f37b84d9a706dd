"""Proving: per subsystem what was proved and what is missing; then how whole the record is."""

from collections.abc import Iterable, Mapping, Sequence
from functools import partial
from typing import Any

from msgspec.structs import replace

from journal.ledgers.completeness import SafetyAct
from journal.ledgers.proving import ProofLine, Recorded
from journal.pages.anchors import anchor
from journal.pages.common import cautions_for, frame
from journal.pages.leafwords import (
    AS_TOLD,
    beginnings,
    sections_told,
    titled,
    turn_words,
)
from journal.pages.links import Links, Ref
from journal.pages.page import Later, Page
from journal.pages.parting import Leaf
from journal.pages.placing import EARLIER, proving_leaves
from journal.pages.provingwords import (
    ProofWords,
    RecordWords,
    proof_words,
    proving_holds,
    record_words,
    standing_words,
)
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words, in_words, sentence, some
from journal.pages.workwords import view_hand
from journal.words.groups import grouped
from journal.words.text import listed


class ProofBranch(Value, frozen=True):
    """A subsystem with its list, the cautions that go with it, and what has no locking written."""

    anchor: str
    ref: Ref
    stands: str
    holds: bool
    proofs: tuple[ProofWords, ...]
    unlocked: tuple[Ref, ...]
    cautions: tuple[str, ...]


class ActWords(Value, frozen=True):
    """One safety-critical act as the record tells it."""

    component: Ref
    done: str
    day: str
    sheet: Ref
    by: str
    checked: str
    checked_later: str
    gaps: str


class ActBranch(Value, frozen=True):
    """The acts of a subsystem that are told in full."""

    ref: Ref
    acts: tuple[ActWords, ...]
    anchor: str = ""


class EarlierBranch(Value, frozen=True):
    """Records of the proofs of a subsystem, each behind what was proved."""

    anchor: str
    ref: Ref
    records: tuple[tuple[str, RecordWords], ...]


def page_proving(view: CarView) -> tuple[Page, ...]:
    """What was proved, by whom, and what is missing before the car goes."""
    start, leaves = Links(view, ""), view.once(proving_leaves)
    return tuple(
        Page(view.base + leaf.path, "proving.html", Later(partial(_values, start, leaves, leaf)))
        for leaf in leaves
    )


def _values(start: Links, leaves: tuple[Leaf, ...], leaf: Leaf) -> dict[str, Any]:
    links, view = start.at(leaf.path), start.view
    lists, whole, before = (_keys(view, kind) for kind in ("proving", "whole", "before"))
    headings = _headings(links, lists, whole, before)
    here = [(stretch.key, stretch) for stretch in leaf.stretches]
    begun = {stretch.key: place for stretch, place in beginnings(links, leaves)}
    jump = tuple(Ref(headings[key], begun[key]) for key in lists)
    told = tuple(
        Ref(links.subsystem(name).text, begun[key]) for key, name in whole.items() if key in begun
    )
    first_before = next((begun[key] for key in before if key in begun), None)
    return {
        **frame(links, titled("Proving", leaf)),
        "first": leaf.number == 1,
        "any": bool(lists),
        "lead": proving_lead(view),
        "holds": proving_holds(view, links),
        "jump": jump,
        "whole_jump": told,
        "branches": tuple(
            _branch(links, lists[key], stretch.entries, begun) for key, stretch in here if key in lists
        ),
        "record": record_sentence(view),
        "wanting": tuple(
            act_words(view, links, act, full=True) for act in leaf.entries("wanting")
        ),
        "whole": tuple(
            _acts(links, whole[key], stretch.entries) for key, stretch in here if key in whole
        ),
        "before": tuple(
            _earlier(links, before[key], stretch.entries) for key, stretch in here if key in before
        ),
        "continued": leaf.continued,
        "contents": (
            *jump,
            *(Ref(headings[key], begun[key]) for key in ("wanting",) if key in begun),
            *(replace(ref, text="Told in full") for ref in told[:1]),
            *((Ref("Earlier records", first_before),) if first_before else ()),
        ),
        "turn": turn_words(links, leaves, sections_told(headings), AS_TOLD),
    }  # fmt: skip


def _keys(view: CarView, kind: str) -> dict[str, str]:
    """The subsystems by the key of one kind of section."""
    asked, known = view.proving.subsystems, view.car.workshop.all_subsystems()
    return {anchor(kind, name): name for name in (known if kind == "whole" else asked)}


def _headings(
    links: Links, lists: Mapping[str, str], whole: Mapping[str, str], before: Mapping[str, str]
) -> dict[str, str]:
    labels = {name: links.subsystem(name).text for name in {*lists.values(), *whole.values()}}
    return {
        **{key: labels[name] for key, name in lists.items()},
        "wanting": "Not told in full",
        **{key: f"Told in full: {labels[name]}" for key, name in whole.items()},
        **{key: f"Earlier records: {labels[name]}" for key, name in before.items()},
    }


def _branch(
    links: Links, name: str, lines: Sequence[ProofLine], begun: Mapping[str, str]
) -> ProofBranch:
    """What a page has of the list of a subsystem; `begun` tells where every section begins."""
    branch = proving_branch(links.view, links, name)
    place = begun.get(anchor("before", name))
    return replace(branch, proofs=tuple(_proof(links, line, place) for line in lines))


def _proof(links: Links, line: ProofLine, place: str | None) -> ProofWords:
    proof = proof_words(links.view, links, line)
    left = len(proof.earlier) - EARLIER
    more = Ref(f"{sentence(some(left, 'record'))} before those", place) if left > 0 else None
    return replace(proof, earlier=proof.earlier[:EARLIER], more=more)


def _earlier(links: Links, name: str, told: Iterable[tuple[ProofLine, Recorded]]) -> EarlierBranch:
    view = links.view
    records = tuple((line.label, record_words(view, links, record)) for line, record in told)
    return EarlierBranch(anchor("before", name), links.subsystem(name), records)


def proving_lead(view: CarView) -> str:
    """How many proofs stand and how many stop the handover; empty when none is asked for."""
    lines = view.proving.lines
    if not lines:
        return ""
    holding = sum(line.holds for line in lines)
    asked = some(len(lines), "proof")
    if not holding:
        return f"All {asked} that are asked for stand."
    verb = "stops" if holding == 1 else "stop"
    stand = in_words(len(lines) - holding) if holding < len(lines) else "none"
    return sentence(f"{stand} of {asked} stand; {in_words(holding)} {verb} the handover.")


def record_sentence(view: CarView) -> str:
    """How many acts on which safety hangs are told in full; empty without any."""
    whole, wanting = len(view.completeness.whole), len(view.completeness.wanting)
    if not whole and not wanting:
        return ""
    acts, verb = some(whole + wanting, "act"), "is" if whole + wanting == 1 else "are"
    told = in_words(whole) if whole else "none"
    rest = f", {in_words(wanting)} not" if wanting else ""
    return sentence(
        f"{acts} on components on which safety hangs {verb} written down; {told} told in full{rest}."
    )


def proving_branch(view: CarView, links: Links, name: str) -> ProofBranch:
    """The list of a subsystem."""
    lines = view.proving.of(name)
    return ProofBranch(
        anchor("proving", name),
        links.subsystem(name),
        standing_words(lines),
        any(line.holds for line in lines),
        tuple(proof_words(view, links, line) for line in lines),
        links.components(tuple(k for k in view.proving.unlocked if k.split("/")[0] == name)),
        cautions_for(view, (name,)),
    )


def whole_acts(view: CarView, links: Links) -> tuple[ActBranch, ...]:
    """The acts that are told in full, by subsystem in the order of the trade."""
    acts = grouped(view.completeness.whole, lambda act: act.subsystem)
    known = view.car.workshop.all_subsystems()
    return tuple(_acts(links, name, acts[name]) for name in known if name in acts)


def _acts(links: Links, name: str, acts: Iterable[SafetyAct]) -> ActBranch:
    told = tuple(act_words(links.view, links, act) for act in acts)
    return ActBranch(links.subsystem(name), told, anchor("whole", name))


def act_words(view: CarView, links: Links, act: SafetyAct, *, full: bool = False) -> ActWords:
    """An act as the record tells it."""
    later = act.checked_in is not None and act.checked_in != act.sheet and act.checked_on
    return ActWords(
        links.component(act.component, full=full),
        sentence(listed(act.acts)) or "Another item is there",
        day_words(act.day),
        links.sheet(act.sheet, day_words(act.day)),
        listed([view_hand(view, hand) for hand in act.by]),
        view_hand(view, act.checked) if act.checked else "",
        f"on {day_words(later)}" if later else "",
        listed([gap.value for gap in act.gaps]),
    )

"""Proving: per subsystem what was proved and what is missing; then how whole the record is."""

from typing import NamedTuple

from journal.ledgers.completeness import SafetyAct
from journal.pages.common import cautions_for, frame
from journal.pages.links import Links, Ref, anchor
from journal.pages.page import Page
from journal.pages.provingwords import (
    PATH,
    ProofWords,
    proof_words,
    proving_holds,
    standing_words,
)
from journal.pages.view import CarView
from journal.pages.words import day_words, in_words, sentence, some
from journal.pages.workwords import view_hand
from journal.words.text import listed


class Branch(NamedTuple):
    """A subsystem with its list, the cautions that go with it, and what has no locking written."""

    anchor: str
    ref: Ref
    stands: str
    holds: bool
    proofs: tuple[ProofWords, ...]
    unlocked: tuple[Ref, ...]
    cautions: tuple[str, ...]


class ActWords(NamedTuple):
    """One safety-critical act as the record tells it."""

    component: Ref
    done: str
    day: str
    sheet: Ref
    by: str
    checked: str
    checked_later: str
    gaps: str


class ActBranch(NamedTuple):
    """The acts of a subsystem that are told in full."""

    ref: Ref
    acts: tuple[ActWords, ...]


def page_proving(view: CarView) -> tuple[Page, ...]:
    """What was proved, by whom, and what is missing before the car goes."""
    links = Links(view, PATH)
    branches = tuple(proving_branch(view, links, name) for name in view.proving.subsystems)
    values = {
        **frame(links, "Proving"),
        "lead": proving_lead(view),
        "holds": proving_holds(view, links),
        "branches": branches,
        "record": record_sentence(view),
        "wanting": tuple(
            act_words(view, links, act, full=True) for act in view.completeness.wanting
        ),
        "whole": whole_acts(view, links),
    }
    return (Page(view.base + PATH, "proving.html", values),)


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


def proving_branch(view: CarView, links: Links, name: str) -> Branch:
    """The list of a subsystem."""
    lines = view.proving.of(name)
    return Branch(
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
    acts = view.completeness.whole
    names = dict.fromkeys(act.subsystem for act in acts)
    return tuple(
        ActBranch(
            links.subsystem(name),
            tuple(act_words(view, links, act) for act in acts if act.subsystem == name),
        )
        for name in view.car.workshop.all_subsystems()
        if name in names
    )


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

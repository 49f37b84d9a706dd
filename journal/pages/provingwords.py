"""Proofs in words: how each stands, what was found, and what of them stops the handover."""

from collections import Counter

from journal.ledgers.proving import ProofLine, ProofState, Recorded
from journal.pages.links import Links, Ref
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words, in_words, readings_words, sentence, some
from journal.pages.workwords import view_hand
from journal.words.text import listed

# How many proofs in a state are told of, after their number.
_COUNTED = {
    ProofState.FAILED: "failed",
    ProofState.OUT_OF_DATE: "out of date",
    ProofState.INCOMPLETE: "told in part",
    ProofState.MISSING: "not recorded",
}


class HoldWords(Value, frozen=True):
    """What of a subsystem's proving stops the handover. `hold` is always so."""

    text: str
    note: str
    hold: bool
    ref: Ref


class RecordWords(Value, frozen=True):
    """One record of a proof: the result, the day, its sheet, the hands, a note."""

    result: str
    day: str
    iso: str
    sheet: Ref
    by: str
    checked: str
    note: str


class ProofWords(Value, frozen=True):
    """One proof that is asked for. `mark` names the drawing of its state; `more` leads to records before
    the earlier ones, where those are too many."""

    label: str
    own: bool
    mark: str
    state: str
    hold: bool
    latest: RecordWords | None
    overtaken: tuple[Ref, str, Ref] | None
    lacks: str
    earlier: tuple[RecordWords, ...]
    more: Ref | None = None


def proving_holds(view: CarView, links: Links) -> tuple[HoldWords, ...]:
    """One line for each subsystem whose proving stops the handover, in the order of the trade."""
    lines = []
    for name in view.proving.subsystems:
        holding = [line for line in view.proving.of(name) if line.holds]
        if not holding:
            continue
        label = links.subsystem(name).text
        worst = listed([line.label for line in holding if line.state is ProofState.FAILED])
        text = f"{label}: {counted_states(holding)}"
        note = f"failed: {worst}" if worst else ""
        lines.append(HoldWords(text, note, True, _place(links, name, label)))
    return tuple(lines)


def counted_states(lines: list[ProofLine]) -> str:
    """`one proof failed, three out of date`, worst first."""
    states = Counter(line.state for line in lines)
    said = [(states[state], words) for state, words in _COUNTED.items() if states[state]]
    first = [f"{some(n, 'proof')} {words}" for n, words in said[:1]]
    return ", ".join(first + [f"{in_words(n)} {words}" for n, words in said[1:]])


def standing_words(lines: tuple[ProofLine, ...]) -> str:
    """`five of eight stand`, `all eight stand`, `none of eight stands`."""
    stand = sum(not line.holds for line in lines)
    if stand == len(lines):
        return "the one proof stands" if stand == 1 else f"all {in_words(stand)} stand"
    verb = "stands" if stand == 1 else "stand"
    return f"{in_words(stand) if stand else 'none'} of {in_words(len(lines))} {verb}"


def proof_words(view: CarView, links: Links, line: ProofLine) -> ProofWords:
    """A proof with its latest record and those before it."""
    over = line.overtaken
    state = line.state
    return ProofWords(
        line.label,
        line.own,
        state.name.lower().replace("_", "-"),
        state.value,
        line.holds,
        record_words(view, links, line.latest) if line.latest else None,
        (links.component(over.component), day_words(over.day), links.sheet(over.sheet))
        if over
        else None,
        listed(line.latest.lacks) if line.latest else "",
        tuple(record_words(view, links, record) for record in reversed(line.records[:-1])),
    )


def record_words(view: CarView, links: Links, record: Recorded) -> RecordWords:
    """A record of a proof."""
    return RecordWords(
        _result(record),
        day_words(record.day),
        record.day.isoformat(),
        links.sheet(record.sheet),
        listed([view_hand(view, hand) for hand in record.by]),
        view_hand(view, record.checked) if record.checked else "",
        record.note or "",
    )


def _result(record: Recorded) -> str:
    if record.reason:
        return f"Does not apply: {record.reason}"
    said = [] if record.passed else ["Failed"]
    if record.found:
        said.append(sentence(record.found))
    if record.read:
        said.append(readings_words(record.read, record.unit or "").rstrip())
    return ": ".join(said)


def proofs_of_sheet(
    view: CarView, links: Links, sheet: str, room: int
) -> tuple[tuple[Ref, str, bool], ...]:
    """What a sheet proved: where it leads, the result, whether it failed.

    One line a proof, or one a subsystem when there are more than `room` of them.
    """
    told = view.proving.of_sheet(sheet)
    if len(told) <= room:
        return tuple(
            (_place(links, line.subsystem, line.label), _result(r), not r.passed)
            for line, r in told
        )
    lines = []
    for name in dict.fromkeys(line.subsystem for line, _ in told):
        here = [r for line, r in told if line.subsystem == name]
        failed = sum(not r.passed for r in here)
        words = some(len(here), "proof") + (f", {in_words(failed)} failed" if failed else "")
        lines.append((_place(links, name, links.subsystem(name).text), words, failed > 0))
    return tuple(lines)


def _place(links: Links, subsystem: str, words: str) -> Ref:
    """The list of a subsystem on the page of proving."""
    return Ref(words, links.proving(subsystem))

"""A sheet made ready to fill: what is known stands there, and what may be taken up as comments to tick.

Whoever takes the `#` away from a line says what it says. What nobody touched is taken out again.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain

from msgspec import Struct

from journal.digests.waiting import Awaited, Kind
from journal.ledgers.snags import Snag, SnagKind
from journal.outputs.sheets.print import ORDER, NewSheet, front_told
from journal.outputs.sheets.propose import Proposal
from journal.outputs.sheets.yamlform import entry_lines, flow, scalar, well_formed
from journal.reading.spans import lines_of, sheet_spans
from journal.records.carfile import CarFile
from journal.words.text import counted, shortened

# Lines to tick by key of the sheet, each with the name of what it is about.
Offers = Mapping[str, Sequence[tuple[str, str]]]

# Keys whose offer is the whole line.
_ALONE = ("title", "hours")
# What a picture was asked to say and does not.
_EMPTY = re.compile(r", (caption|alt): *(?=[,}])")
# A remark after a line to tick is read at a glance.
_REMARK = 90


class Ready(Struct, frozen=True):
    """A sheet ready to fill, and those of its lines that say nothing until somebody changes them."""

    text: str
    offered: frozenset[str]


def ready(new: NewSheet, offers: Offers) -> Ready:
    """The sheet with what it says, and below each key what it may say besides."""
    told = front_told(new.front)
    lines: list[str] = []
    offered: list[str] = []
    for key in ORDER:
        said = [*entry_lines(key, told[key], "")] if key in told else []
        open_ = [line for name, line in offers.get(key, ()) if name not in _names(told.get(key))]
        if said and key in _ALONE:
            open_ = []
        elif open_ and not said and key not in _ALONE:
            open_ = [f"{key}:", *open_]
        lines += [_asking(line) for line in said] if key == "photos" and offers else said
        lines += open_
        offered += open_
    text = well_formed(new.body).strip("\n")
    return Ready("\n".join(["---", *lines, "---", text, ""]), frozenset(offered))


def _asking(line: str) -> str:
    """The line of a picture with room for its words."""
    entry = line.removeprefix("  - ")
    if entry == line:
        return line
    whole = entry if entry.startswith("{") else f"{{file: {entry}}}"
    wanted = "".join(f", {key}: " for key in ("caption", "alt") if f", {key}: " not in whole)
    return f"  - {whole.removesuffix('}')}{wanted}}}"


def tidied(raw: bytes, offered: frozenset[str]) -> bytes:
    """The sheet without what was offered and nobody touched, without remarks on what was ticked, and
    without empty lines for no text.

    A sheet whose front matter cannot be read is left as it is.
    """
    spans = sheet_spans(raw.decode("utf-8", "replace"))
    if spans is None:
        return raw
    bare = {entry.key for entry in spans.front.entries if entry.value.empty}
    seen = spans.shown
    remarks = sorted({line[line.index("  # ") :] for line in offered if "  # " in line})
    kept = [
        _bare(line, written, remarks)
        for n, (line, written) in enumerate(lines_of(seen, 0))
        if not (
            0 < n < seen.text.count("\n", 0, spans.body)
            and line.rstrip() in offered
            and (line.startswith("#") or line.endswith("}") or line.rstrip(": ") in bare)
        )
    ]
    while kept and not kept[-1].strip():
        kept.pop()
    mark = "\ufeff" if seen.written.startswith("\ufeff") else ""
    return (mark + "".join(kept)).encode("utf-8")


def _bare(line: str, written: str, remarks: Iterable[str]) -> str:
    """A line without the remark that told its writer what it is about, and without what is not said."""
    told = written.rstrip("\r\n")
    for remark in remarks:
        if told.endswith(remark):
            return told.removesuffix(remark) + written[len(told) :]
    return _EMPTY.sub("", written) if line.startswith("  - {file: ") else written


def _names(value: object) -> tuple[str, ...]:
    return tuple(value) if isinstance(value, dict) else ()


def offers_of(car: CarFile, proposal: Proposal) -> Offers:
    """What a sheet may take up of what is open, awaited, and worked on lately."""
    moving = {snag.on: snag for snag in proposal.snags if snag.kind is not SnagKind.RAISED}
    work = [*dict.fromkeys(chain((key for key in moving if key), proposal.components))]
    return {
        **blank(proposal.hand),
        "work": [(key, _work(car, key, moving.get(key))) for key in work],
        "parts": [*_awaited(car, proposal, Kind.ORDER)],
        "outwork": [*_awaited(car, proposal, Kind.OUTWORK)],
        "snags": [
            (s.name, _tick(s.name, "clear: ", _open(proposal, s)))
            for s in proposal.snags if s.kind is SnagKind.RAISED
        ],
    }  # fmt: skip


def blank(hand: str) -> Offers:
    """What every sheet should say: what the day is called, and the hours of the hand."""
    hours = f"hours: {{{flow(hand)}: }}" if hand else "hours:"
    return {"title": [("", "title:")], "hours": [("", hours)]}


def _tick(name: str, keys: str, remark: str) -> str:
    plain = " ".join(remark.split())
    return f"#  {scalar(name)}: {{{keys}}}  # {shortened(plain, _REMARK)}"


def _work(car: CarFile, key: str, moving: Snag | None) -> str:
    if moving:
        return _tick(key, "did: fitted", moving.text)
    known = car.component(key)
    return _tick(key, "did: ", known.label if known else "not in the register")


def _open(proposal: Proposal, snag: Snag) -> str:
    days = counted(snag.age(proposal.day), "day")
    hold = ", holds the handover" if snag.hold else ""
    return f"open {days}{hold}: {snag.text}"


def _awaited(car: CarFile, proposal: Proposal, kind: Kind) -> Iterator[tuple[str, str]]:
    for item in proposal.waiting:
        if item.kind is kind:
            arrived = "received: today, outcome: "
            count = f"{item.count:f}" if item.count is not None else ""
            keys = arrived if kind is Kind.ORDER else f"back: {count}"
            yield item.name, _tick(item.name, keys, _since(car, item))


def _since(car: CarFile, item: Awaited) -> str:
    known = car.workshop.suppliers.get(item.whom or "")
    late = f", {counted(item.late, 'working day')} late" if item.late else ""
    if item.kind is Kind.ORDER:
        where = f"from {known.name}, ordered" if known else "ordered"
    else:
        where = f"at {known.name} since" if known else "sent out"
    return f"{where} {item.since.isoformat()}{late}: {item.what}"

"""A day sheet as text in the house form: what a person would have written, and reads back the same."""

from msgspec import Struct

from journal.outputs.sheets.yamlform import Plain, plain_of, value_of, well_formed, yaml_of
from journal.records.draft import DraftLine
from journal.records.fields import Named
from journal.records.goods import Extra, OutworkLine, PartLine
from journal.records.hours import HoursLine
from journal.records.recheck import RecheckLine
from journal.records.sections import SnagLine
from journal.records.sheet import Block, Sheet, SheetFront
from journal.records.sum import SumLine, on_one_line
from journal.words.vocabulary import READER_RANK, Reader

_Lines = Named[PartLine] | Named[OutworkLine] | Named[Extra] | Named[SnagLine] | Named[RecheckLine]
# The kinds of lines that say once for whom a thing is, and need not say it again.
_FOLLOWED = ("parts", "outwork", "extras", "snags", "rechecks")
Known = dict[tuple[str, str], Reader]
# The order of keys in a sheet: what the day is called stands above what it brought.
_FIRST = ("date", "title", "subsystem")
ORDER = (
    *_FIRST,
    *(f.alias for f in SheetFront.model_fields.values() if f.alias and f.alias not in _FIRST),
)


class NewSheet(Struct, frozen=True):
    """What a new sheet says: its front matter, and its text in Markdown with blocks for readers.

    A line that says in `front` for whom it is says so in the sheet; any other is read as being for
    whom the thing was first for.
    """

    front: SheetFront
    body: str = ""


def new_text(new: NewSheet) -> str:
    """A new sheet as it is written."""
    return _whole(front_told(new.front), well_formed(new.body).strip("\n"))


def sheet_text(sheet: Sheet, known: Known | None) -> str:
    """A sheet as it is written. `known` says whose each thing is that earlier sheets told of; without it
    every line says so that does not go without saying, and the sheet can be read alone."""
    body = "\n\n".join(_block(block) for block in joined(sheet.body))
    return _whole(front_told(sheet.front, known), body)


def _whole(told: dict[str, Plain], body: str) -> str:
    front = yaml_of(told)
    return f"---\n{front}---\n{body}\n" if body else f"---\n{front}---\n"


def joined(body: tuple[Block, ...]) -> tuple[Block, ...]:
    """A text whose parts for the public are one where nothing is left between them."""
    blocks: list[Block] = []
    for block in body:
        before = blocks[-1] if blocks else None
        if before and before.reader is block.reader is Reader.PUBLIC:
            blocks[-1] = Block(block.reader, f"{before.text}\n\n{block.text}", before.line)
        else:
            blocks.append(block)
    return tuple(blocks)


def _block(block: Block) -> str:
    if block.reader is Reader.PUBLIC:
        return block.text
    return f"::: {block.reader.value}\n{block.text}\n:::"


def front_told(front: SheetFront, known: Known | None = None) -> dict[str, Plain]:
    """Front matter as plain data in the order of its keys; `known` as for `sheet_text`."""
    plain = plain_of(front)
    if front.hours:
        plain["hours"] = hours_told(front.hours)
    if "photos" in plain:
        plain["photos"] = [value_of(photo) for photo in front.photos]
    if front.sums:
        plain["sums"] = _sums(front.sums)
    for kind in _FOLLOWED:
        if kind in plain:
            lines = getattr(front, kind)
            plain[kind] = (
                _as_said(lines) if known is None else _followed(kind, lines, front.widest, known)
            )
    if front.draft:
        plain["draft"] = [line_told(line) for line in front.draft]
    return {key: plain[key] for key in ORDER if key in plain}


def line_told(line: DraftLine) -> dict[str, Plain]:
    """A line of a draft as plain data, with what it would put as a sheet would say it."""
    plain = plain_of(line)
    if line.hours:
        plain["hours"] = hours_told(line.hours)
    for kind in _FOLLOWED:
        if kind in plain:
            plain[kind] = _as_said(getattr(line, kind))
    return plain


def sums_text(sums: Named[SumLine]) -> str:
    """Bench sums as the lines of a sheet that keeps them."""
    return yaml_of({"sums": _sums(sums)})


def _sums(sums: Named[SumLine]) -> dict[str, Plain]:
    return {name: _sum(line) for name, line in sums}


def _sum(line: SumLine) -> dict[str, Plain]:
    """A sum with its inputs beside its own keys."""
    told = plain_of(line)
    told.pop("inputs", None)
    return told | {name: _rows(text) for name, text in line.inputs}


def _rows(text: str) -> Plain:
    """Rows that have names, each under its name; of any other input the text."""
    rows = dict(row.split(": ", 1) for row in text.split("; ") if ": " in row)
    told: dict[str, Plain] = {name: row for name, row in rows.items() if name}
    return told if len(told) > 1 and on_one_line(told) == text else text


def _as_said(lines: _Lines) -> dict[str, Plain]:
    """Lines with `for:` where the record says it, even if it says what is usual."""
    told: dict[str, Plain] = {}
    for name, line in lines:
        entry = plain_of(line)
        if "for_" in line.model_fields_set:
            entry["for"] = line.for_.value
        told[name] = entry
    return told


def _followed(kind: str, lines: _Lines, widest: Reader, known: Known) -> dict[str, Plain]:
    """Lines with `for:` only where a reader of the sheets would take them to be for others."""
    told: dict[str, Plain] = {}
    for name, line in lines:
        usual = type(line).model_fields["for_"].get_default()
        key = (kind, name)
        first = key not in known
        taken = usual if first else known[key]
        entry = plain_of(line)
        entry.pop("for", None)
        if line.for_ is not taken:
            entry["for"] = line.for_.value
        choose = min if first else max
        known[key] = choose(line.for_, widest if first else known[key], key=READER_RANK.__getitem__)
        told[name] = entry
    return told


def hours_told(hours: Named[Named[tuple[HoursLine, ...]]]) -> Plain:
    """Hours in the shortest form that tells them."""
    if any(subsystem and "" in hands for subsystem, hands in hours):
        return value_of(
            sum(line.hours for _, hands in hours for _, lines in hands for line in lines)
        )
    told: dict[str, Plain] = {}
    for subsystem, hands in hours:
        by_hand = {hand: _spent(lines) for hand, lines in hands}
        if subsystem:
            told[subsystem] = by_hand
        elif by_hand.keys() == {""}:
            return by_hand[""]
        else:
            told |= by_hand
    return told


def _spent(lines: tuple[HoursLine, ...]) -> Plain:
    """Hours of one hand; those that are nothing but hours stand bare."""
    entries = [
        value_of(line.hours) if line == HoursLine(hours=line.hours) else plain_of(line)
        for line in lines
    ]
    return entries[0] if len(entries) == 1 else entries

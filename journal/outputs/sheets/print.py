"""A day sheet as text in the house form."""

from journal.outputs.sheets.yamlform import Plain, plain_of, value_of, yaml_of
from journal.records.fields import Named
from journal.records.goods import Extra, OutworkLine, PartLine
from journal.records.hours import HoursLine
from journal.records.recheck import RecheckLine
from journal.records.sheet import Block, Sheet, SheetFront, SnagLine
from journal.words.vocabulary import READER_RANK, Reader

_Lines = Named[PartLine] | Named[OutworkLine] | Named[Extra] | Named[SnagLine] | Named[RecheckLine]
# The kinds of lines that say once for whom a thing is, and need not say it again.
_FOLLOWED = ("parts", "outwork", "extras", "snags", "rechecks")
Known = dict[tuple[str, str], Reader]


def sheet_text(sheet: Sheet, known: Known) -> str:
    """A sheet as it is written. `known` says whose each thing is that earlier sheets told of."""
    body = "\n\n".join(_block(block) for block in joined(sheet.body))
    front = yaml_of(_front(sheet.front, known))
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


def _front(front: SheetFront, known: Known) -> dict[str, Plain]:
    told = plain_of(front)
    if front.hours:
        told["hours"] = _hours(front.hours)
    for kind in _FOLLOWED:
        if kind in told:
            told[kind] = _followed(kind, getattr(front, kind), front.for_, known)
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


def _hours(hours: Named[Named[tuple[HoursLine, ...]]]) -> Plain:
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
        elif "" in by_hand:
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

"""The written record as a reader sees it: a content folder that this program, and anybody, can read.

Reading what is written here gives the same car file again, with three exceptions. Parts of a text that
stood on either side of a block kept from the reader are one part. Hours told by subsystem and without
hands, as no sheet can tell them, are told as their sum. Sheets lie in folders by year, whatever
folders they were written in.
"""

from collections.abc import Iterator
from itertools import groupby

from journal.outputs.bag.yamlform import Plain, plain_of, value_of, yaml_of
from journal.records.carfile import CarFile
from journal.records.fields import Named
from journal.records.goods import Extra, OutworkLine, PartLine
from journal.records.hours import HoursLine
from journal.records.papers import PapersFile
from journal.records.recheck import RecheckLine
from journal.records.register import RegisterFile
from journal.records.sheet import Block, Sheet, SheetFront, SnagLine
from journal.records.sum import SumLine
from journal.records.workshop import Hand, Workshop
from journal.words.vocabulary import READER_RANK, Reader

_Lines = Named[PartLine] | Named[OutworkLine] | Named[Extra] | Named[SnagLine] | Named[RecheckLine]
# The kinds of lines that say once for whom a thing is, and need not say it again.
_FOLLOWED = ("parts", "outwork", "extras", "snags", "rechecks")
_Known = dict[tuple[str, str], Reader]


def record_files(car: CarFile) -> Iterator[tuple[str, str]]:
    """Every text file of a content folder for a car that holds only what its reader may see: its path
    in that folder, and what it says. Photographs and scans are not among them."""
    yield "workshop.yaml", yaml_of(_workshop(car.workshop))
    yield f"{car.name}/car.yaml", yaml_of(plain_of(car.car))
    yield f"{car.name}/register.yaml", yaml_of(plain_of(_register(car)))
    if car.papers:
        yield (
            f"{car.name}/papers/papers.yaml",
            yaml_of(plain_of(PapersFile.model_construct(papers=car.papers))),
        )
    for statement in car.statements:
        yield f"{car.name}/statements/{statement.name}.yaml", yaml_of(plain_of(statement.file))
    known: _Known = {}
    paths = sheet_paths(car)
    for sheet in car.sheets:
        yield f"{car.name}/{paths[sheet.name]}", sheet_text(sheet, known)


def sheet_paths(car: CarFile) -> dict[str, str]:
    """Where each sheet lies below the car's folder, by its name: in a folder for its year.

    Sheets of one day that do not stand in the order of their names are kept in order by folders.
    """
    paths: dict[str, str] = {}
    for day, sheets in groupby(car.sheets, key=lambda sheet: sheet.date):
        names = [sheet.name for sheet in sheets]
        in_order = names == sorted(names)
        for number, name in enumerate(names, 1):
            folder = f"{day:%Y}" if in_order else f"{day:%Y}/{day}.{number:03}"
            paths[name] = f"sheets/{folder}/{name}.md"
    return paths


def sheet_text(sheet: Sheet, known: _Known) -> str:
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


def _workshop(workshop: Workshop) -> dict[str, Plain]:
    told = plain_of(workshop)
    told["hands"] = {initials: _hand(hand) for initials, hand in workshop.hands}
    return told


def _hand(hand: Hand) -> dict[str, Plain]:
    """A single rate, which holds for all time, stands bare."""
    told = plain_of(hand)
    if hand.rate.names() == ("",):
        told["rate"] = value_of(hand.rate.get(""))
    return told


def _register(car: CarFile) -> RegisterFile:
    subsystems = dict.fromkeys(component.subsystem for component in car.register.components)
    return RegisterFile.model_construct(
        components=Named(
            (name, Named((c.slug, c.line) for c in car.register.of(name))) for name in subsystems
        )
    )


def _front(front: SheetFront, known: _Known) -> dict[str, Plain]:
    told = plain_of(front)
    if front.hours:
        told["hours"] = _hours(front.hours)
    if front.sums:
        told["sums"] = {name: _sum(line) for name, line in front.sums}
    for kind in _FOLLOWED:
        if kind in told:
            told[kind] = _followed(kind, getattr(front, kind), front.for_, known)
    return told


def _sum(line: SumLine) -> dict[str, Plain]:
    """A sum with its inputs beside its own keys."""
    told = plain_of(line)
    told.pop("inputs", None)
    return told | dict(line.inputs)


def _followed(kind: str, lines: _Lines, widest: Reader, known: _Known) -> dict[str, Plain]:
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

"""The car's stamped numbers in words, and what is in dispute about them."""

from collections.abc import Iterable, Iterator

from journal.ledgers.numbers import NumberLine, Statement, Verdict, values_of
from journal.pages.anchors import anchor
from journal.pages.lines import ContradictionWords
from journal.pages.links import Links, Ref
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words, sentence
from journal.words.names import title_of
from journal.words.text import listed
from journal.words.vocabulary import EVIDENCE_MEANING


class ValueWords(Value, frozen=True):
    """One reading of a number, and everything that gives it so."""

    value: str
    sources: tuple[tuple[Ref, str], ...]


class NumberWords(Value, frozen=True):
    """One stamped number: as recorded, as found and as it stands, how it is known, and every
    reading of it. What is not known is None; `standing` are sentences on what it stands against.
    """

    anchor: str
    name: str
    on: Ref | None
    note: str
    disputed: bool
    recorded: tuple[ValueWords, ...]
    found: ValueWords | None
    delivered: ValueWords | None
    moved: Ref | None
    standing: tuple[str, ...]
    values: tuple[ValueWords, ...]
    often: bool


def number_disputes(view: CarView, links: Links, key: str) -> tuple[ContradictionWords, ...]:
    """What is said against the number that a component carries, each reading with one source."""
    lines = (line for line in view.numbers.lines if line.on == key and line.disputed)
    return tuple(_dispute(links, number_words(links, line)) for line in lines)


def _dispute(links: Links, number: NumberWords) -> ContradictionWords:
    given = [f"as {value.value} by {_giver(value.sources[0][0])}" for value in number.values]
    every = Ref("every reading of it", links.to(f"numbers.html#{number.anchor}"))
    return ContradictionWords(f"the number is given {listed(given)}", every, None)


def _giver(source: Ref) -> str:
    return source.text if source.href else "the car as found"


def number_words(links: Links, line: NumberLine) -> NumberWords:
    """A number with all its readings, those that agree together."""
    return NumberWords(
        anchor("number", line.name),
        title_of(line.name),
        links.component(line.on) if line.on else None,
        line.note or "",
        line.disputed,
        tuple(_value(links, value, same) for value, same in values_of(line.recorded)),
        _value(links, line.found.value, (line.found,)) if line.found else None,
        _value(links, line.delivered.value, (line.delivered,)) if line.delivered else None,
        links.sheet(line.moved) if line.moved else None,
        () if line.masked else tuple(_standing(line)),
        tuple(_value(links, value, same) for value, same in values_of(line.statements)),
        len(line.read) > 2 or any(s.another for s in line.statements),
    )


def _value(links: Links, value: str, statements: Iterable[Statement]) -> ValueWords:
    return ValueWords(value, tuple(_source(links, s) for s in statements))


def _standing(line: NumberLine) -> Iterator[str]:
    """How the number is known, and how it stands against the factory record and the rules."""
    if line.statements:
        yield f"{sentence(line.evidence.value)}: {EVIDENCE_MEANING[line.evidence]}"
    if line.recorded or line.found:
        named = line.recorded or line.record is Verdict.SILENT
        yield sentence(
            line.record.value
            if named
            else f"{line.record.value}, which gives the number that it repeats"
        )
    if line.remark:
        yield f"Remark: {line.remark}"


def _source(links: Links, statement: Statement) -> tuple[Ref, str]:
    source = Ref("As found on the car")
    if statement.kind == "paper" and statement.ref:
        source = links.paper(statement.ref)
    elif statement.ref:
        source = links.sheet(statement.ref)
    return source, day_words(statement.day) if statement.day else ""

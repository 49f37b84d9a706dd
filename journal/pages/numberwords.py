"""The car's stamped numbers in words, and what is in dispute about them."""

from typing import NamedTuple

from journal.ledgers.numbers import NumberLine, Statement
from journal.pages.lines import ContradictionWords
from journal.pages.links import Links, Ref, anchor
from journal.pages.view import CarView
from journal.pages.words import day_words
from journal.words.names import title_of
from journal.words.text import comparable, listed


class ValueWords(NamedTuple):
    """One reading of a number, and everything that gives it so."""

    value: str
    sources: tuple[tuple[Ref, str], ...]


class NumberWords(NamedTuple):
    """One stamped number with everything that speaks for and against it."""

    anchor: str
    name: str
    on: Ref | None
    note: str
    disputed: bool
    values: tuple[ValueWords, ...]


def number_disputes(view: CarView, links: Links, key: str) -> tuple[ContradictionWords, ...]:
    """What is said against the number that a component carries, each reading with one source."""
    lines = (line for line in view.numbers.lines if line.on == key and line.disputed)
    return tuple(_dispute(links, number_words(links, line)) for line in lines)


def _dispute(links: Links, number: NumberWords) -> ContradictionWords:
    given = [f"as {value.value} by {_giver(value.sources[0][0])}" for value in number.values]
    every = Ref("every reading of it", links.to(f"papers.html#{number.anchor}"))
    return ContradictionWords(f"the number is given {listed(given)}", every, None)


def _giver(source: Ref) -> str:
    return source.text if source.href else "the car as found"


def number_words(links: Links, line: NumberLine) -> NumberWords:
    """A number with all its readings, those that agree together."""
    values: dict[str, list[Statement]] = {}
    for statement in line.statements:
        values.setdefault(comparable(statement.value), []).append(statement)
    return NumberWords(
        anchor("number", line.name),
        title_of(line.name),
        links.component(line.on) if line.on else None,
        line.note or "",
        line.disputed,
        tuple(
            ValueWords(same[0].value, tuple(_source(links, s) for s in same))
            for same in values.values()
        ),
    )


def _source(links: Links, statement: Statement) -> tuple[Ref, str]:
    source = Ref("As found on the car")
    if statement.kind == "paper" and statement.ref:
        source = links.paper(statement.ref)
    elif statement.ref:
        source = links.sheet(statement.ref)
    return source, day_words(statement.day) if statement.day else ""

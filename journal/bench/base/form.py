"""A sum as a form: what a page needs to ask for its inputs, made from the one definition."""

from typing import NamedTuple

from journal.bench.base.definition import WORD, Input, Sum, Takes
from journal.bench.base.rows import row_form
from journal.words.names import title_of
from journal.words.quantities import KINDS
from journal.words.text import listed


class Field(NamedTuple):
    """One field of a form. `how` says in a few words how it is written, `example` is one, `choices`
    are words with their meanings, `columns` the fields of a row."""

    name: str
    label: str
    meaning: str
    how: str
    takes: Takes
    required: bool
    default: str
    example: str
    units: tuple[str, ...]
    choices: tuple[tuple[str, str], ...]
    columns: "tuple[Field, ...]"


class Form(NamedTuple):
    """A sum as a form: its fields in the order asked, and what must stand beside its answer."""

    name: str
    title: str
    job: str
    asks: str
    fields: tuple[Field, ...]
    in_words: str
    formula: tuple[str, ...]
    limits: tuple[str, ...]
    caution: str
    sources: tuple[str, ...]


def form_of(sum_: Sum) -> Form:
    """The form of a sum."""
    example = dict(sum_.example)
    fields = tuple(_field(asked, example.get(asked.name, "")) for asked in sum_.inputs)
    return Form(
        sum_.name, sum_.title, sum_.job.value, sum_.asks, fields, sum_.in_words, sum_.formula,
        sum_.limits, sum_.caution, sum_.sources,
    )  # fmt: skip


def _field(asked: Input, example: str) -> Field:
    return Field(
        asked.name, title_of(asked.name), asked.meaning, how_words(asked), asked.takes, asked.required,
        asked.default, example, KINDS[asked.kind].units if asked.measures else (), asked.choices,
        tuple(_field(column, "") for column in asked.columns),
    )  # fmt: skip


def how_words(asked: Input) -> str:
    """How an input is written: `a length in mm, in or thou`, `inlet or exhaust`."""
    if asked.takes is Takes.ROWS:
        return f"rows of {row_form(asked)}"
    if asked.kind == WORD:
        return listed([word for word, _ in asked.choices], "or")
    if not asked.measures:
        return "a few words"
    words, units = KINDS[asked.kind]
    one = f"{words} in {listed(units, 'or')}" if units else words
    return {
        Takes.ONE: one,
        Takes.RANGE: f"{one}, one or two ends with .. between them",
        Takes.READINGS: f"{one}; one or more, with commas between them",
    }[asked.takes]


def symbols_words(sum_: Sum) -> str:
    """What the symbols of the formula stand for: `w = thickness wanted; t = how much it may be out`. What
    a meaning says after a semicolon is of how it is given, and is left out."""
    asked = [(i.symbol, i.meaning) for each in sum_.inputs for i in (each, *each.columns)]
    told = asked + [(output.symbol, output.meaning) for output in sum_.outputs]
    return "; ".join(f"{symbol} = {meaning.split(';')[0]}" for symbol, meaning in told if symbol)

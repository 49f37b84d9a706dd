"""What is written for the inputs of a sum, read by its definition; every mistake as a value.

Of rows a unit that stands once in a column holds for all of it, and for columns of its kind that have
none; how they stand apart is told in `rows`.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping

from msgspec import Struct

from journal.bench.base.definition import TEXT, Input, Sum, Takes
from journal.bench.base.given import Given
from journal.bench.base.rows import MOST_ROWS, row_form, split_rows, too_many
from journal.words.names import nearest
from journal.words.quantities import (
    LONGEST,
    NotRead,
    Quantity,
    Span,
    parse_quantities,
    parse_quantity,
    parse_readings,
    parse_span,
    plain_text,
    refuse_decimal_comma,
)
from journal.words.text import listed, shortened

# More text than a name needs.
LONGEST_TEXT = 80
# More words than these make no sentence.
MOST_NAMED = 12


class Mistake(Struct, frozen=True):
    """A mistake in what was written for a sum.

    `key` is the input as it was written; `sentence` continues after it; `help` is the way out, or
    empty where nobody can know it.
    """

    key: str
    code: str
    sentence: str
    help: str = ""

    @property
    def words(self) -> str:
        """The mistake in one sentence."""
        told = f"{self.key} {self.sentence}"
        return f"{told}; {self.help}" if self.help else told


def read_given(sum_: Sum, written: Iterable[tuple[str, str]]) -> tuple[Given, tuple[Mistake, ...]]:
    """The values of a sum's inputs, as far as they can be read, and all mistakes in them."""
    by_name = dict(written)
    values: dict[str, object] = {}
    wrong = [_unknown(sum_, name) for name in by_name if sum_.input(name) is None]
    for asked in sum_.inputs:
        text = _one_line(by_name.get(asked.name, "")) or asked.default
        if text:
            try:
                values[asked.name] = read_input(asked, text)
            except NotRead as fault:
                wrong.append(Mistake(asked.name, fault.code, fault.sentence, fault.help))
        elif asked.required:
            wrong.append(Mistake(asked.name, "missing-key", "is missing", f"it is {asked.meaning}"))
    return Given(values), tuple(wrong)


def _one_line(text: str) -> str:
    """Lines are rows, as semicolons part them."""
    return "; ".join(filter(None, (line.strip() for line in text.splitlines())))


def read_input(asked: Input, text: str) -> object:
    """The value of one input. Raises NotRead for what it cannot be."""
    if len(text) > LONGEST:
        raise NotRead(
            "too-long", f"must have at most {LONGEST} characters, found {len(text)}",
            "tell alike rows together, or leave out what does not matter",
        )  # fmt: skip
    return _READ[asked.takes](asked, text)


def _unknown(sum_: Sum, name: str) -> Mistake:
    known = [asked.name for asked in sum_.inputs]
    meant = nearest(name, known)
    way = f"write {meant}" if meant else f"known here: {', '.join(known)}"
    return Mistake(shortened(name, 60), "unknown-key", f"is not asked for by {sum_.name}", way)


def _one(asked: Input, text: str) -> Quantity | str:
    if not asked.measures:
        return _word(asked, text)
    if ";" in text or "," in plain_text(text):
        refuse_decimal_comma(plain_text(text))
        raise NotRead("bad-quantity", f'must be one, found "{shortened(text, 60)}"', "write one")
    return _possible(asked, parse_quantity(text, asked.kind), text)


def _word(asked: Input, text: str) -> str:
    if asked.kind == TEXT:
        if len(text) > LONGEST_TEXT:
            raise NotRead(
                "too-long", f"must be short, found {len(text)} characters",
                f"write at most {LONGEST_TEXT}",
            )  # fmt: skip
        return " ".join(text.split())
    known = [word for word, _ in asked.choices]
    word = text.strip().casefold()
    if word in known:
        return word
    meant = nearest(word, known)
    way = f"write {meant}" if meant else f"write {listed(_named(known), 'or')}"
    raise NotRead("bad-word", f'cannot be "{shortened(text.strip(), 60)}"', way)


def _named(known: list[str]) -> list[str]:
    """Words that are named in a sentence: all of them, or the first of many."""
    if len(known) <= MOST_NAMED:
        return known
    return [*known[:MOST_NAMED], f"one of {len(known) - MOST_NAMED} others"]


def _range(asked: Input, text: str) -> Span:
    span = parse_span(text, asked.kind)
    for end in (span.low, span.high):
        _possible(asked, end, text)
    return span


def _readings(asked: Input, text: str) -> tuple[Quantity, ...] | tuple[str, ...]:
    if not asked.measures:
        return tuple(_word(asked, cell) for cell in re.split(r"[,;]", text))
    read = parse_readings(text, asked.kind)
    if len(read) > MOST_ROWS:
        raise too_many(len(read))
    return tuple(_possible(asked, quantity, quantity.words) for quantity in read)


def _possible(asked: Input, quantity: Quantity, text: str) -> Quantity:
    """The quantity, or a refusal where it is beyond what is physically possible."""
    least, most = (
        parse_quantity(end, asked.kind) if end else None for end in (asked.least, asked.most)
    )
    below = least is not None and quantity.amount < least.to(quantity.unit)
    if below or (most is not None and quantity.amount > most.to(quantity.unit)):
        found = f'found "{shortened(" ".join(text.split()), 60)}"'
        raise NotRead("out-of-range", f"must be {_bounds(asked)}, {found}", "read it again")
    return quantity


def _bounds(asked: Input) -> str:
    if asked.least and asked.most:
        return f"between {asked.least} and {asked.most}"
    return f"{asked.least} or more" if asked.least else f"at most {asked.most}"


def _rows(asked: Input, text: str) -> tuple[Given, ...]:
    rows = split_rows(asked, text)
    texts = {
        column.name: [row.get(column.name, "") or column.default for row in rows]
        for column in asked.columns
    }
    columns = [_column(column, texts, rows, asked) for column in asked.columns]
    names = [column.name for column in asked.columns]
    return tuple(
        Given({name: value for name, value in zip(names, row, strict=True) if value is not None})
        for row in zip(*columns, strict=True)
    )


def _column(
    column: Input, texts: Mapping[str, list[str]], rows: list[dict[str, str]], asked: Input
) -> list[object]:
    """One column, read as a whole, so that a unit that is given once holds for all of it."""
    for text, row in zip(texts[column.name], rows, strict=True):
        if not text and column.required:
            name = row[asked.columns[0].name]
            raise NotRead(
                "missing-key", f'has no {column.name} in the row "{shortened(name, 60)}"',
                f"write {row_form(asked)}",
            )  # fmt: skip
    alike = [
        text
        for other in asked.columns
        if other.kind == column.kind and other is not column
        for text in texts[other.name]
    ]
    try:
        return list(_read_column(column, texts[column.name], alike))
    except NotRead as fault:
        sentence = f"has a {column.name} that {fault.sentence}"
        raise NotRead(fault.code, sentence, fault.help) from None


def _read_column(column: Input, texts: list[str], alike: list[str]) -> Iterator[object]:
    if not column.measures:
        yield from (_word(column, text) if text else None for text in texts)
        return
    read = iter(_quantities(column, [text for text in texts if text], [t for t in alike if t]))
    for text in texts:
        yield _possible(column, next(read), text) if text else None


def _quantities(column: Input, texts: list[str], alike: list[str]) -> tuple[Quantity, ...]:
    """The quantities of a column; where it has no unit of its own, in that of columns like it."""
    try:
        return parse_quantities(texts, column.kind)
    except NotRead as fault:
        try:
            return parse_quantities([*texts, *alike], column.kind)[: len(texts)]
        except NotRead:
            raise fault from None


_READ: dict[Takes, Callable[[Input, str], object]] = {
    Takes.ONE: _one,
    Takes.RANGE: _range,
    Takes.READINGS: _readings,
    Takes.ROWS: _rows,
}

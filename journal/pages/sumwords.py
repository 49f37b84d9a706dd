"""Bench sums as pages show them: what was given, the working, the answer, and what stands beside it."""

import re
from collections.abc import Iterable
from urllib.parse import urlencode

from journal.bench.base.definition import Input, Sum, Takes
from journal.bench.base.form import symbols_words
from journal.bench.base.worked import Grid, result_words
from journal.bench.base.working import Answer
from journal.digests.sums import KeptSum
from journal.pages.anchors import anchor
from journal.pages.links import Links, Ref
from journal.pages.sumcurves import DrawnCurve, drawn
from journal.pages.value import Value
from journal.pages.words import day_words, sentence
from journal.words.units import ALL_UNITS

# Letters that stand side by side on a screen of 320 px, tried there.
_TELEPHONE = 31
_UNITS = "|".join(re.escape(unit) for unit in sorted(ALL_UNITS, key=len, reverse=True))
_BEFORE_UNIT = re.compile(rf"(?<=[0-9]) (?=(?:{_UNITS})(?!\w))")


class SumGiven(Value, frozen=True):
    """One input: what it is, and what was given, a line for each row."""

    meaning: str
    told: tuple[str, ...]


class SumResult(Value, frozen=True):
    """One line of an answer, in both systems of units where there are two."""

    meaning: str
    told: str
    other: str


class GridWords(Value, frozen=True):
    """A table of an answer; the first column names its row. `narrow` is one that a telephone has room
    for as it is."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    narrow: bool


class Beside(Value, frozen=True):
    """What stands beside every answer of one sum."""

    title: str
    asks: str
    in_words: str
    formula: tuple[str, ...]
    symbols: str
    limits: tuple[str, ...]
    caution: str
    sources: tuple[str, ...]


class AnswerWords(Value, frozen=True):
    """An answer. `wrong` marks one that is not as it should be."""

    verdict: str
    wrong: bool
    given: tuple[SumGiven, ...]
    results: tuple[SumResult, ...]
    steps: tuple[str, ...]
    grids: tuple[GridWords, ...]
    curves: tuple[DrawnCurve, ...]
    warnings: tuple[str, ...]


class SumWords(Value, frozen=True):
    """A kept sum, with what `AnswerWords` says of its answer. `place` is where it stands in full, on the
    page of its sheet; `asked` the sum with what was given to it, as the end of a form's address."""

    anchor: str
    title: str
    place: Ref
    day: str
    iso: str
    sheet: Ref
    of: tuple[Ref, ...]
    note: str
    verdict: str
    wrong: bool
    given: tuple[SumGiven, ...]
    results: tuple[SumResult, ...]
    steps: tuple[str, ...]
    grids: tuple[GridWords, ...]
    curves: tuple[DrawnCurve, ...]
    warnings: tuple[str, ...]
    beside: Beside
    asked: str


def sum_words(links: Links, kept: KeptSum) -> SumWords:
    """A kept sum in words."""
    where = anchor("sum", kept.name)
    sheet = links.sheet(kept.sheet)
    told = answer_words(kept.answer)
    return SumWords(
        where,
        kept.title,
        Ref(kept.title, f"{sheet.href}#{where}" if sheet.href else None),
        day_words(kept.day),
        kept.day.isoformat(),
        sheet,
        links.components(kept.of),
        sentence(kept.note or ""),
        told.verdict,
        told.wrong,
        told.given,
        told.results,
        told.steps,
        told.grids,
        told.curves,
        told.warnings,
        beside(kept.answer.sum),
        asked_again(kept.answer.sum, ((a.name, told) for a, told in kept.answer.inputs())),
    )


def answer_words(answer: Answer) -> AnswerWords:
    """An answer in words."""
    worked = answer.worked
    return AnswerWords(
        bound(worked.verdict),
        worked.right is False,
        tuple(SumGiven(a.meaning, _told(a, told)) for a, told in answer.inputs()),
        tuple(
            SumResult(sentence(r.meaning), bound(r.words), bound(r.other)) for r in worked.results
        ),
        tuple(map(bound, worked.steps)),
        tuple(table(grid) for grid in worked.grids),
        tuple(drawn(curve) for curve in worked.curves),
        tuple(map(bound, worked.warnings)),
    )


def asked_again(sum_: Sum, written: Iterable[tuple[str, str]]) -> str:
    """A sum and what is written for its inputs as the end of an address: `shim-pack?target=0.42+mm`.
    What is written as it would be taken anyway is left out."""
    told = {
        name: text
        for name, text in written
        if (asked := sum_.input(name)) is None or text != asked.default
    }
    return f"{sum_.name}?{urlencode(told)}" if told else sum_.name


def _told(asked: Input, told: str) -> tuple[str, ...]:
    """What was given: rows line by line, a choice by its meaning."""
    if asked.takes is Takes.ROWS:
        return tuple(map(bound, told.split("; ")))
    return (dict(asked.choices).get(told) or bound(told),)


def table(grid: Grid) -> GridWords:
    """A table of an answer in words."""
    rows = tuple(tuple(map(bound, row)) for row in grid.rows)
    return GridWords(grid.title, grid.heads, rows, _room(grid) <= _TELEPHONE)


def _room(grid: Grid) -> int:
    """How many letters a table needs side by side: a head may break between its words, a cell not."""
    columns = zip(grid.heads, *grid.rows, strict=True)
    return sum(2 + max(*map(len, head.split()), *map(len, cells), 0) for head, *cells in columns)


def bound(text: str) -> str:
    """A text in which no figure parts from its unit at the end of a line."""
    return _BEFORE_UNIT.sub("\N{NO-BREAK SPACE}", text)


def beside(sum_: Sum) -> Beside:
    """What stands beside every answer of a sum."""
    return Beside(
        sum_.title, sum_.asks, sum_.in_words, sum_.formula, symbols_words(sum_),
        sum_.limits, sum_.caution, sum_.sources,
    )  # fmt: skip


def sum_sentences(kept: KeptSum) -> tuple[str, ...]:
    """What is found of a sum by searching: its verdict and every line of its answer."""
    worked = kept.answer.worked
    told = [f"{sentence(r.meaning)}: {result_words(r)}" for r in worked.results]
    given = "; ".join(f"{a.meaning} {told}" for a, told in kept.answer.inputs())
    return (*filter(None, (worked.verdict, kept.note)), *told, f"Given: {given}")

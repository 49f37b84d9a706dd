"""The originality ledger: figures, the bar of origins, and one line for every component."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from journal.ledgers.originality import Line
from journal.ledgers.originality.figures import Summary
from journal.pages.charts import Gauge, Segment, gauge, stack
from journal.pages.common import OriginMark, frame, origin_mark
from journal.pages.figures import kept_words, three_figures
from journal.pages.gallerywords import EVIDENCE
from journal.pages.lines import (
    ContradictionWords,
    LedgerRow,
    contradiction_words,
    ledger_row,
    origin_counted,
)
from journal.pages.links import Links, Ref
from journal.pages.numberwords import number_disputes
from journal.pages.page import Page
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import percent_words, share_words
from journal.words.amounts import OPEN, Interval, percent, plain_number, total_of
from journal.words.text import counted
from journal.words.vocabulary import CONFORMITY, EVIDENCE_MEANING, Evidence, Origin

PATH = "ledger.html"


class OriginRow(Value, frozen=True):
    """One origin in the key of the bar: components and share of the weight, as found and now,
    and how far it conforms."""

    mark: OriginMark
    found: str
    found_share: str
    now: str
    now_share: str
    conforms: str


class FigureRow(Value, frozen=True):
    """The figures of a subsystem, or of the whole car."""

    ref: Ref
    count_words: str
    weight: str
    material_found: str
    material_now: str
    conforms_found: str
    conforms_now: str
    conforms_back: str
    found: Gauge
    now: Gauge


class Choice(Value, frozen=True):
    """One question of the filter: its name in the page's address, its words, the word before an
    answer that is told, and the answers that some line gives, each with its words."""

    name: str
    label: str
    said: str
    answers: tuple[tuple[str, str], ...]


class LedgerBranch(Value, frozen=True):
    """The lines of one subsystem."""

    ref: Ref
    name: str
    anchor: str
    rows: tuple[LedgerRow, ...]


def page_ledger(view: CarView) -> tuple[Page, ...]:
    """The ledger of the whole car."""
    links = Links(view, PATH)
    ledger = view.originality
    back = sum(d.recoverable for line in ledger.lines for d in line.displaced)
    rows = tuple(figure_row(links.subsystem(name), s) for name, s in ledger.subsystems)
    values = {
        **frame(links, "Originality ledger"),
        "scripts": ("filter.js",),
        "choices": _choices(links, ledger.lines),
        "how_many": counted(len(ledger.lines), "component"),
        "figures": three_figures(ledger.whole, kept_words(back)),
        "found_bar": _bar(ledger.lines, found=True),
        "now_bar": _bar(ledger.lines, found=False),
        "origins": origin_rows(ledger.lines),
        "figure_rows": rows,
        "whole": figure_row(Ref("The whole car"), ledger.whole),
        "branches": tuple(_branch(links, ledger.lines, name) for name, _ in ledger.subsystems),
        "grades": tuple((grade.value, EVIDENCE_MEANING[grade]) for grade in Evidence),
        "contradictions": disputes(view, links),
        "departures": links.to("departures.html"),
        "photographs": links.to(EVIDENCE),
    }
    return (Page(view.base + PATH, "ledger.html", values),)


def disputes(view: CarView, links: Links) -> tuple[tuple[Ref, ContradictionWords], ...]:
    """Everything in the record that cannot hold beside something else, by component."""
    return tuple(_disputes(view, links))


def _disputes(view: CarView, links: Links) -> Iterator[tuple[Ref, ContradictionWords]]:
    for line in view.originality.lines:
        ref = links.component(line.component.key, full=True)
        for words in number_disputes(view, links, line.component.key):
            yield ref, words
        for found in line.contradictions:
            yield ref, contradiction_words(links, found)


def _origin_of(line: Line, found: bool) -> Origin:
    return origin_counted(line.as_found if found else line.now)


def _bar(lines: Iterable[Line], *, found: bool) -> tuple[tuple[OriginMark, Segment], ...]:
    weights = dict.fromkeys(Origin, Fraction(0))
    for line in lines:
        weights[_origin_of(line, found)] += line.weight
    segments = stack((origin.value, weight) for origin, weight in weights.items())
    return tuple((origin_mark(Origin(segment.name)), segment) for segment in segments)


def origin_rows(lines: tuple[Line, ...]) -> tuple[OriginRow, ...]:
    """Every origin with what counts under it, as found and now."""
    return tuple(_origin(lines, origin) for origin in Origin)


def _origin(lines: tuple[Line, ...], origin: Origin) -> OriginRow:
    whole = total_of(line.weight for line in lines)
    cells: list[str] = []
    for found in (True, False):
        of = [line for line in lines if _origin_of(line, found) is origin]
        share = total_of(line.weight for line in of) / whole if whole else Fraction(0)
        cells += [str(len(of)), f"{percent(share)} %"]
    usual = CONFORMITY[origin]
    conforms = share_words(OPEN if usual is None else Interval(usual, usual))
    return OriginRow(origin_mark(origin), cells[0], cells[1], cells[2], cells[3], conforms)


def figure_row(ref: Ref, summary: Summary) -> FigureRow:
    """The figures of a subsystem, or of the whole car."""
    return FigureRow(
        ref,
        str(summary.count),
        plain_number(summary.weight),
        percent_words(summary.found.material),
        percent_words(summary.now.material),
        percent_words(summary.found.conformity),
        percent_words(summary.now.conformity),
        percent_words(summary.recoverable.conformity),
        gauge(summary.found.material),
        gauge(summary.now.material),
    )


def _choices(links: Links, lines: tuple[Line, ...]) -> tuple[Choice, ...]:
    origins = {_origin_of(line, found=False) for line in lines}
    grades = {line.evidence for line in lines}
    branches = dict.fromkeys(line.component.subsystem for line in lines)
    return (
        Choice(
            "origin", "Origin now", "now", tuple((o.value, o.value) for o in Origin if o in origins)
        ),
        Choice(
            "subsystem", "Subsystem", "in", tuple((b, links.subsystem(b).text) for b in branches)
        ),
        Choice(
            "evidence",
            "Evidence",
            "evidence",
            tuple((g.value, g.value) for g in Evidence if g in grades),
        ),
    )


def _branch(links: Links, lines: Iterable[Line], name: str) -> LedgerBranch:
    of = [line for line in lines if line.component.subsystem == name]
    return LedgerBranch(
        links.subsystem(name), name, f"lines-{name}", tuple(ledger_row(x, links) for x in of)
    )

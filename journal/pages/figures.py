"""The three figures of the ledger, as drawn and as said."""

from journal.ledgers.originality.figures import Summary
from journal.pages.charts import Gauge, gauge
from journal.pages.value import Value
from journal.pages.words import percent_words, some
from journal.words.amounts import Interval


class FigureWords(Value, frozen=True):
    """One figure: its question, its value now with its drawing, and a line below."""

    label: str
    value: str
    gauge: Gauge
    below: str


def three_figures(summary: Summary, kept: str) -> tuple[FigureWords, ...]:
    """Material and conformity with their state as found, and conformity with all undone.

    `kept` is the line below the last figure.
    """
    found, now, back = summary.found, summary.now, summary.recoverable
    return (
        _figure("Material that is the car’s own", now.material, _as_found(found.material)),
        _figure("Conforms to what the works fitted", now.conformity, _as_found(found.conformity)),
        _figure("Conforms, if every reversible change is undone", back.conformity, kept),
    )


def kept_words(count: int) -> str:
    """What stands below the last figure: how many displaced items could go back."""
    if not count:
        return "no displaced item is kept that could go back"
    return f"{some(count, 'displaced item')} kept, ready to go back"


def _figure(label: str, share: Interval, below: str) -> FigureWords:
    return FigureWords(label, percent_words(share), gauge(share), below)


def _as_found(share: Interval) -> str:
    return f"as found {percent_words(share)}"

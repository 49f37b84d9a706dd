"""Units that stand apart from their numbers: said before them, after them, or not at all.

Common practice of the trade, no source: what is measured to four places is an inch, tyres and compressions
are read in pounds per square inch, and what opens in hot water at so much opens at a temperature.
"""

from collections.abc import Sequence

from journal.hearing.measure import Measure, lent
from journal.hearing.strand import Strand
from journal.hearing.unitwords import DEGREES, POUNDS, UnitAt, unit_from

# After a unit that is told of the numbers before it: hundredths of a millimetre, that is.
_BY_THE_WAY = (
    ("that", "is"), ("that's", "is"), ("obviously",), ("of", "course"), ("mind",), ("by", "the", "way"),
    ("both",), ("all",), ("each",),
)  # fmt: skip
_INTO_UNIT = frozenset({"in", "all", "that's", "both", "it's", "they're", "those"})
# After a unit that is told before its number: volts on the battery.
_HEADS = frozenset({"V", "A", "ohm", "psi", "thou", "micron", "mm", "rpm", "bar"})
_HEADED_BY = frozenset({"on", "at", "across", "of", "is", "was", "are", "were", "for", "through"})
_NO_HEAD = frozenset({"a", "an", "the", "per", "of", "in", "no", "few", "some", "my", "to"})
_FAR, _LONG = 12, 5

_PUMPED = frozenset({"pumped", "inflated", "pump", "blown", "tyre", "tyres", "pressures"})
_OPENS = frozenset({
    "opens", "opening", "opened", "open", "cracked", "cracks", "boiled", "boils", "shuts", "closes",
})  # fmt: skip
_HOT = frozenset({
    "thermostat", "stat", "thermometer", "temperature", "water", "kettle", "pan", "saucepan", "jug",
})  # fmt: skip
_COMPRESSION = frozenset({"compression", "compressions"})
# Above so many degrees water boils, so that what opens there is told in Fahrenheit.
_BOILS = 120


def with_units_apart(strand: Strand, found: Sequence[Measure]) -> list[Measure]:
    """Measures in order, those without a unit in the one that is told apart from them."""
    told = list(found)
    taken = {n for measure in found for n in range(measure.start, measure.end)}
    for n, word in enumerate(strand.words):
        if n in taken or not word.isalpha():
            continue
        unit = unit_from(strand, n)
        if unit is None or unit.said.unit in (POUNDS, DEGREES):
            continue
        if _is_told_after(strand, n, unit.end):
            _tell_before(strand, told, n, unit)
        elif unit.said.unit in _HEADS and strand.at(n - 1) not in _NO_HEAD:
            _tell_after(strand, told, unit)
    return [lent(measure, _meant(strand, measure)) for measure in told]


def _is_told_after(strand: Strand, n: int, end: int) -> bool:
    """Whether a unit stands by itself: a sentence of it, or an afterthought."""
    if any(strand.phrase(end, *words) for words in _BY_THE_WAY):
        return True
    begin = n - 1 if strand.at(n - 1) in _INTO_UNIT else n
    return strand.is_parted(begin) and strand.is_parted(end)


def _tell_before(strand: Strand, told: list[Measure], n: int, unit: UnitAt) -> None:
    """The numbers of the sentence before a unit take it."""
    near = [k for k, measure in enumerate(told) if measure.end <= n]
    reach = n
    for k in reversed(near):
        if told[k].unit or reach - told[k].end > _FAR:
            break
        reach = told[k].start
        told[k] = lent(told[k], unit.said.unit, unit.said.factor)


def _tell_after(strand: Strand, told: list[Measure], unit: UnitAt) -> None:
    """The number that a unit heads takes it: volts on the battery twelve point four."""
    after = next((k for k, measure in enumerate(told) if measure.start >= unit.end), None)
    if after is None or told[after].unit or told[after].start - unit.end > _LONG:
        return
    between = strand.words[unit.end : told[after].start]
    if any(strand.ended[unit.end : told[after].start + 1]):
        return
    if not between or between[0] in _HEADED_BY:
        told[after] = lent(told[after], unit.said.unit, unit.said.factor)


def _meant(strand: Strand, measure: Measure) -> str:
    """The unit that a number has in the trade where none is said; empty where it has none."""
    if measure.unit:
        return ""
    places = len(measure.text.partition(".")[2])
    if places == 4 and measure.value < 20:
        return "in"
    led = strand.at(measure.start - 1)
    before = strand.words_before(measure.start, 9)
    if led in ("to", "at") and 10 <= measure.value <= 60 and not _PUMPED.isdisjoint(before):
        return "psi"
    if 50 <= measure.value <= 300 and not _COMPRESSION.isdisjoint(before):
        return "psi"
    return _degrees(strand, measure) if led in ("at", "about") and measure.value >= 40 else ""


def _degrees(strand: Strand, measure: Measure) -> str:
    if _OPENS.isdisjoint(strand.words_before(measure.start, 4)):
        return ""
    around = strand.words[max(0, measure.start - 30) : measure.end + 8]
    if _HOT.isdisjoint(around):
        return ""
    return "C" if measure.value <= _BOILS else "F"

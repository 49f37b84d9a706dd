"""Hours that were worked: told as a length of time, or from one time of the day to another."""

from bisect import bisect_left
from dataclasses import dataclass, replace
from fractions import Fraction

from journal.hearing.clock import Clock, between, clock_at, words_of
from journal.hearing.corrections import Place, taken_back
from journal.hearing.numbers import Spoken
from journal.hearing.spells import ONLY_SPENT, Spell, spells_in
from journal.hearing.strand import Strand, strand_of
from journal.hearing.tokens import Token
from journal.hearing.unitwords import measures_at
from journal.hearing.worked import is_break, is_today, is_whole_day, is_work, works_near
from journal.words.amounts import plain_number


@dataclass(frozen=True)
class Hours:
    """Hours of work over the tokens [first, last).

    `hours` is the number as a sheet has it, to hundredths; empty where it cannot be told. Where `sure`
    is false it is a proposal, and `ask` the question. `whole_day` tells that it was said of all of a
    day's work. `today` is false for what was or will be worked on another day.
    """

    first: int
    last: int
    hours: str
    sure: bool
    ask: str
    whole_day: bool = False
    today: bool = True


@dataclass(frozen=True)
class _Span:
    """Work from one time to another over the words [start, end), in hours if that is known."""

    start: int
    end: int
    hours: Fraction | None
    ask: str = ""
    day: bool = False


_UNTIL = frozenset({"till", "until", "til", "'til"})
_TO = frozenset({"to", "-", "through", "and"})
_NEAR = frozenset({
    "about", "around", "roughly", "gone", "just", "well", "past", "nearly", "at", "after", "before", "up",
    "right", "by", "like", "through", "on", "say",
})  # fmt: skip
_STARTED = frozenset({
    "started", "start", "starting", "began", "in", "here", "arrived", "kicked", "opened", "there",
    "cracked",
})  # fmt: skip
_FINISHED = frozenset({
    "finished", "finish", "finishing", "packed", "knocked", "left", "stopped", "home", "done", "locked",
    "downed", "called", "jacked", "gave", "away", "went", "shut",
})  # fmt: skip
_LONGEST = 16
# So many words may stand between hours and a break that was said after them, or before.
_BREAK_AFTER, _BREAK_BEFORE = 15, 12


def hours_in(tokens: tuple[Token, ...], numbers: tuple[Spoken, ...]) -> tuple[Hours, ...]:
    """All hours of work in order. Breaks that were said with them are taken off.

    What is time but no work (a drive, a cure, a wait) and another's time are left out.
    """
    strand = strand_of(tokens)
    spans = _spans(strand)
    taken = {n for span in spans for n in range(span.start, span.end)}
    spells = [
        spell
        for spell in spells_in(strand, numbers)
        if taken.isdisjoint(range(spell.start, spell.end))
    ]
    spells = _joined(strand, spells)
    found: list[_Span] = sorted([*spans, *_standing(strand, spells)], key=lambda span: span.start)
    return tuple(_hours(strand, span) for span in _less_breaks(strand, found, spells))


def _hours(strand: Strand, span: _Span) -> Hours:
    first, last = strand.span(span.start, span.end)
    hours = "" if span.hours is None else plain_number(span.hours)
    day = span.day or is_whole_day(strand, span.start, span.end)
    today = is_today(strand, span.start, span.end)
    return Hours(first, last, hours, not span.ask, span.ask, day, today)


# From one time to another


def _spans(strand: Strand) -> list[_Span]:
    found: list[_Span] = []
    n = 0
    while n < len(strand.words):
        span = _span_at(strand, n)
        if span is None:
            n += 1
            continue
        found.append(span)
        n = span.end
    return found


def _span_at(strand: Strand, n: int) -> _Span | None:
    if strand.at(n) in _STARTED and (span := _started(strand, n)):
        return span
    if strand.at(n) in _UNTIL:
        return _open_start(strand, n)
    begin = n + 1 if strand.at(n) in ("from", "between") else n
    start = clock_at(strand, _past(strand, begin))
    if start is None or start.vague or (begin == n and strand.at(n) in _NEAR):
        return None
    said = strand.on(start.end)
    if said not in _UNTIL | _TO and strand.on(start.end + 1) not in _UNTIL:
        return None
    stop = clock_at(strand, _past(strand, start.end + 1))
    if stop is None or not _meant(strand, n, start, said, stop):
        return None
    return _from_to(strand, n, start, stop)


def _past(strand: Strand, n: int) -> int:
    """Past the words that only say that a time is near, and a second `till`."""
    k = n
    while k - n < 3 and strand.at(k) in _NEAR | _UNTIL:
        k += 1
    return k


def _meant(strand: Strand, n: int, start: Clock, said: str, stop: Clock) -> bool:
    """Whether two times are those of work: not six to ten thou, and not when a shop is open."""
    if not works_near(strand, n, stop.end):
        return False
    if said == "and":
        return strand.at(n) == "between" and not (start.plain and stop.plain)
    if measures_at(strand, stop.end) or strand.on(stop.end) in ("of", "bolts", "studs", "or"):
        return False
    if said in _UNTIL or not (start.plain and stop.plain):
        return True
    return strand.at(n) == "from" and is_work(strand, n, stop.end, plain=False)


def _from_to(strand: Strand, n: int, start: Clock, stop: Clock) -> _Span | None:
    hours = Fraction(between(start, stop), 60)
    if hours > _LONGEST:
        return None
    words = " ".join(strand.words[n : stop.end])
    ask = f"How many hours was {words}?" if stop.vague else ""
    return _Span(n, stop.end, hours, ask)


def _started(strand: Strand, n: int) -> _Span | None:
    """Started at eight, finished at five."""
    start = clock_at(strand, _past(strand, n + 1))
    if start is None or strand.at(_past(strand, n + 1) - 1) not in (
        "at",
        "about",
        "around",
        "just",
        "by",
        "gone",
    ):
        return None
    for k in range(start.end, min(start.end + 14, len(strand.words))):
        if strand.at(k) in _FINISHED | _UNTIL or _through(strand, k):
            stop = clock_at(strand, _past(strand, _past_up(strand, k + 1)))
            if stop is not None and not measures_at(strand, stop.end):
                span = _from_to(strand, n, start, stop)
                return span and replace(span, day=True)
    return None


def _through(strand: Strand, n: int) -> bool:
    """Straight through to one, right up to five."""
    return strand.at(n) == "to" and strand.at(n - 1) in ("through", "up", "on")


def _past_up(strand: Strand, n: int) -> int:
    """Packed up at five, knocked off at half four."""
    return n + 1 if strand.at(n) in ("up", "off", "work", "it", "out", "for", "home", "a") else n


def _open_start(strand: Strand, n: int) -> _Span | None:
    """Worked through till six, where nobody said since when."""
    stop = clock_at(strand, _past(strand, n + 1))
    before = set(strand.words_before(n, 5))
    if stop is None or not before & {
        "worked",
        "working",
        "going",
        "stayed",
        "carried",
        "kept",
        "plodded",
    }:
        return None
    if measures_at(strand, stop.end) or strand.at(stop.end) in ("of",):
        return None
    until = strand.words[n + 1 : stop.end] if stop.vague else (words_of(stop),)
    ask = f"Since when was there work until {' '.join(until)}, and how many hours was it?"
    return _Span(n, stop.end, None, ask)


# Lengths of time


def _joined(strand: Strand, spells: list[Spell]) -> list[Spell]:
    """Half an hour to an hour is one spell that nobody is sure of."""
    made: list[Spell] = []
    for spell in spells:
        last = made[-1] if made else None
        if last and strand.words[last.end : spell.start] in (("to",), ("or",), ("maybe",)):
            ask = f"Was it {plain_number(last.hours)} or {plain_number(spell.hours)} hours?"
            made[-1] = replace(last, end=spell.end, ask=ask)
        else:
            made.append(spell)
    return made


def _standing(strand: Strand, spells: list[Spell]) -> list[_Span]:
    """Spells that were worked, without those that were taken back."""
    gone = taken_back(strand.words, [Place(spell.start, spell.end) for spell in spells])
    was = {new: spells[old] for old, new in gone.items()}
    found = []
    for n, spell in enumerate(spells):
        if n in gone or is_break(strand, spell.start, spell.end) or not _is_worked(strand, spell):
            continue
        old = was.get(n, spell)
        span = _Span(min(old.start, spell.start), spell.end, _corrected(old, spell), spell.ask)
        found.append(replace(span, day=spell.day and spell.hours >= 8))
    return found


def _corrected(old: Spell, new: Spell) -> Fraction:
    """Three hours twenty, no, thirty minutes: the minutes alone are corrected."""
    minutes_alone = new.small and not old.small and old.hours.denominator != 1
    return int(old.hours) + new.hours if minutes_alone else new.hours


def _is_worked(strand: Strand, spell: Spell) -> bool:
    if not 0 < spell.hours <= _LONGEST:
        return False
    words = " ".join(strand.words[spell.start : spell.end])
    doubtful = words in ONLY_SPENT or spell.hours < Fraction(1, 4)
    return is_work(strand, spell.start, spell.end, plain=not doubtful)


def _less_breaks(strand: Strand, found: list[_Span], spells: list[Spell]) -> list[_Span]:
    """Hours without the breaks that were said beside them."""
    left = list(found)
    starts = [span.start for span in found]
    for spell in spells:
        if not is_break(strand, spell.start, spell.end):
            continue
        n = _owner(left, bisect_left(starts, spell.start), spell)
        hours = left[n].hours if n is not None else None
        if n is not None and hours is not None and hours > spell.hours:
            start, end = min(left[n].start, spell.start), max(left[n].end, spell.end)
            left[n] = replace(left[n], start=start, end=end, hours=hours - spell.hours)
    return left


def _owner(found: list[_Span], n: int, spell: Spell) -> int | None:
    """The hours that a break belongs to: those before it, else those right after, from n on."""
    if n and found[n - 1].end <= spell.start <= found[n - 1].end + _BREAK_AFTER:
        return n - 1
    if n < len(found) and spell.end <= found[n].start <= spell.end + _BREAK_BEFORE:
        return n
    return None

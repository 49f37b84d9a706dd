"""Hours that were worked: told as a length of time, or from one time of the day to another."""

from collections.abc import Container, Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from journal.hearing.clock import Clock, between, clock_at, words_of
from journal.hearing.corrections import Place, taken_back
from journal.hearing.headings import headings_of, is_bare_hours
from journal.hearing.numbers import Spoken
from journal.hearing.reckoning import Figure, reckoned
from journal.hearing.spells import ONLY_SPENT, Spell, how_many, spells_in
from journal.hearing.strand import Strand, strand_of
from journal.hearing.tokens import Token
from journal.hearing.unitwords import measures_at
from journal.hearing.whose import NOBODY, People
from journal.hearing.worked import is_break, is_today, is_whole_day, is_work, works_near
from journal.words.amounts import plain_number


class Hours(Struct, frozen=True):
    """Hours of work over the tokens [first, last).

    `hours` is the number as a sheet has it, to hundredths; empty where it cannot be told. Where `sure`
    is false it is a proposal, and `ask` the question. `whole_day` tells that it was said of all of a
    day's work. `today` is false for what was or will be worked on another day. `who` is the hand whose they
    are, `i` where that is who speaks, or the word for one who is no hand; empty where it was not told.
    """

    first: int
    last: int
    hours: str
    sure: bool
    ask: str
    whole_day: bool = False
    today: bool = True
    who: str = ""


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
_AT = frozenset({"at", "about", "around", "just", "by", "gone"})
# Between a break and hours that are told without it.
_NET = frozenset({"so", "that's", "makes", "leaves", "call", "make"})
_LONGEST = 16
# So many words may stand between hours and a break that was said after them, or before.
_BREAK_AFTER, _BREAK_BEFORE = 15, 12


def hours_in(
    tokens: tuple[Token, ...], numbers: tuple[Spoken, ...], people: People = NOBODY
) -> tuple[Hours, ...]:
    """All hours of work in order. Breaks that were said with them are taken off.

    What is time but no work (a drive, a cure, a wait) and another's time are left out, and where hours are
    reckoned up, what was thought aloud. `people` are those whose hours may be told.
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
    taken = {n for span in spans for n in range(span.start, span.end)}
    taken |= {n for spell in spells for n in range(spell.start, spell.end)}
    figures = [*spans, *_standing(strand, spells), *_bare(strand, numbers, taken)]
    figures.sort(key=lambda figure: figure.start)
    less = _less_breaks(strand, figures, spells)
    told = reckoned(strand, less, headings_of(strand, taken), people)
    return tuple(_hours(strand, figure) for figure in sorted(told, key=lambda one: one.start))


def _bare(strand: Strand, numbers: tuple[Spoken, ...], taken: Container[int]) -> list[Figure]:
    """Numbers that nobody said are hours, and that may be."""
    place = {token: n for n, token in enumerate(strand.places)}
    found = []
    for number in numbers:
        start, end = place[number.first], place[number.last - 1] + 1
        if start not in taken and is_bare_hours(strand, start, end, number.value):
            bit = strand.phrase(end, "and", "a", "bit")
            ask = how_many(" ".join(strand.words[start : end + 3])) if bit else ""
            found.append(Figure(start, end + 3 if bit else end, number.value, ask, bare=True))
    return found


def _hours(strand: Strand, figure: Figure) -> Hours:
    first, last = strand.span(figure.start, figure.end)
    hours = "" if figure.hours is None else plain_number(figure.hours)
    day = figure.day or is_whole_day(strand, figure.start, figure.end)
    today = bool(figure.block) or is_today(strand, figure.start, figure.end)
    return Hours(first, last, hours, not figure.ask, figure.ask, day, today, figure.who)


def _inside(spell: Spell, spans: Sequence[Figure]) -> bool:
    return any(span.start < spell.end and spell.start < span.end for span in spans)


# From one time to another


def _spans(strand: Strand) -> list[Figure]:
    found: list[Figure] = []
    n = 0
    while n < len(strand.words):
        span = _span_at(strand, n)
        if span is None:
            n += 1
            continue
        found.append(span)
        n = span.end
    return found


def _span_at(strand: Strand, n: int) -> Figure | None:
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


def _from_to(strand: Strand, n: int, start: Clock, stop: Clock) -> Figure | None:
    hours = Fraction(between(start, stop), 60)
    if hours > _LONGEST:
        return None
    words = " ".join(strand.words[n : stop.end])
    ask = f"How many hours was {words}?" if stop.vague else ""
    return Figure(n, stop.end, hours, ask, span=True)


def _started(strand: Strand, n: int) -> Figure | None:
    """Started at eight, finished at five."""
    begin = _past(strand, n + 1)
    start = clock_at(strand, begin)
    if start is None or (start.plain and strand.at(begin - 1) not in _AT):
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


def _open_start(strand: Strand, n: int) -> Figure | None:
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
    return Figure(n, stop.end, None, ask)


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


def _standing(strand: Strand, spells: list[Spell]) -> list[Figure]:
    """Spells that were worked, without those that were taken back."""
    gone = taken_back(strand.words, [Place(spell.start, spell.end) for spell in spells])
    was = {new: spells[old] for old, new in gone.items()}
    found = []
    for n, spell in enumerate(spells):
        if n in gone or is_break(strand, spell.start, spell.end) or not _is_worked(strand, spell):
            continue
        old = was.get(n, spell)
        span = Figure(min(old.start, spell.start), spell.end, _corrected(old, spell), spell.ask)
        found.append(replace(span, day=spell.day and spell.hours >= 8, vague=spell.day))
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


def _less_breaks(strand: Strand, found: list[Figure], spells: list[Spell]) -> list[Figure]:
    """Hours without the breaks that were said beside them."""
    left = list(found)
    for spell in spells:
        if not is_break(strand, spell.start, spell.end):
            continue
        n = _owner(strand, left, spell)
        span = left[n] if n is not None else None
        if n is None or span is None or span.hours is None or span.hours <= spell.hours:
            continue
        left[n] = replace(
            span,
            start=min(span.start, spell.start),
            end=max(span.end, spell.end),
            hours=span.hours - spell.hours,
        )
    return left


def _owner(strand: Strand, found: list[Figure], spell: Spell) -> int | None:
    """The hours that a break belongs to: those before it, else those right after."""
    before = [n for n, span in enumerate(found) if span.end <= spell.start <= span.end + 15]
    if before:
        return before[-1]
    after = [n for n, span in enumerate(found) if spell.end <= span.start <= spell.end + 12]
    if not after or not _NET.isdisjoint(strand.words[spell.end : found[after[0]].start]):
        return None
    return after[0]

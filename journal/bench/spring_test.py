"""A spring on the press: its rate and free length from readings, against the maker's and its fellow."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from journal.bench.base.definition import Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Grid, Output, Result, Teller, Worked, answered

_LENGTHS, _RATES, _FORCES = (("mm", 1), ("in", 2)), (("N/mm", 1), ("lbf/in", 0)), (("N", 0), ("lbf", 0))  # fmt: skip
RATE = Output("rate", "rate of the spring", _RATES, "k")
FREE = Output("free", "free length, by the line through the readings", _LENGTHS)
LOAD = Output("load", "load at the fitted length", _FORCES)
OFF_LINE = Output("off-line", "furthest reading off that line", _FORCES)
RATE_OTHER = Output("rate-other", "rate of the other spring", _RATES)
FREE_OTHER = Output("free-other", "free length of the other spring, by its line", _LENGTHS)
LOAD_OTHER = Output("load-other", "load of the other at the fitted length", _FORCES)
APART = Output("apart", "at the same load the two stand apart by", _LENGTHS)

# A pair further apart than this leaves the car leaning; a reading further off the line than this share
# of the greatest load is read again. Common practice, no source.
_PAIR, _STRAY = Fraction(3), Fraction(3, 100)


class _Line(Struct, frozen=True):
    """The line of least squares through readings of length in mm and load in N."""

    readings: tuple[tuple[Fraction, Fraction], ...]

    @property
    def rate(self) -> Fraction:
        """How much the load grows for each mm that the spring is shorter."""
        length, load = self._means
        grows = sum(((length - x) * (y - load) for x, y in self.readings), Fraction(0))
        return grows / sum(((x - length) ** 2 for x, _ in self.readings), Fraction(0))

    @property
    def free(self) -> Fraction:
        """The length at which the line has no load."""
        length, load = self._means
        return length + load / self.rate

    def load(self, length: Fraction) -> Fraction:
        """The load of the line at a length."""
        return self.rate * (self.free - length)

    def length(self, load: Fraction) -> Fraction:
        """The length of the line at a load."""
        return self.free - load / self.rate

    @property
    def stray(self) -> Fraction:
        """How far the reading that lies furthest off the line is off it."""
        return max(abs(load - self.load(length)) for length, load in self.readings)

    @property
    def _means(self) -> tuple[Fraction, Fraction]:
        count = len(self.readings)
        lengths, loads = (sum(each, Fraction(0)) for each in zip(*self.readings, strict=True))
        return lengths / count, loads / count


def _work(given: Given) -> Worked:
    one = _line(given, "readings")
    other = _line(given, "other") if given.has("other") else None
    results = list(_results(given, one, (RATE, FREE, LOAD)))
    results.append(answered(OFF_LINE, one.stray, given))
    if other is not None:
        results += _results(given, other, (RATE_OTHER, FREE_OTHER, LOAD_OTHER))
        results.append(answered(APART, _apart(given, one, other), given))
    verdict, right = _verdict(given, one, other)
    lines = (one,) if other is None else (one, other)
    return Worked(
        tuple(results),
        tuple(step for line, label in zip(lines, _labels(lines), strict=True) for step in _steps(given, line, label)),
        verdict,
        right,
        tuple(_warnings(given, lines)),
        tuple(_grid(given, line, label) for line, label in zip(lines, _labels(lines), strict=True)),
    )  # fmt: skip


def _line(given: Given, name: str) -> _Line:
    readings = [(row.one("length").to("mm"), row.one("load").to("N")) for row in given.rows(name)]
    if len({length for length, _ in readings}) < 2:
        raise NotWorked(name, "must be at two lengths or more", "write length x load, such as 250 mm x 1800 N, 220 x 2700")  # fmt: skip
    line = _Line(tuple(sorted(readings, reverse=True)))
    if line.rate <= 0:
        raise NotWorked(name, "must have more load at less length", "write each as length x load, in that order")  # fmt: skip
    return line


def _labels(lines: Sequence[_Line]) -> tuple[str, ...]:
    return ("",) if len(lines) == 1 else ("first spring, ", "other spring, ")


def _results(given: Given, line: _Line, outputs: tuple[Output, Output, Output]) -> Iterator[Result]:
    rate, free, load = outputs
    yield answered(rate, line.rate, given)
    yield answered(free, line.free, given)
    if given.has("fitted"):
        yield answered(load, line.load(given.one("fitted").to("mm")), given)


def _apart(given: Given, one: _Line, other: _Line) -> Fraction:
    """How differently long the two are at the load of the first one where it is fitted, or else at the
    middle of its readings."""
    load = one.load(given.one("fitted").to("mm")) if given.has("fitted") else sum((y for _, y in one.readings), Fraction(0)) / len(one.readings)  # fmt: skip
    return abs(one.length(load) - other.length(load))


def _tellers(given: Given) -> tuple[Teller, Teller, Teller]:
    return (
        Teller((("mm", 0, 1), ("in", 2, 2)), given),
        Teller((("N", 0, 0), ("lbf", 0, 0)), given),
        Teller((("N/mm", 1, 1), ("lbf/in", 0, 0)), given),
    )


def _steps(given: Given, line: _Line, label: str) -> Iterator[str]:
    mm, force, rate = _tellers(given)
    minus = " \N{MINUS SIGN} "
    (long, little), (short, much) = line.readings[0], line.readings[-1]
    if len(line.readings) == 2:
        yield f"{label}rate: ({force.number(much)}{minus}{force.number(little)}) / ({mm.number(long)}{minus}{mm.number(short)}) = {rate(line.rate)}"
    else:
        yield f"{label}rate: slope of the line of least squares through {len(line.readings)} readings = {rate(line.rate)}"
    yield f"{label}free length: {mm(long)} + {force(line.load(long))} / {rate(line.rate)} = {mm(line.free)}"
    if given.has("fitted"):
        fitted = given.one("fitted").to("mm")
        yield f"{label}load at {mm(fitted)}: {rate(line.rate)} \N{MULTIPLICATION SIGN} ({mm.number(line.free)}{minus}{mm.number(fitted)}) = {force(line.load(fitted))}"


def _verdict(given: Given, one: _Line, other: _Line | None) -> tuple[str, bool | None]:
    mm, force, rate = _tellers(given)
    told = f"The spring has a rate of {rate(one.rate)} and a free length of {mm(one.free)}."
    right: bool | None = None
    if given.has("wanted"):
        if not given.has("fitted"):
            raise NotWorked("fitted", "is not told, and a load is wanted", "write the length at which it is to be carried")  # fmt: skip
        fitted, wanted = given.one("fitted").to("mm"), given.span("wanted")
        loads = [line.load(fitted) for line in (one, other) if line is not None]
        right = all(wanted.low.to("N") <= load <= wanted.high.to("N") for load in loads)
        kept = "keeps" if right else "does not keep"
        told += f" At {mm(fitted)} it carries {' and the other '.join(force(load) for load in loads)}; that {kept} the {wanted.words} that are wanted."
    if other is not None:
        apart = _apart(given, one, other)
        pair = apart <= _PAIR
        right = pair if right is None else right and pair
        told += f" At the same load the two stand {mm(apart)} apart: {'a pair' if pair else 'no pair; the car would lean'}."
    return told, right


def _warnings(given: Given, lines: Sequence[_Line]) -> Iterator[str]:
    _, force, _ = _tellers(given)
    for line, label in zip(lines, _labels(lines), strict=True):
        most = max(load for _, load in line.readings)
        if line.stray > _STRAY * most:
            yield f"{label}a reading lies {force(line.stray)} off the line: a slip, coils that close, or a spring made progressive.".capitalize()
        if len(line.readings) == 2:
            yield f"{label}two readings tell nothing of a slip; take three or more.".capitalize()


def _grid(given: Given, line: _Line, label: str) -> Grid:
    mm, force, _ = _tellers(given)
    rows = tuple((mm(length), force(load), force(line.load(length)), force(load - line.load(length))) for length, load in line.readings)  # fmt: skip
    return Grid(
        f"{label}readings".capitalize(), ("Length", "Load", "By the line", "Off it by"), rows
    )


def _readings(name: str, meaning: str, *, optional: bool = False) -> Input:
    return Input(
        name, meaning, "length", Takes.ROWS, optional=optional, least="5 mm", most="1000 mm",
        columns=(
            Input("length", "length of the spring", "length", symbol="" if optional else "x", least="5 mm", most="1000 mm"),
            Input("load", "load on it", "force", symbol="" if optional else "F", least="0 N", most="50000 N"),
        ),
    )  # fmt: skip


SPRING_TEST = Sum(
    name="spring-test",
    title="Spring on the press: rate, free length, and a pair",
    job=Job.SPRINGS,
    asks="What is the true rate of this spring, does it carry what the maker wants, and are two a pair?",
    inputs=(
        _readings("readings", "lengths of the spring under load, each with its load"),
        Input("fitted", "length at which the maker tells the load", "length", optional=True, least="5 mm", most="1000 mm"),
        Input("wanted", "load that the maker wants at that length", "force", Takes.RANGE, optional=True, least="0 N", most="50000 N"),
        _readings("other", "the same of the other spring of the pair", optional=True),
    ),
    outputs=(RATE, FREE, LOAD, OFF_LINE, RATE_OTHER, FREE_OTHER, LOAD_OTHER, APART),
    in_words=(
        "The rate is the difference of two loads over the difference of their lengths; of more readings it is the slope of the line that lies "
        "closest to all of them. Where that line has no load is the free length, whatever the ends of the spring look like."
    ),
    formula=(
        "k = (F2 \N{MINUS SIGN} F1) / (x1 \N{MINUS SIGN} x2)",
        "k = \N{N-ARY SUMMATION} (mean x \N{MINUS SIGN} x) (F \N{MINUS SIGN} mean F) / \N{N-ARY SUMMATION} (x \N{MINUS SIGN} mean x)\N{SUPERSCRIPT TWO}",
        "free = mean x + mean F / k",
    ),
    limits=(
        "Take readings between a fifth and four fifths of the travel, loading and not unloading, after three full strokes.",
        "A spring of more than one rate has no one line; read the part in which it works.",
        "Leaf springs: pressed as they sit in the car, the mean of loading and unloading.",
    ),
    caution=(
        "A spring in a press can fly out and kill: use guided plates and a guard, the maker's method, and stand to the side. Change springs in pairs; "
        "a suspension that was altered is to be checked by a qualified person to the maker's manual before the car is used."
    ),
    sources=(
        "How to determine rate, spring maker (planetspring.com): R = (P2 \N{MINUS SIGN} P1) / (L1 \N{MINUS SIGN} L2), between 20 and 80 % of the travel.",
        "Least squares: any textbook of statistics.",
        "Common practice, no source: springs of a pair within 3 mm of each other at the same load.",
    ),
    example=(
        ("readings", "300 mm x 640 N, 270 x 1500, 240 x 2330, 210 x 3180"), ("fitted", "216 mm"), ("wanted", "2900..3100 N"),
        ("other", "300 mm x 600 N, 270 x 1440, 240 x 2280, 210 x 3130"),
    ),
    work=_work,
)  # fmt: skip

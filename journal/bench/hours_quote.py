"""Hours to quote for a job, from hours that were measured on similar ones, as an interval and not as a hope."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import exp, log, sqrt

from msgspec import Struct

from journal.bench.base.definition import TEXT, WORD, Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.student import t_limit
from journal.bench.base.worked import Amount, Grid, Output, Result, Worked, answered
from journal.words.amounts import fixed_number
from journal.words.text import counted

_HOURS = (("h", 1),)
_MONEY = (("", 0),)
LOW = Output("low", "hours, at least", _HOURS, "L")
TYPICAL = Output("typical", "hours, most typical", _HOURS)
MEAN = Output("mean", "hours in the mean, for many such jobs", _HOURS)
HIGH = Output("high", "hours, at most", _HOURS, "H")
WITHIN = Output("within", "between shortest and longest so far, chance", (("%", 0),))
PRICE_LOW = Output("price-low", "price at least, before tax", _MONEY)
PRICE_MEAN = Output("price-mean", "price in the mean, before tax", _MONEY)
PRICE_HIGH = Output("price-high", "price at most, before tax", _MONEY)

# Fewer than these say little, whatever the arithmetic.
FEW = 5


class Past(Struct, frozen=True):
    """A job that was done: its name, its hours, and its size where that is told."""

    name: str
    hours: Fraction
    size: Fraction = Fraction(1)

    @property
    def rate(self) -> Fraction:
        """Hours for one of its size."""
        return self.hours / self.size


class Forecast(Struct, frozen=True):
    """Hours of the next job: the ends of the interval, what is most typical, and the mean.

    `spread` is the standard deviation of the hours of jobs of one size, or of their logarithms; `t`
    is Student's, and `reach` how far the ends lie from the middle, in what `spread` is in.
    """

    low: float
    typical: float
    high: float
    mean: Fraction
    spread: float
    t: float
    reach: float


def forecast(past: Sequence[Past], size: Fraction, sure: float, *, times: bool) -> Forecast:
    """The hours of the next job of a size, between which it lies with a chance `sure`.

    With `times`, jobs differ by a factor: the interval is reckoned with logarithms. Else they differ by
    hours to either side, and the interval is cut at nothing.
    """
    rates = [float(each.rate) for each in past]
    values = [log(rate) for rate in rates] if times else rates
    n = len(values)
    middle = sum(values) / n
    spread = sqrt(sum((value - middle) ** 2 for value in values) / (n - 1))
    t = t_limit(sure, n - 1)
    reach = t * spread * sqrt(1 + 1 / n)
    ends = (middle - reach, middle, middle + reach)
    low, typical, high = (exp(end) if times else max(end, 0.0) for end in ends)
    units = float(size)
    mean = sum((each.hours for each in past), Fraction(0)) / sum((each.size for each in past), Fraction(0))  # fmt: skip
    return Forecast(low * units, typical * units, high * units, mean * size, spread, t, reach)


def _work(given: Given) -> Worked:
    past = tuple(_past(given))
    size = given.number("size") if given.has("size") else Fraction(1)
    sure = float(given.one("sure").to("%")) / 100
    times = given.word("differ") == "times"
    told = forecast(past, size, sure, times=times)
    known = given.one("known").to("h")
    return Worked(
        tuple(_results(given, past, told, known)),
        tuple(_steps(given, past, told, known, times=times)),
        _verdict(given, past, told, known),
        None,
        tuple(_warnings(past, told)),
        (_grid(past, given.has("size")),),
    )


def _past(given: Given) -> Iterator[Past]:
    rows = given.rows("similar")
    if len(rows) < 2:
        raise NotWorked("similar", "must be two jobs or more, found 1", "one job says nothing of how much they differ")  # fmt: skip
    for row in rows:
        if row.has("size") != given.has("size"):
            name = row.word("job")
            if given.has("size"):
                raise NotWorked("similar", f'has no size for "{name}"', "give every job its size, or leave size out")  # fmt: skip
            raise NotWorked("size", "is missing", "it is the size of the job to quote, in what the sizes of the others are")  # fmt: skip
        size = row.number("size") if row.has("size") else Fraction(1)
        yield Past(row.word("job"), row.one("hours").to("h"), size)


def _results(
    given: Given, past: Sequence[Past], told: Forecast, known: Fraction
) -> Iterator[Result]:
    ends: tuple[tuple[Output, Output | None, Amount], ...] = (
        (LOW, PRICE_LOW, told.low + float(known)),
        (TYPICAL, None, told.typical + float(known)),
        (MEAN, PRICE_MEAN, told.mean + known),
        (HIGH, PRICE_HIGH, told.high + float(known)),
    )
    for output, _, hours in ends:
        yield answered(output, hours, given)
    yield answered(WITHIN, Fraction(100 * (len(past) - 1), len(past) + 1), given)
    if given.has("rate"):
        rate = given.number("rate")
        for _, price, hours in ends:
            if price is not None:
                exact = hours * rate if isinstance(hours, Fraction) else hours * float(rate)
                yield answered(price, exact, given)


def _steps(
    given: Given, past: Sequence[Past], told: Forecast, known: Fraction, *, times: bool
) -> Iterator[str]:
    n = len(past)
    sure, size = given.one("sure").words, given.number("size") if given.has("size") else Fraction(1)
    yield f"{counted(n, 'job')}, {fixed_number(sum((p.hours for p in past), Fraction(0)), 1)} h together"
    unit = ""
    if given.has("size"):
        unit = " for one"
        yield f"mean for one: {fixed_number(told.mean / size, 2)} h; this job is {given.one('size').written}, {fixed_number(told.mean, 1)} h"
    else:
        yield f"mean: {fixed_number(told.mean, 1)} h"
    if times:
        factor = fixed_number(exp(told.reach), 2)
        yield f"they differ by a factor of {fixed_number(exp(told.spread), 2)}; for {sure} and {counted(n, 'job')} that becomes {factor}"
        yield f"typical{unit}: {fixed_number(told.typical / float(size), 2)} h; from that / {factor} to that \N{MULTIPLICATION SIGN} {factor}"
    else:
        yield f"they differ by {fixed_number(told.spread, 2)} h{unit} (standard deviation); t for {sure} and {n - 1} is {fixed_number(told.t, 3)}"
        yield (
            f"reach: {fixed_number(told.t, 3)} \N{MULTIPLICATION SIGN} {fixed_number(told.spread, 2)} \N{MULTIPLICATION SIGN} "
            f"\N{SQUARE ROOT}(1 + 1/{n}) = {fixed_number(told.reach, 2)} h{unit}"
        )
    if known:
        yield f"and {given.one('known').words} that are known beforehand"


def _verdict(given: Given, past: Sequence[Past], told: Forecast, known: Fraction) -> str:
    low, mean, high = (fixed_number(h + known, 1) for h in (Fraction(told.low), told.mean, Fraction(told.high)))  # fmt: skip
    sure = given.one("sure").words
    return (
        f"Quote {low} to {high} h: with a chance of {sure} the next job lies between. {mean} h is fair where the hours are charged; a fixed price "
        f"needs {high} h, or the risk is the workshop's."
    )


def _warnings(past: Sequence[Past], told: Forecast) -> Iterator[str]:
    if len(past) < FEW:
        yield f"{counted(len(past), 'job')} say little: the interval is wide because nobody knows, not because jobs differ so much."
    if told.low <= 0:
        yield "The lower end is cut at nothing: these jobs differ by a factor rather than by hours."
    rates = sorted(past, key=lambda each: each.rate)
    if rates[-1].rate > 3 * rates[len(rates) // 2].rate:
        yield f"{rates[-1].name} took more than three times the usual: look whether it was such a job at all."


def _grid(past: Sequence[Past], sizes: bool) -> Grid:
    heads = ("Job", "Hours", *(("Size", "Hours for one") if sizes else ()))
    rows = tuple(
        (
            each.name,
            f"{fixed_number(each.hours, 1)} h",
            *((f"{float(each.size):g}", f"{fixed_number(each.rate, 2)} h") if sizes else ()),
        )
        for each in sorted(past, key=lambda each: each.rate)
    )
    return Grid("Similar jobs, shortest first", heads, rows)


HOURS_QUOTE = Sum(
    name="hours-quote",
    title="Quote from hours on similar work",
    job=Job.QUOTING,
    asks="How many hours should be quoted, and how far may they be out, going by similar jobs?",
    inputs=(
        Input(
            "similar", "similar jobs with the hours that were measured on them", "text", Takes.ROWS,
            columns=(
                Input("job", "what it was", TEXT),
                Input("hours", "hours that it took", "time", least="1 minutes", most="5000 h"),
                Input("size", "its size in what counts: metres of seam, panels, cylinders", "number", optional=True, least="0.001", most="100000"),
            ),
        ),
        Input("size", "size of the job to quote, in the same", "number", optional=True, least="0.001", most="100000"),
        Input("known", "hours that are known beforehand, such as fetching and writing up", "time", default="0 h", least="0 h", most="5000 h"),
        Input("sure", "how sure to be that the job lies between the ends", "share", default="80 %", least="50 %", most="99 %"),
        Input(
            "differ", "how such jobs differ", WORD, default="times",
            choices=(("times", "by a factor: a bad one takes twice as long"), ("hours", "by hours, as much below as above")),
        ),
        Input("rate", "charge for an hour, in your own money", "number", optional=True, least="0", most="100000"),
    ),
    outputs=(LOW, TYPICAL, MEAN, HIGH, WITHIN, PRICE_LOW, PRICE_MEAN, PRICE_HIGH),
    in_words=(
        "Hours of each job, for one of its size, or their logarithms where jobs differ by a factor, have a mean and a standard deviation. The next job lies "
        "within t standard deviations of the mean, a little more since the mean itself is only known from a few. Times the size, and what is known beforehand, that is the quote."
    ),
    formula=(
        "L, H = m \N{MINUS SIGN}/+ t s \N{SQUARE ROOT}(1 + 1/n), of hours, or of their logarithms and then raised again",
        "mean = sum of hours / sum of sizes \N{MULTIPLICATION SIGN} size",
        "chance between shortest and longest = (n \N{MINUS SIGN} 1) / (n + 1)",
    ),
    limits=(
        "Only work that is alike: the same job on cars in the same state, by hands of the same skill, with rework counted in.",
        "It tells of one more job. A whole car is not the sum of upper ends: bad luck on one job is evened out by another.",
        "Hours that were never written down, and jobs that were never finished, make every quote too small.",
        "Waiting, parts that do not fit and what is found behind a panel are in it only as far as they were in the others.",
    ),
    caution=(
        "A quote is a promise: write down what it holds and what it does not, and ask before going beyond it, as local law has it. Hours from a maker's "
        "repair times are for new cars and do not hold for a restoration."
    ),
    sources=(
        "Prediction interval for one future observation: D. Montgomery and G. Runger, Applied Statistics and Probability for Engineers, section 8-6.",
        "M. Abramowitz and I. Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4: Student's t.",
        "That hours differ by a factor is common practice in estimating, no source.",
    ),
    example=(
        ("similar", "grey saloon, off-side sill: 21.5 h, 1.6; tourer, both sills: 34 h, 3.1; van, near-side sill: 14 h, 1.4; coupe, both sills: 47 h, 3.2; estate, off-side sill: 19 h, 1.7; roadster, near-side sill: 24 h, 1.5"),
        ("size", "3.0"), ("known", "2 h"), ("sure", "80 %"), ("differ", "times"), ("rate", "54"),
    ),
    work=_work,
)  # fmt: skip

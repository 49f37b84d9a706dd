"""Quotes: prediction intervals of textbooks, and those of a statistics library."""

from fractions import Fraction
from math import exp, log, sqrt
from statistics import mean, stdev

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import t as student

from journal.bench.base.student import t_limit, t_share
from journal.bench.hours_quote import Forecast, Past, forecast
from tests.bench.worked_examples import Example, answer_of, mistakes_of


def _similar(values: list[float]) -> str:
    return "; ".join(f"job {n}: {value} h" for n, value in enumerate(values, 1))


# Load at failure of 22 specimens: mean 13.71, s 3.55 (data of example 8-4 from memory; mean and s as printed).
ALLOY = [
    19.8, 10.1, 14.9, 7.5, 15.4, 15.4, 15.4, 18.5, 7.9, 12.7, 11.9,
    11.4, 11.4, 14.1, 17.6, 16.7, 15.8, 19.5, 8.8, 13.6, 11.9, 11.4,
]  # fmt: skip
# 16 tyres with mean 60139.7 and s 3645.94, told in hundreds: eight a little below and eight above have the same.
TYRES = [601.397 - 36.4594 * sqrt(15 / 16)] * 8 + [601.397 + 36.4594 * sqrt(15 / 16)] * 8
# Drying of paint in hours, assignmentexpert.com question 258497.
PAINT = [3.4, 2.5, 4.8, 2.9, 3.6, 2.8, 3.3, 5.6, 3.7, 2.8, 4.4, 4.0, 5.2, 3.0, 4.8]

EXAMPLES = (
    Example(
        # 13.71 -/+ 2.080 x 3.55 x sqrt(1 + 1/22) = 6.16 to 21.26.
        "D. Montgomery, G. Runger, Applied Statistics and Probability for Engineers, example 8-8",
        {"similar": _similar(ALLOY), "sure": "95 %", "differ": "hours"},
        {"low": "6.2 h", "typical": "13.7 h", "high": "21.3 h"},
    ),
    Example(
        # 52131.08 to 68148.31.
        "The same, sixth edition, exercise 8-73 after 8-29, questionai.com textbook solution 1607326",
        {"similar": _similar([round(v, 6) for v in TYRES]), "sure": "95 %", "differ": "hours"},
        {"low": "521.3 h", "high": "681.5 h"},
    ),
    Example(
        # 3.787 -/+ 2.145 x 0.971 x sqrt(16/15) = 1.64 to 5.94. (The page prints 1.66 to 5.92.)
        "Drying time of the next trial of a paint, assignmentexpert.com question 258497, reckoned anew by hand",
        {"similar": _similar(PAINT), "sure": "95 %", "differ": "hours"},
        {"low": "1.64 h", "high": "5.94 h"},
    ),
)

hours = st.lists(st.integers(1, 400).map(lambda n: n / 4), min_size=2, max_size=12)
sure = st.integers(50, 99)


def _past(values: list[float]) -> list[Past]:
    return [Past(f"job {n}", Fraction(value)) for n, value in enumerate(values)]


def _forecast(values: list[float], percent: int, *, times: bool) -> Forecast:
    return forecast(_past(values), Fraction(1), percent / 100, times=times)


def test_data__have_the_mean_and_deviation_that_the_books_print() -> None:
    assert (13.71, 3.55) == (round(mean(ALLOY), 2), round(stdev(ALLOY), 2))
    assert (601.397, 36.4594) == (round(mean(TYRES), 3), round(stdev(TYRES), 4))


@given(st.integers(1, 200), st.floats(0.01, 0.999))
def test_student__is_that_of_the_library(freedom: int, share: float) -> None:
    limit = t_limit(share, freedom)
    assert pytest.approx(student.ppf((1 + share) / 2, freedom), rel=1e-9) == limit
    assert pytest.approx(share, abs=1e-12) == t_share(limit, freedom)


@given(hours, sure)
def test_interval__is_that_of_the_library(values: list[float], percent: int) -> None:
    n = len(values)
    for times in (False, True):
        told = _forecast(values, percent, times=times)
        data = [log(v) for v in values] if times else values
        low, high = student.interval(percent / 100, n - 1, mean(data), max(stdev(data), 1e-12) * sqrt(1 + 1 / n))  # fmt: skip
        if times:
            low, high = exp(low), exp(high)
        assert pytest.approx(max(low, 0), rel=1e-6, abs=1e-6) == told.low
        assert pytest.approx(high, rel=1e-6, abs=1e-6) == told.high


@given(hours, st.integers(50, 98), st.booleans())
def test_interval__is_wider_for_one_who_wants_to_be_surer(
    values: list[float], percent: int, times: bool
) -> None:
    narrow, wide = (_forecast(values, p, times=times) for p in (percent, percent + 1))
    assert wide.low <= narrow.low <= narrow.typical <= narrow.high <= wide.high


@given(hours, st.integers(1, 9), st.booleans())
def test_quote__grows_with_the_size_of_the_job(values: list[float], size: int, times: bool) -> None:
    one, many = (forecast(_past(values), Fraction(n), 0.8, times=times) for n in (1, size))
    assert pytest.approx([e * size for e in (one.low, one.high, float(one.mean))]) == [many.low, many.high, float(many.mean)]  # fmt: skip


SILLS = {"similar": "one sill: 20 h, 1.5; both: 36 h, 3; one, bad: 28 h, 1.4; both, good: 33 h, 3.1; one, good: 15 h, 1.5"}  # fmt: skip


def test_quote__is_by_size_with_what_is_known_and_what_an_hour_costs() -> None:
    # 132 h for 10.5 m are 12.571 h a metre, so 25.1 h for 2 m and 3 h to fetch; at 50 an hour.
    written = {**SILLS, "size": "2", "known": "3 h", "rate": "50"}
    worked = answer_of("hours-quote", written).worked
    told = {r.name: r.words for r in worked.results}
    assert ("28.1 h", "1407") == (told["mean"], told["price-mean"])
    assert "67 %" == told["within"]
    assert worked.verdict.startswith(f"Quote {told['low'].removesuffix(' h')} to {told['high']}")


def test_few_jobs__are_said_to_say_little() -> None:
    worked = answer_of("hours-quote", {"similar": "a: 10 h; b: 14 h; c: 12 h"}).worked
    assert (
        "3 jobs say little: the interval is wide because nobody knows, not because jobs differ so much.",
    ) == worked.warnings


def test_job__that_took_far_longer_is_named() -> None:
    worked = answer_of(
        "hours-quote", {"similar": "a: 10 h; b: 12 h; c: 11 h; d: 9 h; rotten: 60 h"}
    ).worked
    assert (
        "rotten took more than three times the usual: look whether it was such a job at all."
        == worked.warnings[-1]
    )


@pytest.mark.parametrize(
    ("wrong", "mistake"),
    [
        ({"similar": "a: 10 h"}, "similar must be two jobs or more, found 1; one job says nothing of how much they differ"),
        ({"similar": "a: 10 h, 2; b: 12 h, 3"}, "size is missing; it is the size of the job to quote, in what the sizes of the others are"),
        ({"similar": "a: 10 h; b: 12 h", "size": "3"}, 'similar has no size for "a"; give every job its size, or leave size out'),
        ({"similar": "a: 10 h; b: 12 kg"}, 'similar has a hours that must be a time, found "12 kg"; write it in s, minutes or h'),
    ],
)  # fmt: skip
def test_mistake__is_one_sentence(wrong: dict[str, str], mistake: str) -> None:
    assert [mistake] == mistakes_of("hours-quote", wrong)

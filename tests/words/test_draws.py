"""Lots and quantiles, against published numbers and exact distributions."""

from collections import Counter
from fractions import Fraction
from itertools import islice, product

import numpy
import pytest

from journal.words.draws import Lots, draws, quantile

# Efron and Tibshirani 1993, table 2.1: survival of the treated mice, days.
TREATED = (94, 197, 16, 38, 99, 141, 23)
RUNS = 10_000


def test_lots__are_those_of_the_published_sequence() -> None:
    # The first five numbers of SplitMix64 from the seed 1234567, as Rosetta Code prints them under
    # "Pseudo-random numbers/Splitmix64".
    lots = Lots(1234567)
    assert [
        6457827717110365317,
        3203168211198807973,
        9817491932198370423,
        4593380528125082431,
        16408922859458223821,
    ] == [lots.number() for _ in range(5)]


def test_lots__of_a_small_sample_fall_evenly() -> None:
    # 60,000 throws of a die: each face 10,000 times, with a standard deviation of 91.3.
    lots = Lots(1)
    faces = Counter(lots.draw((1, 2, 3, 4, 5, 6)) for _ in range(60_000))
    assert {1, 2, 3, 4, 5, 6} == set(faces)
    assert all(abs(count - 10_000) < 4 * 91.3 for count in faces.values())


@pytest.mark.parametrize(
    ("share", "value"),
    [("0", 1), ("0.25", 1), ("0.26", 2), ("0.5", 2), ("0.75", 3), ("0.76", 4), ("1", 4)],
)
def test_quantile__is_the_smallest_value_that_reaches_the_share(share: str, value: int) -> None:
    assert value == quantile([1, 2, 3, 4], Fraction(share))


@pytest.mark.parametrize("share", ["0.025", "0.05", "0.1", "0.5", "0.9", "0.975"])
def test_quantile__agrees_with_numpy(share: str) -> None:
    # numpy's "inverted_cdf" is the same definition.
    values = sorted(Lots(7).number() % 1000 for _ in range(97))
    assert numpy.quantile(values, float(share), method="inverted_cdf") == quantile(
        values, Fraction(share)
    )


def _resampled_sums(sample: tuple[int, ...], runs: int) -> list[int]:
    lots = Lots(1958)
    return sorted(sum(lots.draw(sample) for _ in sample) for _ in range(runs))


@pytest.mark.parametrize(
    ("share", "mean"),
    [("0.025", 43.4286), ("0.05", 49.4286), ("0.5", 86.1429), ("0.95", 126.7143), ("0.975", 134.4286)],
)  # fmt: skip
def test_resampled_mean__comes_to_the_exact_bootstrap(share: str, mean: float) -> None:
    # Exact quantiles of the mean over all 7**7 resamples of the treated mice.
    sums = _resampled_sums(TREATED, RUNS)
    assert mean == pytest.approx(quantile(sums, Fraction(share)) / 7, abs=2)


def test_resampled_mean__has_the_exact_standard_error() -> None:
    # Plug-in standard error of the mean 23.3635, printed 23.36 at B = infinity.
    means = numpy.array(_resampled_sums(TREATED, RUNS)) / 7
    assert means.std() == pytest.approx(23.3635, abs=0.5)


def test_resampled_median__falls_on_each_value_as_often_as_the_exact_bootstrap() -> None:
    # Exact bootstrap of the median; 10,000 runs keep within four standard deviations of it.
    exact = dict(
        zip(
            sorted(TREATED),
            (0.01015, 0.09812, 0.23863, 0.30620, 0.23863, 0.09812, 0.01015),
            strict=True,
        )
    )
    lots = Lots(1958)
    medians = [sorted(lots.draw(TREATED) for _ in TREATED)[3] for _ in range(RUNS)]
    drawn = Counter(medians)
    for value, share in exact.items():
        assert share == pytest.approx(drawn[value] / RUNS, abs=4 * (share / RUNS) ** 0.5)
    # So that the 95 % percentile interval is 23 to 141.
    assert (23, 141) == tuple(quantile(sorted(medians), Fraction(q)) for q in ("0.025", "0.975"))


def test_resampled_sums__of_three_numbers_come_in_the_exact_proportions() -> None:
    # All 27 resamples of 1, 2, 3: sums 3 to 9 occur 1, 3, 6, 7, 6, 3 and 1 times.
    every = Counter(sum(throw) for throw in product((1, 2, 3), repeat=3))
    assert [1, 3, 6, 7, 6, 3, 1] == [every[n] for n in range(3, 10)]
    drawn = Counter(_resampled_sums((1, 2, 3), 27_000))
    for total, times in every.items():
        assert abs(drawn[total] - 1000 * times) < 4 * (1000 * times) ** 0.5


def test_draws__are_those_that_are_drawn_one_by_one() -> None:
    sample = ("a", "b", "c", "d", "e")
    lots = Lots(1958)
    assert [lots.draw(sample) for _ in range(5000)] == list(islice(draws(1958, sample), 5000))

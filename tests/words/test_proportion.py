"""The Wilson interval, against published figures and against a statistics library."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from statsmodels.stats.proportion import proportion_confint

from journal.words.amounts import OPEN
from journal.words.proportion import wilson

# The four cases of R. G. Newcombe, Statistics in Medicine 17 (1998) 857-872, table I, to its four
# decimals. The cases are quoted from memory; the limits are also those of two statistics libraries.
TABLE = [
    (81, 263, "0.2553", "0.3662"),
    (15, 148, "0.0624", "0.1605"),
    (0, 20, "0.0000", "0.1611"),
    (1, 29, "0.0061", "0.1718"),
]


@pytest.mark.parametrize(("hits", "of", "low", "high"), TABLE)
def test_wilson__is_that_of_the_published_table(hits: int, of: int, low: str, high: str) -> None:
    limits = wilson(hits, of)
    assert (low, high) == (f"{float(limits.low):.4f}", f"{float(limits.high):.4f}")


@pytest.mark.parametrize(
    ("hits", "of", "low", "high"),
    [
        # The worked examples of the code library wilson-score-interval (msn0), z = 1.96 exactly.
        (430, 474, 0.8776750858242243, 0.9301239839930541),
        (392, 436, 0.8672311846637769, 0.9239627360567735),
        (10, 14, 0.4535045882751561, 0.882788120898909),
    ],
)
def test_wilson__takes_z_as_1_96_exactly(hits: int, of: int, low: float, high: float) -> None:
    limits = wilson(hits, of)
    assert (low, high) == (
        pytest.approx(float(limits.low), abs=1e-12),
        pytest.approx(float(limits.high), abs=1e-12),
    )


@given(st.integers(1, 400).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))))
def test_wilson__is_that_of_a_statistics_library(tried: tuple[int, int]) -> None:
    # statsmodels reckons with z = 1.959964, which moves the limits by less than 0.00002.
    low, high = proportion_confint(*tried, alpha=0.05, method="wilson")
    limits = wilson(*tried)
    assert low == pytest.approx(float(limits.low), abs=2e-5)
    assert high == pytest.approx(float(limits.high), abs=2e-5)
    assert 0 <= limits.low <= limits.high <= 1


def test_wilson__of_all_and_of_none_ends_at_the_very_end() -> None:
    assert 1 == wilson(7, 7).high
    assert 0 == wilson(0, 7).low
    assert OPEN == wilson(0, 0)


def test_wilson__of_two_good_orders_proves_little() -> None:
    # By hand: (2 + 1.9208 - 1.96 * 0.98) / (2 + 3.8416) = 2 / 5.8416 = 0.3424
    assert "0.3424" == f"{float(wilson(2, 2).low):.4f}"


@pytest.mark.parametrize(("hits", "of"), [(3, 2), (-1, 2)])
def test_wilson__of_what_is_no_share_is_refused(hits: int, of: int) -> None:
    with pytest.raises(ValueError, match="is no share"):
        wilson(hits, of)

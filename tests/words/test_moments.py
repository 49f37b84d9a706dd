"""Moments in a recording, as they are written and read."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.words.moments import moment_text, parse_moment, seconds_text

# Seconds worked by hand: minutes * 60 + seconds.
WRITTEN = [
    ("0:12", Fraction(12)),
    ("00:12", Fraction(12)),
    ("0:12.5", Fraction(25, 2)),
    ("0:12.050", Fraction(241, 20)),
    ("12:05", Fraction(12 * 60 + 5)),
    ("75:10", Fraction(75 * 60 + 10)),
    ("1:15:10", Fraction(75 * 60 + 10)),
    ("0:00", Fraction(0)),
]


@pytest.mark.parametrize(("text", "seconds"), WRITTEN)
def test_moment__is_minutes_and_seconds_with_hours_before_them(
    text: str, seconds: Fraction
) -> None:
    assert seconds == parse_moment(text)


@pytest.mark.parametrize(
    "text",
    ["", "12", "12.5", "0:60", "1:60:00", "1:5:00", "0:5", "-0:12", "0:12,5", "0:12.", "0:12.1234",
     "0:12 s", "١:٢٣", "1:100:00", "a:12", "0:12\n"],
)  # fmt: skip
def test_moment__of_another_form_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="minutes"):
        parse_moment(text)


@pytest.mark.parametrize(
    ("seconds", "text"),
    [
        (Fraction(12), "0:12"),
        (Fraction(25, 2), "0:12.5"),
        (Fraction(725), "12:05"),
        (Fraction(4510), "1:15:10"),
        (Fraction(3600), "1:00:00"),
        (Fraction(1, 3), "0:00.333"),
    ],
)
def test_moment__as_it_is_written(seconds: Fraction, text: str) -> None:
    assert text == moment_text(seconds)


def test_moment__in_an_address_is_in_seconds() -> None:
    # Media Fragments URI 1.0, section 4.2.1: #t=10, and a fraction after a dot.
    assert ["12", "12.5", "3600"] == [
        seconds_text(Fraction(s)) for s in (12, Fraction(25, 2), 3600)
    ]


@given(st.integers(0, 999 * 3_600_000))
def test_moment__written_and_read_is_the_same(milliseconds: int) -> None:
    seconds = Fraction(milliseconds, 1000)
    assert seconds == parse_moment(moment_text(seconds))

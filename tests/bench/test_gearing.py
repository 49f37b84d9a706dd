"""Gearing: the way of a wheel times its turns."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        # 24.7 in over all is 77.597 in round: 24.7 x 2.975 / 3.91.
        "Owners' mailing list (team.net, mgs 1997-09): 195/70 R 14 with a 3.91 axle is 18.8 mph for 1000 rpm",
        {"rolling": "77.597 in", "final": "3.91"},
        {"per-1000": "18.8 mph"},
    ),
    Example(
        # 728 mm over all is 2287 mm round.
        "Owners' forum (fordterritory.info): 275/40 x 20, 0.76 and 4.10: 44 km/h at 1000 and 96.9 km/h at 2200 rpm",
        {"rolling": "2287 mm", "final": "4.10", "gears": "0.76", "speed": "96.9 km/h"},
        {"per-1000": "44 km/h", "turning": "2200 rpm"},
    ),
    Example(
        # 8.037 ft, 0.79 and 3.04: 2000 rpm is 76 mph.
        "Formulas of an engine shop (southernperformancesystems.com, a-info-formulas)",
        {"rolling": "8.037 ft", "final": "3.04", "gears": "0.79"},
        {"per-1000": "38 mph"},
    ),
    Example(
        # Rolling radius 15 in, 1680 rpm and 15 mph make an overall reduction of 10: so 1000 rpm
        # with 10 are 8.93 mph. The factor 168 is 60 x 63360 / (2 pi x 3600) rounded.
        "Overall gear reduction, hydraulics handbook (webtec.com): R = rpm r / (168 mph)",
        {"rolling": "94.248 in", "final": "10"},
        {"per-1000": "8.92 mph"},
    ),
)


def _exact(written: dict[str, str], name: str) -> Fraction:
    worked = answer_of("gearing", written).worked
    return Fraction(next(r.exact for r in worked.results if r.name == name) or 0)


ratios = st.integers(60, 400).map(lambda n: Fraction(n, 100))


@given(ratios, ratios)
def test_speed__falls_with_the_ratio_and_doubles_with_half_of_it(
    final: Fraction, gear: Fraction
) -> None:
    final += 1
    written = {"rolling": "1900 mm", "final": str(float(final)), "gears": str(float(gear))}
    per = _exact(written, "per-1000")
    assert per * gear * final == 1900 * 60000 / Fraction(1_000_000)
    assert per == _exact(written | {"rolling": "3800 mm"}, "per-1000") / 2


def test_turns__and_speed_are_each_other_turned_round() -> None:
    written = {"rolling": "1900 mm", "final": "4", "gears": "3, 2, 1", "speed": "80 km/h"}
    assert 80 == _exact(written, "per-1000") * _exact(written, "turning") / 1000


def test_overdrive__is_one_gear_more() -> None:
    written = {"rolling": "1900 mm", "final": "4", "overdrive": "0.8"}
    assert _exact(written, "per-1000") == _exact(written, "per-1000-overdrive") * Fraction(8, 10)


def test_every_gear__is_told_before_and_after() -> None:
    worked = answer_of(
        "gearing",
        {"rolling": "2000 mm", "final": "4", "gears": "2, 1", "final-after": "3", "most": "5000 rpm"},
    ).worked  # fmt: skip
    # 2000 mm x 1000 x 60 / 8 = 15 km/h; 100 km/h in first is 6667 rpm, more than 5000.
    assert ("gear 1", "8.000", "15.0 km/h", "too fast", "75.0 km/h") == worked.grids[0].rows[0]
    assert ("top, after", "3.000", "40.0 km/h", "2500 rpm", "200.0 km/h") == worked.grids[0].rows[3]
    assert (
        "In top the engine turns at 3333 rpm at 100.0 km/h, and after the change at 2500 rpm, 25.0 % slower."
    ) == worked.verdict
    assert worked.warnings == (
        "A speedometer that is driven from the gearbox is wrong after the change; work out speedometer-change.",
    )


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ({"final": "4"}, "tyre is not told, and no rolling either; write tyre, such as 165 R 15, or rolling as measured"),
        ({"final": "4", "rolling": "2 m", "gears": "1, 2"}, "gears must fall from first gear to top; write first gear first, and no reverse"),
        ({"final": "0.4", "rolling": "2 m"}, 'final must be between 1.5 and 12, found "0.4"; read it again'),
    ],
)  # fmt: skip
def test_gearing__that_cannot_be_is_refused(written: dict[str, str], told: str) -> None:
    assert [told] == mistakes_of("gearing", written)

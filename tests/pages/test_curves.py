"""Values over time as geometry, each place worked by hand."""

from datetime import date
from fractions import Fraction

from journal.pages.curves import Step, curve_of


def _step(day: date, *values: int, least: int | None = None, most: int | None = None) -> Step:
    return Step(
        day, tuple(map(Fraction, values)), tuple(map(str, values)), tuple(v <= (most or v) for v in values),
        None if least is None else Fraction(least), None if most is None else Fraction(most),
    )  # fmt: skip


def test_curve__over_a_floor_of_nothing_uses_the_height_up_to_its_air() -> None:
    days = (date(2024, 1, 1), date(2024, 2, 29))
    # Air is 3/20 of 100 - 0 = 20 - 0... of the values' range, 80 to 100: 3. The frame goes to 103.
    curve = curve_of([_step(days[0], 80), _step(days[1], 100)], (), height=103, floor=Fraction(0))
    assert ["23", "3"] == [dot.y for dot in curve.dots]
    # January and February 2024 are 60 days; the middle of the first and of the last: 1/120, 119/120.
    assert ["0.83", "99.17"] == [dot.x for dot in curve.dots]


def test_curve__of_one_day_is_spread_evenly_and_has_no_axis() -> None:
    day = date(2024, 1, 1)
    curve = curve_of([_step(day, 2), _step(day, 1)], ())
    assert ["25", "75"] == [dot.x for dot in curve.dots]
    assert () == curve.axis


def test_curve__draws_what_does_not_keep_its_limit_as_outside_and_the_limit_as_a_band() -> None:
    days = (date(2024, 1, 1), date(2024, 1, 31))
    # Values 0 to 10, so the frame is -1.5 to 11.5, 13 wide; the limit 5 lies at (11.5 - 5) / 13 of it.
    curve = curve_of(
        [_step(days[0], 10, most=5), _step(days[1], 0, most=5)], [(Fraction(5), "5")], height=130
    )
    assert [True, False] == [dot.outside for dot in curve.dots]
    assert [("0", "65"), ("98.39", "65")] == [(band.x, band.y) for band in curve.bands]
    assert [("65", "5")] == [(level.y, level.label) for level in curve.levels]


def test_curve__marks_a_fall_only_where_nothing_may_fall() -> None:
    steps = [_step(date(2024, 1, 1), 2), _step(date(2024, 1, 9), 1)]
    assert [[False], [True]] == [
        [stroke.falls for stroke in curve_of(steps, (), rising=rising).strokes]
        for rising in (False, True)
    ]


def test_curve__leaves_out_labels_that_would_lie_on_one_another() -> None:
    steps = [_step(date(2024, 1, 1), 0), _step(date(2024, 1, 9), 100)]
    levels = [(Fraction(50), "50"), (Fraction(51), "51"), (Fraction(100), "100")]
    assert ["50", "100"] == [level.label for level in curve_of(steps, levels).levels]


def test_axis__of_years_stands_under_its_marks() -> None:
    steps = [_step(date(1967, 1, 1), 0), _step(date(2025, 1, 9), 100)]
    assert {"middle"} == {mark.anchor for mark in curve_of(steps, ()).axis}

"""The originality ledger, rule by rule, with figures worked by hand."""

from datetime import date
from fractions import Fraction

import pytest

from journal.ledgers.originality.fold import fold_originality
from journal.words.amounts import NOTHING, OPEN, WHOLE, Interval
from journal.words.vocabulary import CONFORMITY, Fate, Origin, Position, Treatment
from tests.ledgers.histories import exactly, fold_one, worked
from tests.writing import a_car, a_sheet

# What was found


def test_as_found__is_what_the_register_says_before_any_work() -> None:
    line = fold_one("brakes/shoes", {"as-found": "period-used"})
    assert Origin.PERIOD_USED is line.as_found.origin
    assert Origin.PERIOD_USED is line.now.origin
    assert Position.ON is line.position


def test_as_found__nothing_there_is_off_the_car() -> None:
    assert Position.OFF is fold_one("body/tool-tray", "absent").position


# The figures. M = sum(w r)/sum(w), C = sum(w c)/sum(w).


def test_figures__by_hand() -> None:
    """Weights 3, 2, 1.

    | component | w | origin    | r       | c       |
    | sill      | 3 | first-fit | 0.6     | 1       |
    | pipes     | 2 | service   | 0       | 0.5     |
    | clock     | 1 | unknown   | 0 to 1  | 0 to 1  |

    M low = 3 x 0.6 / 6 = 0.3;       M high = (1.8 + 1) / 6 = 7/15
    C low = (3 + 2 x 0.5) / 6 = 2/3; C high = 5/6
    """
    whole = fold_originality(
        a_car(
            {
                "body/sill": {"as-found": "first-fit", "weight": "3", "retained": "0.6"},
                "brakes/pipes": {"as-found": "service", "weight": "2"},
                "instruments/clock": "unknown",
            }
        )
    ).whole
    assert Interval(Fraction("0.3"), Fraction(7, 15)) == whole.now.material
    assert Interval(Fraction(2, 3), Fraction(5, 6)) == whole.now.conformity
    assert 3 == whole.count
    assert 6 == whole.weight


def test_figures__by_subsystem_are_of_its_components_alone() -> None:
    ledger = fold_originality(a_car({"body/sill": "first-fit", "brakes/pipes": "upgrade"}))
    summaries = dict(ledger.subsystems)
    assert WHOLE == summaries["body"].now.conformity
    assert NOTHING == summaries["brakes"].now.conformity


def test_figures__of_an_empty_register_are_nothing() -> None:
    assert NOTHING == fold_originality(a_car({})).whole.now.material


@pytest.mark.parametrize(
    ("origin", "material", "conformity"),
    [
        # Design, section 4: r counts for first-fit alone; c is 1 for first-fit, period-used,
        # old-stock, pattern and made, 0.5 for service, 0 for upgrade and absent.
        ("first-fit", WHOLE, WHOLE),
        ("period-used", NOTHING, WHOLE),
        ("old-stock", NOTHING, WHOLE),
        ("pattern", NOTHING, WHOLE),
        ("made", NOTHING, WHOLE),
        ("service", NOTHING, exactly("0.5")),
        ("upgrade", NOTHING, NOTHING),
        ("absent", NOTHING, NOTHING),
        ("unknown", OPEN, OPEN),
    ],
)
def test_shares__by_origin(origin: str, material: Interval, conformity: Interval) -> None:
    line = fold_one("brakes/pipes", origin)
    assert (material, conformity) == (line.now.material, line.now.conformity)


def test_shares__of_every_origin_are_told() -> None:
    assert set(Origin) == set(CONFORMITY)


def test_retained__is_the_share_of_metal_left() -> None:
    line = fold_one(
        "body/sill", "first-fit", worked("2023-10-02", "body/sill", did="welded", retained="0.6")
    )
    assert exactly("0.6") == line.now.material
    assert WHOLE == line.as_found.material
    assert (Treatment.REPAIRED,) == line.now.treatments


def test_retained__may_be_known_between_two_ends_only() -> None:
    line = fold_one("body/sill", {"as-found": "first-fit", "retained": ["0.5", "0.7"]})
    assert Interval(Fraction("0.5"), Fraction("0.7")) == line.now.material


def test_conforms__stated_with_its_reason_replaces_the_usual() -> None:
    line = fold_one(
        "brakes/pipes",
        "first-fit",
        worked(
            "2024-01-01", "brakes/pipes", did="fitted", now="pattern", conforms="0.8", why="copper"
        ),
    )
    assert exactly("0.8") == line.now.conformity
    assert "copper" == line.now.conforms_why


# Items change places


def test_now__displaces_what_was_there() -> None:
    line = fold_one(
        "electrical/dynamo",
        "first-fit",
        worked(
            "2024-03-28", "electrical/dynamo", did=["removed", "fitted"], now="upgrade",
            original="crate 2", why="14 V at idle", decided="owner", reversible="yes",
            undo="one bracket and two wires",
        ),
    )  # fmt: skip
    departure = line.departure
    assert departure is not None
    assert Origin.FIRST_FIT is departure.item.origin
    assert "crate 2" == departure.item.kept
    assert departure.decided is not None
    assert "owner" == departure.decided.by
    assert "one bracket and two wires" == departure.undo
    assert Position.FITTED is line.position
    assert NOTHING == line.now.conformity
    assert WHOLE == line.recovered.conformity


def test_now__a_pattern_part_conforms_and_is_no_departure() -> None:
    line = fold_one(
        "brakes/cylinder",
        "first-fit",
        worked("2024-01-01", "brakes/cylinder", did="fitted", now="pattern", original="bin 3"),
    )
    assert line.departure is None
    assert WHOLE == line.now.conformity
    assert NOTHING == line.now.material


def test_recoverable__needs_both_a_reversible_change_and_the_item_kept() -> None:
    def recovered(**line: str) -> Interval:
        sheet = worked("2024-01-01", "brakes/servo", did="fitted", now="upgrade", **line)
        return fold_one("brakes/servo", "first-fit", sheet).recovered.material

    assert WHOLE == recovered(reversible="yes", original="bin 3")
    assert NOTHING == recovered(reversible="no", original="bin 3")
    assert NOTHING == recovered(reversible="yes", original="scrapped")
    assert NOTHING == recovered(original="bin 3")
    assert NOTHING == recovered(reversible="yes")
    assert NOTHING == recovered(reversible="yes", original="bin 3", usable="no")


def test_put_back__the_first_fit_item_returns_with_its_share() -> None:
    key = "instruments/clock"
    line = fold_one(
        key,
        {"as-found": "first-fit", "retained": "0.9"},
        worked("2024-01-01", key, did="fitted", now="pattern", original="drawer"),
        worked("2024-02-01", key, did="fitted", now="first-fit"),
    )
    assert Origin.FIRST_FIT is line.now.origin
    assert exactly("0.9") == line.now.material
    assert () == line.displaced
    assert () == line.contradictions


def test_first_fit__that_was_missing_may_turn_up() -> None:
    key = "body/tool-tray"
    line = fold_one(key, "absent", worked("2024-01-01", key, did="fitted", now="first-fit"))
    assert Origin.FIRST_FIT is line.now.origin
    assert () == line.contradictions


def test_scrapped__leaves_an_empty_place_until_another_item_comes() -> None:
    key = "exhaust/silencer"
    gone = worked("2024-01-01", key, did="removed", original="scrapped")
    line = fold_one(key, "first-fit", gone)
    assert Fate.SCRAPPED is line.now.fate
    assert (NOTHING, NOTHING) == (line.now.material, line.now.conformity)
    line = fold_one(key, "first-fit", gone, worked("2024-02-01", key, did="fitted", now="pattern"))
    assert WHOLE == line.now.conformity
    assert Fate.SCRAPPED is line.displaced[0].item.fate


def test_original__moved_later_is_where_it_was_told_last() -> None:
    key = "electrical/dynamo"
    line = fold_one(
        key,
        "first-fit",
        worked("2024-01-01", key, did="fitted", now="upgrade", original="bin 3", reversible="yes"),
        worked("2024-06-01", key, did="stored", original="crate with the car"),
    )
    assert "crate with the car" == line.displaced[0].item.kept


def test_stand_in__is_in_place_until_the_item_is_fitted() -> None:
    key = "fuel/pump"
    stand = worked("2024-01-01", key, did="trial-fitted", stand_in="shelf pump")
    line = fold_one(key, "first-fit", stand)
    assert line.stand_in is not None
    assert "shelf pump" == line.stand_in.what
    assert Origin.FIRST_FIT is line.now.origin
    assert (
        fold_one(key, "first-fit", stand, worked("2024-02-01", key, did="fitted")).stand_in is None
    )


# What is learned later


def test_was__changes_the_column_as_found_from_the_day_it_is_told() -> None:
    car = a_car(
        {"body/off-sill": "unknown"},
        [worked("2023-11-06", "body/off-sill", did="inspected", was="pattern")],
    )
    before = fold_originality(car.as_of(date(2023, 11, 5))).lines[0]
    after = fold_originality(car.as_of(date(2023, 11, 6))).lines[0]
    assert Origin.UNKNOWN is before.as_found.origin
    assert Origin.PATTERN is after.as_found.origin
    assert Origin.PATTERN is after.now.origin
    assert [(date(2023, 11, 6), Origin.UNKNOWN)] == [(x.day, x.before) for x in after.learned]


def test_was__follows_the_item_when_it_has_come_off_since() -> None:
    key = "fuel/tank"
    line = fold_one(
        key,
        "first-fit",
        worked("2024-01-01", key, did="fitted", now="made", came_off="loft", reversible="yes"),
        worked("2024-02-01", key, was={"origin": "period-used"}),
    )
    assert Origin.PERIOD_USED is line.as_found.origin
    assert Origin.MADE is line.now.origin
    assert Origin.PERIOD_USED is line.displaced[0].item.origin


def test_since__a_line_told_later_stands_where_it_was_true() -> None:
    key = "body/sill"
    line = fold_one(
        key,
        "first-fit",
        worked("2024-02-01", key, did="welded", retained="0.6"),
        worked("2024-03-01", key, retained="0.8", since="2024-01-15"),
    )
    assert [date(2024, 1, 15), date(2024, 2, 1)] == [e.day for e in line.biography]
    assert exactly("0.6") == line.now.material


# Positions


def test_position__follows_the_work() -> None:
    key = "cooling/radiator"
    out = a_sheet("2024-01-02", outwork={"recore": {"of": [key], "sent": "1"}})
    back = a_sheet("2024-02-02", outwork={"recore": {"back": "1"}})
    steps = [
        (worked("2024-01-01", key, did="removed"), Position.OFF),
        (out, Position.OUT),
        (back, Position.OFF),
        (worked("2024-02-03", key, did="trial-fitted"), Position.TRIAL),
        (worked("2024-02-04", key, did="fitted"), Position.FITTED),
        (worked("2024-02-05", key, did="proved"), Position.PROVED),
    ]
    for count in range(1, len(steps) + 1):
        sheets = [sheet for sheet, _ in steps[:count]]
        line = fold_one(key, "first-fit", *sheets)
        assert steps[count - 1][1] is line.position
        assert () == line.contradictions


def test_position__back_from_outwork_and_fitted_on_one_day() -> None:
    key = "cooling/radiator"
    day = a_sheet(
        "2024-02-02", work={key: "fitted"}, outwork={"recore": {"back": "1", "of": [key]}}
    )
    out = a_sheet("2024-01-02", work={key: "removed"}, outwork={"recore": {"of": key, "sent": "1"}})
    line = fold_one(key, "first-fit", out, day)
    assert Position.FITTED is line.position
    assert () == line.contradictions

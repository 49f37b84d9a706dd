"""The originality ledger, rule by rule, with figures worked by hand."""

from datetime import date
from fractions import Fraction
from typing import Any

import pytest

from journal.ledgers.originality import Line
from journal.ledgers.originality.fold import fold_originality
from journal.records.carfile import CarFile
from journal.words.amounts import NOTHING, OPEN, WHOLE, Interval
from journal.words.vocabulary import CONFORMITY, Act, Evidence, Fate, Origin, Position, Treatment
from tests.writing import a_car, a_sheet


def exactly(share: str) -> Interval:
    return Interval(Fraction(share), Fraction(share))


def worked(day: str, key: str, name: str = "", **line: Any) -> Any:
    return a_sheet(day, name=name, work={key: {k.replace("_", "-"): v for k, v in line.items()}})


def fold_one(key: str, line: Any, *sheets: Any, **more: Any) -> Line:
    folded = fold_originality(a_car({key: line}, sheets, **more))
    found = folded.line(key)
    assert found is not None
    return found


def said(car: CarFile) -> list[tuple[str, str]]:
    return [(p.code, p.message) for p in fold_originality(car).problems]


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


# Contradictions: the later line stands, and the two are shown together.

_KEY = "brakes/cylinder"


@pytest.mark.parametrize(
    ("lines", "code", "message"),
    [
        (
            [dict(now="pattern", original="scrapped"), dict(did="fitted", now="first-fit")],
            "refit-of-gone",
            "brakes/cylinder: the item the works fitted is put back, but it was scrapped",
        ),
        (
            [dict(now="pattern", original="bin 3"), dict(now="upgrade", original="bin 4")],
            "displaced-twice",
            "brakes/cylinder: the original is said to come off, but it came off before",
        ),
        (
            [dict(did="removed", original="scrapped"), dict(did="painted")],
            "work-after-gone",
            "brakes/cylinder: there is work on it, but it was scrapped",
        ),
        (
            [dict(now="pattern", original="lost"), dict(did="stored", original="bin 3")],
            "work-after-gone",
            "brakes/cylinder: the original is said to be kept, but it was lost",
        ),
        (
            [dict(did="removed"), dict(did="removed")],
            "removed-twice",
            "brakes/cylinder: it is taken off twice, and not fitted in between",
        ),
        (
            [dict(did="removed"), dict(did="proved")],
            "proved-unfitted",
            "brakes/cylinder: it is proved before it is fitted",
        ),
        (
            [dict(retained="0.6"), dict(retained="0.8")],
            "retained-rises",
            "brakes/cylinder: more original material is left in it than before",
        ),
        (
            [dict(now="first-fit")],
            "already-there",
            "brakes/cylinder: another item is said to take its place, but the first-fit one is there already",
        ),
    ],
)
def test_contradiction__is_found_and_told(
    lines: list[dict[str, Any]], code: str, message: str
) -> None:
    sheets = [worked(f"2024-0{n}-01", _KEY, **line) for n, line in enumerate(lines, 1)]
    assert [(code, message)] == said(a_car({_KEY: "first-fit"}, sheets))


def test_contradiction__original_claimed_for_what_was_found_to_be_a_copy() -> None:
    sheets = [worked("2024-01-01", _KEY, now="old-stock", original="bin 3")]
    message = "brakes/cylinder: the original is said to come off, but what was there is pattern"
    assert [("not-original", message)] == said(a_car({_KEY: "pattern"}, sheets))


def test_contradiction__two_items_cannot_both_be_the_one_the_works_fitted() -> None:
    sheets = [
        worked("2024-01-01", _KEY, did="fitted", now="first-fit"),
        worked("2024-02-01", _KEY, was="first-fit"),
    ]
    message = (
        "brakes/cylinder: what was found is said to be first-fit, "
        "but another item is said to be that"
    )
    assert [("two-first-fit", message)] == said(a_car({_KEY: "pattern"}, sheets))


def test_contradiction__work_where_nothing_is() -> None:
    sheets = [worked("2024-01-01", _KEY, did="painted")]
    message = "brakes/cylinder: there is work on it, but nothing is there"
    assert [("work-on-absent", message)] == said(a_car({_KEY: "absent"}, sheets))


def test_contradiction__fitted_while_out_for_work() -> None:
    sheets = [
        a_sheet("2024-01-01", outwork={"sleeves": {"of": _KEY, "sent": "2"}}),
        worked("2024-01-02", _KEY, did="fitted"),
    ]
    message = "brakes/cylinder: it is fitted while it is out for work"
    assert [("fitted-while-out", message)] == said(a_car({_KEY: "first-fit"}, sheets))


def test_correction__may_say_that_more_metal_was_left() -> None:
    sheets = [
        worked("2024-01-01", _KEY, did="welded", retained="0.6"),
        a_sheet("2024-02-01", corrects="2024-01-01-day", work={_KEY: {"retained": "0.7"}}),
    ]
    assert [] == said(a_car({_KEY: "first-fit"}, sheets))


# Evidence: proven is a number or paper and a photograph, shown a photograph, stated words alone.


def _grade(*sheets: Any, line: Any = "first-fit", disputed: bool = False) -> Evidence:
    key = "engine/block"
    photos = ["2024-01-01/a.jpg", "2024-02-01/b.jpg"]
    car = a_car({key: line}, sheets, photos=photos, papers={"record": {"title": "Record"}})
    return fold_originality(car, disputed=frozenset({key} if disputed else ())).lines[0].evidence


def _shot(day: str, file: str) -> Any:
    return a_sheet(day, name="shot", photos=[{"file": file, "of": "engine/block"}])


def test_evidence__words_alone_state() -> None:
    assert Evidence.STATED is _grade(worked("2024-01-01", "engine/block", did="cleaned"))


def test_evidence__a_paper_alone_states() -> None:
    assert Evidence.STATED is _grade(line={"as-found": "first-fit", "paper": "record"})


def test_evidence__a_photograph_shows() -> None:
    assert Evidence.SHOWN is _grade(_shot("2024-01-01", "a.jpg"))


def test_evidence__a_number_and_a_photograph_prove() -> None:
    number = worked("2024-01-01", "engine/block", number="TE 58/0431")
    assert Evidence.PROVEN is _grade(_shot("2024-01-01", "a.jpg"), number)


def test_evidence__a_photograph_that_is_not_there_shows_nothing() -> None:
    assert Evidence.STATED is _grade(_shot("2024-01-01", "lost.jpg"))


def test_evidence__of_the_old_item_proves_nothing_of_the_new_one() -> None:
    new = worked("2024-01-15", "engine/block", did="fitted", now="period-used")
    assert Evidence.STATED is _grade(_shot("2024-01-01", "a.jpg"), new)
    assert Evidence.SHOWN is _grade(_shot("2024-02-01", "b.jpg"), new)


def test_evidence__against_it_disputes_whatever_speaks_for_it() -> None:
    assert Evidence.DISPUTED is _grade(_shot("2024-01-01", "a.jpg"), disputed=True)


# Words of the trade against the Charter of Turin (as summed up in the project's reference values,
# section 16; draft text of the charter of 2012).


def test_charter__conservation_alters_no_historic_substance() -> None:
    """Conservation: securing measures that alter no historic substance; preservation: none at all."""
    for act in (Act.CONSERVED, Act.CLEANED):
        line = fold_one(
            "trim/seat", {"as-found": "first-fit", "retained": "0.9"},
            worked("2024-01-01", "trim/seat", did=act.value),
        )  # fmt: skip
        assert exactly("0.9") == line.now.material
        assert Origin.FIRST_FIT is line.now.origin


def test_charter__original_is_never_a_grade_of_a_restored_item() -> None:
    """Original differs from authentic, and the two vocabularies are never mixed in one field."""
    words = {w.value for v in (Origin, Treatment, Position, Evidence) for w in v}
    assert not words & {"original", "authentic", "restored", "renovated", "preserved"}


def test_charter__later_changes_keep_the_original_part_with_the_vehicle() -> None:
    """Article 10: changes ideally reversible, removed original parts kept with the vehicle."""
    line = fold_one(
        "electrical/dynamo", "first-fit",
        worked("2024-01-01", "electrical/dynamo", did="fitted", now="upgrade", original="crate 1",
               reversible="yes"),
    )  # fmt: skip
    assert [("first-fit", "crate 1")] == [
        (d.item.origin.value, d.item.kept) for d in line.displaced
    ]

"""The ledgers that run the job: snags, hours, parts, outwork, readings, pictures."""

from datetime import date
from decimal import Decimal
from fractions import Fraction

from journal.ledgers.gallery import fold_gallery
from journal.ledgers.hours import fold_hours
from journal.ledgers.measured import fold_measured
from journal.ledgers.outwork import fold_outwork
from journal.ledgers.parts import PartState, fold_parts
from journal.ledgers.snags import fold_snags
from tests.writing import a_car, a_sheet

REGISTER = {"brakes/pipes": "first-fit", "fuel/pump": "first-fit"}


# Snags


def test_snag__is_open_until_it_is_cleared() -> None:
    raised = a_sheet("2024-01-01", snags={"weld": {"raise": "old weld", "hold": "yes"}})
    cleared = a_sheet("2024-01-31", snags={"weld": {"clear": "dye-checked", "by": "JB"}})
    snags = fold_snags(a_car(REGISTER, [raised]))
    assert ["weld"] == [s.name for s in snags.holds]
    assert 29 == snags.open[0].age(date(2024, 1, 30))
    snags = fold_snags(a_car(REGISTER, [raised, cleared]))
    assert () == snags.open
    (snag,) = snags.cleared
    assert ("dye-checked", "JB", 30) == (snag.how, snag.by, snag.age(date(2025, 1, 1)))


def test_snag__put_off_stays_open_with_its_reason() -> None:
    raised = a_sheet("2024-01-01", snags={"mirror": "wing mirror wanted"})
    deferred = a_sheet("2024-02-01", snags={"mirror": {"defer": "owner to choose"}})
    (snag,) = fold_snags(a_car(REGISTER, [raised, deferred])).open
    assert "owner to choose" == snag.deferred


def test_snag__with_a_hold_comes_before_an_older_one_without() -> None:
    sheets = [
        a_sheet("2024-01-01", snags={"old": "old one"}),
        a_sheet("2024-02-01", snags={"new": {"raise": "new one", "hold": "yes"}}),
    ]
    assert ["new", "old"] == [s.name for s in fold_snags(a_car(REGISTER, sheets)).open]


def test_snag__may_be_raised_again_once_cleared() -> None:
    sheets = [
        a_sheet("2024-01-01", snags={"weep": "union weeps"}),
        a_sheet("2024-01-02", snags={"weep": {"clear": "nipped up"}}),
        a_sheet("2024-01-03", snags={"weep": "weeps again"}),
    ]
    snags = fold_snags(a_car(REGISTER, sheets))
    assert () == snags.problems
    assert ["weeps again"] == [s.text for s in snags.open]


def test_stand_in__holds_the_handover_by_itself() -> None:
    stand = a_sheet(
        "2024-01-01", work={"fuel/pump": {"did": "trial-fitted", "stand-in": "shelf pump"}}
    )
    snags = fold_snags(a_car(REGISTER, [stand]))
    assert ["Stand-in to come out: shelf pump"] == [s.text for s in snags.holds]
    fitted = a_sheet("2024-02-01", work={"fuel/pump": "fitted"})
    snags = fold_snags(a_car(REGISTER, [stand, fitted]))
    assert () == snags.holds
    assert "the item itself is fitted" == snags.cleared[0].how


# Hours


def test_hours__of_a_sheet_with_two_subsystems_are_shared_equally() -> None:
    sheet = a_sheet("2024-01-01", subsystem=["brakes", "fuel"], hours={"MT": "2.5", "JB": "1"})
    hours = fold_hours(a_car(REGISTER, [sheet]))
    assert {"brakes": Fraction("1.75"), "fuel": Fraction("1.75")} == hours.by_subsystem()
    assert {"JB": Fraction(1), "MT": Fraction("2.5")} == hours.by_hand()


def test_hours__split_by_hand_go_where_they_are_said_to() -> None:
    spent = {"brakes": {"MT": "2"}, "fuel": {"MT": "1.5", "JB": "0.25"}}
    sheet = a_sheet("2024-01-31", subsystem=["brakes", "fuel"], hours=spent)
    hours = fold_hours(a_car(REGISTER, [sheet]))
    assert {"brakes": Fraction(2), "fuel": Fraction("1.75")} == hours.by_subsystem()
    assert {(2024, 1): Fraction("3.75")} == hours.by_month()


# Parts


def test_part__goes_from_order_to_the_car() -> None:
    sheets = [
        a_sheet(
            "2024-01-01",
            parts={"pipe": {"ordered": "today", "from": "northgate", "price": "12.50"}},
        ),
        a_sheet(
            "2024-01-15",
            parts={"pipe": {"received": "today", "outcome": "reworked", "why": "flare"}},
        ),
        a_sheet(
            "2024-01-20", work={"brakes/pipes": {"did": "fitted", "now": "pattern", "part": "pipe"}}
        ),
    ]
    states = [fold_parts(a_car(REGISTER, sheets[:n])).parts[0].state for n in (1, 2, 3)]
    assert [PartState.ORDERED, PartState.REWORKED, PartState.FITTED] == states
    (part,) = fold_parts(a_car(REGISTER, sheets)).parts
    assert 10 == part.lead  # Monday 1 to Monday 15 January 2024, weekends left out
    assert ("brakes/pipes",) == part.of
    assert Decimal("12.50") == part.price
    assert "reworked" == part.outcome
    assert ("2024-01-01-day", "2024-01-15-day", "2024-01-20-day") == part.sheets


def test_part__rejected_goes_back_and_is_credited() -> None:
    sheets = [
        a_sheet("2024-01-01", parts={"ring": {"ordered": "today", "price": "30"}}),
        a_sheet(
            "2024-01-09",
            parts={"ring": {"received": "today", "outcome": "rejected", "why": "cone"}},
        ),
        a_sheet("2024-01-20", parts={"ring": {"returned": "today", "credited": "30"}}),
    ]
    (part,) = fold_parts(a_car(REGISTER, sheets)).parts
    assert PartState.RETURNED is part.state
    assert not part.waiting
    assert Decimal(30) == part.credited


def test_part__received_before_it_was_ordered_is_told() -> None:
    sheet = a_sheet("2024-01-09", parts={"ring": {"ordered": "today", "received": "2024-01-02"}})
    messages = [p.message for p in fold_parts(a_car(REGISTER, [sheet])).problems]
    told = 'the part "ring" cannot be received on 2024-01-02 when it was ordered on 2024-01-09'
    assert [told] == messages


# Outwork


def test_outwork__is_counted_out_and_counted_back() -> None:
    sheets = [
        a_sheet("2024-01-01", outwork={"plating": {"sent": "214", "to": "northgate"}}),
        a_sheet("2024-02-01", outwork={"plating": {"back": "211"}}),
        a_sheet("2024-02-20", outwork={"plating": {"back": "3", "note": "in the barrel"}}),
    ]
    (batch,) = fold_outwork(a_car(REGISTER, sheets[:2])).out
    assert (Decimal(3), True) == (batch.out, batch.short)
    outwork = fold_outwork(a_car(REGISTER, sheets))
    assert () == outwork.out
    assert 3 == len(outwork.batches[0].movements)


def test_outwork__more_back_than_sent_is_told_and_not_counted() -> None:
    sheets = [
        a_sheet("2024-01-01", outwork={"plating": {"sent": "10"}}),
        a_sheet("2024-02-01", outwork={"plating": {"back": "12"}}),
    ]
    outwork = fold_outwork(a_car(REGISTER, sheets))
    assert ['12 of "plating" cannot come back when 10 are out'] == [
        p.message for p in outwork.problems
    ]
    assert Decimal(10) == outwork.batches[0].out


# Readings and pictures


def test_reading__is_inside_when_every_value_keeps_both_limits() -> None:
    def inside(read: list[str], limit: object) -> bool | None:
        data = {"float": {"on": "brakes/pipes", "read": read, "unit": "mm", "limit": limit}}
        if limit is None:
            del data["float"]["limit"]
        return (
            fold_measured(a_car(REGISTER, [a_sheet("2024-01-01", measured=data)]))
            .readings[0]
            .inside
        )

    assert inside(["0.05", "0.15"], ["0.05", "0.15"]) is True
    assert inside(["0.10", "0.16"], ["0.05", "0.15"]) is False
    assert inside(["0.04"], {"most": "0.05"}) is True
    assert inside(["9"], {"least": "10"}) is False
    assert inside(["9"], None) is None


def test_gallery__numbers_the_pictures_that_are_there() -> None:
    sheets = [
        a_sheet("2024-01-01", photos=["a.jpg", "lost.jpg"]),
        a_sheet("2024-01-02", photos=[{"file": "other/b.jpg", "of": "fuel/pump"}]),
    ]
    gallery = fold_gallery(a_car(REGISTER, sheets, photos=["2024-01-01/a.jpg", "other/b.jpg"]))
    assert [(1, "2024-01-01/a.jpg"), (2, "other/b.jpg")] == [
        (p.number, p.path) for p in gallery.pictures
    ]
    assert ["fuel"] == [p.subsystem for p in gallery.of("fuel/pump")]

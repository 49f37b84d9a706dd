"""Money: labour at the rate of the day, goods, extras, and the estimate against what was spent."""

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Any

from journal.digests.money import Money
from journal.digests.money.fold import money_of, unpriced
from journal.records.sheet import Sheet
from tests.writing import a_car, a_sheet

REGISTER = {"brakes/pipes": "first-fit", "fuel/pump": "first-fit", "trim/seats": "first-fit"}
WORKSHOP: dict[str, Any] = {
    "name": "Saltmarsh Lane Workshop",
    "hands": {
        "MT": {"name": "Margit Tolland", "rate": {"2024-01-01": "50", "2024-03-01": "54"}},
        "JB": {"name": "Jonah Birkett", "rate": "38"},
        "AP": {"name": "Ada Penrose"},
    },
}
ALONE = {
    "name": "Saltmarsh Lane Workshop",
    "hands": {"MT": {"name": "Margit Tolland", "rate": "50"}},
}


def _money(*sheets: Sheet, workshop: Mapping[str, Any] | None = None, **car: Any) -> Money:
    return money_of(a_car(REGISTER, sheets, workshop=workshop or WORKSHOP, **car))


def test_labour__is_priced_at_the_rate_of_its_day() -> None:
    days = ["2024-02-29", "2024-03-01"]
    money = _money(*(a_sheet(day, hours={"MT": "2"}) for day in days))
    assert [Decimal(100), Decimal(108)] == [c.net for c in money.charges]


def test_labour__of_the_only_hand_needs_no_initials() -> None:
    assert Decimal(100) == _money(a_sheet("2024-03-01", hours="2"), workshop=ALONE).net


def test_labour__before_the_first_rate_is_told_and_comes_to_nothing() -> None:
    sheet = a_sheet("2023-12-31", hours={"MT": "2", "JB": "1"})
    assert Decimal(38) == _money(sheet).net
    problems = [*unpriced(a_car(REGISTER, (sheet,), workshop=WORKSHOP))]
    assert ["hours of MT on 2023-12-31 have no rate, and are not charged"] == [
        p.message for p in problems
    ]
    assert "the first rate holds from 2024-01-01" == problems[0].note


def test_labour__that_is_not_charged_needs_no_rate() -> None:
    hours = {"MT": {"hours": "2", "kind": "goodwill"}, "AP": "3"}
    sheet = a_sheet("2023-12-31", hours=hours)
    money = _money(sheet)
    assert Decimal(0) == money.net
    assert [] == [*unpriced(a_car(REGISTER, (sheet,), workshop=WORKSHOP))]
    assert [Fraction(3), Fraction(2)] == [s.hours for s in money.uncharged]


def test_labour__of_three_subsystems_adds_up_to_the_coin() -> None:
    # 1 hour at 50 is 0.34, 0.33 and 0.33 hours: 17.00, 16.50 and 16.50.
    sheet = a_sheet("2024-02-01", subsystem=["brakes", "fuel", "trim"], hours={"MT": "1"})
    money = _money(sheet)
    assert ["17.00", "16.50", "16.50"] == [str(c.net) for c in money.charges]
    (row,) = [line for _, line in money.by_sheet()]
    assert (Decimal(1), Decimal(50)) == (row.hours, row.labour)


def test_part__told_again_at_another_price_comes_to_the_difference() -> None:
    money = _money(
        a_sheet("2024-03-01", parts={"pipe": {"price": "20.00", "of": "fuel/pump"}}),
        a_sheet("2024-03-08", parts={"pipe": {"price": "22.50", "received": "today"}}),
    )
    assert [("fuel", Decimal("20.00")), ("fuel", Decimal("2.50"))] == [
        (c.subsystem, c.net) for c in money.charges
    ]


def test_outwork__is_reckoned_with_what_it_is_of() -> None:
    lot = {"plating": {"sent": "9", "cost": "80", "of": "brakes/pipes"}}
    (charge,) = _money(a_sheet("2024-03-01", subsystem="trim", outwork=lot)).charges
    assert ("brakes", Decimal(80)) == (charge.subsystem, charge.net)


def test_extra__with_a_price_is_charged_and_with_hours_raises_the_estimate() -> None:
    extras = {
        "belts": {"what": "lap belts", "of": "trim/seats", "price": "240", "decided": "owner"},
        "hoses": {"what": "all hoses new", "hours": "4", "decided": "owner"},
    }
    money = _money(
        a_sheet("2024-03-01", extras=extras, hours={"JB": "1.5"}),
        estimate={"brakes": "10"},
    )
    brakes, trim = money.by_subsystem()
    assert (Decimal(10), Decimal(4), Decimal(14)) == (
        brakes.estimate,
        brakes.agreed,
        brakes.allowed,
    )
    assert (Fraction("1.5"), Decimal(57)) == (brakes.hours, brakes.net)
    assert (None, Decimal(240)) == (trim.allowed, trim.extras)


def test_extra__agreed_anew_at_another_price_comes_to_the_difference() -> None:
    first = {"belts": {"what": "lap belts", "price": "240", "decided": "owner"}}
    again = {"belts": {"what": "lap belts, three points", "price": "310", "decided": "owner"}}
    money = _money(a_sheet("2024-03-01", extras=first), a_sheet("2024-03-08", extras=again))
    assert [Decimal(240), Decimal(70)] == [c.net for c in money.charges]
    assert ["lap belts, three points"] == [a.what for a in money.agreed]


def test_line__for_the_workshop_is_never_charged() -> None:
    own: dict[str, Any] = {
        "parts": {"rag": {"price": "9", "for": "workshop"}},
        "outwork": {"jig": {"sent": "1", "cost": "9", "for": "workshop"}},
        "extras": {"x": {"what": "x", "price": "9", "decided": "workshop", "for": "workshop"}},
    }
    assert Decimal(0) == _money(a_sheet("2024-03-01", **own)).net


def test_totals__by_subsystem_hand_kind_and_sheet_are_the_same_sum() -> None:
    money = _money(
        a_sheet("2024-02-01", hours={"MT": "1.37", "JB": "2"}, parts={"a": {"price": "3.33"}}),
        a_sheet("2024-03-01", hours={"fuel": {"MT": "1.37"}}, outwork={"b": {"cost": "5"}}),
    )
    whole = money.net
    assert Decimal("68.50") + 76 + Decimal("3.33") + Decimal("73.98") + 5 == whole
    assert whole == sum((row.net for row in money.by_subsystem()), Decimal(0))
    assert whole == sum((line.net for _, line in money.by_sheet()), Decimal(0))
    labour = {key: net for key, (_, net) in money.by_hand().items()}
    assert {
        ("JB", Decimal(38)): 76,
        ("MT", Decimal(50)): Decimal("68.50"),
        ("MT", Decimal(54)): Decimal("73.98"),
    } == labour

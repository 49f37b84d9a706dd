"""The owner's statements, against two months reckoned by hand as a bookkeeper would.

March 2024. An hour of MT costs 50.00, from 18 March on 54.00; one of JB 38.00. Tax is 20 %.

    day  sheet                                    labour   parts  outwork  extras     net  tax 20 %
     5   MT 3.5 h at 50.00                        175.00
         laygear 212.00, carriage 8.53                    220.53                   395.53   79.106
    12   MT 2.25 h at 50.00                       112.50
         JB 1.5 h of rework, not charged            0.00
         bearings 84.00 EUR at 0.8612 = 72.3408           72.34
         carriage 12.60 EUR at 0.8612 = 10.85112          10.85                   195.69   39.138
    19   MT 4 h at 54.00                          216.00
         JB 2.75 h at 38.00                       104.50
         plating                                                  146.25           466.75   93.350
    21   an alternator, agreed at                                          385.00
         MT 0.75 h of goodwill, not charged         0.00                           385.00   77.000
    26   JB 1.1 h at 38.00                         41.80
         laygear, credited                                -30.00                    11.80    2.360
                                                  ------  ------  -------  ------  -------  -------
    March                                         649.80  273.72   146.25  385.00  1454.77  290.954

    Tax on the total          290.95  ->  1745.72, less a deposit of 1000.00: carried 745.72
    Tax line by line           79.11 + 39.14 + 93.35 + 77.00 + 2.36 = 290.96  ->  1745.73

April. The sheet of 12 March is altered to 3.25 h of MT, one of 14 March is found that was forgotten.

     9   MT 2 h at 54.00                          108.00
    12 March, 1 h more at 50.00                    50.00
    14 March, JB 2 h at 38.00                      76.00
                                                  234.00, tax 46.80, total 280.80
    Brought forward 745.72, paid 745.72: carried 280.80
"""

from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from journal.digests.money.fold import money_of
from journal.digests.statement import Stated, Statements, digest_statement
from journal.readers import car_for
from journal.records.carfile import CarFile
from journal.records.place import Source
from journal.records.sheet import Sheet
from journal.records.statement import Statement
from journal.words.vocabulary import Reader
from tests.writing import a_car, a_sheet

REGISTER = {
    "gearbox/laygear": "first-fit",
    "brightwork/bumper": "first-fit",
    "electrical/dynamo": "first-fit",
}
WORKSHOP = {
    "name": "Saltmarsh Lane Workshop",
    "hands": {
        "MT": {"name": "Margit Tolland", "rate": {"2023-01-01": "50.00", "2024-03-18": "54.00"}},
        "JB": {"name": "Jonah Birkett", "rate": "38.00"},
    },
    "suppliers": {"northgate": {"name": "Northgate Gears"}},
    "tax": "20",
}
DEPOSIT = {"on": "2024-03-01", "amount": "1000.00", "what": "deposit"}
SETTLED = {"on": "2024-04-10", "amount": "745.72"}


def _march() -> dict[str, Sheet]:
    sheets = [
        a_sheet(
            "2024-03-05", subsystem="gearbox", hours={"MT": "3.5"},
            parts={"laygear": {"price": "212.00", "carriage": "8.53", "ordered": "today"}},
        ),
        a_sheet(
            "2024-03-12", subsystem="gearbox",
            hours={"MT": "2.25", "JB": {"hours": "1.5", "kind": "rework", "because": "laygear"}},
            parts={"bearings": {"price": "84.00", "carriage": "12.60", "currency": "EUR", "rate": "0.8612"}},
        ),
        a_sheet(
            "2024-03-19", subsystem="brightwork", hours={"MT": "4", "JB": "2.75"},
            outwork={"plating": {"sent": "12", "cost": "146.25"}},
        ),
        a_sheet(
            "2024-03-21", subsystem="electrical", hours={"MT": {"hours": "0.75", "kind": "goodwill"}},
            extras={"alternator": {"what": "alternator in the dynamo's case", "price": "385.00",
                                   "decided": "owner"}},
        ),
        a_sheet(
            "2024-03-26", subsystem="gearbox", hours={"JB": "1.1"},
            parts={"laygear": {"credited": "30.00"}},
        ),
    ]  # fmt: skip
    return {sheet.name: sheet for sheet in sheets}


def _car(sheets: dict[str, Sheet], *issued: Statement, **more: Any) -> CarFile:
    workshop = {**WORKSHOP, **more.pop("workshop", {})}
    more.setdefault("payments", [DEPOSIT])
    car = a_car(REGISTER, sheets.values(), workshop=workshop, booked_in="2024-03-04", **more)
    return replace(car, statements=issued)


def _statements(car: CarFile, until: str) -> Statements:
    lines = money_of(car).by_sheet()
    return digest_statement(car, lines=lines, until=date.fromisoformat(until))


def _issued(car: CarFile, until: str) -> Statement:
    stated = _statements(car, until).running
    file = stated.issue(stated.to)
    return Statement(until, Source(f"tern/statements/{until}.yaml"), file)


def _rows(stated: Stated) -> dict[str, tuple[str, ...]]:
    figures = ("hours", "uncharged", "labour", "parts", "outwork", "extras", "net")
    return {
        name: tuple(f"{getattr(line, figure):.2f}" for figure in figures)
        for name, line in stated.lines
    }


def test_statement__of_a_month_is_what_a_bookkeeper_reckons() -> None:
    march = _statements(_car(_march()), "2024-03-31").running
    assert {
        "2024-03-05-day": ("3.50", "0.00", "175.00", "220.53", "0.00", "0.00", "395.53"),
        "2024-03-12-day": ("2.25", "1.50", "112.50", "83.19", "0.00", "0.00", "195.69"),
        "2024-03-19-day": ("6.75", "0.00", "320.50", "0.00", "146.25", "0.00", "466.75"),
        "2024-03-21-day": ("0.00", "0.75", "0.00", "0.00", "0.00", "385.00", "385.00"),
        "2024-03-26-day": ("1.10", "0.00", "41.80", "-30.00", "0.00", "0.00", "11.80"),
    } == _rows(march)
    work = march.work
    assert (5, Decimal("13.60"), Decimal("2.25")) == (march.days, work.hours, work.uncharged)
    assert Decimal("649.80") == work.labour
    assert Decimal("273.72") == work.parts
    assert Decimal("146.25") == work.outwork
    assert Decimal("385.00") == work.extras
    assert Decimal("1454.77") == march.net
    assert Decimal("290.95") == march.tax
    assert Decimal("1745.72") == march.total
    assert (Decimal("1000.00"), Decimal("745.72")) == (march.paid, march.carried)
    assert (date(2024, 3, 4), date(2024, 3, 31)) == (march.from_, march.to)


@pytest.mark.parametrize(
    ("tax_by", "rounding", "tax", "total"),
    [
        ("total", "nearest", "290.95", "1745.72"),
        ("line", "nearest", "290.96", "1745.73"),
        ("total", "down", "290.95", "1745.72"),
    ],
)
def test_tax__is_rounded_as_the_workshop_sets(
    tax_by: str, rounding: str, tax: str, total: str
) -> None:
    car = _car(_march(), workshop={"tax-by": tax_by, "tax-rounding": rounding})
    march = _statements(car, "2024-03-31").running
    assert (Decimal(tax), Decimal(total)) == (march.tax, march.total)


def test_tax__is_nothing_where_none_is_set() -> None:
    car = _car(_march())
    car = replace(car, workshop=car.workshop.model_copy(update={"tax": None}))
    march = _statements(car, "2024-03-31").running
    assert (Decimal(0), Decimal("1454.77")) == (march.tax, march.total)


def _april(march: Statement) -> CarFile:
    """What was written once March was issued: a sheet altered, one added, and April's own."""
    sheets = _march()
    altered = a_sheet(
        "2024-03-12", subsystem="gearbox",
        hours={"MT": "3.25", "JB": {"hours": "1.5", "kind": "rework", "because": "laygear"}},
        parts={"bearings": {"price": "84.00", "carriage": "12.60", "currency": "EUR", "rate": "0.8612"}},
    )  # fmt: skip
    forgotten = a_sheet("2024-03-14", subsystem="gearbox", hours={"JB": "2"})
    own = a_sheet("2024-04-09", subsystem="gearbox", hours={"MT": "2"})
    sheets |= {sheet.name: sheet for sheet in (altered, forgotten, own)}
    return _car(sheets, march, payments=[DEPOSIT, SETTLED])


def test_adjustment__of_a_stated_month_stands_in_the_next_statement_by_sheet() -> None:
    march = _issued(_car(_march()), "2024-03-31")
    statements = _statements(_april(march), "2024-04-30")
    april = statements.running
    assert {"2024-04-09-day": Decimal("108.00")} == {n: line.net for n, line in april.lines}
    assert {"2024-03-12-day": Decimal("50.00"), "2024-03-14-day": Decimal("76.00")} == {
        n: line.net for n, line in april.adjusted
    }
    assert Decimal("234.00") == april.net
    assert (Decimal("46.80"), Decimal("280.80")) == (april.tax, april.total)
    assert (Decimal("745.72"), Decimal("745.72")) == (april.brought, april.paid)
    assert Decimal("280.80") == april.carried == statements.balance


def test_adjustment__leaves_the_issued_statement_as_it_was() -> None:
    before = _car(_march())
    march = _issued(before, "2024-03-31")
    (after,) = _statements(_april(march), "2024-04-30").issued
    (same,) = _statements(replace(before, statements=(march,)), "2024-04-30").issued
    assert same == after
    assert Decimal("1745.72") == after.total


def test_adjustment__that_was_stated_is_not_stated_again() -> None:
    march = _issued(_car(_march()), "2024-03-31")
    car = _april(march)
    april = _issued(car, "2024-04-30")
    may = _statements(replace(car, statements=(march, april)), "2024-05-31").running
    assert may.empty
    assert (Decimal("280.80"), Decimal("280.80")) == (may.brought, may.carried)


def test_owner__reads_the_issued_statements_too() -> None:
    car = _april(_issued(_car(_march()), "2024-03-31"))
    seen = car_for(Reader.OWNER, car)
    assert _statements(car, "2024-04-30") == _statements(seen, "2024-04-30")
    assert () == car_for(Reader.PUBLIC, car).statements


def test_sheet__taken_away_after_its_month_is_given_back() -> None:
    car = _car(_march())
    march = _issued(car, "2024-03-31")
    sheets = _march()
    del sheets["2024-03-21-day"]
    april = _statements(_car(sheets, march), "2024-04-30").running
    assert {"2024-03-21-day": Decimal("-385.00")} == {n: line.net for n, line in april.adjusted}
    assert Decimal("-462.00") == april.total


def test_sheet__that_cannot_be_read_now_stays_as_it_was_stated() -> None:
    march = _issued(_car(_march()), "2024-03-31")
    sheets = _march()
    del sheets["2024-03-21-day"]
    car = replace(_car(sheets, march), unread=frozenset({"2024-03-21-day"}))
    assert _statements(car, "2024-04-30").running.empty


def test_sheet__of_which_a_line_cannot_be_read_now_stays_as_it_was_stated() -> None:
    march = _issued(_car(_march()), "2024-03-31")
    sheets = _march() | {"2024-03-12-day": a_sheet("2024-03-12", subsystem="gearbox")}
    car = replace(_car(sheets, march), partly=frozenset({"2024-03-12-day"}))
    assert _statements(car, "2024-04-30").running.empty


def test_sheet__that_cannot_be_read_now_is_left_alone_for_the_owner_too() -> None:
    march = _issued(_car(_march()), "2024-03-31")
    sheets = _march()
    del sheets["2024-03-21-day"]
    car = replace(_car(sheets, march), unread=frozenset({"2024-03-21-day"}))
    assert _statements(car_for(Reader.OWNER, car), "2024-04-30").running.empty


def test_sheet__for_the_workshop_is_never_charged() -> None:
    sheets = _march()
    own = a_sheet("2024-03-27", name="jig", hours={"MT": "6"}, for_="workshop",
                  parts={"bar": {"price": "40"}})  # fmt: skip
    with_jig = {**sheets, own.name: own}
    stated = _statements(_car(with_jig), "2024-03-31")
    assert _statements(_car(sheets), "2024-03-31") == stated


def test_payment__written_down_late_stands_in_the_next_statement() -> None:
    march = _issued(_car(_march()), "2024-03-31")
    late = {"on": "2024-03-28", "amount": "200.00", "what": "by hand"}
    april = _statements(_car(_march(), march, payments=[DEPOSIT, late]), "2024-04-30").running
    assert [(date(2024, 3, 28), Decimal("200.00"))] == [(p.on, p.amount) for p in april.payments]
    assert Decimal("545.72") == april.carried


def test_payment__is_of_whole_coins_so_that_the_balance_is_what_the_lines_print() -> None:
    odd = [{"on": "2024-03-01", "amount": "100.005"}, {"on": "2024-03-02", "amount": "100.004"}]
    march = _statements(_car(_march(), payments=odd), "2024-03-31")
    assert [Decimal("100.01"), Decimal("100.00")] == [p.amount for p in march.running.payments]
    stated = _issued(_car(_march(), payments=odd), "2024-03-31")
    assert _statements(_car(_march(), stated, payments=odd), "2024-04-30").running.empty


def test_payment__taken_back_is_owed_again() -> None:
    march = _issued(_car(_march()), "2024-03-31")
    car = _car(_march(), march, payments=[])
    april = _statements(car, "2024-04-30").running
    assert [Decimal("-1000.00")] == [p.amount for p in april.payments]
    assert Decimal("1745.72") == april.carried
    told = _issued(car, "2024-04-30")
    assert _statements(replace(car, statements=(march, told)), "2024-05-31").running.empty


def test_period__follows_the_last_one_and_holds_a_day_at_least() -> None:
    car = _car(_march())
    march = _issued(car, "2024-03-31")
    after = replace(car, statements=(march,))
    running = _statements(after, "2024-03-26").running
    assert (date(2024, 4, 1), date(2024, 4, 1)) == (running.from_, running.to)
    assert running.empty


# Laws

_HOURS = st.decimals(min_value=0, max_value=9, places=2)
_DAYS = st.integers(min_value=0, max_value=90)
_WRITTEN = st.dictionaries(_DAYS, st.tuples(_HOURS, _HOURS), max_size=6)


def _sheets(written: dict[int, tuple[Decimal, Decimal]]) -> dict[str, Sheet]:
    sheets = [
        a_sheet(
            str(date.fromordinal(date(2024, 3, 4).toordinal() + day)),
            subsystem=["gearbox", "electrical", "brightwork"],
            hours={"MT": str(mt), "JB": str(jb)},
            parts={"oil": {"price": str(mt)}},
        )
        for day, (mt, jb) in written.items()
    ]
    return {sheet.name: sheet for sheet in sheets}


@given(st.lists(_WRITTEN, min_size=1, max_size=4))
def test_law__all_statements_together_are_what_the_sheets_come_to(
    history: list[dict[int, tuple[Decimal, Decimal]]],
) -> None:
    """However sheets are altered between the issues, no money is lost and none is stated twice."""
    issued: tuple[Statement, ...] = ()
    for month, written in enumerate(history):
        car = _car(_sheets(written), *issued)
        issued = (*issued, _issued(car, f"2024-{month + 4:02d}-15"))
    money = money_of(car)
    statements = _statements(replace(car, statements=issued), "2024-12-31")
    nets = [s.net for s in (*statements.issued, statements.running)]
    assert money.net == sum(nets, Decimal(0))
    assert statements.balance == sum(
        (s.total - s.paid for s in (*statements.issued, statements.running)), Decimal(0)
    )


@given(_WRITTEN)
def test_law__workshop_and_owner_read_the_same_statement(
    written: dict[int, tuple[Decimal, Decimal]],
) -> None:
    own = a_sheet("2024-03-04", name="own", hours={"MT": "2"}, for_="workshop",
                  parts={"oil": {"price": "9"}})  # fmt: skip
    quiet = a_sheet("2024-03-05", name="quiet", hours={"JB": "1"},
                    parts={"oil": {"price": "7", "for": "workshop"}, "rag": {"price": "2"}})  # fmt: skip
    car = _car({**_sheets(written), own.name: own, quiet.name: quiet})
    seen = car_for(Reader.OWNER, car)
    assert _statements(car, "2024-06-30") == _statements(seen, "2024-06-30")
    assert money_of(car).by_subsystem() == money_of(seen).by_subsystem()

"""What the next keeper of a car sees: the record, and prices by the owner's leave alone."""

from typing import Any

import pytest
from msgspec.structs import replace

from journal.readers import car_for
from journal.records.carfile import CarFile
from journal.records.sheet import Block
from journal.words.vocabulary import HourKind, Reader
from tests.readers.a_record import PART, car_with
from tests.writing import a_car

GOODS = {
    "parts": {"cylinder": {**PART, "number": "0986 424 7970", "carriage": "4", "currency": "EUR",
                           "rate": "0.86", "credited": "2"}},
    "outwork": {"plating": {"sent": "2", "to": "ravensdyke", "cost": "20"}},
    "extras": {"lamps": {"what": "Lamps", "price": "90", "hours": "3", "decided": "owner"}},
}  # fmt: skip


def _handed_on(*, prices: str, text: str = "") -> CarFile:
    money = {"payments": [{"on": "2024-01-01", "amount": "900"}], "prices_shown": prices}
    car = car_with(**GOODS, hours={"MT": {"hours": "2", "kind": "rework"}})
    car = replace(car, car=a_car({}, **money, estimate={"brakes": "60"}, brief="b").car)
    sheet = replace(car.sheets[0], body=(Block(Reader.PUBLIC, text, 9),))
    return car_for(Reader.KEEPER, replace(car, sheets=(sheet,)))


def _goods(car: CarFile) -> tuple[Any, Any, Any]:
    front = car.sheets[0].front
    return front.parts.get("cylinder"), front.outwork.get("plating"), front.extras.get("lamps")


def test_next_keeper__sees_where_things_came_from_and_not_what_they_cost() -> None:
    part, outwork, extra = _goods(_handed_on(prices="no"))
    assert ("northgate", "0986 424 7970", "reworked") == (part.from_, part.number, part.outcome)
    money = (part.price, part.carriage, part.currency, part.rate, part.credited)
    assert (None,) * 7 == (*money, outwork.cost, extra.price)
    assert ("ravensdyke", "Lamps", "owner") == (outwork.to, extra.what, extra.decided.by)
    assert (None, None) == (part.why, part.note)


def test_next_keeper__sees_what_things_cost_where_the_owner_wants_it() -> None:
    part, outwork, extra = _goods(_handed_on(prices="yes"))
    money = (part.price, part.carriage, part.rate, part.credited, outwork.cost, extra.price)
    assert ["48.50", "4", "0.86", "2", "20", "90"] == [str(amount) for amount in money]
    assert ("EUR", None) == (part.currency, extra.hours)


@pytest.mark.parametrize("prices", ["no", "yes"])
def test_next_keeper__sees_nothing_of_what_stands_between_owner_and_workshop(prices: str) -> None:
    car = _handed_on(prices=prices)
    assert ((), 0, None) == (car.car.payments, len(car.car.estimate), car.car.brief)
    assert (None, ()) == (car.car.owner.address, car.statements)
    assert [("Margit Tolland", 0), ("Jonah Birkett", 0)] == [
        (hand.name, len(hand.rate)) for _, hand in car.workshop.hands
    ]
    kinds = {line.kind for _, hands in car.sheets[0].front.hours for _, ls in hands for line in ls}
    assert {HourKind.BILLABLE} == kinds


def test_leave_to_show_prices__opens_them_to_the_next_keeper_alone() -> None:
    car = car_with(**GOODS)
    open_ = replace(car, car=car.car.model_copy(update={"prices_shown": True}))
    assert _goods(car_for(Reader.PUBLIC, car)) == _goods(car_for(Reader.PUBLIC, open_))
    assert _goods(car_for(Reader.OWNER, car)) == _goods(car_for(Reader.OWNER, open_))


def test_next_keeper__reads_names_and_numbers_in_full() -> None:
    work = {
        "papers/chassis-plate": {
            "did": "cleaned",
            "by": "MT",
            "checked": "JB",
            "number": "TD 58/0417",
        }
    }
    car = car_for(
        Reader.KEEPER, car_with(work=work, title="Mrs Harrow read TD 58/0417 and SVX 417")
    )
    front = car.sheets[0].front
    line = front.work.get("papers/chassis-plate")
    assert line is not None
    assert ("MT", "JB", "TD 58/0417") == (line.by, line.checked, line.number)
    assert "Mrs Harrow read TD 58/0417 and SVX 417" == front.title
    assert ("SVX 417", "Mrs Eleanor Harrow") == (car.car.plate, car.car.owner.name)


def test_next_keeper__is_told_the_town_of_an_earlier_one_and_not_the_door() -> None:
    keepers = [
        {"name": "Mr Edwin Lathom", "place": "Staithe Cross"},
        {"name": "Miss Joan Cardew", "place": "Pound House, Little Ebbing EB1 2AB, England"},
        {"name": "Mr Peter Vosper", "place": "14 Cooper's Rise"},
    ]
    papers = {
        "book": {"title": "Book", "keepers": keepers, "says": "Sent to Pound House, Little Ebbing"}
    }
    (book,) = (p for _, p in car_for(Reader.KEEPER, a_car({}, papers=papers)).papers)
    assert ["Staithe Cross", "Little Ebbing", None] == [keeper.place for keeper in book.keepers]
    assert "Sent to a place not named, Little Ebbing" == book.says


@pytest.mark.parametrize(
    ("prices", "told"),
    [
        ("no", "It came to a sum of money. Ring a telephone number or write to an e-mail address."),
        ("yes", "It came to £212.00. Ring a telephone number or write to an e-mail address."),
    ],
)
def test_next_keeper__reads_sums_in_texts_by_the_same_leave(prices: str, told: str) -> None:
    text = "It came to £212.00. Ring 01632 960417 or write to e.harrow@example.org."
    assert told == _handed_on(prices=prices, text=text).sheets[0].body[0].text

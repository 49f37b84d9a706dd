"""Bench sums in sheets: whom they are for when nobody says."""

import pytest

from journal.bench import SUM_NAMED
from journal.digests.sums import digest_sums
from journal.readers import car_for
from journal.records.sum import WORKSHOP_SUMS
from journal.words.vocabulary import Reader
from tests.writing import a_car, a_sheet

QUOTE = {"sum": "hours-quote", "similar": "Mr Wainscott's saloon: 21 h; van: 14 h", "rate": "54"}


def _seen(reader: Reader, **more: str) -> list[str]:
    car = a_car(
        {"gearbox/laygear": "first-fit"}, [a_sheet("2024-03-05", sums={"sills": QUOTE | more})]
    )
    return [kept.name for kept in digest_sums(car_for(reader, car)).kept]


def test_quote__from_other_peoples_cars_is_for_the_workshop_alone() -> None:
    assert ["sills"] == _seen(Reader.WORKSHOP)
    assert [] == _seen(Reader.OWNER) == _seen(Reader.KEEPER) == _seen(Reader.PUBLIC)


@pytest.mark.parametrize("reader", list(Reader))
def test_quote__is_for_whom_it_says(reader: Reader) -> None:
    shown = ["sills"] if reader in (Reader.WORKSHOP, Reader.OWNER) else []
    assert shown == _seen(reader, **{"for": "owner"})


def test_workshop_sums__are_sums_that_there_are() -> None:
    assert set(SUM_NAMED) >= WORKSHOP_SUMS

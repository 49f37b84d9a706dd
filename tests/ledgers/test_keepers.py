"""Keepers: the chain, its gaps and overlaps, registrations, and an odometer that runs backwards."""

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from journal.ledgers.keepers import Keepers, fold_keepers
from journal.ledgers.keepers.chain import Trouble, same_person
from journal.ledgers.keepers.counts import count_in
from tests.writing import a_car, a_sheet


def _keeper(name: str, from_: str = "", to: str = "") -> dict[str, str]:
    days = {"from": from_, "to": to}
    return {"name": name, **{key: day for key, day in days.items() if day}}


def _chain(*keepers: dict[str, str], **more: Any) -> Keepers:
    """One book with these keepers; the last of them is the owner unless another one is given."""
    papers = {"book": {"title": "Registration book", "keepers": list(keepers)}}
    return fold_keepers(a_car({}, papers=papers, **{"owner": keepers[-1]["name"], **more}))


def _troubles(keepers: Keepers) -> list[Trouble]:
    return [finding.trouble for finding in keepers.findings]


ADA = _keeper("Miss Ada Fenwick", "1958-05-22", "1961-08-14")
BEN = _keeper("Mr Ben Harker", "1961-08-14", "1970-01-31")
CLARA = _keeper("Clara Moss", "1970-02-01")


def test_chain__without_a_break_has_nothing_to_tell() -> None:
    keepers = _chain(ADA, BEN, CLARA)
    assert ["Miss Ada Fenwick", "Mr Ben Harker", "Clara Moss"] == [s.name for s in keepers.stints]
    assert [] == _troubles(keepers)


def test_chain__is_in_order_of_days_however_it_is_written() -> None:
    assert _chain(ADA, BEN, CLARA).stints == _chain(BEN, ADA, CLARA).stints


def test_gap__of_days_that_no_paper_tells_of() -> None:
    (finding,) = _chain(ADA, CLARA).findings
    assert Trouble.GAP == finding.trouble
    assert (date(1961, 8, 14), date(1970, 2, 1)) == (finding.from_, finding.to)
    assert ("book",) == finding.papers


def test_overlap__of_two_keepers_on_the_same_days() -> None:
    (finding,) = _chain(ADA, _keeper("Ben Harker", "1961-06-01")).findings
    assert Trouble.OVERLAP == finding.trouble
    assert (date(1961, 6, 1), date(1961, 8, 14)) == (finding.from_, finding.to)


def test_overlap__of_a_keeper_within_the_days_of_another() -> None:
    within = _keeper("Lodger", "1959-01-01", "1959-06-01")
    (finding,) = _chain(ADA, within, _keeper("Ben Harker", "1961-08-15")).findings
    assert (date(1959, 1, 1), date(1959, 6, 1)) == (finding.from_, finding.to)


def test_handing_over__on_the_next_day_is_no_gap() -> None:
    assert [] == _troubles(_chain(ADA, _keeper("Ben Harker", "1961-08-15")))


def test_passing__on_a_day_that_no_paper_gives_is_told() -> None:
    keepers = _chain(_keeper("Ada Fenwick", "1958-05-22"), _keeper("Ben Harker", "1961-08-14"))
    assert [Trouble.UNTOLD] == _troubles(keepers)


def test_keeper__in_two_papers_is_one_whose_days_agree() -> None:
    papers = {
        "book": {"title": "Book", "keepers": [_keeper("Clara Moss", "1970-02-01")]},
        "document": {"title": "Document", "keepers": [_keeper("MRS CLARA MOSS", "1970-02-01")]},
    }
    keepers = fold_keepers(a_car({}, papers=papers, owner="Clara Moss"))
    (stint,) = keepers.stints
    assert ("book", "document") == stint.papers
    assert [] == _troubles(keepers)


def test_keeper__with_other_days_in_another_paper_is_told_with_both() -> None:
    papers = {
        "book": {"title": "Book", "keepers": [_keeper("Clara Moss", "1970-02-01")]},
        "letter": {"title": "Letter", "keepers": [_keeper("Clara Moss", "1971-03-01")]},
    }
    (finding,) = fold_keepers(a_car({}, papers=papers, owner="Clara Moss")).findings
    assert Trouble.DATES == finding.trouble
    assert (date(1970, 2, 1), date(1971, 3, 1)) == (finding.from_, finding.to)
    assert ("book", "letter") == finding.papers


def test_keeper__who_bought_the_car_back_is_there_twice() -> None:
    again = _keeper("Ada Fenwick", "1970-02-01")
    assert [] == _troubles(_chain(ADA, BEN, again))
    assert 3 == len(_chain(ADA, BEN, again).stints)


def test_keeper__who_leaves_before_coming_is_a_problem_and_breaks_nothing_else() -> None:
    keepers = _chain(_keeper("Ada Fenwick", "1962-02-05", "1926-09-30"))
    assert [Trouble.BACKWARDS] == _troubles(keepers)
    assert ["keeper-backwards"] == [p.code for p in keepers.problems]


def test_keeper__before_the_car_was_built_is_told() -> None:
    assert [Trouble.EARLY] == _troubles(_chain(_keeper("Ada Fenwick", "1957-12-31"), year="1958"))


def test_owner__who_is_not_in_the_papers_ends_the_chain() -> None:
    keepers = _chain(ADA, BEN, CLARA, owner="Mrs Eleanor Harrow")
    assert "Mrs Eleanor Harrow" == keepers.stints[-1].name
    assert [Trouble.OWNER] == _troubles(keepers)
    keepers = _chain(ADA, BEN, owner="Mrs Eleanor Harrow")
    assert [Trouble.UNTOLD] == _troubles(keepers)


def test_chain__without_any_paper_is_empty() -> None:
    keepers = fold_keepers(a_car({}))
    assert ((), ()) == (keepers.stints, keepers.findings)


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("Mrs Ruth Ansdale", "Ruth Ansdale", True),
        ("Dr. J. O'Hara", "J O'Hara", True),
        ("Peter Vosper", "Thomas Vosper", False),
    ],
)
def test_person__is_the_same_whatever_the_title(one: str, other: str, same: bool) -> None:
    assert same is same_person(one, other)


# Registrations


def test_registrations__stand_in_the_order_in_which_they_were_first_given() -> None:
    papers = {
        "document": {"title": "Document", "date": "1994-11-02", "registration": "OLD 9"},
        "book": {"title": "Book", "date": "1964-03-09", "registration": "TERN 58"},
        "ticket": {"title": "Ticket", "registration": "tern58"},
    }
    plates = fold_keepers(a_car({}, papers=papers, plate="OLD 9")).plates
    assert [("TERN 58", ["book", "ticket"]), ("OLD 9", ["document", None])] == [
        (plate.value, [paper for paper, _ in plate.given]) for plate in plates
    ]


# The odometer


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("48,206", 48206), ("48 206 miles", 48206), ("reads 48.206", 48206), ("71530", 71530),
        ("about 9,100", 9100), ("5 figures, 1,234", 5), ("not known", None), ("", None),
    ],
)  # fmt: skip
def test_mileage__is_read_from_words(text: str, count: int | None) -> None:
    assert count == count_in(text)


def _odometer(*papers: tuple[str, str], sheets: tuple[Any, ...] = (), **car: Any) -> Keepers:
    written = {
        f"p{n}": {"title": "Bill", "date": day, "odometer": count}
        for n, (day, count) in enumerate(papers)
    }
    return fold_keepers(
        a_car({"instruments/speedometer": "first-fit"}, sheets, papers=written, **car)
    )


def test_odometer__gathers_papers_booking_in_and_sheets_in_order() -> None:
    sheets = (a_sheet("2024-01-02", odometer="48210"),)
    keepers = _odometer(
        ("1976-04-02", "48112"), ("1967-11-20", "31904"), sheets=sheets, mileage="48,206"
    )
    assert [31904, 48112, 48206, 48210] == [count.value for count in keepers.counts]
    assert ((), ()) == (keepers.backwards, keepers.problems)


def test_odometer__that_runs_backwards_is_shown_with_both_papers_and_is_no_problem() -> None:
    keepers = _odometer(("1967-11-20", "31904"), ("1969-06-03", "29310"), ("1970-01-01", "30000"))
    assert [("p0", "p1"), ("p0", "p2")] == [(b.paper, n.paper) for b, n in keepers.backwards]
    assert () == keepers.problems


def test_odometer__read_twice_on_one_day_does_not_run_backwards() -> None:
    assert () == _odometer(("1967-11-20", "31904"), ("1967-11-20", "31900")).backwards


def test_odometer__on_a_paper_without_a_day_cannot_run_backwards_and_stands_last() -> None:
    papers = {
        "a": {"title": "A", "odometer": "9"},
        "b": {"title": "B", "date": "1967-11-20", "odometer": "20"},
    }
    keepers = fold_keepers(a_car({}, papers=papers))
    assert ["b", "a"] == [count.paper for count in keepers.counts]
    assert () == keepers.backwards


def test_odometer__of_a_sheet_below_the_booking_in_is_a_problem() -> None:
    keepers = _odometer(sheets=(a_sheet("2024-01-02", odometer="48026"),), mileage="48,206")
    assert ["odometer-backwards"] == [p.code for p in keepers.problems]
    assert (Decimal(48206), Decimal(48026)) == tuple(c.value for c in keepers.backwards[0])


def test_odometer__that_was_exchanged_may_start_again() -> None:
    other = a_sheet(
        "2024-01-02", odometer="12", work={"instruments/speedometer": {"now": "old-stock"}}
    )
    keepers = _odometer(sheets=(other,), mileage="48,206")
    assert ((), ()) == (keepers.backwards, keepers.problems)
    assert [other.name] == [sheet for _, sheet in keepers.exchanged]

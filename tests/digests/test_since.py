"""What has changed since a bag: files by their seals, and rows that differ."""

from datetime import date

from journal.digests.since import Bag, Change, How, Told, digest_since
from journal.ledgers.seals import SealedFile, Sealing, Seals, Standing
from journal.records.seal import Statement
from journal.words.merkle import EMPTY

NONE = EMPTY.hex()
ONE = {"state": "proved", "on": "2024-03-05"}


def a_seal(number: int, up_to: str) -> Statement:
    day = date.fromisoformat(up_to)
    return Statement("tern", "Shed", number, day, day, number, NONE, number - 1, NONE, NONE)


def a_file(path: str, *seals: int, day: str | None = None) -> SealedFile:
    sealings = tuple(Sealing(n, date(2024, n, 1), "0" * 64) for n in seals)
    told = date.fromisoformat(day) if day else None
    return SealedFile(path, Standing.SEALED, sealings, "0" * 64, told)


def told(**tables: object) -> Told:
    whole = {"ledger": {}, "proving": {}, "rechecks": {}, "reservations": (), **tables}
    return Told(**whole)  # type: ignore[arg-type]


def since(files: tuple[SealedFile, ...], names: set[str], before: Told, now: Told):
    bag = Bag(1, "tern-2024-03-31", date(2024, 3, 31), a_seal(2, "2024-03-31"), before)
    return digest_since(bag, seals=Seals(files=files), told=names, now=now)


def test_file__came_later_by_its_seals_and_its_day() -> None:
    files = (
        a_file("a", 1), a_file("b", 2, day="2024-03-30"), a_file("c", 3, day="2024-04-01"),
        a_file("d", 3, day="2024-03-31"), a_file("e", 1, 4), a_file("f", 3),
    )  # fmt: skip
    found = since(files, set("abcdef"), told(), told())
    assert {"c": How.NEW, "d": How.ADDED, "e": How.AMENDED, "f": How.NEW} == found.files
    assert 0 == found.untold


def test_file_that_is_not_for_the_reader__is_counted_and_not_named() -> None:
    files = (a_file("a", 3), a_file("b", 1, 3), a_file("c", 1))
    found = since(files, {"a"}, told(), told())
    assert ({"a": How.NEW}, 1) == (found.files, found.untold)


def test_row__is_told_with_the_columns_that_differ() -> None:
    later = {**ONE, "on": "2024-06-01"}
    found = since(
        (), set(), told(proving={"a": ONE, "b": ONE}), told(proving={"a": later, "b": ONE})
    )
    assert (Change("a", ONE, later, ("on",)),) == found.proving


def test_row_that_came_or_went__is_told_whole_and_what_went_stands_last() -> None:
    found = since((), set(), told(ledger={"gone": ONE}), told(ledger={"new": {**ONE, "on": ""}}))
    assert (
        Change("new", None, {**ONE, "on": ""}, ("state",)),
        Change("gone", ONE, None, ("state", "on")),
    ) == found.ledger


def test_column_that_the_bag_does_not_have__is_not_compared() -> None:
    more = {**ONE, "tool": "gauge"}
    assert () == since((), set(), told(ledger={"a": ONE}), told(ledger={"a": more})).ledger


def test_recheck__is_asked_for_anew_or_done_since() -> None:
    before = told(
        rechecks={("oil", "2024-03-05"): {"done": ""}, ("nuts", "2024-03-05"): {"done": "x"}}
    )
    now = told(
        rechecks={
            ("oil", "2024-03-05"): {"done": "2024-05-01"}, ("nuts", "2024-03-05"): {"done": "x"},
            ("oil", "2024-05-01"): {"done": ""},
        }
    )  # fmt: skip
    found = since((), set(), before, now)
    assert frozenset({("oil", "2024-05-01")}) == found.asked
    assert frozenset({("oil", "2024-03-05")}) == found.done


def test_reservations__are_new_or_cleared() -> None:
    a, b, c = {"reservation": "a"}, {"reservation": "b"}, {"reservation": "c"}
    found = since((), set(), told(reservations=(a, b)), told(reservations=(c, b)))
    assert ((0,), (a,)) == (found.raised, found.cleared)

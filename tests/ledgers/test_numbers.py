"""Stamped numbers: what the papers say, what is read on the car, and where the two part."""

from journal.ledgers.numbers import fold_numbers
from tests.writing import a_car, a_sheet


def _numbers(tag: str, record: str, *readings: str) -> bool:
    sheets = [
        a_sheet(f"2024-01-{day:02d}", work={"papers/body-tag": {"number": reading}})
        for day, reading in enumerate(readings, 1)
    ]
    car = a_car(
        {"papers/body-tag": "first-fit"},
        sheets,
        papers={"record": {"title": "Factory record", "numbers": {"body": record}}},
        numbers={"body": {"found": tag, "on": "papers/body-tag"}},
    )
    numbers = fold_numbers(car)
    (line,) = numbers.lines
    assert ({"papers/body-tag"} if line.disputed else set()) == set(numbers.disputed_components)
    return line.disputed


def test_number__that_agrees_with_the_record_is_not_disputed() -> None:
    assert not _numbers("D 0398", "D 0398")


def test_number__differing_in_a_digit_is_disputed() -> None:
    assert _numbers("D 0398", "D 0393")


def test_number__written_with_other_blanks_and_strokes_is_the_same() -> None:
    assert not _numbers("D 0398", "d-0398", "D0398")


def test_number__read_otherwise_later_is_disputed() -> None:
    assert _numbers("D 0398", "D 0398", "D 0393")


def test_number__known_to_papers_alone_is_kept() -> None:
    car = a_car({}, papers={"book": {"title": "Log book", "numbers": {"key": "FA 311"}}})
    assert [("key", None)] == [(line.name, line.on) for line in fold_numbers(car).lines]

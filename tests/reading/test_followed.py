"""Whose a line is that does not say so: nothing that was kept back comes out by forgetting."""

from typing import Any

import pytest

from journal.reading.followed import readers_followed
from journal.words.vocabulary import Reader
from tests.writing import a_sheet


def _readers(*lines: dict[str, Any], kind: str = "snags", sheets: str = "ppp") -> str:
    """The reader of each line under one name, by first letters; so are those of the sheets."""
    full = {reader.value[0]: reader.value for reader in Reader}
    read = readers_followed(
        [
            a_sheet(f"2024-01-0{n + 1}", for_=full[sheets[n]], **{kind: {"thing": line}})
            for n, line in enumerate(lines)
        ]
    )
    found = [getattr(sheet.front, kind).get("thing") for sheet in read]
    return "".join(line.for_.value[0] for line in found)


SHOP, OWN, NEXT, ALL = ({"for": reader.value} for reader in Reader)


@pytest.mark.parametrize(
    ("lines", "readers"),
    [
        ([{}, {}], "kk"),
        ([SHOP, {}, {}], "www"),
        ([ALL, {}], "pp"),
        ([SHOP, ALL, {}], "wpp"),
        ([SHOP, OWN, {}], "woo"),
        ([OWN, NEXT, {}], "okk"),
        # A private word on an open thing is private alone.
        ([{}, SHOP, {}], "kwk"),
        ([{}, OWN, {}], "kok"),
    ],
)
def test_line__has_the_reader_of_the_first_under_its_name(
    lines: list[dict[str, Any]], readers: str
) -> None:
    assert readers == _readers(*lines)


@pytest.mark.parametrize("kind", ["parts", "outwork", "snags", "rechecks"])
def test_thing_first_told_of_in_a_sheet_for_fewer__stays_with_them(kind: str) -> None:
    assert "w" == _readers({}, {}, kind=kind, sheets="wp")[1]
    assert "p" == _readers({}, ALL, kind=kind, sheets="wp")[1]


def test_names__are_apart_by_kind() -> None:
    sheet = a_sheet("2024-01-01", parts={"a": {"for": "workshop"}}, snags={"a": {"raise": "x"}})
    later = a_sheet("2024-01-02", parts={"a": {}}, snags={"a": {"clear": "x"}})
    front = readers_followed([sheet, later])[1].front
    assert [Reader.WORKSHOP, Reader.KEEPER] == [
        line.for_ for lines in (front.parts, front.snags) for _, line in lines
    ]

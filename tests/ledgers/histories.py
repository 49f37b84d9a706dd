"""Histories of one component for tests of the originality ledger."""

from fractions import Fraction
from typing import Any

from journal.ledgers.originality import Line
from journal.ledgers.originality.fold import fold_originality
from journal.records.carfile import CarFile
from journal.words.amounts import Interval
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

"""News: what came in lately, hours of the week, and what happened since the last statement."""

from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import Any

from journal.digests.news import News, digest_news
from journal.ledgers.hours import fold_hours
from journal.ledgers.originality.fold import fold_originality
from journal.ledgers.outwork import fold_outwork
from journal.ledgers.parts import fold_parts
from journal.ledgers.snags import fold_snags
from journal.records.carfile import CarFile
from journal.words.vocabulary import GoodsIn
from tests.writing import a_car, a_sheet

REGISTER = {"brakes/pipes": "first-fit", "fuel/pump": "first-fit"}


def _news(car: CarFile, day: str) -> News:
    return digest_news(
        car, parts=fold_parts(car), outwork=fold_outwork(car), hours=fold_hours(car),
        originality=fold_originality(car), snags=fold_snags(car), day=date.fromisoformat(day),
    )  # fmt: skip


def _hours(day: str, hours: str, **front: Any) -> Any:
    return a_sheet(day, hours={"MT": hours}, **front)


def test_week__begins_on_monday() -> None:
    """ISO 8601 weeks: 2024-03-04 is a Monday (checked by the standard library's calendar)."""
    sheets = [_hours("2024-03-03", "8"), _hours("2024-03-04", "3"), _hours("2024-03-06", "2.5")]
    news = _news(a_car(REGISTER, sheets), "2024-03-06")
    assert date(2024, 3, 4) == news.monday
    assert 1 == news.monday.isocalendar().weekday
    assert Fraction("5.5") == news.week


def test_came_in__goods_and_outwork_of_the_last_seven_days_the_latest_first() -> None:
    sheets = [
        a_sheet("2024-03-01", parts={"old": {"ordered": "2024-02-01", "received": "today"}},
                outwork={"plating": {"what": "bolts", "sent": "10"}}),
        a_sheet("2024-03-08", parts={"pipe": {"what": "Pipe", "ordered": "2024-02-01",
                "received": "today", "qty": "2", "outcome": "reworked", "why": "flare"}}),
        a_sheet("2024-03-10", outwork={"plating": {"back": "9"}}),
    ]  # fmt: skip
    came = _news(a_car(REGISTER, sheets), "2024-03-10").came_in
    assert [
        ("bolts", Decimal(9), None, True),
        ("Pipe", Decimal(2), GoodsIn.REWORKED, False),
    ] == [(c.what, c.count, c.outcome, c.outwork) for c in came]


def test_since__is_not_told_before_a_statement_was_issued() -> None:
    assert _news(a_car(REGISTER, [_hours("2024-03-04", "3")]), "2024-03-04").since is None

"""Hours: by month, by subsystem, and by hand where hands are named."""

from fractions import Fraction
from typing import NamedTuple

from journal.pages.charts import MONTH_LANE_HEIGHT, Column, Month, month_columns, month_lane
from journal.pages.common import frame
from journal.pages.links import Links, Ref
from journal.pages.page import Page
from journal.pages.view import CarView
from journal.pages.words import hours_number, hours_words, month_words, some
from journal.pages.workwords import view_hand
from journal.words.amounts import percent
from journal.words.dates import months_between

PATH = "hours.html"


class SubsystemHours(NamedTuple):
    """The hours of a subsystem, with a small drawing of them month by month."""

    ref: Ref
    days: str
    hours: str
    share: str
    columns: tuple[Column, ...]


class MonthHours(NamedTuple):
    """The hours of a month, with those of its subsystems, most first."""

    name: str
    hours: str
    parts: tuple[tuple[Ref, str], ...]


def page_hours(view: CarView) -> tuple[Page, ...]:
    """Hours in drawings, and in the tables beside them."""
    links = Links(view, PATH)
    months = _months(view)
    by_month = view.hours.by_month()
    words = {m: f"{month_words(*m)}: {hours_words(h)}" for m, h in by_month.items()}
    hands = {h: n for h, n in view.hours.by_hand().items() if h}
    values = {
        **frame(links, "Hours"),
        "total": hours_words(view.hours.total),
        "worked": some(len({s.day for s in view.hours.spent}), "day"),
        "any": bool(view.hours.spent),
        "lane_height": MONTH_LANE_HEIGHT,
        "columns": month_columns(by_month, months, words),
        "subsystems": _subsystems(view, links, months),
        "hands": tuple((view_hand(view, h), hours_number(n)) for h, n in hands.items()),
        "months": tuple(_month(view, links, m) for m in by_month),
    }
    return (Page(view.base + PATH, "hours.html", values),)


def _months(view: CarView) -> tuple[Month, ...]:
    days = [s.day for s in view.hours.spent]
    return months_between(min(days), max(days)) if days else ()


def _subsystems(
    view: CarView, links: Links, months: tuple[Month, ...]
) -> tuple[SubsystemHours, ...]:
    """One row a subsystem, all drawn to the same scale."""
    cells = view.hours.by_month_and_subsystem()
    most = max(cells.values(), default=Fraction(0))
    rows = []
    for name, hours in view.hours.by_subsystem().items():
        mine = {month: n for (month, of), n in cells.items() if of == name}
        words = {m: f"{month_words(*m)}: {hours_words(h)}" for m, h in mine.items()}
        drawn = month_lane(mine, months, words, most)
        days = len({s.day for s in view.hours.spent if s.subsystem == name})
        share = f"{percent(hours / view.hours.total)} %" if view.hours.total else ""
        row = SubsystemHours(links.subsystem(name), str(days), hours_number(hours), share, drawn)
        rows.append((hours, row))
    return tuple(row for _, row in sorted(rows, key=lambda pair: -pair[0]))


def _month(view: CarView, links: Links, month: Month) -> MonthHours:
    cells = view.hours.by_month_and_subsystem()
    mine = sorted((-n, of) for (m, of), n in cells.items() if m == month)
    parts = tuple((links.subsystem(of), hours_number(-n)) for n, of in mine)
    return MonthHours(month_words(*month), hours_number(view.hours.by_month()[month]), parts)

"""All day sheets in order, month by month."""

from itertools import groupby
from typing import NamedTuple

from journal.pages.common import frame
from journal.pages.links import Links
from journal.pages.page import Page
from journal.pages.view import CarView
from journal.pages.words import hours_words
from journal.pages.workwords import DayEntry, day_entry
from journal.records.sheet import Sheet
from journal.words.dates import MONTHS, month_name
from journal.words.text import counted

PATH = "sheets/index.html"


class MonthOfSheets(NamedTuple):
    """The sheets of one month."""

    anchor: str
    name: str
    note: str
    entries: tuple[DayEntry, ...]


class YearOfMonths(NamedTuple):
    """The months of a year that have sheets: anchor, short name and full name of each."""

    year: str
    months: tuple[tuple[str, str, str], ...]


def page_sheets(view: CarView) -> tuple[Page, ...]:
    """The index of sheets."""
    links = Links(view, PATH)
    months = groupby(view.car.sheets, key=lambda s: (s.date.year, s.date.month))
    values = {
        **frame(links, "Day sheets"),
        "months": tuple(_month(view, links, ym, tuple(sheets)) for ym, sheets in months),
        "years": _years(view.car.sheets),
        "how_many": counted(len(view.car.sheets), "sheet"),
    }
    return (Page(view.base + PATH, "sheets.html", values),)


def _month(
    view: CarView, links: Links, month: tuple[int, int], sheets: tuple[Sheet, ...]
) -> MonthOfSheets:
    hours = view.hours.by_month().get(month)
    note = counted(len(sheets), "sheet") + (f", {hours_words(hours)}" if hours else "")
    entries = tuple(day_entry(view, links, sheet) for sheet in sheets)
    return MonthOfSheets(_anchor(month), month_name(*month), note, entries)


def _years(sheets: tuple[Sheet, ...]) -> tuple[YearOfMonths, ...]:
    months = sorted({(s.date.year, s.date.month) for s in sheets})
    return tuple(
        YearOfMonths(
            str(year),
            tuple((_anchor(m), MONTHS[m[1] - 1][:3], month_name(*m)) for m in of_year),
        )
        for year, of_year in groupby(months, key=lambda m: m[0])
    )


def _anchor(month: tuple[int, int]) -> str:
    return f"m-{month[0]}-{month[1]:02d}"

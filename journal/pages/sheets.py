"""All day sheets in order, month by month."""

from collections.abc import Sequence
from functools import partial
from itertools import groupby
from typing import Any

from journal.pages.common import frame
from journal.pages.leafwords import OLDEST_FIRST, beginnings, days_told, titled, turn_words
from journal.pages.links import Links, Ref
from journal.pages.page import Later, Page
from journal.pages.parting import Leaf, Section, Stretch, parted
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import hours_words
from journal.pages.workwords import DayEntry, day_entry
from journal.records.sheet import Sheet
from journal.words.dates import MONTHS, month_name
from journal.words.groups import grouped
from journal.words.text import counted

PATH = "sheets/index.html"
# As many sheets as one page holds.
ROOM = 225


class MonthOfSheets(Value, frozen=True):
    """The sheets of one month, or those of them that one page has."""

    anchor: str
    name: str
    note: str
    entries: tuple[DayEntry, ...]


class YearOfMonths(Value, frozen=True):
    """A year that has sheets, with its months by their short and full names. A year of which this page
    has nothing is told in one: `Jan to Dec`."""

    year: str
    months: tuple[tuple[Ref, str], ...]


def page_sheets(view: CarView) -> tuple[Page, ...]:
    """The index of sheets."""
    start, months = Links(view, ""), _months(view)
    leaves = parted(PATH, months, ROOM)
    counts = {month.key: len(month.entries) for month in months}
    return tuple(
        Page(
            view.base + leaf.path, "sheets.html",
            Later(partial(_values, start, leaves, leaf, counts)),
        )
        for leaf in leaves
    )  # fmt: skip


def _months(view: CarView) -> tuple[Section, ...]:
    return tuple(
        Section(month, tuple(sheets)) for month, sheets in groupby(view.car.sheets, key=_anchor)
    )


def _values(
    start: Links, leaves: tuple[Leaf, ...], leaf: Leaf, counts: dict[str, int]
) -> dict[str, Any]:
    links = start.at(leaf.path)
    return {
        **frame(links, titled("Day sheets", leaf)),
        "months": tuple(_month(links, stretch, counts[stretch.key]) for stretch in leaf.stretches),
        "years": _years(links, leaves, leaf),
        "how_many": counted(sum(counts.values()), "sheet"),
        "turn": turn_words(links, leaves, _told, OLDEST_FIRST),
    }


def _told(leaf: Leaf) -> str:
    return days_told([sheet.date for stretch in leaf.stretches for sheet in stretch.entries])


def _month(links: Links, stretch: Stretch, count: int) -> MonthOfSheets:
    view, month = links.view, _month_of(stretch)
    hours = view.hours.by_month().get(month)
    note = counted(count, "sheet") + (f", {hours_words(hours)}" if hours else "")
    note += ", continued" if stretch.first else ""
    entries = tuple(day_entry(view, links, sheet) for sheet in stretch.entries)
    return MonthOfSheets(stretch.key, month_name(*month), note, entries)


def _years(links: Links, leaves: tuple[Leaf, ...], leaf: Leaf) -> tuple[YearOfMonths, ...]:
    here = {stretch.entries[0].date.year for stretch in leaf.stretches}
    begun = [(_month_of(s), p) for s, p in beginnings(links, leaves)]
    return tuple(
        YearOfMonths(
            str(year),
            tuple(_named(*month) for month in months) if year in here else (_in_one(months),),
        )
        for year, months in grouped(begun, lambda month: month[0][0]).items()
    )


def _month_of(stretch: Stretch) -> tuple[int, int]:
    day = stretch.entries[0].date
    return day.year, day.month


def _named(month: tuple[int, int], place: str) -> tuple[Ref, str]:
    return Ref(MONTHS[month[1] - 1][:3], place), month_name(*month)


def _in_one(months: Sequence[tuple[tuple[int, int], str]]) -> tuple[Ref, str]:
    (first, full), (last, full_last) = _named(*months[0]), _named(*months[-1])
    if len(months) == 1:
        return first, full
    name, _, _ = full.partition(" ")
    return Ref(f"{first.text} to {last.text}", first.href), f"{name} to {full_last}"


def _anchor(sheet: Sheet) -> str:
    return f"m-{sheet.date:%Y-%m}"

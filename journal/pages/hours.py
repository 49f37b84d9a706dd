"""Hours: by month, week and kind, by subsystem, and by hand where hands are named."""

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from fractions import Fraction
from functools import partial
from typing import Any

from msgspec import Struct

from journal.ledgers.hours import Hours
from journal.pages.charts import (
    MONTH_LANE_HEIGHT,
    Column,
    Month,
    lane_of,
    month_columns,
    year_columns,
)
from journal.pages.common import Place, frame
from journal.pages.leafwords import Turn
from journal.pages.links import Links, Ref
from journal.pages.moneycharts import WeekColumns, week_columns, weeks_between
from journal.pages.page import Later, Page
from journal.pages.parting import folder_of, seen_around
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import (
    Figure,
    decimals_in,
    exact_hours,
    hours_figure,
    hours_words,
    month_words,
    sentence,
    some,
)
from journal.pages.workwords import view_hand
from journal.words.amounts import percent
from journal.words.dates import months_between, plain_date
from journal.words.groups import grouped
from journal.words.text import listed
from journal.words.vocabulary import HourKind

PATH = "hours.html"


# A work of more months than this has a page for each of its years.
MONTHS_ROOM = 36
# As many parts that did not fit as stand on the page of all years, those first that cost most hours.
WORST = 40


class SubsystemHours(Value, frozen=True):
    """The hours of a subsystem, with a small drawing of them by month or by year."""

    ref: Ref
    days: str
    hours: Figure
    share: str
    columns: tuple[Column, ...]


class MonthHours(Value, frozen=True):
    """The hours of a month, with those of its subsystems, most first."""

    name: str
    hours: str
    parts: tuple[tuple[Ref, str], ...]


class YearHours(Value, frozen=True):
    """The hours of a year, leading to its page."""

    ref: Ref
    days: str
    hours: Figure


class HandHours(Value, frozen=True):
    """The hours of a hand, by kind in the order of the page, and in all."""

    hand: str
    kinds: tuple[Figure, ...]
    hours: Figure


class KindHours(Value, frozen=True):
    """The hours of a kind, and what the kind means."""

    kind: str
    meaning: str
    hours: Figure


class LostHours(Value, frozen=True):
    """Hours that a part made necessary by not fitting, and the sheets that tell of them."""

    part: Ref
    hours: Figure
    sheets: tuple[Ref, ...]


_MEANING = {
    HourKind.BILLABLE: "charged to the owner",
    HourKind.REWORK: "spent because a thing did not fit, told and not charged",
    HourKind.GOODWILL: "given by the workshop, told and not charged",
}


def page_hours(view: CarView) -> tuple[Page, ...]:
    """Hours in drawings, and in the tables beside them; a long work year by year."""
    start = Links(view, "")
    if len(_months(view.hours)) <= MONTHS_ROOM:
        return (_page(start, PATH, partial(_short_values, start)),)
    years = view.hours.by_year()
    return (
        _page(start, PATH, partial(_long_values, start, years)),
        *(_page(start, _path(year), partial(_year_values, start, years, year)) for year in years),
    )


def _page(start: Links, path: str, values: Callable[[], dict[str, Any]]) -> Page:
    return Page(start.view.base + path, "hours.html", Later(values))


def _path(year: int) -> str:
    return f"{folder_of(PATH)}{year}.html"


def _short_values(start: Links) -> dict[str, Any]:
    return _by_month(start.at(PATH), "Hours", start.view.hours)


def _year_values(start: Links, years: Mapping[int, Hours], year: int) -> dict[str, Any]:
    links = start.at(_path(year))
    return {
        **_by_month(links, f"Hours of {year}", years[year]),
        "over": Ref("Hours of all years", links.to(PATH)),
        "turn": _turn(links, tuple(years), year),
    }


def _turn(links: Links, years: tuple[int, ...], year: int) -> Turn:
    """From one year to the others."""
    here, of = years.index(year), len(years)
    numbers = seen_around(here + 1, of)
    return Turn(
        "The years",
        tuple(_place(links, years[n - 1]) if n else None for n in numbers),
        ("Earlier", Ref(str(years[here - 1]), links.to(_path(years[here - 1])))) if here else None,
        ("Later", Ref(str(years[here + 1]), links.to(_path(years[here + 1]))))
        if here + 1 < of
        else None,
        "",
    )


def _place(links: Links, year: int) -> Place:
    path = _path(year)
    return Place(str(year), links.to(path), "page" if path == links.path else "")


def _by_month(links: Links, title: str, hours: Hours) -> dict[str, Any]:
    """What a page shows of hours month by month."""
    months, by_month = _months(hours), hours.by_month()
    words = {m: f"{month_words(*m)}: {hours_words(h)}" for m, h in by_month.items()}
    return {
        **_in_all(links, title, hours),
        "by": "month",
        "columns": month_columns(by_month, months, words),
        "subsystems": _subsystems(links, hours, _in_months(hours, months)),
        "weeks": _week_columns(hours),
        "week_rows": _week_rows(hours),
        "lost": _lost(links, hours),
        "months": tuple(_month(links, hours, m) for m in by_month),
    }


def _long_values(start: Links, years: Mapping[int, Hours]) -> dict[str, Any]:
    """What the page of a long work shows: year by year, leading to the page of each."""
    links, hours = start.at(PATH), start.view.hours
    every = range(min(years), max(years) + 1)
    totals = {year: of.total for year, of in years.items()}
    words = {year: f"{year}: {hours_words(total)}" for year, total in totals.items()}
    lost = _lost(links, hours)
    return {
        **_in_all(links, "Hours", hours),
        "by": "year",
        "columns": year_columns(totals, every, words),
        "subsystems": _subsystems(links, hours, _in_years(years, every)),
        "years": _year_rows(links, years),
        "lost": lost[:WORST],
        "lost_more": some(len(lost) - WORST, "part") if len(lost) > WORST else "",
    }


def _in_all(links: Links, title: str, hours: Hours) -> dict[str, Any]:
    """What every page shows of its hours, and nothing yet of what only some of them show."""
    view = links.view
    return {
        **dict.fromkeys(("over", "turn", "weeks")),
        **dict.fromkeys(("years", "week_rows", "months"), ()),
        "lost_more": "",
        **frame(links, title),
        "total": total_words(hours.total),
        "worked": some(len({s.day for s in hours.spent}), "day"),
        "any": bool(hours.spent),
        "lane_height": MONTH_LANE_HEIGHT,
        "hands": _hands(view, hours),
        "kinds": _kinds(hours),
        "lost_in_all": exact_hours(sum((s.hours for s in hours.lost), Fraction(0))),
    }


def _year_rows(links: Links, years: Mapping[int, Hours]) -> tuple[YearHours, ...]:
    decimals = decimals_in(hours.total for hours in years.values())
    return tuple(
        YearHours(
            Ref(str(year), links.to(_path(year))),
            str(len({s.day for s in hours.spent})),
            hours_figure(hours.total, decimals),
        )
        for year, hours in years.items()
    )


def total_words(hours: Fraction) -> str:
    """`587.95 hours`, to a hundredth however many they are."""
    return f"{exact_hours(hours)} {'hour' if hours == 1 else 'hours'}"


def _hands(view: CarView, told_hours: Hours) -> tuple[HandHours, ...]:
    """A row for each hand, and the last for all of them, where there are several."""
    hands = {hand: hours for hand, hours in told_hours.by_hand().items() if hand}
    told, kinds = told_hours.by_hand_and_kind(), tuple(told_hours.by_kind())
    rows = [
        (view_hand(view, hand), [told.get((hand, kind), Fraction(0)) for kind in kinds], hours)
        for hand, hours in hands.items()
    ]
    if len(rows) > 1:
        sums = [sum(column, Fraction(0)) for column in zip(*(by for _, by, _ in rows), strict=True)]
        rows.append(("Together", sums, sum(hands.values(), Fraction(0))))
    decimals = [decimals_in(column) for column in zip(*(by for _, by, _ in rows), strict=True)]
    last = decimals_in(hours for _, _, hours in rows)
    return tuple(
        HandHours(
            name,
            tuple(hours_figure(n or None, d) for n, d in zip(by, decimals, strict=True)),
            hours_figure(hours, last),
        )
        for name, by, hours in rows
    )


def _kinds(hours: Hours) -> tuple[KindHours, ...]:
    """Hours by kind, where there is more than one kind to tell apart."""
    kinds = hours.by_kind()
    if len(kinds) < 2:
        return ()
    decimals = decimals_in(kinds.values())
    return tuple(
        KindHours(k.value, _MEANING[k], hours_figure(n, decimals)) for k, n in kinds.items()
    )


def _week_columns(hours: Hours) -> WeekColumns | None:
    days = [s.day for s in hours.spent]
    if not days:
        return None
    weeks = weeks_between(min(days), max(days))
    words = {week: f"week from {_monday(week)}: {_week_words(hours, week)}" for week in weeks}
    return week_columns(hours.by_week_and_kind(), weeks, words)


def _monday(week: tuple[int, int]) -> str:
    return plain_date(date.fromisocalendar(*week, 1))


def _week_words(hours: Hours, week: tuple[int, int]) -> str:
    told = hours.by_week_and_kind()
    found = [(k, told.get((week, k), Fraction(0))) for k in HourKind]
    plain = len(hours.by_kind()) < 2
    said = [hours_words(n) if plain else f"{exact_hours(n)} {k.value}" for k, n in found if n]
    return listed(said) or "no hours"


def _week_rows(hours: Hours) -> tuple[tuple[str, str, Figure], ...]:
    """Each week with work by its number, its Monday, and its hours."""
    weeks = hours.by_week()
    decimals = decimals_in(weeks.values())
    return tuple(
        (f"{week[1]} of {week[0]}", _monday(week), hours_figure(n, decimals))
        for week, n in weeks.items()
    )


def _lost(links: Links, hours: Hours) -> tuple[LostHours, ...]:
    """Hours lost because of each part, with the sheets that tell of them; most first."""
    lost = hours.lost_to_parts()
    decimals = decimals_in(lost.values())
    told = grouped(hours.lost, lambda line: line.because)
    return tuple(
        LostHours(
            _part(links, name),
            hours_figure(lost[name], decimals),
            tuple(links.sheet(sheet) for sheet in dict.fromkeys(s.sheet for s in told[name])),
        )
        for name in sorted(lost, key=lambda name: -lost[name])
    )


def _part(links: Links, name: str) -> Ref:
    known = links.view.parts.named(name)
    what = known.what if known else None
    text = what or sentence(name.replace("-", " "))
    return Ref(text, links.part(name) if known else None)


def _months(hours: Hours) -> tuple[Month, ...]:
    days = [s.day for s in hours.spent]
    return months_between(min(days), max(days)) if days else ()


class Lane(Struct, frozen=True):
    """What a lane draws of one subsystem: its hours by month or year, over those periods and no others,
    and what they come to in words."""

    hours: Mapping[Any, Fraction]
    periods: Sequence[Any]
    words: Mapping[Any, str]


def _in_months(hours: Hours, months: tuple[Month, ...]) -> dict[str, Lane]:
    """The hours of each subsystem by month."""
    lanes: dict[str, dict[Month, Fraction]] = {}
    for (month, name), spent in hours.by_month_and_subsystem().items():
        lanes.setdefault(name, {})[month] = spent
    return {
        name: Lane(
            lane, months, {m: f"{month_words(*m)}: {hours_words(n)}" for m, n in lane.items()}
        )
        for name, lane in lanes.items()
    }


def _in_years(years: Mapping[int, Hours], every: Sequence[int]) -> dict[str, Lane]:
    """The hours of each subsystem by year."""
    lanes: dict[str, dict[int, Fraction]] = {}
    for year, hours in years.items():
        for name, spent in hours.by_subsystem().items():
            lanes.setdefault(name, {})[year] = spent
    return {
        name: Lane(lane, every, {y: f"{y}: {hours_words(n)}" for y, n in lane.items()})
        for name, lane in lanes.items()
    }


def _subsystems(
    links: Links, hours: Hours, lanes: Mapping[str, Lane]
) -> tuple[SubsystemHours, ...]:
    """One row a subsystem, most hours first, all drawn to the same scale."""
    spent = hours.by_subsystem()
    most = max((n for lane in lanes.values() for n in lane.hours.values()), default=Fraction(0))
    decimals = decimals_in(spent.values())
    days = grouped(hours.spent, lambda line: line.subsystem)
    return tuple(
        SubsystemHours(
            links.subsystem(name),
            str(len({line.day for line in days[name]})),
            hours_figure(spent[name], decimals),
            f"{percent(spent[name] / hours.total)} %" if hours.total else "",
            lane_of(lanes[name].hours, lanes[name].periods, lanes[name].words, most),
        )
        for name in sorted(spent, key=lambda name: -spent[name])
    )


def _month(links: Links, hours: Hours, month: Month) -> MonthHours:
    cells = hours.by_month_and_subsystem()
    mine = sorted((-n, of) for (m, of), n in cells.items() if m == month)
    parts = tuple((links.subsystem(of), exact_hours(-n)) for n, of in mine)
    return MonthHours(month_words(*month), exact_hours(hours.by_month()[month]), parts)

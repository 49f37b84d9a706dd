"""Hours: by month, week and kind, by subsystem, and by hand where hands are named."""

from datetime import date
from fractions import Fraction
from typing import NamedTuple

from journal.pages.charts import MONTH_LANE_HEIGHT, Column, Month, month_columns, month_lane
from journal.pages.common import frame
from journal.pages.links import Links, Ref
from journal.pages.moneycharts import WeekColumns, week_columns, weeks_between
from journal.pages.page import Page
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
from journal.words.text import listed
from journal.words.vocabulary import HourKind

PATH = "hours.html"


class SubsystemHours(NamedTuple):
    """The hours of a subsystem, with a small drawing of them month by month."""

    ref: Ref
    days: str
    hours: Figure
    share: str
    columns: tuple[Column, ...]


class MonthHours(NamedTuple):
    """The hours of a month, with those of its subsystems, most first."""

    name: str
    hours: str
    parts: tuple[tuple[Ref, str], ...]


class HandHours(NamedTuple):
    """The hours of a hand, by kind in the order of the page, and in all."""

    hand: str
    kinds: tuple[Figure, ...]
    hours: Figure


class KindHours(NamedTuple):
    """The hours of a kind, and what the kind means."""

    kind: str
    meaning: str
    hours: Figure


class LostHours(NamedTuple):
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
    """Hours in drawings, and in the tables beside them."""
    links = Links(view, PATH)
    months = _months(view)
    by_month = view.hours.by_month()
    words = {m: f"{month_words(*m)}: {hours_words(h)}" for m, h in by_month.items()}
    hands = {h: n for h, n in view.hours.by_hand().items() if h}
    values = {
        **frame(links, "Hours"),
        "total": total_words(view.hours.total),
        "worked": some(len({s.day for s in view.hours.spent}), "day"),
        "any": bool(view.hours.spent),
        "lane_height": MONTH_LANE_HEIGHT,
        "columns": month_columns(by_month, months, words),
        "subsystems": _subsystems(view, links, months),
        "hands": _hands(view, hands),
        "kinds": _kinds(view),
        "weeks": _week_columns(view),
        "week_rows": _week_rows(view),
        "lost": _lost(view, links),
        "lost_in_all": exact_hours(sum((s.hours for s in view.hours.lost), Fraction(0))),
        "months": tuple(_month(view, links, m) for m in by_month),
    }
    return (Page(view.base + PATH, "hours.html", values),)


def total_words(hours: Fraction) -> str:
    """`587.95 hours`, to a hundredth however many they are."""
    return f"{exact_hours(hours)} {'hour' if hours == 1 else 'hours'}"


def _hands(view: CarView, hands: dict[str, Fraction]) -> tuple[HandHours, ...]:
    """A row for each hand, and the last for all of them, where there are several."""
    told, kinds = view.hours.by_hand_and_kind(), tuple(view.hours.by_kind())
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


def _kinds(view: CarView) -> tuple[KindHours, ...]:
    """Hours by kind, where there is more than one kind to tell apart."""
    kinds = view.hours.by_kind()
    if len(kinds) < 2:
        return ()
    decimals = decimals_in(kinds.values())
    return tuple(
        KindHours(k.value, _MEANING[k], hours_figure(n, decimals)) for k, n in kinds.items()
    )


def _week_columns(view: CarView) -> WeekColumns | None:
    days = [s.day for s in view.hours.spent]
    if not days:
        return None
    weeks = weeks_between(min(days), max(days))
    words = {week: f"week from {_monday(week)}: {_week_words(view, week)}" for week in weeks}
    return week_columns(view.hours.by_week_and_kind(), weeks, words)


def _monday(week: tuple[int, int]) -> str:
    return plain_date(date.fromisocalendar(*week, 1))


def _week_words(view: CarView, week: tuple[int, int]) -> str:
    told = view.hours.by_week_and_kind()
    found = [(k, told.get((week, k), Fraction(0))) for k in HourKind]
    plain = len(view.hours.by_kind()) < 2
    said = [hours_words(n) if plain else f"{exact_hours(n)} {k.value}" for k, n in found if n]
    return listed(said) or "no hours"


def _week_rows(view: CarView) -> tuple[tuple[str, str, Figure], ...]:
    """Each week with work by its number, its Monday, and its hours."""
    weeks = view.hours.by_week()
    decimals = decimals_in(weeks.values())
    return tuple(
        (f"{week[1]} of {week[0]}", _monday(week), hours_figure(n, decimals))
        for week, n in weeks.items()
    )


def _lost(view: CarView, links: Links) -> tuple[LostHours, ...]:
    """Hours lost because of each part, with the sheets that tell of them; most first."""
    names = {part.name: part.what for part in view.parts.parts}
    rows = []
    decimals = decimals_in(view.hours.lost_to_parts().values())
    for part, hours in view.hours.lost_to_parts().items():
        sheets = dict.fromkeys(s.sheet for s in view.hours.lost if s.because == part)
        what = names.get(part) or sentence(part.replace("-", " "))
        href = links.part(part) if part in names else None
        row = LostHours(
            Ref(what, href),
            hours_figure(hours, decimals),
            tuple(links.sheet(name) for name in sheets),
        )
        rows.append((hours, row))
    return tuple(row for _, row in sorted(rows, key=lambda pair: -pair[0]))


def _months(view: CarView) -> tuple[Month, ...]:
    days = [s.day for s in view.hours.spent]
    return months_between(min(days), max(days)) if days else ()


def _subsystems(
    view: CarView, links: Links, months: tuple[Month, ...]
) -> tuple[SubsystemHours, ...]:
    """One row a subsystem, all drawn to the same scale."""
    cells = view.hours.by_month_and_subsystem()
    most = max(cells.values(), default=Fraction(0))
    decimals = decimals_in(view.hours.by_subsystem().values())
    rows = []
    for name, hours in view.hours.by_subsystem().items():
        mine = {month: n for (month, of), n in cells.items() if of == name}
        words = {m: f"{month_words(*m)}: {hours_words(h)}" for m, h in mine.items()}
        drawn = month_lane(mine, months, words, most)
        days = len({s.day for s in view.hours.spent if s.subsystem == name})
        share = f"{percent(hours / view.hours.total)} %" if view.hours.total else ""
        figure = hours_figure(hours, decimals)
        row = SubsystemHours(links.subsystem(name), str(days), figure, share, drawn)
        rows.append((hours, row))
    return tuple(row for _, row in sorted(rows, key=lambda pair: -pair[0]))


def _month(view: CarView, links: Links, month: Month) -> MonthHours:
    cells = view.hours.by_month_and_subsystem()
    mine = sorted((-n, of) for (m, of), n in cells.items() if m == month)
    parts = tuple((links.subsystem(of), exact_hours(-n)) for n, of in mine)
    return MonthHours(month_words(*month), exact_hours(view.hours.by_month()[month]), parts)

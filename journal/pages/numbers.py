"""Numbers and keepers: what is stamped on the car, who kept it, and what its odometer read."""

from functools import partial
from typing import Any

from journal.pages.common import frame
from journal.pages.keeperwords import (
    count_curve,
    count_line,
    counts_in_lines,
    keeper_lines,
    plate_words,
)
from journal.pages.leafwords import OLDEST_FIRST, days_told, titled, turn_words
from journal.pages.links import Links
from journal.pages.numberwords import number_words
from journal.pages.page import Later, Page
from journal.pages.parting import Leaf, Section, parted
from journal.pages.view import CarView
from journal.pages.words import in_words, sentence, some
from journal.words.units import partner_unit

PATH = "numbers.html"
# As many odometer readings as one page holds.
ROOM = 225
ODOMETER = "odometer"


def page_numbers(view: CarView) -> tuple[Page, ...]:
    """Numbers, keepers, registrations and odometer readings."""
    start = Links(view, "")
    leaves = parted(PATH, (Section(ODOMETER, counts_in_lines(view)),), ROOM)
    return tuple(
        Page(view.base + leaf.path, "numbers.html", Later(partial(_values, start, leaves, leaf)))
        for leaf in leaves
    )


def _values(start: Links, leaves: tuple[Leaf, ...], leaf: Leaf) -> dict[str, Any]:
    links, view = start.at(leaf.path), start.view
    keepers, lines = view.keepers, view.numbers.lines
    return {
        **frame(links, titled("Numbers and keepers", leaf)),
        "first": leaf.number == 1,
        "lead": numbers_lead(view),
        "standing": "As delivered" if view.car.car.delivered else "As it stands",
        "numbers": tuple(number_words(links, line) for line in lines),
        "masked": any(line.masked for line in lines),
        "keepers": keeper_lines(view, links),
        "plates": tuple(plate_words(links, plate) for plate in keepers.plates),
        "counts": tuple(count_line(view, links, line) for line in leaf.entries(ODOMETER)),
        "continued": leaf.continued,
        "turn": turn_words(links, leaves, _told, OLDEST_FIRST),
        "curve": count_curve(view),
        "backwards": bool(keepers.backwards),
        "exchanged": tuple(links.sheet(sheet) for _, sheet in keepers.exchanged),
        "units": (keepers.unit.value, partner_unit(keepers.unit.value)),
        "papers": links.to("papers.html"),
    }


def _told(leaf: Leaf) -> str:
    days = [line[0].day for line in leaf.entries(ODOMETER) if line[0].day]
    return f"The odometer, {days_told(days)}" if days else "The odometer"


def numbers_lead(view: CarView) -> str:
    """How many numbers there are and how many of them are in dispute; empty without any."""
    lines = view.numbers.lines
    if not lines:
        return ""
    told = f"{some(len(lines), 'number')} on the car or in its papers"
    if any(line.masked for line in lines):
        return sentence(f"{told}; the last characters of each are not shown here.")
    disputed = sum(line.disputed for line in lines)
    if not disputed:
        return sentence(f"{told}; nothing speaks against {'it' if len(lines) == 1 else 'any'}.")
    return sentence(f"{told}; {in_words(disputed)} in dispute.")

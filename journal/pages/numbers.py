"""Numbers and keepers: what is stamped on the car, who kept it, and what its odometer read."""

from journal.pages.common import frame
from journal.pages.keeperwords import count_curve, count_words, keeper_lines, plate_words
from journal.pages.links import Links
from journal.pages.numberwords import number_words
from journal.pages.page import Page
from journal.pages.view import CarView
from journal.pages.words import in_words, sentence, some
from journal.words.units import partner_unit

PATH = "numbers.html"


def page_numbers(view: CarView) -> tuple[Page, ...]:
    """Numbers, keepers, registrations and odometer readings."""
    links = Links(view, PATH)
    keepers, lines = view.keepers, view.numbers.lines
    values = {
        **frame(links, "Numbers and keepers"),
        "lead": numbers_lead(view),
        "standing": "As delivered" if view.car.car.delivered else "As it stands",
        "numbers": tuple(number_words(links, line) for line in lines),
        "masked": any(line.masked for line in lines),
        "keepers": keeper_lines(view, links),
        "plates": tuple(plate_words(links, plate) for plate in keepers.plates),
        "counts": count_words(view, links),
        "curve": count_curve(view),
        "backwards": bool(keepers.backwards),
        "exchanged": tuple(links.sheet(sheet) for _, sheet in keepers.exchanged),
        "units": (keepers.unit.value, partner_unit(keepers.unit.value)),
        "papers": links.to("papers.html"),
    }
    return (Page(view.base + PATH, "numbers.html", values),)


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

"""Does anything stand where its readers cannot see it, or show where they should not?"""

import re
from collections.abc import Iterator

from journal.records.carfile import CarFile
from journal.records.problem import Problem, Severity, problem_at
from journal.records.sheet import Sheet
from journal.words.text import listed
from journal.words.vocabulary import Reader


def check_privacy(car: CarFile) -> Iterator[Problem]:
    """Work in a sheet for the workshop alone: the owner's ledger would not know of it. File names
    that tell the public a person or a full number: pages are named by them, and nothing is masked
    there."""
    for sheet in car.sheets:
        yield from _telling_name(sheet, car)
        if sheet.front.for_ is not Reader.WORKSHOP:
            continue
        told = [key for key in ("work", "proving") if len(getattr(sheet.front, key))]
        if told:
            yield problem_at(
                sheet.source, (told[0],), "private-work",
                "the sheet is for the workshop alone and tells of work on the car",
                severity=Severity.WARNING,
                help="put the work in a sheet of its own, and the private words in a block ::: workshop",
            )  # fmt: skip


def _telling_name(sheet: Sheet, car: CarFile) -> Iterator[Problem]:
    if not car.car.public or sheet.front.for_ is not Reader.PUBLIC:
        return
    people = (car.car.owner.name, *(hand.name for _, hand in car.workshop.hands))
    families = {name.split()[-1].casefold(): name for name in people if name.split()}
    words = set(re.findall(r"[a-z]+", sheet.name.casefold()))
    run = _letters(sheet.name[11:])
    told = [name for family, name in families.items() if family in words]
    told += [n.found for _, n in car.car.numbers if n.found and _holds(run, _letters(n.found))]
    if told:
        yield problem_at(
            sheet.source, (), "telling-file-name",
            f"the file name tells {listed(told)}, and the public archive names its page by it",
            severity=Severity.WARNING,
            help="rename the file, or write for: owner in it",
        )  # fmt: skip


def _holds(run: str, number: str) -> bool:
    # A shorter number could be any count or date.
    return len(number) >= 4 and number in run


def _letters(text: str) -> str:
    return re.sub(r"[^a-z0-9]", "", text.casefold())

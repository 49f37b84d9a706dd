"""The written record as a reader sees it: a content folder that this program, and anybody, can read.

Reading what is written here gives the same car file again, with three exceptions. Parts of a text that
stood on either side of a block kept from the reader are one part. Hours told by subsystem and without
hands, as no sheet can tell them, are told as their sum. Sheets lie in folders by year, whatever
folders they were written in.
"""

from collections.abc import Iterator
from itertools import groupby

from journal.outputs.sheets.print import Known, sheet_text
from journal.outputs.sheets.yamlform import Plain, plain_of, value_of, yaml_of
from journal.records.carfile import CarFile
from journal.records.fields import Named
from journal.records.papers import PapersFile
from journal.records.register import RegisterFile
from journal.records.workshop import Hand, Workshop


def record_files(car: CarFile) -> Iterator[tuple[str, str]]:
    """Every text file of a content folder for a car that holds only what its reader may see: its path
    in that folder, and what it says. Photographs and scans are not among them."""
    yield "workshop.yaml", yaml_of(_workshop(car.workshop))
    yield f"{car.name}/car.yaml", yaml_of(plain_of(car.car))
    yield f"{car.name}/register.yaml", yaml_of(plain_of(_register(car)))
    if car.papers:
        yield (
            f"{car.name}/papers/papers.yaml",
            yaml_of(plain_of(PapersFile.model_construct(papers=car.papers))),
        )
    for statement in car.statements:
        yield f"{car.name}/statements/{statement.name}.yaml", yaml_of(plain_of(statement.file))
    known: Known = {}
    paths = sheet_paths(car)
    for sheet in car.sheets:
        yield f"{car.name}/{paths[sheet.name]}", sheet_text(sheet, known)


def sheet_paths(car: CarFile) -> dict[str, str]:
    """Where each sheet lies below the car's folder, by its name: in a folder for its year.

    Sheets of one day that do not stand in the order of their names are kept in order by folders.
    """
    paths: dict[str, str] = {}
    for day, sheets in groupby(car.sheets, key=lambda sheet: sheet.date):
        names = [sheet.name for sheet in sheets]
        in_order = names == sorted(names)
        for number, name in enumerate(names, 1):
            folder = f"{day:%Y}" if in_order else f"{day:%Y}/{day}.{number:03}"
            paths[name] = f"sheets/{folder}/{name}.md"
    return paths


def _workshop(workshop: Workshop) -> dict[str, Plain]:
    told = plain_of(workshop)
    told["hands"] = {initials: _hand(hand) for initials, hand in workshop.hands}
    return told


def _hand(hand: Hand) -> dict[str, Plain]:
    """A single rate, which holds for all time, stands bare."""
    told = plain_of(hand)
    if hand.rate.names() == ("",):
        told["rate"] = value_of(hand.rate.get(""))
    return told


def _register(car: CarFile) -> RegisterFile:
    subsystems = dict.fromkeys(component.subsystem for component in car.register.components)
    return RegisterFile.model_construct(
        components=Named(
            (name, Named((c.slug, c.line) for c in car.register.of(name))) for name in subsystems
        )
    )

"""`journal book-in`: open a car file."""

from datetime import date
from pathlib import Path

import click

from journal.commands.common import Day, folder_argument, refusing
from journal.outputs.bookin import BookIn, NewWorkshop, open_car_file
from journal.words.names import slug_of
from journal.words.wrong import WrongCall


@click.command("book-in")
@folder_argument
@click.option("--name", prompt="What car is it (make and model)", help="Make and model.")
@click.option("--year", prompt="Year built", help="Year built.")
@click.option("--body", prompt="Body (saloon, drophead, ...)", help="Kind of body.")
@click.option(
    "--owner", prompt="Owner's name", help="The owner's name; only the owner's archive shows it."
)
@click.option(
    "--chassis", prompt="Chassis number as stamped (empty when not read yet)", default="",
    show_default=False, help="Chassis number as stamped.",
)  # fmt: skip
@click.option("--mileage", default="", help="Odometer reading on arrival.")
@click.option(
    "--booked-in", type=Day(), metavar="DATE", help="The day it came in; today unless told."
)
@click.option("--folder", help="Folder name of the car file; made from the name unless told.")
@click.option("--workshop", help="The workshop's name, for the first car.")
@click.option("--hand", help="The first hand as INITIALS=NAME, for the first car.")
def book_in(
    content: Path, name: str, year: str, body: str, owner: str, chassis: str, mileage: str,
    booked_in: date | None, folder: str | None, workshop: str | None, hand: str | None,
) -> None:  # fmt: skip
    """Open a car file in CONTENT with a register of the usual components.

    What is not given as an option is asked. Nothing that is there is written over.
    """
    car = BookIn(
        folder or slug_of(name), name, year, body, owner, booked_in or date.today(),
        chassis or None, mileage or None,
    )  # fmt: skip
    new = None
    if not (content / "workshop.yaml").exists():
        new = _new_workshop(workshop, hand)
    try:
        written = open_car_file(content, car, new)
    except WrongCall as fault:
        raise refusing(fault) from None
    for path in written:
        click.echo(f"wrote {content / path}")
    click.echo(f"Sheets go into {content / car.folder / 'sheets'}, named by day and what was done.")


def _new_workshop(workshop: str | None, hand: str | None) -> NewWorkshop:
    name = workshop or click.prompt("The workshop's name")
    told = hand or click.prompt("Your initials and name, as MT=Margit Tolland")
    initials, _, person = str(told).partition("=")
    if not initials.strip() or not person.strip():
        raise refusing(
            WrongCall(f'"{told}" names no hand; write INITIALS=NAME, such as MT=Margit Tolland')
        )
    return NewWorkshop(str(name), initials.strip(), person.strip())

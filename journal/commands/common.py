"""What commands share: the content folder, days, and the one way a wrong call ends."""

from datetime import date
from pathlib import Path

import click

from journal.reading.content import read_content
from journal.records.carfile import CarFile, Content
from journal.words.dates import OutOfTime, parse_date
from journal.words.names import nearest
from journal.words.text import listed
from journal.words.wrong import WrongCall


class Refusal(click.ClickException):
    """A wrong call, told in one sentence; exit code 2."""

    exit_code = 2


class Day(click.ParamType[date]):
    """A day in the form 2024-03-05."""

    name = "date"

    def convert(
        self, value: object, param: click.Parameter | None, ctx: click.Context | None
    ) -> date:
        """The day, or a refusal that names the form."""
        if isinstance(value, date):
            return value
        try:
            return parse_date(str(value))
        except OutOfTime as fault:
            self.fail(f'"{value}" is no day {fault}', param, ctx)
        except ValueError:
            self.fail(
                f'"{value}" is not a date; write year-month-day, such as 2024-03-05', param, ctx
            )


def load(folder: Path) -> Content:
    """Read a content folder, or refuse one that is none."""
    if not folder.is_dir():
        raise Refusal(f'there is no folder "{folder}"')
    if not (folder / "workshop.yaml").is_file():
        raise Refusal(f'"{folder}" is no content folder: it holds no workshop.yaml')
    return read_content(folder)


def one_car(content: Content, name: str | None) -> CarFile:
    """The car named, or the only one there is."""
    names = [car.name for car in content.cars]
    if name is None and len(names) == 1:
        return content.cars[0]
    if name is None:
        if not names:
            raise Refusal("there is no car that can be read; journal check says what is wrong")
        raise Refusal(f"say which car: --car {listed(names, 'or --car')}")
    car = next((c for c in content.cars if c.name == name), None)
    if car is None:
        meant = nearest(name, names)
        raise Refusal(f'there is no car "{name}"; write {meant or listed(names, "or")}')
    return car


def refusing(fault: WrongCall) -> Refusal:
    """A wrong call found further down, as the command line tells it."""
    return Refusal(str(fault))


folder_argument = click.argument("content", type=click.Path(path_type=Path))
car_option = click.option("--car", metavar="NAME", help="The car's folder name.")
as_of_option = click.option(
    "--as-of", type=Day(), metavar="DATE", help="As it stood at the end of that day."
)

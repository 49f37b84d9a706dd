"""Arguments and options that commands share, and the one way a wrong call ends."""

from datetime import date
from pathlib import Path

import click

from journal.words.dates import OutOfTime, parse_date
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


def content_folder(folder: Path) -> Path:
    """A content folder, or a refusal of one that is none."""
    if not folder.is_dir():
        raise Refusal(f'there is no folder "{folder}"')
    if not (folder / "workshop.yaml").is_file():
        raise Refusal(f'"{folder}" is no content folder: it holds no workshop.yaml')
    return folder


def refusing(fault: WrongCall) -> Refusal:
    """A wrong call found further down, as the command line tells it."""
    return Refusal(str(fault))


folder_argument = click.argument("content", type=click.Path(path_type=Path))
car_option = click.option("--car", metavar="NAME", help="The car's folder name.")
as_of_option = click.option(
    "--as-of", type=Day(), metavar="DATE", help="As it stood at the end of that day."
)

"""What `journal publish` needs when there is something to do."""

from pathlib import Path

import click

from journal.commands.pictures import means_for
from journal.outputs.again import Found
from journal.outputs.kept.book import Keeping, Told
from journal.outputs.kept.look import Asked
from journal.outputs.problems import problems_text
from journal.outputs.publishing import Work, bring_up_to_date
from journal.outputs.swap import Swap
from journal.outputs.withheld import Withheld


def made_anew(asked: Asked, keeping: Keeping, cache: Path | None, swap: Swap, found: Found) -> Told:
    """Bring an archive up to date, or say why it is withheld and end."""
    try:
        with means_for(cache) as means:
            return bring_up_to_date(Work(asked, keeping, swap, means, found))
    except Withheld as withheld:
        click.echo(problems_text(withheld.problems), err=True)
        click.echo(f"The archive is withheld; {asked.target} is as it was.", err=True)
        raise SystemExit(1) from None

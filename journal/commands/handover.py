"""`journal handover`: dossier and bag, for whoever has the car next."""

from pathlib import Path

import click

from journal.commands.common import car_option, folder_argument, load, one_car, refusing
from journal.commands.pictures import cache_option, means_for
from journal.commands.print import PAPERS
from journal.commands.seal import key_option, usual_key
from journal.digests.gate import Gate, Reason
from journal.outputs.handover import Barred, Handover, hand_over
from journal.outputs.keys import read_key
from journal.outputs.problems import problems_text
from journal.outputs.withheld import Withheld
from journal.records.problem import Severity
from journal.words.text import counted
from journal.words.wrong import WrongCall


@click.command()
@folder_argument
@car_option
@click.option(
    "--to", "target", required=True, type=click.Path(path_type=Path, file_okay=False),
    help="The folder for the bag and the zip file of it.",
)  # fmt: skip
@click.option(
    "--with-reservations", is_flag=True,
    help="Hand over all the same; each thing that is open stands on the dossier's first page.",
)  # fmt: skip
@click.option(
    "--paper", type=click.Choice(list(PAPERS)), default="a4", show_default=True,
    help="The size of the dossier's paper.",
)  # fmt: skip
@key_option
@cache_option
def handover(
    content: Path, car: str | None, target: Path, with_reservations: bool, paper: str,
    key: Path | None, cache: Path | None,
) -> None:  # fmt: skip
    """Write the provenance dossier of a car in CONTENT, and the bag of proof around it.

    The record must be sealed to its end. What still stands against the handover is told all at once
    and nothing is written, exit code 1. No option hides any of it.
    """
    read = load(content)
    name = one_car(read, car).name
    try:
        private = read_key(key or usual_key(), keep_out_of=content)
        with means_for(cache) as means:
            made = hand_over(
                read,
                Handover(content, target, private, means, name, PAPERS[paper], with_reservations),
            )
    except WrongCall as fault:
        raise refusing(fault) from None
    except Barred as barred:
        click.echo(_against(barred.gate), err=True)
        raise SystemExit(1) from None
    except Withheld as withheld:
        click.echo(problems_text(withheld.problems), err=True)
        click.echo(f"The bag is withheld; {target} is as it was.", err=True)
        raise SystemExit(1) from None
    if made.problems:
        click.echo(problems_text(made.problems), err=True)
    click.echo(f"wrote {made.bag}, {counted(made.files, 'file')}, and {made.zip.name} beside it")
    if not made.gate.open:
        said = counted(len(made.gate.reasons), "reservation")
        click.echo(f"It goes with {said}, on the first page of the dossier.")
    click.echo(f"Open {made.bag / 'READ-ME-FIRST.html'}; check it with journal verify {made.bag}")
    raise SystemExit(1 if any(p.severity is Severity.ERROR for p in made.problems) else 0)


def _against(gate: Gate) -> str:
    """Every reason with its sheet, and the two ways on."""
    stands = counted(len(gate.reasons), "reason stands", "reasons stand")
    return "\n".join(
        (
            f"The car is not handed over; {stands} against it:",
            *map(_reason, gate.reasons),
            "Put each right in a new sheet, or hand over --with-reservations: "
            "each then stands on the first page of the dossier.",
        )
    )


def _reason(reason: Reason) -> str:
    where = f"sheet {reason.sheet}" if reason.sheet else "no sheet tells of it"
    return f"  {reason.bar.value}  {reason.subsystem}: {reason.words} ({where})"

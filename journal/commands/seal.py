"""`journal make-key` and `journal seal`: close the record of a car up to a day."""

from datetime import date
from pathlib import Path

import click
import segno
from platformdirs import user_config_path

from journal.commands.common import Day, car_option, folder_argument, load, one_car, refusing
from journal.outputs.keys import make_key, read_key
from journal.outputs.seal import write_seal
from journal.reading.signatures import key_hash
from journal.words.spoken import spoken
from journal.words.text import counted
from journal.words.wrong import WrongCall


def usual_key() -> Path:
    """Where the key lies unless another place is told."""
    return user_config_path("restoration-journal", appauthor=False) / "workshop.key"


key_option = click.option(
    "--key", type=click.Path(path_type=Path), metavar="FILE",
    help="The workshop's key; that of this person unless told.",
)  # fmt: skip


@click.command("make-key")
@click.option(
    "--to", "file", type=click.Path(path_type=Path), metavar="FILE",
    help="Where to write it; the usual place unless told.",
)  # fmt: skip
def make_key_command(file: Path | None) -> None:
    """Make the key with which the workshop signs its seals.

    Keep a copy in a safe place: seals that follow can only be signed with this key. Who has it can
    sign in the workshop's name.
    """
    file = file or usual_key()
    try:
        key = make_key(file)
    except WrongCall as fault:
        raise refusing(fault) from None
    click.echo(f"wrote {file}; keep a copy where nobody else finds it")
    click.echo(
        "The key is known by these words: " + groups(bytes.fromhex(key_hash(key.public_key())))
    )


def groups(digest: bytes) -> str:
    """The spoken groups of a hash, four to a line."""
    told = spoken(digest)
    lines = (", ".join(told[n : n + 4]) for n in range(0, len(told), 4))
    return "\n  " + "\n  ".join(lines)


@click.command()
@folder_argument
@car_option
@click.option("--up-to", required=True, type=Day(), metavar="DATE", help="The last day to close.")
@click.option("--sealed", type=Day(), metavar="DATE", help="The day of sealing; today unless told.")
@key_option
def seal(
    content: Path, car: str | None, up_to: date, sealed: date | None, key: Path | None
) -> None:
    """Close the record of a car in CONTENT up to a day, so that a later change shows.

    What is written later, or changed openly, is sealed by the next seal. Tell the words of a seal to
    somebody who does not depend on you: the owner, a club, a notary.
    """
    chosen = one_car(load(content), car)
    try:
        private = read_key(key or usual_key(), keep_out_of=content)
        made = write_seal(content, chosen, private, up_to=up_to, sealed_on=sealed or date.today())
    except WrongCall as fault:
        raise refusing(fault) from None
    stated = made.statement
    added = counted(len(made.added), "entry", "entries")
    click.echo(f"seal {stated.seal} closes the record up to {stated.up_to}: {added} added, "
               f"{stated.entries} in all")  # fmt: skip
    click.echo("The seal is known by these words:" + groups(bytes.fromhex(stated.root)))
    click.echo("and by this code, which holds the root as text:")
    segno.make(stated.root.upper(), error="m").terminal(compact=True)
    click.echo(f"wrote {content / made.files[0]} and three files beside it")

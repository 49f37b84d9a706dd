"""`journal desk`: the workshop's archive, live, on this computer and the workshop's phones."""

import sys
from hashlib import sha256
from pathlib import Path
from threading import Thread

import click
import segno
from platformdirs import user_state_path

from journal.commands.common import folder_argument, load, one_car, refusing
from journal.commands.pictures import cache_option, silent_means
from journal.desk.desk import Desk
from journal.desk.phone import UNENCRYPTED, address_with_key
from journal.desk.serve import PORT, Setting, serve
from journal.words.wrong import WrongCall


@click.command("desk")
@folder_argument
@click.option(
    "--port", type=click.IntRange(0, 65535), default=PORT, show_default=True, metavar="N",
    help="The port; 0 takes any that is free.",
)  # fmt: skip
@click.option(
    "--phone", is_flag=True, help="Let phones in from the local network, each with a key."
)
@click.option("--car", metavar="NAME", help="Show only this car.")
@cache_option
def desk_command(
    content: Path, port: int, phone: bool, car: str | None, cache: Path | None
) -> None:
    """Show the workshop's archive of CONTENT, live: what is written is on the page at once.

    Only this computer is answered, unless --phone lets phones in. Ctrl-C ends it.
    """
    read = load(content)
    if car is not None:
        one_car(read, car)
    try:
        serve(Setting(content, _keep(content), silent_means(cache), port, car, phone), _say)
    except WrongCall as fault:
        raise refusing(fault) from None
    except KeyboardInterrupt:
        pass


def _keep(content: Path) -> Path:
    """Where what a phone has sent waits: beside no car, and one place for each content folder."""
    name = sha256(str(content.resolve()).encode()).hexdigest()[:16]
    return user_state_path("restoration-journal", appauthor=False) / "desk" / name


def _say(desk: Desk, address: str) -> None:
    click.echo(f"The desk is open at {address}  (Ctrl-C ends it)")
    if desk.phone is None:
        return
    click.echo(f"\n{UNENCRYPTED}\n")
    _say_key(desk)
    Thread(target=_more_keys, args=(desk,), daemon=True).start()


def _say_key(desk: Desk) -> None:
    assert desk.rules.devices is not None
    assert desk.phone is not None
    address = address_with_key(desk.phone, desk.rules.devices.new_key())
    segno.make(address, error="m").terminal(compact=True, border=2)
    click.echo(f"For one phone: {address}\nEnter shows the key for another one.\n")


def _more_keys(desk: Desk) -> None:
    """Another key for every line that is entered."""
    for _ in sys.stdin:
        _say_key(desk)

"""`journal publish`: write the archive for one reader."""

import os
import time
from datetime import date
from pathlib import Path

import click

from journal.commands.caches import cache_option, publishing_in
from journal.commands.options import (
    as_of_option,
    car_option,
    content_folder,
    refusing,
)
from journal.outputs.again import Found, published
from journal.outputs.collecting import collected_seldom
from journal.outputs.hands import MOST_HANDS
from journal.outputs.kept import recipe
from journal.outputs.kept.book import Keeping, Told
from journal.outputs.kept.look import Asked
from journal.outputs.kept.program import store_in
from journal.outputs.swap import Swap
from journal.words.text import counted
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall


@click.command("publish")
@click.argument("content")
@click.option(
    "--for", "reader", required=True, type=click.Choice([r.value for r in Reader]),
    help="Whose archive it is: what this reader may not see is left out.",
)  # fmt: skip
@click.option(
    "--to", "target", required=True, metavar="PLACE",
    help="The folder for the archive, or an address such as s3://club/archive.",
)  # fmt: skip
@car_option
@as_of_option
@cache_option
@click.option(
    "--on", metavar="ADDRESS",
    help="Let the workers of a Dask scheduler do the work, such as tcp://HOST:PORT.",
)  # fmt: skip
@click.option(
    "--full", is_flag=True,
    help="Believe nothing that was kept of earlier publishing but pictures: make every page anew.",
)  # fmt: skip
def publish_command(
    content: str,
    reader: str,
    target: str,
    car: str | None,
    as_of: date | None,
    cache: Path | None,
    on: str | None,
    full: bool,
) -> None:
    """Write the archive of CONTENT for one reader into a folder. Both may be addresses (s3://, gs://, sftp://).

    What can be read is published even when something is wrong; the problems are told and the exit
    code is 1 when there is an error among them. An archive that would show what its reader may not
    see is withheld: the one before it stays, and the exit code is 1.

    An archive that is there already is brought up to date: only what has changed is written.
    """
    if "://" in content or "://" in target:
        from journal.commands.publishafar import published_afar

        raise SystemExit(
            published_afar(content, target, Reader(reader), car, as_of, cache, on, full=full)
        )
    to = Path(target)
    asked = Asked(content_folder(Path(content)).resolve(), to, Reader(reader), car, as_of)
    store = store_in(publishing_in(cache).resolve(), time.time_ns())
    if full:
        store.clear(asked.name, asked.content, recipe.FOLDER)
    keeping = Keeping(store, time.time_ns)

    def anew(swap: Swap, found: Found) -> Told:
        # When nothing has changed, none of this is needed, and it takes half a second to load.
        from journal.commands.publishing import made_anew

        return made_anew(asked, keeping, cache, on, swap, found)

    try:
        with collected_seldom():
            told = published(
                asked,
                keeping,
                anew,
                lambda words: click.echo(words, err=True),
                hands=min(MOST_HANDS, os.cpu_count() or 1),
            )
    except WrongCall as fault:
        raise refusing(fault) from None
    if store.words():
        click.echo(store.words(), err=True)
    if told.problems:
        click.echo(told.problems, err=True)
    click.echo(f"{counted(told.pages, 'page')} for the {reader} in {to}. Open {to / 'index.html'}")
    raise SystemExit(1 if told.errors else 0)

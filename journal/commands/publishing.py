"""What `journal publish` needs when there is something to do."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import click
from msgspec.structs import replace

from journal.commands.pictures import means_for
from journal.outputs.again import Found
from journal.outputs.kept.book import Keeping, Told
from journal.outputs.kept.look import Asked
from journal.outputs.pictures import Means
from journal.outputs.problems import problems_text
from journal.outputs.publishing import Work, bring_up_to_date
from journal.outputs.swap import Swap
from journal.outputs.withheld import Withheld


def made_anew(
    asked: Asked, keeping: Keeping, cache: Path | None, on: str | None, swap: Swap, found: Found
) -> Told:
    """Bring an archive up to date, or say why it is withheld and end."""
    try:
        with means_for(cache) as here, _by(on, asked, swap, keeping, here) as means:
            return bring_up_to_date(Work(asked, keeping, swap, means, found))
    except Withheld as withheld:
        click.echo(problems_text(withheld.problems), err=True)
        click.echo(f"The archive is withheld; {asked.target} is as it was.", err=True)
        raise SystemExit(1) from None


@contextmanager
def _by(
    on: str | None, asked: Asked, swap: Swap, keeping: Keeping, means: Means
) -> Iterator[Means]:
    """The same means, by the workers of a scheduler when there is one."""
    if on is None:
        yield means
        return
    # Loading it takes longer than publishing a small change.
    from journal.commands.cluster import cluster

    kept = (keeping.store.folder,) if keeping.store.folder else ()
    # Workers are in folders of their own.
    means = replace(means, cache=means.cache.resolve())
    ours, files = (swap.staging, means.cache, *kept), (asked.root / "workshop.yaml",)
    with cluster(on, ours, files) as pool:
        yield replace(means, pool=pool)

"""How commands work on pictures: all cores, the cache of this person, and a bar that tells how far."""

import os
import sys
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click
from msgspec.structs import replace

from journal.commands.caches import cache_option, pictures_in
from journal.outputs.pictures import Means

if TYPE_CHECKING:
    from journal.commands.bar import Bar

__all__ = ["cache_option", "means_for", "silent_means"]


@contextmanager
def means_for(cache: Path | None) -> Iterator[Means]:
    """The means of a command. The bar is drawn on a terminal only, and goes when all is done."""
    with ExitStack() as ending:
        bars: list[Bar] = []

        def progress(what: str, done: int, of: int) -> None:
            if not bars:
                # Most days no picture is made, or only a few, and it takes long to load.
                from journal.commands.bar import bar

                bars.append(ending.enter_context(bar()))
            bars[0].tell(what, done, of)

        means = silent_means(cache)
        yield replace(
            means,
            progress=progress if sys.stderr.isatty() else means.progress,
            notice=lambda words: click.echo(words, err=True),
        )


def silent_means(cache: Path | None) -> Means:
    """The means of a command that goes on for hours, and draws no bar."""
    return Means(pictures_in(cache), os.cpu_count() or 1)

"""How commands work on pictures: all cores, the cache of this person, and a bar that tells how far."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import click
from platformdirs import user_cache_path
from rich.console import Console
from rich.progress import BarColumn, Progress, TaskID, TextColumn, TimeRemainingColumn

from journal.outputs.pictures import Means

cache_option = click.option(
    "--cache", type=click.Path(path_type=Path), metavar="FOLDER",
    help="Where to keep what was made of pictures; it may be deleted at any time.",
)  # fmt: skip


@contextmanager
def means_for(cache: Path | None) -> Iterator[Means]:
    """The means of a command. The bar is drawn on a terminal only, and goes when all is done."""
    console = Console(stderr=True)
    columns = (
        TextColumn("{task.description} pictures"), BarColumn(),
        TextColumn("{task.completed:.0f} done, {task.fields[left]} left,"), TimeRemainingColumn(),
        TextColumn("to go"),
    )  # fmt: skip
    tasks: dict[str, TaskID] = {}
    with Progress(
        *columns, console=console, transient=True, disable=not console.is_terminal
    ) as bar:

        def progress(what: str, done: int, of: int) -> None:
            if what not in tasks:
                tasks[what] = bar.add_task(what.capitalize(), total=of, left=of - done)
            bar.update(tasks[what], completed=done, total=of, left=of - done)

        yield replace(
            silent_means(cache), progress=progress, notice=lambda words: click.echo(words, err=True)
        )


def silent_means(cache: Path | None) -> Means:
    """The means of a command that goes on for hours, and draws no bar."""
    kept = cache or user_cache_path("restoration-journal", appauthor=False) / "pictures"
    return Means(kept, os.cpu_count() or 1)

"""How commands work on pictures: all cores, the cache of this person, and a bar that tells how far."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import click
from rich.console import Console
from rich.progress import BarColumn, Progress, TaskID, TextColumn, TimeRemainingColumn

from journal.commands.caches import cache_option, pictures_in
from journal.outputs.pictures import Means

__all__ = ["cache_option", "means_for", "silent_means"]


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
    return Means(pictures_in(cache), os.cpu_count() or 1)

"""The bar that tells how far the work on pictures is."""

from collections.abc import Iterator
from contextlib import contextmanager

from rich.console import Console
from rich.progress import BarColumn, Progress, TaskID, TextColumn, TimeRemainingColumn


class Bar:
    """A line for each kind of work."""

    def __init__(self, drawn: Progress) -> None:
        self._drawn = drawn
        self._tasks: dict[str, TaskID] = {}

    def tell(self, what: str, done: int, of: int) -> None:
        """How many of how many are done."""
        if what not in self._tasks:
            self._tasks[what] = self._drawn.add_task(what.capitalize(), total=of, left=of - done)
        self._drawn.update(self._tasks[what], completed=done, total=of, left=of - done)


@contextmanager
def bar() -> Iterator[Bar]:
    """A bar on a terminal, gone when all is done."""
    columns = (
        TextColumn("{task.description} pictures"), BarColumn(),
        TextColumn("{task.completed:.0f} done, {task.fields[left]} left,"), TimeRemainingColumn(),
        TextColumn("to go"),
    )  # fmt: skip
    with Progress(*columns, console=Console(stderr=True), transient=True) as drawn:
        yield Bar(drawn)

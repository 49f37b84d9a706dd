"""Publishing with a memory, as the command does it, in this process."""

import time
from dataclasses import dataclass
from pathlib import Path

from journal.outputs.again import Found, published
from journal.outputs.kept.book import Keeping, Told
from journal.outputs.kept.look import Asked
from journal.outputs.kept.program import version
from journal.outputs.kept.store import Store
from journal.outputs.pictures import Means
from journal.outputs.publishing import Work, bring_up_to_date
from journal.outputs.swap import Swap
from journal.words.vocabulary import Reader


@dataclass
class Publishing:
    """What is asked for, with what is kept in `kept/` and the pictures in `pictures/`; `said` are the
    sentences that came on the way."""

    asked: Asked
    keeping: Keeping
    means: Means
    said: list[str]


def a_publishing(
    folder: Path, root: Path, reader: Reader = Reader.WORKSHOP, car: str | None = None, *,
    clock: int | None = None, workers: int = 1,
) -> Publishing:  # fmt: skip
    """A publishing of `root` to `archive/`; its clock begins at 1970 unless it is given, later than all."""
    said: list[str] = []
    store = Store(folder / "kept", version())
    now = clock if clock is not None else time.time_ns()
    return Publishing(
        Asked(root, folder / "archive", reader, car), Keeping(store, lambda: now),
        Means(folder / "pictures", workers, notice=said.append), said,
    )  # fmt: skip


def published_again(publishing: Publishing) -> Told:
    """Publish; what is said at the end."""

    def anew(swap: Swap, found: Found) -> Told:
        work = Work(publishing.asked, publishing.keeping, swap, publishing.means, found)
        return bring_up_to_date(work)

    told = published(
        publishing.asked, publishing.keeping, anew, publishing.said.append,
        hands=publishing.means.workers,
    )  # fmt: skip
    publishing.said += filter(None, [publishing.keeping.store.words()])
    return told

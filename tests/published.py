"""The demonstration, published once a test process for each reader."""

import os
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from tempfile import mkdtemp
from unittest.mock import patch

from journal.outputs import archive
from journal.outputs.archive import Order, publish
from journal.outputs.pictures import Means
from journal.pages.page import Page
from journal.reading.content import read_content
from journal.words.vocabulary import Reader

ROOT = Path(__file__).parents[1]
CONTENT = ROOT / "content"
CAR = "aldermoor-tern"
# One cache for all processes of a run: what one of them makes, no other makes again.
MEANS = Means(Path(os.environ["XDG_CACHE_HOME"]) / "demonstration")


@dataclass(frozen=True)
class Told:
    """An archive's folder, and its pages by the template that printed them."""

    folder: Path
    kinds: dict[str, tuple[str, ...]]


def archive_for(reader: Reader) -> Path:
    """The folder of a reader's archive: one car for owner and public, all cars for the workshop."""
    return _published(reader).folder


def kinds_for(reader: Reader) -> dict[str, tuple[str, ...]]:
    """The pages of a reader's archive by template, as paths within it."""
    return _published(reader).kinds


@cache
def _published(reader: Reader) -> Told:
    target = Path(mkdtemp(prefix=f"journal-{reader.value}-")) / "archive"
    car = None if reader is Reader.WORKSHOP else CAR
    kinds: dict[str, tuple[str, ...]] = {}

    def noting(make: Callable[..., tuple[Page, ...]]) -> Callable[..., tuple[Page, ...]]:
        def noted(*given: object) -> tuple[Page, ...]:
            made = make(*given)
            for page in made:
                if page.path not in (so_far := kinds.get(page.template, ())):
                    kinds[page.template] = (*so_far, page.path)
            return made

        return noted

    with (
        patch.object(archive, "PAGES", tuple(map(noting, archive.PAGES))),
        patch.object(archive, "page_workshop", noting(archive.page_workshop)),
    ):
        publish(read_content(CONTENT), Order(CONTENT, target, reader, car, means=MEANS))
    return Told(target, kinds)


def pages(folder: Path) -> tuple[Path, ...]:
    """Every page of an archive, in order."""
    return tuple(sorted(folder.rglob("*.html")))

"""The demonstration, published once a run for each reader."""

import json
import os
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from unittest.mock import patch

from journal.outputs import archive
from journal.outputs.archive import Order
from journal.outputs.pictures import Means
from journal.pages.page import Page
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from tests.plainly import publish
from tests.shared import made_once

ROOT = Path(__file__).parents[1]
CONTENT = ROOT / "content"
CAR = "aldermoor-tern"
# One cache for all processes of a run: what one of them makes, no other makes again.
MEANS = Means(Path(os.environ["XDG_CACHE_HOME"]) / "demonstration")
_ARCHIVE = "archive"
_KINDS = "kinds.json"


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
    folder = made_once(f"archive-{reader.value}", lambda made: _publish(made, reader))
    kinds = json.loads((folder / _KINDS).read_text(encoding="utf-8"))
    return Told(folder / _ARCHIVE, {template: tuple(paths) for template, paths in kinds.items()})


def _publish(folder: Path, reader: Reader) -> None:
    car = None if reader is Reader.WORKSHOP else CAR
    kinds: dict[str, list[str]] = {}

    def noting(make: Callable[..., tuple[Page, ...]]) -> Callable[..., tuple[Page, ...]]:
        def noted(*given: object) -> tuple[Page, ...]:
            made = make(*given)
            for page in made:
                if page.path not in (so_far := kinds.setdefault(page.template, [])):
                    so_far.append(page.path)
            return made

        return noted

    with (
        patch.object(archive, "PAGES", tuple(map(noting, archive.PAGES))),
        patch.object(archive, "page_workshop", noting(archive.page_workshop)),
    ):
        publish(read_content(CONTENT), Order(CONTENT, folder / _ARCHIVE, reader, car, means=MEANS))
    (folder / _KINDS).write_text(json.dumps(kinds), encoding="utf-8")


def pages(folder: Path) -> tuple[Path, ...]:
    """Every page of an archive, in order."""
    return tuple(sorted(folder.rglob("*.html")))

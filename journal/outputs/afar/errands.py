"""One car on its way: its files are fetched from where they lie, its part of the archive is made in a
working folder, and what has changed of that is put where it belongs. Work for any machine that reaches both
places; what comes back is small."""

from collections.abc import Mapping
from datetime import date
from hashlib import sha256
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from journal.outputs.afar.copies import fetch, send, settled, standing
from journal.outputs.afar.places import Mark, Place
from journal.outputs.afar.underway import refuse_lost
from journal.outputs.archive import ASSETS
from journal.outputs.kept.recipe import kept_recipe
from journal.outputs.kept.store import Store
from journal.outputs.kept.tree import Tree
from journal.outputs.onecar import Made, Site, Task, work_on
from journal.outputs.pictures import Means, studio_of
from journal.outputs.staging import MARK, archive_mark, put
from journal.outputs.swap import Swap, swapping
from journal.outputs.themes import theme_folder
from journal.pages import CarFront
from journal.pictures.make import finish_pictures
from journal.records.problem import Problem
from journal.words.vocabulary import Reader

_TEXTS = (".md", ".yaml")


class Errand(Struct, frozen=True):
    """One car to publish from one address to another. Without a `base`, its folder in the archive, only
    its problems are found.

    `cars` are all that can be read; `shared` are the files that all cars share, with their bytes;
    `elsewhere` is what was found in the files of this car while others were looked at; `began` is a moment
    in ns before anything was read; `token` is the word of the publishing it belongs to; `key` is that under
    which its part was made the last time.
    """

    content: str
    target: str
    reader: Reader
    as_of: date | None
    name: str
    base: str | None
    cars: tuple[str, ...]
    shared: tuple[tuple[str, bytes], ...]
    elsewhere: tuple[Problem, ...]
    began: int
    version: str
    token: str
    key: str = ""

    @property
    def alone(self) -> bool:
        """Whether nothing depends on the other cars."""
        return self.reader is Reader.WORKSHOP or self.base is None


class Answer(Struct, frozen=True):
    """What came of a car; with `still`, that all is as it was the last time. `leaks` say why its part was
    not put, and the one before it stays; `sent` counts the files that travelled."""

    key: str
    still: bool = False
    problems: tuple[Problem, ...] = ()
    front: CarFront | None = None
    leaks: tuple[Problem, ...] = ()
    pages: int = 0
    sent: int = 0


def run_errand(errand: Errand, folder: Path, store: Path, means: Means) -> Answer:
    """Fetch, make and put one car. Copies stay in `folder`, what is kept in `store`."""
    content, target = Place(errand.content), Place(errand.target)
    marks = content.files(f"{errand.name}/")
    texts = {name: _texts(content, name) for name in _others(errand)}
    key = _key(errand, marks, texts)
    if (
        key
        and key == errand.key
        and (errand.base is None or key == standing(target, errand.name)[1])
    ):
        return Answer(key, still=True)
    here = folder / short(errand.content)
    root = here / "content"
    for path, data in errand.shared:
        _lay(root, path, data)
    for name, there in {**texts, errand.name: marks}.items():
        notes = here / "notes" / f"{name}.json"
        fetch(content, there, name, root, notes, errand.began)
    return _Making(errand, key, root, here / short(errand.target), store, means).put(target)


def short(address: str) -> str:
    """A name for an address that is a folder's."""
    return sha256(address.encode()).hexdigest()[:24]


def _others(errand: Errand) -> tuple[str, ...]:
    return () if errand.alone else tuple(name for name in errand.cars if name != errand.name)


def _texts(content: Place, name: str) -> dict[str, Mark]:
    found = content.files(f"{name}/")
    return {path: mark for path, mark in found.items() if path.endswith(_TEXTS)}


def _key(errand: Errand, marks: Mapping[str, Mark], texts: Mapping[str, Mapping[str, Mark]]) -> str:
    """A sum over all that decides what a car comes to; empty when that is not sure."""
    seen = [marks, *texts.values()]
    if not all(settled(mark, errand.began) for there in seen for mark in there.values()):
        return ""
    told = replace(errand, began=0, token="", key="")
    return sha256(repr((told, sorted(marks.items()), sorted(texts.items()))).encode()).hexdigest()


def _lay(root: Path, path: str, data: bytes) -> None:
    file = root / path
    if not file.is_file() or file.read_bytes() != data:
        put(root, path, data)


class _Making:
    """A car whose files are here."""

    def __init__(
        self, errand: Errand, key: str, root: Path, folder: Path, store: Path, means: Means
    ) -> None:
        self._errand, self._key, self._root, self._means = errand, key, root, means
        self._folder, self._store = folder / errand.name, store

    def put(self, target: Place) -> Answer:
        """Make its part, and put it when nothing in it is private."""
        errand = self._errand
        with swapping(self._folder, keep_out_of=self._root, notice=self._means.notice) as swap:
            made = self._made(swap)
            told = Answer(self._key, False, made.problems, made.front, made.leaks)
            if errand.base is None or made.leaks:
                return told if not made.leaks else replace(told, key="")
            shas = made.shas or {}
            self._commit(swap, made, shas)
            refuse_lost(target, errand.token)
            # A car that has the archive to itself no longer leaves the front page to what is put last.
            keep = ("index.html",) if errand.base else ()
            sent = send(target, errand.name, shas, self._key, self._bytes, keep)
        return replace(told, sent=sent, pages=sum(path.endswith(".html") for path in shas))

    def _bytes(self, path: str) -> bytes:
        return (self._folder / path).read_bytes()

    def _made(self, swap: Swap) -> Made:
        """Its part, with its pictures made as they are wanting."""
        task = self._task(swap)
        while not isinstance(made := work_on(task), Made):
            with studio_of(self._root, self._means) as studio:
                for sha in made.damaged:
                    if (entry := studio.cache.entry(sha)) is not None:
                        studio.cache.forget(entry)
                task = replace(task, entries=finish_pictures(studio, made.paths))
        return made

    def _task(self, swap: Swap) -> Task:
        errand, archive = self._errand, short(f"{self._errand.content} {self._errand.target}")
        site = Site(
            self._root, swap.target, swap.new, errand.reader, errand.as_of, errand.began,
            self._store, errand.version, archive, f"reads-{short(errand.content)}", self._means.cache,
            kept_recipe(Store(self._store, errand.version)),
        )  # fmt: skip
        assets = (asset for pattern in ASSETS for asset in theme_folder().glob(pattern))
        beside = {asset.name: asset for asset in assets}
        return Task(site, errand.name, errand.cars, errand.base, errand.elsewhere, beside=beside)

    def _commit(self, swap: Swap, made: Made, shas: Mapping[str, str]) -> None:
        laid = [*made.laid]
        if not (swap.target / MARK).exists():
            put(swap.new, MARK, archive_mark(self._errand.name))
            laid.append(MARK)
        gone = [path for path in Tree(swap.target).files() if path not in shas and path != MARK]
        swap.commit(laid, [path for path in gone if not path.endswith("/")])

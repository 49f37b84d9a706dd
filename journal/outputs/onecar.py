"""One car of an archive, from its files to those files of its part that have changed: work for a process."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import date
from functools import partial
from pathlib import Path, PurePosixPath

import msgspec
from jinja2 import Environment
from msgspec import Struct

from journal.outputs.archive import (
    Order,
    as_of,
    concerning,
    files_beside,
    part_of,
    view_of_part,
)
from journal.outputs.collecting import collected_seldom
from journal.outputs.findings import problems_of_car
from journal.outputs.hands import shared
from journal.outputs.kept.lies import lying_still
from journal.outputs.kept.reads import Reads
from journal.outputs.kept.store import Store
from journal.outputs.kept.templates import kept_environment
from journal.outputs.kept.texts import remember_texts
from journal.outputs.kept.tree import Tree
from journal.outputs.pictures import jobs_of, with_facts
from journal.outputs.pieces import Piece, Set, Setter, page_pieces, text_pieces
from journal.outputs.withheld import leak_problems, search_for
from journal.pages import MANY, PAGES, CarFront, front_of
from journal.pages.page import Page
from journal.pages.view import CarView
from journal.pictures.cache import Entry, Kept, PictureCache, kept_bytes
from journal.pictures.make import Job, files_of, known_pictures, problems_in, published_of
from journal.pictures.published import Published
from journal.reading.car import read_car
from journal.reading.content import read_workshop
from journal.records.carfile import CarFile, Content
from journal.records.problem import Problem, problem_order
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall


class Site(Struct, frozen=True):
    """What is the same for all cars of one archive: from where to where, for whom, and what is kept.

    New files are laid into `new`; `began` is a moment in ns before anything was read. In the `store`,
    what belongs to the archive is kept under `archive`, what was read under `reads`.
    """

    root: Path
    target: Path
    new: Path
    reader: Reader
    as_of: date | None
    began: int
    store: Path | None
    version: str
    archive: str
    reads: str
    pictures: Path
    recipe: str


def _unknown() -> None:
    return None


class Task(Struct, frozen=True):
    """One car to work on. Without a `base`, its folder in the archive, nothing is made but its problems.

    `cars` are all that can be read; `elsewhere` is what was found in the files of this one while others
    were looked at. `lying` tells how its part of the archive lies there, `beside` what lies in the archive
    and belongs to no car. `entries` are its pictures, when they had to be made. So many `hands` may work on
    it at once.
    """

    site: Site
    name: str
    cars: tuple[str, ...]
    base: str | None
    elsewhere: tuple[Problem, ...] = ()
    lying: Callable[[], Tree | None] = _unknown
    beside: Mapping[str, Path] | None = None
    entries: Mapping[str, Entry] | None = None
    hands: int = 1


class Made(Struct, frozen=True):
    """What came of a car: its problems, what it gives to the front page, the hash of each of its files in
    the archive, which of them were laid anew, what of them must not be shown, and what was wrong with
    what had been kept."""

    problems: tuple[Problem, ...]
    front: CarFront | None = None
    shas: Mapping[str, str] | None = None
    laid: tuple[str, ...] = ()
    leaks: tuple[Problem, ...] = ()
    wrong: tuple[str, ...] = ()


class Wanting(Struct, frozen=True):
    """Nothing came of a car yet: these photographs must be made first. Of the `damaged` ones, by their
    hash, something is in the cache of pictures that is not what was written."""

    paths: tuple[str, ...]
    damaged: tuple[str, ...] = ()


class _Damaged(Exception):
    """A rendition is not what was written."""


def lies_name(archive: str, base: str) -> str:
    """Under which name it is kept how a part of an archive lies there."""
    return f"{archive}/lies.{base.rstrip('/')}"


def work_on(task: Task) -> Made | Wanting:
    """All of the work on one car."""
    with collected_seldom():
        return _worked_on(task)


def _worked_on(task: Task) -> Made | Wanting:
    store = Store(task.site.store, task.site.version)
    car, wrong = _read(task.site, store, task.name)
    if car is None:
        return Made(tuple(wrong), wrong=store.wrong)
    if task.base is None:
        return Made((*wrong, *problems_of_car(car)), wrong=store.wrong)
    return _Work(task, store, car, wrong, task.base).made()


class _Work:
    """A car that is published."""

    def __init__(
        self, task: Task, store: Store, car: CarFile, wrong: Sequence[Problem], base: str
    ) -> None:
        self.task, self.store, self.car, self.wrong = task, store, car, wrong
        site = task.site
        self.order = Order(site.root, site.target, site.reader, task.name, site.as_of)
        self.others = tuple(self._others())
        self.part = part_of(car, self.order, self.others, base=base)
        self.jobs = jobs_of(self.part.seen, base)
        self.searched, self.before = _sets(store, self._sets)

    @property
    def _sets(self) -> str:
        return f"{self.task.site.archive}/set.{self.task.name}"

    @property
    def _texts(self) -> str:
        return f"{self.task.site.archive}/texts.{self.task.name}"

    def _setter(self) -> Setter:
        """What sets its files, knowing how they lie there."""
        site, base = self.task.site, self.part.base
        lies = lying_still(self.store, lies_name(site.archive, base), self.task.lying())
        there = {base + path: sha for path, sha in lies.items()}
        return Setter(site.target, site.new, self.before, there)

    def made(self) -> Made | Wanting:
        """The work, unless pictures are wanting."""
        entries = self._entries()
        wanting = tuple(job.path for job in self.jobs if job.path not in entries)
        if wanting:
            return Wanting(wanting)
        sheets = (*self.car.sheets, *self.part.seen.sheets)
        remember_texts(self.store, self._texts, sheets, self.task.hands)
        view, problems = self._told(entries)
        # So late, since whoever looks at the archive meanwhile may not be done before.
        setter = self._setter()
        damaged = self._set_pictures(setter, entries)
        if damaged:
            spoilt = tuple(entries[path].sha256 for path in damaged)
            return Wanting(tuple(damaged), spoilt)
        front = front_of(view) if view.base else None
        view.fold_ahead()
        self._set_files(setter, view)
        leaks = self._searched(setter, view)
        shas = {path: one.sha for path, one in setter.done.items()}
        return Made(
            problems,
            front,
            shas,
            tuple(setter.laid),
            leaks,
            self.store.wrong,
        )

    def _others(self) -> Iterator[CarFile]:
        """The other cars, where they matter: of a car that its workshop sees, nothing depends on them."""
        site = self.task.site
        for name in self.task.cars if site.reader is not Reader.WORKSHOP else ():
            if name != self.task.name:
                car, _ = _read(site, self.store, name)
                if car is not None:
                    yield car

    def _entries(self) -> dict[str, Entry]:
        """What is known of each photograph: as it was made just now, or before."""
        site, made = self.task.site, dict(self.task.entries or {})
        try:
            cache = PictureCache(site.pictures, site.recipe)
        except WrongCall:
            # It is told of where pictures are made.
            return made
        try:
            paths = (job.path for job in self.jobs if job.path not in made)
            return {**known_pictures(cache, site.root, paths), **made}
        finally:
            cache.leave()

    def _set_pictures(self, setter: Setter, entries: Mapping[str, Entry]) -> list[str]:
        """Set the renditions; the photographs of which one is damaged."""
        damaged = []
        for job in self.jobs:
            try:
                setter.set(_renditions(self.task.site.pictures, job, entries[job.path]))
            except _Damaged:
                damaged.append(job.path)
        return damaged

    def _told(self, entries: Mapping[str, Entry]) -> tuple[CarView, tuple[Problem, ...]]:
        """The car as its reader sees it, and every problem of it. The workshop sees the very record in
        which they are sought, so that it is folded once for both."""
        made = published_of(self.jobs, entries)
        looked = self._looked(made)
        workshop = self.order.reader is Reader.WORKSHOP
        seen = view_of_part(self.part, looked, self.order, made, ()) if workshop else None
        bad = problems_in({job.path: entries[job.path] for job in self.jobs})
        problems = (*self.wrong, *bad, *problems_of_car(looked, seen))
        told = tuple(sorted({*problems, *self.task.elsewhere}, key=problem_order))
        if seen is not None:
            return seen.telling(concerning(self.task.name, told)), problems
        return view_of_part(self.part, looked, self.order, made, told), problems

    def _looked(self, made: Mapping[str, Published]) -> CarFile:
        """The car with what its photographs say of themselves."""
        facts = {path: shown.facts for path, shown in made.items()}
        alone = Content(self.car.workshop, self.car.workshop_source, (self.car,))
        (looked,) = with_facts(alone, facts).cars
        return looked

    def _set_files(self, setter: Setter, view: CarView) -> None:
        """Set pages and files, by all hands that there are for it."""
        hands = self.task.hands
        templates = kept_environment(self.store)
        shares = tuple(_shares(view, templates, hands))

        def set_some(
            numbers: Iterator[int],
        ) -> tuple[dict[str, Set], dict[str, None], tuple[str, ...]]:
            mine = setter.beside()
            for number in numbers:
                mine.set(shares[number]())
            return mine.done, mine.laid, self.store.wrong

        for done, laid, wrong in shared(set_some, len(shares), hands):
            setter.take_over(done, laid)
            self.store.hear(wrong)

    def _searched(self, setter: Setter, view: CarView) -> tuple[Problem, ...]:
        """What the files would show that their reader may not see. A file that was found clean by the
        same search is not searched again; what was set is kept when nothing is found."""
        whole = as_of(self.car, self.order)
        search = search_for(whole, view.car, self.others, view.reader)
        sought = search.print if search else ""
        if search:
            leaks = tuple(search.leaks_in(self._unsearched(setter, sought)))
            if leaks:
                return leak_problems(leaks, view.reader)
        _keep_sets(self.store, self._sets, sought, setter.done)
        return ()

    def _unsearched(self, setter: Setter, sought: str) -> dict[str, Path]:
        """The files that were not found clean, with their folders."""
        clean = self.before if sought == self.searched else {}
        paths = [
            path
            for path, one in setter.done.items()
            if path not in clean or clean[path].sha != one.sha
        ]
        files = {path: setter.lies(path) for path in paths}
        folders = {str(above) for path in paths for above in PurePosixPath(path).parents}
        files |= {folder: setter.folder / folder for folder in folders - {"."}}
        return files | dict(self.task.beside or {})


def _shares(
    view: CarView, templates: Environment, hands: int
) -> Iterator[Callable[[], Iterable[Piece]]]:
    """What is to be set of one car, in shares that each hand takes up one after the other: first the
    largest that is not divided, then the pages of each kind, divided where one kind has many."""
    yield lambda: text_pieces(files_beside(view))
    for make in PAGES:
        parts = hands if make in MANY else 1
        for part in range(parts):
            yield partial(_share, view, templates, make, slice(part, None, parts))


def _share(
    view: CarView,
    templates: Environment,
    make: Callable[[CarView], tuple[Page, ...]],
    which: slice,
) -> Iterator[Piece]:
    # Of two pages with one path the later one stands, whoever would have made the other.
    pages = {page.path: page for page in make(view)}
    # No page is held longer than it takes to set it.
    return page_pieces(templates, (pages.pop(path) for path in [*pages][which]))


def _read(site: Site, store: Store, name: str) -> tuple[CarFile | None, list[Problem]]:
    reads = Reads(store, f"{site.reads}/{name}", site.began)
    workshop, source, problems = read_workshop(site.root, reads.ways)
    if workshop is None:
        # It was changed since the work began, and is told of when the next one does.
        return None, problems
    car, wrong = read_car(site.root, name, workshop, source, reads.ways)
    reads.close()
    return car, wrong


def _renditions(cache: Path, job: Job, entry: Entry) -> Iterator[Piece]:
    for path, kept in files_of(job, entry):
        yield Piece(path, kept.sha256, partial(_whole, cache, kept), kept.sha256)


def _whole(cache: Path, kept: Kept) -> bytes:
    data = kept_bytes(cache, kept)
    if data is None:
        raise _Damaged
    return data


def _sets(store: Store, name: str) -> tuple[str, dict[str, Set]]:
    """What was set the last time, and by which search it was found clean."""
    raw = store.get(name)
    if raw is None:
        return "", {}
    sought, sets = msgspec.json.decode(raw, type=tuple[str, dict[str, Set]])
    return sought, sets


def _keep_sets(store: Store, name: str, sought: str, sets: Mapping[str, Set]) -> None:
    store.put(name, msgspec.json.encode((sought, sets)))

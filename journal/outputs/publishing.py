"""An archive brought up to date: only what has changed is made, and only that is written.

A car whose files are as they were, and whose part of the archive lies there as it was set, is left alone.
Every other car is worked on by a process of its own; a page is printed when what it shows has changed.
No list says what depends on what: the values of a page are all that it can show.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from concurrent.futures import Executor
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import partial
from hashlib import sha256
from pathlib import Path
from sqlite3 import OperationalError

from msgspec import Struct
from msgspec.structs import replace

from journal.outputs.again import Found
from journal.outputs.archive import ASSETS, chosen, come_in, concerning
from journal.outputs.hands import MOST_HANDS
from journal.outputs.kept.book import Keeping, Told, book_of, write_book
from journal.outputs.kept.lies import keep_lying
from journal.outputs.kept.look import Asked
from journal.outputs.kept.reads import Reads
from journal.outputs.kept.recipe import kept_recipe
from journal.outputs.kept.saved import Saved, keep_saved, saved_of
from journal.outputs.kept.templates import kept_environment
from journal.outputs.kept.tree import Tree
from journal.outputs.onecar import Made, Site, Task, Wanting, lies_name
from journal.outputs.pictures import Means, passing_cache, studio_of
from journal.outputs.pieces import Setter, bytes_piece, page_pieces
from journal.outputs.problems import problems_text
from journal.outputs.staging import MARK, archive_mark, refuse_other
from journal.outputs.swap import Swap
from journal.outputs.themes import theme_folder
from journal.outputs.withheld import Withheld
from journal.outputs.working import worked_on
from journal.pages import page_fronts
from journal.pictures.cache import Entry
from journal.pictures.make import finish_pictures
from journal.pictures.pool import pool_of
from journal.reading.content import read_workshop
from journal.reading.files import car_folders
from journal.records.car import Car
from journal.records.problem import Problem, Severity, problem_order
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall

# To begin a process takes as long as working on so many bytes of text.
_WORTH = 200_000


class Glance(Struct, frozen=True):
    """A car as far as its `car.yaml` tells of it."""

    name: str
    car: Car


class Work(Struct, frozen=True):
    """One publishing: what is asked for, what there is, and where it goes."""

    asked: Asked
    keeping: Keeping
    swap: Swap
    means: Means
    found: Found


def bring_up_to_date(work: Work) -> Told:
    """Do all that is to be done, and say what came of it.

    Raises WrongCall when there is nothing to publish for this reader, and Withheld when the archive would
    show what its reader may not see; the archive before it then stays.
    """
    plan = _planned(work)
    mark = archive_mark(plan.workshop)
    refuse_other(work.swap.target, mark)
    rest = _rest(work, mark)
    with passing_cache(work.swap.new) as passing:
        outcome = Cars(work, plan, passing, {path: rest.lies(path) for path in rest.done}).all()
    leaks = [leak for made in outcome.made.values() for leak in made.leaks]
    if leaks:
        raise Withheld(tuple(sorted(leaks, key=problem_order)))
    found = {*plan.problems, *(p for saved in outcome.saved.values() for p in saved.problems)}
    problems = tuple(sorted(found, key=problem_order))
    if len(plan.bases) > 1:
        fronts = [front for name in plan.bases if (front := outcome.saved[name].front)]
        rest.set(page_pieces(kept_environment(work.keeping.store), page_fronts(fronts, problems)))
    return Ending(work, plan, outcome, rest).told(problems)


class Plan(Struct, frozen=True):
    """The cars: all names with what their `car.yaml` tells, where it can be read; the folders in the
    archive of those that are published; what came of each the last time; what is wrong with none of
    them in particular; and what the workshop is called."""

    cars: dict[str, Car | None]
    bases: dict[str, str]
    saved: dict[str, Saved]
    problems: tuple[Problem, ...]
    workshop: str

    @property
    def readable(self) -> tuple[str, ...]:
        """The names of the cars that can be read."""
        return tuple(name for name, car in self.cars.items() if car is not None)


def _planned(work: Work) -> Plan:
    asked, content, store = work.asked, work.found.content, work.keeping.store
    content.read_fresh(work.found.began)
    # No car is called that: its folder would be hidden.
    reads = Reads(store, f"{asked.content}/.cars", work.found.began)
    workshop, _, problems = read_workshop(asked.root, reads.ways)
    names, wrong = car_folders(asked.root) if workshop else ((), [])
    cars = {name: reads.ways.yaml(asked.root, f"{name}/car.yaml", Car)[0] for name in names}
    reads.close()
    saved = {name: kept for name in names if (kept := saved_of(store, _said_name(work, name)))}
    glances = [Glance(name, car) for name, car in cars.items() if car]
    published = come_in(chosen(glances, asked.car, asked.reader), asked.as_of)
    single = len(published) == 1
    bases = {car.name: "" if single else f"{car.name}/" for car in published}
    return Plan(cars, bases, saved, (*problems, *wrong), workshop.name if workshop else "")


def _said_name(work: Work, name: str) -> str:
    return f"{work.asked.name}/said.{name}"


def _rest(work: Work, mark: bytes) -> Setter:
    """What belongs to no car: the mark, style and scripts."""
    # What is compared with what lies there has been looked at before.
    work.found.lying.part("")
    rest = Setter(work.swap.target, work.swap.new)
    rest.set([bytes_piece(MARK, mark)])
    for pattern in ASSETS:
        for asset in sorted(theme_folder().glob(pattern)):
            rest.set([bytes_piece(asset.name, asset.read_bytes())])
    return rest


@dataclass
class Outcome:
    """What came of every car: what was `made` in this publishing, and what is to be `saved` of all."""

    made: dict[str, Made] = field(default_factory=dict)
    saved: dict[str, Saved] = field(default_factory=dict)


class Cars:
    """The work on all cars that need it."""

    def __init__(self, work: Work, plan: Plan, passing: Path, beside: Mapping[str, Path]) -> None:
        self._work, self._plan, self._passing, self._beside = work, plan, passing, beside
        self._outcome = Outcome(saved=dict(plan.saved))
        self._means = work.means

    def all(self) -> Outcome:
        """Work on what has changed, then on what does not lie there as it was set, and again on cars of
        which another one found something."""
        only_read = [name for name in self._plan.cars if name not in self._plan.bases]
        for names in (only_read, [*self._plan.bases]):
            self._work_on([name for name in names if not self._holds(name)])
        self._work_on([n for n in self._plan.bases if not self._anew(n) and not self._lies(n)])
        self._work_on([n for n in self._plan.bases if self._elsewhere(n) != self._told(n)])
        return self._outcome

    def _anew(self, name: str) -> bool:
        return name in self._outcome.made

    def _told(self, name: str) -> tuple[Problem, ...]:
        return self._outcome.saved[name].elsewhere

    def _holds(self, name: str) -> bool:
        """Whether what came of a car the last time still holds."""
        saved = self._plan.saved.get(name)
        return saved is not None and self._key(name, saved.began) == saved.key

    def _lies(self, name: str) -> bool:
        """Whether its part of the archive lies there as it was set."""
        book, base = self._work.found.book, self._plan.bases[name]
        lying = self._work.found.lying.parts.get(base)
        return bool(book and lying and lying.sum(book.ended) == book.archive.get(base))

    def _key(self, name: str, since: int) -> str:
        """A sum over all that decides what a car comes to."""
        content, base = self._work.found.content, self._plan.bases.get(name)
        told = [content.shared(since), content.sum(name, since), str(base)]
        if base is not None and self._work.asked.reader is not Reader.WORKSHOP:
            told += [*self._plan.readable, *(content.sum(n, since) for n in self._plan.cars)]
        return sha256("\0".join(told).encode()).hexdigest()

    def _elsewhere(self, name: str) -> tuple[Problem, ...]:
        others = (s for other, s in self._outcome.saved.items() if other != name)
        found = {*self._plan.problems, *(p for saved in others for p in saved.problems)}
        return tuple(sorted(concerning(name, found), key=problem_order))

    def _work_on(self, names: list[str]) -> None:
        entries: dict[str, Mapping[str, Entry]] = {}
        with self._processes(names) as pool:
            while names:
                elsewhere = {name: self._elsewhere(name) for name in names}
                wanting: dict[str, Wanting] = {}
                hands = self._hands(names)
                tasks = [
                    self._task(name, elsewhere[name], entries.get(name), hands) for name in names
                ]
                for name, done in worked_on(pool, tasks):
                    if isinstance(done, Wanting):
                        wanting[name] = done
                    else:
                        self._note(name, done, elsewhere[name])
                entries = self._made_pictures(wanting)
                names = [*wanting]

    def _hands(self, names: list[str]) -> int:
        """How many hands there are for each car: more than one when there are fewer cars than hands."""
        text = sum(self._work.found.content.texts(name) for name in names)
        if self._means.pool is not None or text < _WORTH:
            return 1
        return min(MOST_HANDS, max(1, self._means.workers // len(names)))

    @contextmanager
    def _processes(self, names: list[str]) -> Iterator[Executor]:
        """As many processes as there is work for; this one does it when it is little."""
        if (opened := self._means.pool) is not None and names:
            with opened() as pool:
                yield pool
            return
        texts = sorted(self._work.found.content.texts(name) for name in names)
        workers = min(len(names), self._means.workers) if sum(texts[:-1]) > _WORTH else 1
        with pool_of(workers)() as pool:
            yield pool

    def _task(
        self, name: str, elsewhere: tuple[Problem, ...], entries: Mapping[str, Entry] | None,
        hands: int,
    ) -> Task:  # fmt: skip
        base = self._plan.bases.get(name)
        if (before := self._outcome.made.pop(name, None)) is not None:
            for path in before.laid:
                (self._work.swap.new / path).unlink(missing_ok=True)
        return Task(
            self._site(), name, self._plan.readable, base, elsewhere, partial(self._lying, base),
            self._beside, entries, hands,
        )  # fmt: skip

    def _lying(self, base: str | None) -> Tree | None:
        return self._work.found.lying.part(base) if base is not None else None

    def _site(self) -> Site:
        asked, store = self._work.asked, self._work.keeping.store
        swap = self._work.swap
        return Site(
            asked.root, swap.target, swap.new, asked.reader, asked.as_of, self._work.found.began,
            store.folder, store.version, asked.name, asked.content, self._means.cache,
            kept_recipe(store),
        )  # fmt: skip

    def _note(self, name: str, made: Made, elsewhere: tuple[Problem, ...]) -> None:
        found = self._work.found
        self._outcome.made[name] = made
        self._work.keeping.store.hear(made.wrong)
        self._outcome.saved[name] = Saved(
            found.began, self._key(name, found.began),
            elsewhere if name in self._plan.bases else (), made.problems, made.front,
        )  # fmt: skip

    def _made_pictures(self, wanting: Mapping[str, Wanting]) -> dict[str, Mapping[str, Entry]]:
        """Make all that is wanting of pictures, by all processes: what is known of each photograph of
        every car."""
        if not wanting:
            return {}
        try:
            return self._made_with(wanting)
        except (WrongCall, OSError, OperationalError) as fault:
            if self._means.cache == self._passing:
                raise
            self._means.notice(
                f"The cache of pictures {self._means.cache} cannot be used ({_reason(fault)}); "
                "they are made without it."
            )
            self._means = replace(self._means, cache=self._passing)
            return self._made_with(wanting)

    def _made_with(self, wanting: Mapping[str, Wanting]) -> dict[str, Mapping[str, Entry]]:
        with studio_of(self._work.asked.root, self._means) as studio:
            for sha in {sha for one in wanting.values() for sha in one.damaged}:
                if (entry := studio.cache.entry(sha)) is not None:
                    studio.cache.forget(entry)
            paths = [path for one in wanting.values() for path in one.paths]
            entries = finish_pictures(studio, paths)
        return {n: {path: entries[path] for path in one.paths} for n, one in wanting.items()}


def _reason(fault: Exception) -> str:
    said = fault.strerror if isinstance(fault, OSError) else None
    return (said or "it cannot be written").lower()


class Ending:
    """What is done once all files are there: they go to their places, and it is written down."""

    def __init__(self, work: Work, plan: Plan, outcome: Outcome, rest: Setter) -> None:
        self._work, self._plan, self._outcome = work, plan, outcome
        self._shas = {path: one.sha for path, one in rest.done.items()}
        self._laid = [*rest.laid]
        for made in outcome.made.values():
            self._shas |= made.shas or {}
            self._laid += made.laid
        # The parts of the archive that were not touched, and need not be looked at.
        self._whole = {
            base for name, base in plan.bases.items() if base and name not in outcome.made
        }
        if len(plan.bases) == 1 and not self._laid and not {*plan.bases} & {*outcome.made}:
            self._whole.add("")

    def told(self, problems: tuple[Problem, ...]) -> Told:
        """Do it, and say what came of it all."""
        gone = self._gone()
        swap = self._work.swap
        if self._laid or gone or not swap.target.exists():
            swap.commit(self._laid, gone)
        errors = any(problem.severity is Severity.ERROR for problem in problems)
        told = problems_text(problems) if problems else ""
        return self._written(told, [*self._laid, *gone], errors=errors)

    def _gone(self) -> list[str]:
        """What lies there and does not belong there any more, folders behind what was in them."""
        wanted = {*self._shas, *_folders(self._shas)}
        there = []
        for part, tree in self._work.found.lying.parts.items():
            if part not in self._whole:
                there += [part + path for path in tree.files()]
                there += [part] if part else []
        kept = _folders(self._whole)
        return sorted((p for p in there if p not in wanted and p not in kept), key=_depth)

    def _written(self, problems: str, touched: Iterable[str], *, errors: bool) -> Told:
        """Write down what there is now, so that the next publishing can see whether it still is."""
        found, asked, keeping = self._work.found, self._work.asked, self._work.keeping
        ended = keeping.clock()
        parts = found.lying.again(self._plan.bases.values(), self._whole, touched, found.began)
        sums, pages = {}, 0
        for part, tree in parts.items():
            pages += tree.pages if tree is not None else self._pages_made(part)
            known = None if part in self._whole else _of_part(self._shas, part)
            # What somebody else changed meanwhile is compared the next time, file by file.
            sums[part] = tree.sum(ended, known) if tree is not None else ""
            if tree is None:
                keeping.store.drop(lies_name(asked.name, part))
            elif known is not None:
                keep_lying(keeping.store, lies_name(asked.name, part), tree, ended, known)
        for name in self._outcome.made:
            keep_saved(keeping.store, _said_name(self._work, name), self._outcome.saved[name])
        keeping.store.clear_old()
        told = Told(problems, errors, pages)
        write_book(keeping, asked, book_of(found.content, found.began, sums, ended, told))
        return told

    def _pages_made(self, part: str) -> int:
        """How many pages there should be in a part."""
        if part in self._whole:
            return self._work.found.lying.parts[part].pages
        bases = [base for base in self._plan.bases.values() if base]
        within = (p for p in self._shas if part == next(filter(p.startswith, bases), ""))
        return sum(path.endswith(".html") for path in within)


def _of_part(shas: Mapping[str, str], part: str) -> Callable[[str], str]:
    return lambda path: shas.get(part + path, "")


def _folders(paths: Iterable[str]) -> set[str]:
    """All folders above some paths, each with a `/` at its end."""
    found: set[str] = set()
    for path in paths:
        above = path.rpartition("/")[0]
        while above and f"{above}/" not in found:
            found.add(f"{above}/")
            above = above.rpartition("/")[0]
    return found


def _depth(path: str) -> tuple[bool, int, str]:
    return (path.endswith("/"), -path.count("/"), path)

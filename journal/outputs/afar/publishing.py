"""A whole archive, from one address to another: every car is an errand, and what belongs to none is put here.

A car that would show what its reader may not see, or over which every worker was ended, costs that car: its
part stays as it was, and the others go on.
"""

import shutil
from collections.abc import Callable, Iterable
from concurrent.futures import Executor, Future, as_completed
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from hashlib import sha256
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from journal.outputs.afar.copies import LISTS, send, standing
from journal.outputs.afar.errands import Answer, Errand, short
from journal.outputs.afar.places import Place
from journal.outputs.afar.underway import Beginning, Waiting, refuse_lost, underway
from journal.outputs.archive import ASSETS, chosen, come_in, concerning
from journal.outputs.kept.pack import packed, unpacked
from journal.outputs.kept.store import Store
from journal.outputs.kept.templates import kept_environment
from journal.outputs.pieces import Piece, bytes_piece, page_pieces
from journal.outputs.publishing import Glance
from journal.outputs.staging import MARK, archive_mark, others_mark, put
from journal.outputs.themes import theme_folder
from journal.pages import CarFront, page_fronts
from journal.pictures.pool import Ended
from journal.reading.car import read_yaml_file
from journal.reading.content import read_workshop
from journal.reading.files import car_folders
from journal.records.car import Car
from journal.records.problem import Problem, problem_order
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall

Run = Callable[[Errand], Answer]


class Afar(Struct, frozen=True):
    """What is to be published: from which address to which, for whom, which car, as of which day. `began`
    is a moment in ns before anything is read; `folder` is for what is looked at here; `token` is a word that
    no other publishing has."""

    content: str
    target: str
    reader: Reader
    car: str | None
    as_of: date | None
    began: int
    folder: Path
    token: str

    @property
    def name(self) -> str:
        """A short name of its own for each archive."""
        told = (self.content, self.target, self.reader, self.car, self.as_of)
        return short("\0".join(map(str, told)))


@dataclass
class Outcome:
    """What came of all cars: their problems, what each gives to the front page, which of them would have
    shown what is private and which ended every worker, and how many pages there are and files that
    travelled."""

    problems: dict[str, tuple[Problem, ...]] = field(default_factory=dict)
    fronts: dict[str, CarFront] = field(default_factory=dict)
    leaks: list[Problem] = field(default_factory=list)
    ended: list[str] = field(default_factory=list)
    pages: dict[str, int] = field(default_factory=dict)
    sent: int = 0
    all: tuple[Problem, ...] = ()


class _Plan(Struct, frozen=True):
    workshop: str
    cars: dict[str, Car | None]
    bases: dict[str, str]
    shared: tuple[tuple[str, bytes], ...]
    problems: tuple[Problem, ...]


def publish_afar(asked: Afar, store: Store, pool: Executor, run: Run, waiting: Waiting) -> Outcome:
    """Bring an archive up to date, and say what came of it.

    Raises WrongCall when there is nothing to publish, when the archive's place holds something else, when
    another publishing takes over, and when a place refuses.
    """
    content, target = Place(asked.content), Place(asked.target)
    _refuse_inside(content, target)
    plan = _planned(asked, content)
    mark = archive_mark(plan.workshop)
    _refuse_other(target, mark)
    with underway(target, _beginning(asked), waiting) as waited:
        # What was written in the meantime is published too.
        plan = _planned(asked, content) if waited else plan
        if not _refuse_other(target, mark):
            target.write(MARK, mark)
        return _Publishing(asked, store, pool, run, plan, target).all()


def _beginning(asked: Afar) -> Beginning:
    since = datetime.fromtimestamp(asked.began / 1_000_000_000, UTC)
    return Beginning(asked.token, f"{since:%Y-%m-%d %H:%M} UTC", asked.folder, short(asked.target))


def _planned(asked: Afar, content: Place) -> _Plan:
    """What the files at the top tell, and the `car.yaml` of each folder; nothing else is fetched here."""
    names = content.names()
    if not names:
        raise WrongCall(f"there is nothing at {asked.content}")
    shared = content.read(name for name, is_folder in names.items() if not is_folder)
    if "workshop.yaml" not in shared:
        raise WrongCall(f"{asked.content} is no content folder: it holds no workshop.yaml")
    cars = content.read(f"{name}/car.yaml" for name, is_folder in names.items() if is_folder)
    root = asked.folder / f"{asked.name}.look"
    shutil.rmtree(root, ignore_errors=True)
    try:
        for path, data in {**shared, **cars}.items():
            put(root, path, data)
        return _plan_of(asked, root, tuple(shared.items()))
    finally:
        shutil.rmtree(root, ignore_errors=True)


def _plan_of(asked: Afar, root: Path, shared: tuple[tuple[str, bytes], ...]) -> _Plan:
    workshop, _, problems = read_workshop(root)
    names, wrong = car_folders(root) if workshop else ((), [])
    cars = {name: read_yaml_file(root, f"{name}/car.yaml", Car)[0] for name in names}
    glances = [Glance(name, car) for name, car in cars.items() if car]
    published = come_in(chosen(glances, asked.car, asked.reader), asked.as_of)
    single = len(published) == 1
    bases = {car.name: "" if single else f"{car.name}/" for car in published}
    return _Plan(workshop.name if workshop else "", cars, bases, shared, (*problems, *wrong))


def _refuse_inside(content: Place, target: Place) -> None:
    if content.holds(target):
        raise WrongCall(f"{target.address} lies inside the content; choose a place outside it")
    if target.holds(content):
        raise WrongCall(f"{target.address} holds the content; choose an empty place")


def _refuse_other(target: Place, mark: bytes) -> bool:
    """Whether an archive of the workshop stands there already; an empty place is as good."""
    there = target.read([MARK])
    if there and (other := others_mark(there[MARK].decode("utf-8", "replace"), mark)):
        raise WrongCall(f"{target.address} holds {other}; choose another place")
    if not there and target.names():
        raise WrongCall(
            f"{target.address} holds files that journal did not write; choose an empty place"
        )
    return bool(there)


class _Publishing:
    """The work on all cars, and then on what belongs to none."""

    def __init__(
        self, asked: Afar, store: Store, pool: Executor, run: Run, plan: _Plan, target: Place
    ) -> None:
        self._asked, self._store, self._pool, self._run = asked, store, pool, run
        self._plan, self._target, self._out = plan, target, Outcome()
        self._told: dict[str, tuple[Problem, ...]] = {}
        # What was found the last time is what will be found this time, of most cars.
        self._out.problems |= {name: self._kept(name)[1] for name in plan.cars}

    def all(self) -> Outcome:
        """Every car, again those of which another one found something, and the rest."""
        bases = self._plan.bases
        refuse_lost(self._target, self._asked.token)
        self._put_assets()
        for names in ([n for n in self._plan.cars if n not in bases], [*bases]):
            self._send(names)
        self._send(
            [n for n in bases if n not in self._out.ended and self._elsewhere(n) != self._told[n]]
        )
        found = {*self._plan.problems, *(p for ps in self._out.problems.values() for p in ps)}
        self._out.all = tuple(sorted(found, key=problem_order))
        refuse_lost(self._target, self._asked.token)
        self._put_rest()
        self._clear_gone()
        return self._out

    def _elsewhere(self, name: str) -> tuple[Problem, ...]:
        if name not in self._plan.bases:
            return ()
        others = (ps for other, ps in self._out.problems.items() if other != name)
        found = {*self._plan.problems, *(p for ps in others for p in ps)}
        return tuple(sorted(concerning(name, found), key=problem_order))

    def _send(self, names: list[str]) -> None:
        errands = {name: self._errand(name) for name in names}
        self._told |= {name: errand.elsewhere for name, errand in errands.items()}
        futures: dict[Future[Answer], str] = {
            self._pool.submit(self._run, errand): name for name, errand in errands.items()
        }
        left = dict(errands)
        for future in as_completed(futures):
            try:
                answer = future.result()
            except Ended:
                continue
            self._note(futures[future], left.pop(futures[future]), answer)
        # Nobody can tell which of those that were under way did it: each is tried alone.
        for name, errand in left.items():
            try:
                self._note(name, errand, self._pool.submit(self._run, errand).result())
            except Ended:
                self._out.ended.append(name)
                self._remember(name, errand)

    def _errand(self, name: str) -> Errand:
        asked, plan = self._asked, self._plan
        readable = tuple(name for name, car in plan.cars.items() if car is not None)
        errand = Errand(
            asked.content, asked.target, asked.reader, asked.as_of, name, plan.bases.get(name),
            () if asked.reader is Reader.WORKSHOP else readable, plan.shared, self._elsewhere(name),
            asked.began, self._store.version, asked.token,
        )  # fmt: skip
        key, *_ = self._kept(name)
        return replace(errand, key=key)

    def _kept(self, name: str) -> tuple[str, tuple[Problem, ...], CarFront | None, int]:
        kept = unpacked(self._store.get(f"{self._asked.name}/afar.{name}"))
        return kept if kept is not None else ("", (), None, 0)

    def _note(self, name: str, errand: Errand, answer: Answer) -> None:
        if answer.still:
            self._remember(name, errand)
            return
        self._out.problems[name] = answer.problems
        self._out.sent += answer.sent
        self._out.leaks += answer.leaks
        if answer.leaks:
            self._remember(name, errand)
            return
        if answer.front is not None:
            self._out.fronts[name] = answer.front
        self._out.pages[name] = answer.pages
        told = (answer.key, answer.problems, answer.front, answer.pages)
        self._store.put(f"{self._asked.name}/afar.{name}", packed(told))

    def _remember(self, name: str, errand: Errand) -> None:
        """What a car that stays as it is told the last time."""
        _, problems, front, pages = self._kept(name)
        self._out.problems[name] = problems
        self._out.pages[name] = pages
        if front is not None and errand.base is not None:
            self._out.fronts[name] = front

    def _clear_gone(self) -> None:
        """Take away the parts of cars that are not published any more."""
        lists = (Path(path) for path in self._target.files(f"{LISTS}/cars"))
        for name in sorted({file.stem for file in lists} - {*self._plan.bases}):
            send(self._target, name, {}, "", _nothing, keep=self._of_the_car())
            self._target.remove(f"{LISTS}/cars/{name}.json")

    def _of_the_car(self) -> Iterable[str]:
        """The files of the one car that has the whole archive to itself; none where there are several."""
        alone = [name for name, base in self._plan.bases.items() if not base]
        return standing(self._target, alone[0])[0] if alone else ()

    def _put_assets(self) -> None:
        """Style and scripts, before any page; the front page stays as it is."""
        files = {piece.path: piece.make() for piece in _assets()}
        shas = {path: sha256(data).hexdigest() for path, data in files.items()}
        there = {p: sha for p, sha in standing(self._target, "")[0].items() if p.endswith(".html")}
        self._out.sent += send(self._target, "", {**there, **shas}, "", files.__getitem__)

    def _put_rest(self) -> None:
        """The front page across cars, last of all."""
        pieces = _assets()
        if len(self._plan.bases) > 1:
            fronts = [f for name in self._plan.bases if (f := self._out.fronts.get(name))]
            pages = page_fronts(fronts, self._out.all)
            pieces += page_pieces(kept_environment(self._store), pages)
        files = {piece.path: piece.make() for piece in pieces}
        shas = {path: sha256(data).hexdigest() for path, data in files.items()}
        self._out.pages[""] = sum(path.endswith(".html") for path in files)
        self._out.sent += send(
            self._target, "", shas, "", files.__getitem__, keep=self._of_the_car()
        )


def _assets() -> list[Piece]:
    assets = (asset for pattern in ASSETS for asset in theme_folder().glob(pattern))
    return [bytes_piece(asset.name, asset.read_bytes()) for asset in sorted(assets)]


def _nothing(path: str) -> bytes:
    raise AssertionError(f"{path} is not put")

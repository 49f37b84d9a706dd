"""What the desk shows: every car as it is now, its view for the workshop, and what is wrong."""

from collections.abc import Iterable, Mapping
from pathlib import Path
from threading import Lock

from msgspec import Struct, field
from msgspec.structs import replace

from journal.desk.darkroom import Darkroom, Look, Lying
from journal.desk.memory import Car, Memory
from journal.ledgers.seals import Fault, Seals
from journal.outputs.findings import problems_of_car
from journal.outputs.pictures import hung, jobs_of, photo_at
from journal.outputs.sealed import seals_of
from journal.outputs.sheets.disk import clear_ended
from journal.pages.view import CarView, view_of
from journal.pictures.make import Job, foretold
from journal.pictures.published import Published
from journal.records.carfile import CarFile
from journal.records.photofacts import PhotoFacts
from journal.records.problem import Problem, Severity, problem_order
from journal.records.workshop import Workshop
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall


class CarState(Struct, frozen=True):
    """One car: what was read of it, and what is shown.

    `number` tells one state of a car from another. `look` is the last one at its photographs, `made` what
    is shown of each; `pictures` are those that can be asked for, by the path of each rendition. `wrong` is
    what reading finds wrong, `found` what the checks and ledgers do; unless they were `asked` of this
    state, that is what they found in the one before.
    """

    number: int
    car: Car
    file: CarFile
    view: CarView
    pictures: Mapping[str, Job]
    look: Look
    made: Mapping[str, Published]
    wrong: tuple[Problem, ...]
    found: tuple[Problem, ...] = ()
    asked: bool = False

    @property
    def problems(self) -> tuple[Problem, ...]:
        """All that is wrong with the car. Of a file that cannot be read as it is, that alone is told."""
        broken = {p.place.path for p in self.wrong if p.severity is Severity.ERROR}
        told = (p for p in self.found if p.place.path not in broken)
        return tuple(sorted({*self.wrong, *told}, key=problem_order))


class State(Struct, frozen=True):
    """The whole desk at one moment: `number` grows with each change, `wrong` is what is wrong with no
    car in particular."""

    number: int = 0
    workshop: Workshop | None = None
    cars: Mapping[str, CarState] = field(default_factory=dict)
    wrong: tuple[Problem, ...] = ()

    @property
    def problems(self) -> tuple[Problem, ...]:
        """All that is wrong, in order of place."""
        own = (problem for car in self.cars.values() for problem in car.problems)
        return tuple(sorted({*self.wrong, *own}, key=problem_order))


class Live:
    """The state of the desk, and how it changes; both ways may be gone in any thread."""

    def __init__(self, root: Path, darkroom: Darkroom, only: str | None = None) -> None:
        self.state = State()
        self._root = root
        self._darkroom = darkroom
        self._only = only
        self._memory = Memory(root)
        self._reading, self._changing = Lock(), Lock()

    def refresh(self, where: Iterable[str] | None = None) -> bool:
        """Read what has changed on the disk, or only at these paths; whether anything did."""
        with self._reading:
            read = self._memory.read(where)
            for folder in read.begun:
                clear_ended(self._root / folder, self._root / folder.split("/")[0])
            earlier = self.state.cars
            cars: dict[str, CarState] = {}
            wrong = list(read.problems)
            for name, car in read.cars.items():
                if car.file is None:
                    wrong += car.problems
                elif self._only in (None, name):
                    cars[name] = self._car(car, car.file, earlier.get(name))
            with self._changing:
                return self._put(State(0, read.workshop, cars, tuple(wrong)))

    def check(self) -> bool:
        """Ask the checks and ledgers about cars that have changed; whether they tell anything new."""
        new = False
        for name, car in self.state.cars.items():
            if not car.asked:
                found = problems_of_car(car.file, car.view)
                with self._changing:
                    new |= self._told(name, car, found)
        return new

    def _told(self, name: str, car: CarState, found: tuple[Problem, ...]) -> bool:
        state = self.state
        if state.cars.get(name) is not car:
            # It has changed meanwhile, and will be asked again.
            return False
        told = replace(car, found=found, asked=True)
        new = told.problems != car.problems
        number = state.number + new
        if new:
            told = replace(told, number=number, view=car.view.telling(told.problems))
        self.state = replace(state, number=number, cars={**state.cars, name: told})
        return new

    def _put(self, now: State) -> bool:
        """Show a state; cars in it that have not changed are those that stand there already."""
        before = self.state
        number = before.number + 1
        cars: dict[str, CarState] = {}
        for name, car in now.cars.items():
            stands = before.cars.get(name)
            same = stands is not None and stands.car is car.car
            cars[name] = stands if stands and same else replace(car, number=number)
        if before.number and now.wrong == before.wrong and cars == before.cars:
            return False
        self.state = State(number, now.workshop, cars, now.wrong)
        return True

    def _car(self, car: Car, file: CarFile, earlier: CarState | None) -> CarState:
        if earlier is not None and earlier.car is car:
            return earlier
        lying, before = Lying(car.prints, car.at), earlier.look if earlier else None
        look = self._darkroom.look(file, lying, before)
        facts = look.facts
        told = {p: facts[at] for p in file.photo_files if (at := photo_at(file, p)) in facts}
        file = replace(file, photo_facts=told)
        base = f"{file.name}/"
        jobs = {job.path: job for job in jobs_of(file, base)}
        made = _made(jobs, facts, earlier.made if earlier else {})
        photos, scans = hung(file, made)
        state = CarState(
            number=0, car=car, file=file,
            view=view_of(
                replace(
                    file, photo_files=frozenset(photos),
                    photo_facts={path: shown.facts for path, shown in photos.items()},
                ),
                Reader.WORKSHOP, base=base, pictures=photos, scans=scans,
                seals=self._seals(file),
            ),
            pictures={
                f"{base}{rendition.path}": jobs[path]
                for path, shown in made.items()
                for rendition in (*shown.webp, shown.jpeg)
            },
            look=look, made=made,
            wrong=(*car.problems, *look.wrong), found=earlier.found if earlier else (),
        )  # fmt: skip
        return replace(state, view=state.view.telling(state.problems))

    def _seals(self, file: CarFile) -> Seals:
        """The seals of a car. A file that cannot be read keeps nobody from writing the next sheet."""
        try:
            return seals_of(self._root, file)
        except WrongCall as fault:
            why = str(fault).rpartition(";")[0]
            return Seals(faults=(Fault("", f"nothing can be held against it, since {why}"),))


def _made(
    jobs: Mapping[str, Job], facts: Mapping[str, PhotoFacts], before: Mapping[str, Published]
) -> dict[str, Published]:
    """What is shown of each photograph; of one whose facts are those that were known before, the same."""
    return {
        path: known
        if (known := before.get(path)) and known.facts is facts[path]
        else foretold(job, facts[path])
        for path, job in jobs.items()
        if path in facts
    }

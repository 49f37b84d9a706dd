"""The archive: pages, pictures and style of one reader, written and swapped in."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Protocol, TypeVar

from jinja2 import Environment
from msgspec import Struct
from msgspec.structs import replace

from journal.ledgers.seals import Seals, shown_seals
from journal.outputs.findings import problems_of
from journal.outputs.pictures import Means, hung, jobs_of, passing_cache, studio_of, with_facts
from journal.outputs.sealed import seals_of
from journal.outputs.staging import put
from journal.outputs.tables import as_csv
from journal.outputs.tables_money import table_of
from journal.outputs.theme import environment, theme_folder
from journal.outputs.withheld import refuse_leaks
from journal.pages import FILES, PAGES, page_workshop
from journal.pages.page import Page, TextFile
from journal.pages.statement import page_statement, statement_name
from journal.pages.view import CarView, view_of
from journal.pictures.make import make_pictures
from journal.pictures.published import Published
from journal.readers import car_for, facts_for, files_told
from journal.records.car import Car
from journal.records.carfile import CarFile, Content
from journal.records.problem import Problem, Severity
from journal.words.names import nearest
from journal.words.text import listed
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall

ASSETS = ("*.css", "*.js", "icon.svg")


class Order(Struct, frozen=True):
    """What is asked for: whose archive, from where, to where, which car, as of which day.

    Without `means` pictures are made anew, one after the other.
    """

    root: Path
    target: Path
    reader: Reader
    car: str | None = None
    as_of: date | None = None
    means: Means | None = None


class Part(Struct, frozen=True):
    """One car of an archive: its folder there, empty or ending in `/`, and what its reader may see."""

    base: str
    seen: CarFile


class Archive(Struct, frozen=True):
    """What was written: a view of each car, and every problem found on the way."""

    views: tuple[CarView, ...]
    problems: tuple[Problem, ...]


def write_archive(content: Content, order: Order, folder: Path) -> Archive:
    """Write the archive into an empty folder, all of it anew.

    Raises WrongCall when there is nothing to publish for this reader, and Withheld when it would show
    what its reader may not see.
    """
    cars = _cars(content, order)
    single = len(cars) == 1
    parts = tuple(
        part_of(car, order, others_of(content, car), base="" if single else f"{car.name}/")
        for car in cars
    )
    templates = environment(theme_folder())
    views, problems = _views(content, parts, order, folder)
    for view in views:
        _write_car(folder, templates, view)
    if len(cars) > 1:
        _write(folder, templates, page_workshop(views, problems))
    for pattern in ASSETS:
        for asset in sorted(theme_folder().glob(pattern)):
            put(folder, asset.name, asset.read_bytes())
    for car, view in zip(cars, views, strict=True):
        refuse_leaks(folder, as_of(car, order), view.car, others_of(content, car), order.reader)
    return Archive(views, problems)


def _write_car(folder: Path, templates: Environment, view: CarView) -> None:
    for pages in PAGES:
        _write(folder, templates, pages(view))
    for file in files_beside(view):
        put(folder, file.path, file.text.encode("utf-8"))


def _cars(content: Content, order: Order) -> tuple[CarFile, ...]:
    return come_in(chosen(content.cars, order.car, order.reader), order.as_of)


def view_with_pictures(content: Content, car: CarFile, order: Order, folder: Path) -> CarView:
    """One car as the reader of an order may see it, with its pictures made in a folder as they lie in
    an archive."""
    (view,) = pictured(content, car, order, folder).views
    return view


def pictured(content: Content, car: CarFile, order: Order, folder: Path) -> Archive:
    """The same with every problem found on the way; nothing but the pictures is written."""
    part = part_of(car, order, others_of(content, car), base="")
    return Archive(*_views(content, (part,), order, folder))


def _views(
    content: Content, parts: Sequence[Part], order: Order, folder: Path
) -> tuple[tuple[CarView, ...], tuple[Problem, ...]]:
    """Each part with its pictures made in a folder, and every problem of the content."""
    made, bad = _pictures(parts, order, folder)
    looked = with_facts(content, {path: shown.facts for path, shown in made.items()}, bad)
    problems = problems_of(looked)
    cars = {car.name: car for car in looked.cars}
    views = (view_of_part(p, cars[p.seen.name], order, made, problems) for p in parts)
    return tuple(views), problems


class Known(Protocol):
    """As much of a car file as it takes to say whether it is published."""

    @property
    def name(self) -> str:
        """The name of its folder."""

    @property
    def car(self) -> Car:
        """What its `car.yaml` says."""


K = TypeVar("K", bound=Known)


def chosen(cars: Sequence[K], name: str | None, reader: Reader) -> tuple[K, ...]:
    """The cars to publish: the one named, or all for the workshop; an owner sees one car only."""
    names = [car.name for car in cars]
    if not names:
        raise WrongCall("there is no car that can be read; journal check says what is wrong")
    if name is not None and name not in names:
        meant = nearest(name, names)
        raise WrongCall(f'there is no car "{name}"; write {meant or listed(names, "or")}')
    if name is None and reader is not Reader.WORKSHOP and len(names) > 1:
        raise WrongCall(
            f"an archive for the {reader.value} shows one car; add --car {listed(names, 'or --car')}"
        )
    taken = tuple(car for car in cars if name in (None, car.name))
    closed = [c.name for c in taken if reader is Reader.PUBLIC and not c.car.public]
    if closed:
        raise WrongCall(
            f"{listed(closed)} has no public archive; the owner's leave is told with public: yes in car.yaml"
        )
    return taken


def come_in(cars: tuple[K, ...], as_of: date | None) -> tuple[K, ...]:
    """The cars that had come in by the day the archive speaks of."""
    here = tuple(car for car in cars if as_of is None or car.car.booked_in <= as_of)
    if not here:
        first = min(car.car.booked_in for car in cars)
        raise WrongCall(f"no car had come in by then; the first was booked in on {first}")
    return here


def part_of(car: CarFile, order: Order, others: Sequence[CarFile], *, base: str) -> Part:
    """A car as the reader of an order may see it, who reads nothing of the `others`."""
    return Part(base, car_for(order.reader, as_of(car, order), others))


def as_of(car: CarFile, order: Order) -> CarFile:
    """A car on the day that an order speaks of."""
    return car.as_of(order.as_of) if order.as_of else car


def others_of(content: Content, car: CarFile) -> tuple[CarFile, ...]:
    """The cars beside one."""
    return tuple(other for other in content.cars if other.name != car.name)


def _pictures(
    parts: Sequence[Part], order: Order, staging: Path
) -> tuple[dict[str, Published], tuple[Problem, ...]]:
    jobs = [job for part in parts for job in jobs_of(part.seen, part.base)]
    with passing_cache(staging) as passing:
        means = order.means or Means(passing)
        with studio_of(order.root, means) as studio:
            return make_pictures(studio, jobs, staging)


def concerning(name: str, problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """The problems in the files of a car, or in those that it shares with all."""
    places = (f"{name}/", "workshop.yaml")
    return tuple(p for p in problems if p.place.path.startswith(places))


def view_of_part(
    part: Part,
    looked: CarFile,
    order: Order,
    made: Mapping[str, Published],
    problems: Sequence[Problem],
) -> CarView:
    """A car as its reader sees it, with its pictures. `looked` is the whole of it with the facts of
    those, `problems` are all that was found, in order."""
    photos, scans = hung(part.seen, made)
    own = concerning(part.seen.name, problems)
    broken = any(p.severity is Severity.ERROR for p in own)
    # A photograph that cannot be shown is no evidence.
    facts = facts_for(order.reader, {path: shown.facts for path, shown in photos.items()})
    seen = replace(part.seen, photo_files=frozenset(photos), photo_facts=facts)
    workshop = order.reader is Reader.WORKSHOP
    return view_of(
        seen, order.reader, base=part.base, as_of=order.as_of, pictures=photos, scans=scans,
        problems=own if workshop else (), whole=workshop or not broken,
        seals=_seals_for(_sealed(looked, order), order.reader, part.seen),
    )  # fmt: skip


def _sealed(car: CarFile, order: Order) -> Seals:
    """A car's seals, up to the day the archive speaks of."""
    held = seals_of(order.root, car)
    return held.as_of(order.as_of) if order.as_of else held


def _seals_for(sealed: Seals, reader: Reader, seen: CarFile) -> Seals:
    """The seals as a reader sees them; `seen` holds what that is."""
    if reader is Reader.WORKSHOP:
        return sealed
    return shown_seals(sealed, files_told(reader, seen, (file.path for file in sealed.files)))


def tables_beside(view: CarView) -> tuple[TextFile, ...]:
    """For the page of every statement the same as a table, that lies beside it."""
    if not page_statement(view):
        return ()
    named = ((statement_name(view, stated), stated) for stated in view.statements.shown)
    return tuple(
        TextFile(
            f"{view.base}statements/{name}.csv",
            as_csv(table_of(view.car, stated, name.removeprefix("statement-"))),
        )
        for name, stated in named
    )


def files_beside(view: CarView) -> Iterator[TextFile]:
    """The files of a car that are no pages."""
    for files in (*FILES, tables_beside):
        yield from files(view)


def _write(staging: Path, templates: Environment, pages: Sequence[Page]) -> None:
    for page in pages:
        text = templates.get_template(page.template).render(page.values)
        put(staging, page.path, text.encode("utf-8"))

"""The archive: pages, pictures and style of one reader, written and swapped in."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from jinja2 import Environment

from journal.outputs.findings import problems_of
from journal.outputs.staging import put, staged
from journal.outputs.tables import as_csv
from journal.outputs.tables_money import table_of
from journal.outputs.theme import environment, theme_folder
from journal.pages import FILES, PAGES, page_workshop
from journal.pages.page import Page
from journal.pages.statement import page_statement, statement_name
from journal.pages.view import CarView, view_of
from journal.pictures.make import make_pictures
from journal.readers import car_for
from journal.records.carfile import CarFile, Content
from journal.records.problem import Problem, Severity, problem_order
from journal.records.sheet import photo_path
from journal.words.names import nearest
from journal.words.text import listed
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall

ASSETS = ("*.css", "*.js", "icon.svg")


@dataclass(frozen=True)
class Order:
    """What is asked for: whose archive, from where, to where, which car, as of which day."""

    root: Path
    target: Path
    reader: Reader
    car: str | None = None
    as_of: date | None = None
    workers: int = 2


def publish(content: Content, order: Order) -> tuple[Problem, ...]:
    """Write the archive and return every problem found on the way.

    Raises WrongCall when there is nothing to publish for this reader, or nowhere to put it.
    """
    cars = _come_in(chosen(content, order.car, order.reader), order.as_of)
    problems = problems_of(content)
    templates = environment(theme_folder())
    with staged(order.target, keep_out_of=order.root) as staging:
        views: list[CarView] = []
        for car in cars:
            view, bad = _car(car, order, staging, problems, single=len(cars) == 1)
            problems = tuple(sorted({*problems, *bad}, key=problem_order))
            views.append(view)
            for pages in PAGES:
                _write(staging, templates, pages(view))
            for files in FILES:
                for file in files(view):
                    put(staging, file.path, file.text.encode("utf-8"))
            _write_tables(staging, view)
        if len(cars) > 1:
            _write(staging, templates, page_workshop(tuple(views), problems))
        for pattern in ASSETS:
            for asset in sorted(theme_folder().glob(pattern)):
                put(staging, asset.name, asset.read_bytes())
    return problems


def chosen(content: Content, name: str | None, reader: Reader) -> tuple[CarFile, ...]:
    """The cars to publish: the one named, or all for the workshop; an owner sees one car only."""
    names = [car.name for car in content.cars]
    if not names:
        raise WrongCall("there is no car that can be read; journal check says what is wrong")
    if name is not None and name not in names:
        meant = nearest(name, names)
        raise WrongCall(f'there is no car "{name}"; write {meant or listed(names, "or")}')
    if name is None and reader is not Reader.WORKSHOP and len(names) > 1:
        raise WrongCall(
            f"an archive for the {reader.value} shows one car; add --car {listed(names, 'or --car')}"
        )
    cars = tuple(car for car in content.cars if name in (None, car.name))
    closed = [c.name for c in cars if reader is Reader.PUBLIC and not c.car.public]
    if closed:
        raise WrongCall(
            f"{listed(closed)} has no public archive; the owner's leave is told with public: yes in car.yaml"
        )
    return cars


def _come_in(cars: tuple[CarFile, ...], as_of: date | None) -> tuple[CarFile, ...]:
    """The cars that had come in by the day the archive speaks of."""
    here = tuple(car for car in cars if as_of is None or car.car.booked_in <= as_of)
    if not here:
        first = min(car.car.booked_in for car in cars)
        raise WrongCall(f"no car had come in by then; the first was booked in on {first}")
    return here


def _car(
    car: CarFile, order: Order, staging: Path, problems: Sequence[Problem], *, single: bool
) -> tuple[CarView, list[Problem]]:
    """One car's view with its pictures made, and problems with its pictures."""
    base = "" if single else f"{car.name}/"
    seen = car_for(order.reader, car.as_of(order.as_of) if order.as_of else car)
    told = {photo_path(s.date, p.file) for s in seen.sheets for p in s.front.photos}
    if seen.car.cover:
        told.add(seen.car.cover)
    photos = {path: f"{car.name}/photos/{path}" for path in told & car.photo_files}
    papers = {
        p.file: f"{car.name}/papers/{p.file}" for _, p in seen.papers if p.file in car.paper_files
    }
    made, bad = make_pictures(
        order.root, photos, staging / base, "pictures/files", workers=order.workers
    )
    scans, unread = make_pictures(
        order.root, papers, staging / base, "papers/files", workers=order.workers
    )
    bad += unread
    found = sorted({*problems, *bad}, key=problem_order)
    places = (f"{car.name}/", "workshop.yaml")
    own = [p for p in found if p.place.path.startswith(places)]
    shown = tuple(own) if order.reader is Reader.WORKSHOP else ()
    broken = any(p.severity is Severity.ERROR for p in own)
    # A photograph that cannot be shown is no evidence.
    seen = replace(seen, photo_files=frozenset(made))
    view = view_of(
        seen, order.reader, base=base, as_of=order.as_of, pictures=made, scans=scans,
        problems=shown, whole=order.reader is Reader.WORKSHOP or not broken,
    )  # fmt: skip
    return view, bad


def _write_tables(staging: Path, view: CarView) -> None:
    """Beside the page of every statement, the same as a table."""
    if not page_statement(view):
        return
    for stated in view.statements.shown:
        name = statement_name(view, stated)
        text = as_csv(table_of(view.car, stated, name.removeprefix("statement-")))
        put(staging, f"{view.base}statements/{name}.csv", text.encode("utf-8"))


def _write(staging: Path, templates: Environment, pages: Sequence[Page]) -> None:
    for page in pages:
        text = templates.get_template(page.template).render(page.values)
        put(staging, page.path, text.encode("utf-8"))

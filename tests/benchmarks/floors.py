"""What reading, ledgers and pages cost, each beside its floor: what the libraries alone need for the same.

    python -m tests.benchmarks.floors CONTENT

prints what the pages of each kind cost, and what of that is their templates and writing.

Seconds of the processor in one process, ours and the floor by turns, and the best of each counts.
"""

import sys
import tempfile
from collections import defaultdict
from collections.abc import Callable, Iterator
from functools import cached_property
from pathlib import Path
from typing import Any

import yaml
from jinja2 import Environment
from markdown_it import MarkdownIt

from journal.outputs.staging import put
from journal.outputs.theme import environment, theme_folder
from journal.pages import FILES, PAGES
from journal.pages.page import Page, TextFile
from journal.pages.view import CarView, view_of
from journal.readers import car_for
from journal.reading.content import read_content
from journal.records.carfile import CarFile, Content
from journal.records.fields import Named
from journal.records.sheet import SheetFront
from journal.words.vocabulary import Reader
from tests.benchmarks.measuring import processor

TIMES = 2
Seconds = dict[str, float]


def measured(root: str) -> dict[str, Seconds]:
    """Reading, ledgers and pages of the workshop's archive of a content folder, without pictures."""
    folder = Path(root)
    told = {"reading": _best(lambda: read_content(folder), lambda: _libraries_read(folder))}
    content = read_content(folder)
    told["ledgers"] = _best(lambda: _folded(content), lambda: [_passed(c) for c in content.cars])
    told["pages"] = {"ours": 0.0, "floor": 0.0}
    for view in _views(content):
        _fold(view)
        for who, spent in _printed(view, folder.parent).items():
            told["pages"][who] += spent
    return told


def _best(ours: Callable[[], Any], floor: Callable[[], Any]) -> Seconds:
    spent = [(processor(floor), processor(ours)) for _ in range(TIMES)]
    return {"floor": min(f for f, _ in spent), "ours": min(o for _, o in spent)}


def _libraries_read(root: Path) -> None:
    """The same files: YAML by the C loader, text by the Markdown parser, nothing kept."""
    parser = MarkdownIt("commonmark")
    for file in (*root.rglob("*.yaml"), *root.rglob("*.md")):
        text = file.read_text(encoding="utf-8")
        front, _, body = text.removeprefix("---\n").partition("\n---\n")
        yaml.load(front if file.suffix == ".md" else text, Loader=yaml.CSafeLoader)
        if file.suffix == ".md":
            parser.parse(body)


def _views(content: Content) -> Iterator[CarView]:
    """Each car as the workshop sees it, with nothing folded yet."""
    several = len(content.cars) > 1
    for car in content.cars:
        others = tuple(other for other in content.cars if other is not car)
        seen = car_for(Reader.WORKSHOP, car, others)
        base = f"{car.name}/" if several else ""
        yield view_of(seen, Reader.WORKSHOP, base=base, pictures={})


_LEDGERS = tuple(n for n, value in vars(CarView).items() if isinstance(value, cached_property))


def _folded(content: Content) -> None:
    for view in _views(content):
        _fold(view)


def _fold(view: CarView) -> None:
    for name in _LEDGERS:
        getattr(view, name)


_SECTIONS = tuple(
    name for name in SheetFront.model_fields if isinstance(SheetFront.model_fields[name].default, Named)
)  # fmt: skip


def _passed(car: CarFile) -> dict[tuple[str, str], list[object]]:
    """One pass over the events in plain Python: the lines of each name of each section, in order."""
    events: dict[tuple[str, str], list[object]] = defaultdict(list)
    for sheet in car.sheets:
        for section in _SECTIONS:
            for name, line in getattr(sheet.front, section):
                events[section, name].append((sheet.date, line))
    return events


def _printed(view: CarView, below: Path) -> Seconds:
    """The pages and files of one car whose ledgers are folded; then the same from values that are ready."""
    with tempfile.TemporaryDirectory(dir=below) as made:
        folder = Path(made)
        templates = environment(theme_folder())
        pages: list[Page] = []
        files: dict[str, bytes] = {}
        ours = processor(lambda: _made(view, templates, folder, pages, files))
        floor = processor(lambda: _again(templates, folder / "again", pages, files))
        for page in pages:
            same = (folder / page.path).read_bytes() == (folder / "again" / page.path).read_bytes()
            assert same, f"{page.path} is not made of ready values"
    return {"ours": ours, "floor": floor}


def _made(
    view: CarView, templates: Environment, folder: Path, pages: list[Page], files: dict[str, bytes]
) -> None:
    for make in PAGES:
        for page in make(view):
            pages.append(page)
            _print(templates, folder, page)
    for made in FILES:
        _put_files(folder, made(view), files)


def _put_files(folder: Path, made: tuple[TextFile, ...], files: dict[str, bytes]) -> None:
    for file in made:
        files[file.path] = file.text.encode()
        put(folder, file.path, files[file.path])


def by_kind(content: Content) -> dict[str, Seconds]:
    """What the pages and files of each function cost over all cars, ledgers folded before, and the floor."""
    told: dict[str, Seconds] = {}
    templates = environment(theme_folder())
    for view in _views(content):
        _fold(view)
        for make in (*PAGES, *FILES):
            with tempfile.TemporaryDirectory() as made:
                for who, spent in _one_kind(view, templates, make, Path(made)).items():
                    kind = told.setdefault(make.__name__, {"ours": 0.0, "floor": 0.0})
                    kind[who] += spent
    return told


def _one_kind(
    view: CarView, templates: Environment, make: Callable[[CarView], tuple[Any, ...]], folder: Path
) -> Seconds:
    pages: list[Page] = []
    files: dict[str, bytes] = {}

    def ours() -> None:
        for one in make(view):
            if isinstance(one, Page):
                pages.append(one)
                _print(templates, folder, one)
            else:
                _put_files(folder, (one,), files)

    return {
        "ours": processor(ours),
        "floor": processor(lambda: _again(templates, folder, pages, files)),
    }


def _again(
    templates: Environment, folder: Path, pages: list[Page], files: dict[str, bytes]
) -> None:
    for page in pages:
        _print(templates, folder, page)
    for path, data in files.items():
        put(folder, path, data)


def _print(templates: Environment, folder: Path, page: Page) -> None:
    text = templates.get_template(page.template).render(page.values)
    put(folder, page.path, text.encode())


def main() -> None:
    """Print every kind of page, the dearest first."""
    told = by_kind(read_content(Path(sys.argv[1])))
    for kind, spent in sorted(told.items(), key=lambda one: -one[1]["ours"]):
        print(f"{kind:<20}{spent['ours']:8.2f} s, templates and writing {spent['floor']:7.2f} s")


if __name__ == "__main__":
    main()

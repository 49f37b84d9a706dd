"""What is answered under each path of the archive: pages, pictures, tables, style and scripts.

A path from a browser is only ever looked up among the names of what was read; no file is opened by it.
"""

from collections.abc import Callable
from typing import Any, NamedTuple
from urllib.parse import urlencode

from msgspec import Struct

from journal.desk.darkroom import Darkroom
from journal.desk.state import CarState, Live, State
from journal.outputs.archive import ASSETS, tables_beside
from journal.outputs.theme import environment, theme_folder
from journal.pages import FILES_AT, file_at, page_at, page_workshop
from journal.pages.links import sheet_path
from journal.pages.page import Page, TextFile
from journal.words.text import counted

# What belongs to the desk and not to the archive lies below this; no car can be called that.
OWN = "_"

_KINDS = {
    ".html": "text/html; charset=utf-8", ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8", ".svg": "image/svg+xml", ".webp": "image/webp",
    ".jpg": "image/jpeg", ".xml": "application/atom+xml; charset=utf-8",
    ".csv": "text/csv; charset=utf-8",
}  # fmt: skip


class Answer(Struct, frozen=True):
    """The bytes under a path, and what they are. What is `fixed` is never otherwise under its name."""

    data: bytes
    kind: str
    fixed: bool = False


class Shelf:
    """Everything that can be had by path, made when it is asked for and kept until it changes.

    `start` tells one run of the desk from the next, since numbers of states begin anew.
    """

    def __init__(self, live: Live, darkroom: Darkroom, start: str) -> None:
        self._live = live
        self._darkroom = darkroom
        self._templates = environment(theme_folder(), theme_folder("desk"), live=True)
        self._templates.globals["start"] = start
        self._assets = _assets()
        self._kept: dict[str, tuple[int, Answer | None]] = {}

    def answer(self, path: str) -> Answer | None:
        """What lies under a path, or None. A folder answers with its first page."""
        if path in self._assets:
            return self._assets[path]
        state = self._live.state
        name, below, _ = path.partition("/")
        if name in state.cars and below:
            return self._of_car(state.cars[name], path)
        if path in ("", "index.html") and state.cars:
            return self._kept_for(state.number, "index.html", lambda: self._front(state))
        return None

    def close(self) -> None:
        """Nothing more is made."""
        self._darkroom.close()

    def page(self, template: str, values: dict[str, Any]) -> bytes:
        """A page of the desk itself."""
        return self._templates.get_template(template).render(values).encode("utf-8")

    def main_of(self, page: Page) -> str:
        """What stands on a page of the archive between its head and its foot."""
        text = self._printed(page, 0).data.decode("utf-8")
        return text[text.index("<main") : text.rindex("</main>") + len("</main>")]

    def _of_car(self, car: CarState, path: str) -> Answer | None:
        if path in car.pictures:
            data = self._darkroom.rendition(car.pictures[path], path.removeprefix(car.view.base))
            return _answer(path, data, fixed=True) if isinstance(data, bytes) else None
        path += "index.html" if path.endswith("/") else ""
        return self._kept_for(car.number, path, lambda: self._made(car, path))

    def _made(self, car: CarState, path: str) -> Answer | None:
        inner = path.removeprefix(car.view.base)
        page = page_at(car.view, inner)
        if page is not None:
            return self._printed(page, car.number, _change(car, inner))
        if inner.startswith("find/"):
            return self._found(car, path)
        files = (file_at(car.view, inner), *tables_beside(car.view))
        file = next((f for f in files if f is not None and f.path == path), None)
        return _text(file) if file else None

    def _found(self, car: CarState, path: str) -> Answer | None:
        """Search data of a car: all files are made at once, and kept."""
        for _, make in FILES_AT[1:]:
            for file in make(car.view):
                self._kept[file.path] = (car.number, _text(file))
        number, answer = self._kept.get(path, (0, None))
        return answer if number == car.number else None

    def _front(self, state: State) -> Answer:
        views = tuple(car.view for car in state.cars.values())
        (page,) = page_workshop(views, state.problems)
        return self._printed(page, state.number)

    def _printed(self, page: Page, number: int, change: "_Change | None" = None) -> Answer:
        """A page as the desk shows it; `change` says how the sheet on it can be changed."""
        template = self._templates.get_template(page.template)
        text = template.render(page.values, state=number, change=change)
        return _answer(page.path, text.encode("utf-8"))

    def _kept_for(self, number: int, path: str, make: Callable[[], Answer | None]) -> Answer | None:
        known, answer = self._kept.get(path, (0, None))
        if known != number:
            answer = make()
            if answer is not None:
                # What is not there is not remembered: anybody may ask for it under any name.
                self._kept[path] = (number, answer)
        return answer


class _Change(NamedTuple):
    """Where a sheet can be changed, and how many of its lines wait to be confirmed, in words."""

    href: str
    waiting: str


def _change(car: CarState, inner: str) -> _Change | None:
    """How the sheet can be changed that a page of a car shows; None for other pages."""
    view = car.view
    sheet = next((s for s in view.car.sheets if inner == sheet_path(s.name)), None)
    if sheet is None:
        return None
    count = len(sheet.front.draft)
    verb = "is" if count == 1 else "are"
    waiting = f"{counted(count, 'line')} {verb} not confirmed" if count else ""
    return _Change(f"/day?{urlencode({'car': view.car.name, 'sheet': sheet.name})}", waiting)


def _assets() -> dict[str, Answer]:
    found = {}
    for folder, patterns, below in (
        (theme_folder(), ASSETS, ""),
        (theme_folder("desk"), ("*.css", "*.js"), f"{OWN}/"),
    ):
        for pattern in patterns:
            for file in sorted(folder.glob(pattern)):
                found[below + file.name] = _answer(file.name, file.read_bytes())
    return found


def _text(file: TextFile) -> Answer:
    return _answer(file.path, file.text.encode("utf-8"))


def _answer(path: str, data: bytes, *, fixed: bool = False) -> Answer:
    return Answer(data, _KINDS[f".{path.rsplit('.', 1)[-1]}"], fixed)

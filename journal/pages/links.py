"""Where every page of a car lies, and links to them from one page.

All paths are relative, so that an archive opens from a memory stick as well as from a server. A
link to a page that this archive does not have is no link: its text stands alone.
"""

from collections.abc import Mapping

from msgspec import Struct

from journal.pages.anchors import anchor
from journal.pages.placing import (
    OUTWORK,
    PARTS,
    PROVING,
    RECHECKS,
    SNAGS,
    lot_pages,
    part_pages,
    proving_pages,
    recheck_pages,
    snag_pages,
)
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.records.workshop import subsystem_label
from journal.words.names import file_name


class Ref(Value, frozen=True):
    """Words, and the page they lead to when there is one."""

    text: str
    href: str | None = None


def sheet_path(name: str) -> str:
    """The page of a day sheet."""
    return f"sheets/{file_name(name)}.html"


def subsystem_path(name: str) -> str:
    """The timeline of a subsystem."""
    return f"subsystems/{file_name(name)}.html"


def component_path(key: str) -> str:
    """The biography of a component."""
    return f"components/{'/'.join(map(file_name, key.split('/')))}.html"


def picture_path(number: int) -> str:
    """The page of a picture."""
    return f"pictures/{number}.html"


def subsystem_names(view: CarView) -> tuple[str, ...]:
    """Every subsystem that anything is written of, in the order of the trade, then of the car."""
    return view.once(_subsystem_names)


def _subsystem_names(view: CarView) -> tuple[str, ...]:
    car = view.car
    used = {c.subsystem: None for c in car.register.components}
    for sheet in car.sheets:
        used |= dict.fromkeys(sheet.front.subsystem)
    used |= dict.fromkeys(s.subsystem for s in view.hours.spent)
    used |= dict.fromkeys(s.subsystem for s in view.snags.snags)
    used |= dict.fromkeys(p.subsystem for p in view.gallery.pictures)
    known = tuple(car.workshop.all_subsystems())
    return (*(n for n in known if n in used), *(n for n in used if n not in known))


class _Pages(Struct, frozen=True):
    """What has a page: sheets by their titles, components by their labels, subsystems by their labels, and
    the numbers of pictures."""

    sheets: Mapping[str, str]
    components: Mapping[str, str]
    subsystems: Mapping[str, str]
    pictures: frozenset[int]


def _pages(view: CarView) -> _Pages:
    car = view.car
    return _Pages(
        {sheet.name: sheet.title for sheet in car.sheets},
        {component.key: component.label for component in car.register.components},
        {name: subsystem_label(car.workshop, name) for name in subsystem_names(view)},
        frozenset(p.number for p in view.gallery.pictures if p.path in view.pictures),
    )


class Links:
    """Links from the page at `path`, a path within the car's folder.

    `at` gives links from another page.
    """

    def __init__(self, view: CarView, path: str) -> None:
        self.view = view
        self._pages = view.once(_pages)
        self.path = path
        self.home = "../" * path.count("/")

    def at(self, path: str) -> "Links":
        """Links from another page of the same car."""
        return Links(self.view, path)

    def to(self, path: str) -> str:
        """A page or file of this car's folder."""
        return self.home + path

    def sheet(self, name: str, text: str | None = None) -> Ref:
        """A day sheet, under its title unless another text is given."""
        title = self._pages.sheets.get(name)
        if title is None:
            return Ref(text or name)
        return Ref(text or title, self.to(sheet_path(name)))

    def component(self, key: str, *, full: bool = False) -> Ref:
        """A component by its label, with its subsystem before it when `full`."""
        label = self._pages.components.get(key)
        if label is None:
            return Ref(key)
        if full:
            label = f"{self.subsystem(key.split('/')[0]).text}: {label}"
        return Ref(label, self.to(component_path(key)))

    def components(self, keys: tuple[str, ...]) -> tuple[Ref, ...]:
        """Several components."""
        return tuple(self.component(key) for key in keys)

    def subsystem(self, name: str) -> Ref:
        """A subsystem by its label."""
        label = self._pages.subsystems.get(name)
        if label is None:
            return Ref(subsystem_label(self.view.car.workshop, name))
        return Ref(label, self.to(subsystem_path(name)))

    def picture(self, number: int) -> str | None:
        """The page of a picture, when it is published."""
        return self.to(picture_path(number)) if number in self._pages.pictures else None

    def snag(self, name: str) -> str:
        """A snag, at its place on the page of snags that it is on."""
        return self._entry(self.view.once(snag_pages).get(name, SNAGS), "snag", name)

    def part(self, name: str) -> str:
        """A part, at its place on the page of parts that it is on."""
        return self._entry(self.view.once(part_pages).get(name, PARTS), "part", name)

    def lot(self, name: str) -> str:
        """A lot of outwork, at its place on the page of outwork that it is on."""
        return self._entry(self.view.once(lot_pages).get(name, OUTWORK), "lot", name)

    def proving(self, subsystem: str) -> str:
        """The list of what is to be proved of a subsystem, at its place on its page."""
        page = self.view.once(proving_pages).get(subsystem, PROVING)
        return self._entry(page, "proving", subsystem)

    def recheck(self, name: str) -> str:
        """The last turn of a re-check, at its place on the page of re-checks that it is on."""
        return self._entry(self.view.once(recheck_pages).get(name, RECHECKS), "recheck", name)

    def _entry(self, page: str, kind: str, name: str) -> str:
        return self.to(f"{page}#{anchor(kind, name)}")

    def paper(self, name: str) -> Ref:
        """A paper by its title, at its place on the page of papers."""
        paper = self.view.car.papers.get(name)
        if paper is None:
            return Ref(name)
        return Ref(paper.title, self.to(f"papers.html#{anchor('paper', name)}"))

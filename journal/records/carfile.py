"""A car file and a whole content folder, as they stand after reading."""

from dataclasses import dataclass, replace
from datetime import date

from journal.records.car import Car
from journal.records.fields import Named
from journal.records.papers import Paper
from journal.records.place import Source
from journal.records.problem import Problem
from journal.records.register import Component, Register
from journal.records.sheet import Sheet, photo_path
from journal.records.workshop import Workshop


@dataclass(frozen=True)
class CarFile:
    """Everything known of one car.

    `sheets` are in order of day and path. `photo_files` are the paths of files under `photos/`,
    relative to it; `paper_files` those under `papers/`. `workshop` is shared by all cars.
    `unread` are the names of sheets that could not be read: what they told is not known, and what
    leans on it is not called wrong.
    """

    name: str
    workshop: Workshop
    workshop_source: Source
    source: Source
    car: Car
    register: Register
    papers_source: Source
    papers: Named[Paper] = Named()
    sheets: tuple[Sheet, ...] = ()
    photo_files: frozenset[str] = frozenset()
    paper_files: frozenset[str] = frozenset()
    unread: frozenset[str] = frozenset()

    def component(self, key: str) -> Component | None:
        """The component under its full name, or None."""
        return self.register.get(key)

    def as_of(self, day: date) -> "CarFile":
        """The car file as it stood at the end of a day: later sheets are not there, nor a cover
        that only a later sheet tells of."""
        kept = tuple(sheet for sheet in self.sheets if sheet.date <= day)
        told = {photo_path(s.date, p.file) for s in kept for p in s.front.photos}
        cover = self.car.cover if self.car.cover in told else None
        return replace(self, sheets=kept, car=self.car.model_copy(update={"cover": cover}))


@dataclass(frozen=True)
class Content:
    """A content folder: the workshop, its cars by folder name, and all problems found in reading.

    `workshop` is absent when its file could not be read at all; then there are no cars either.
    """

    workshop: Workshop | None
    workshop_source: Source
    cars: tuple[CarFile, ...] = ()
    problems: tuple[Problem, ...] = ()

"""A car file and a whole content folder, as they stand after reading."""

from collections.abc import Mapping
from datetime import date

from msgspec import Struct, field
from msgspec.structs import replace

from journal.records.car import Car
from journal.records.fields import Named
from journal.records.papers import Paper
from journal.records.photofacts import PhotoFacts
from journal.records.place import Source
from journal.records.problem import Problem
from journal.records.register import Component, Register
from journal.records.sheet import Sheet, photo_path
from journal.records.statement import Statement
from journal.records.workshop import Workshop


class CarFile(Struct, frozen=True):
    """Everything known of one car.

    `sheets` are in order of day and path, `statements` in order of their periods. `photo_files` are
    the paths of files under `photos/`, relative to it; `paper_files` those under `papers/`.
    `workshop` is shared by all cars. `photo_facts` are what the files of photographs say of themselves,
    for those that have been looked at.
    `unread` are the names of sheets that could not be read: what they told is not known, and what
    leans on it is not called wrong. `partly` are those of which something could not be read, so
    that what they come to is not known either. `recording_files` are the paths of films and sounds
    under `recordings/`; absent where the car has no such folder, and they are kept elsewhere.
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
    statements: tuple[Statement, ...] = ()
    photo_files: frozenset[str] = frozenset()
    paper_files: frozenset[str] = frozenset()
    unread: frozenset[str] = frozenset()
    partly: frozenset[str] = frozenset()
    photo_facts: Mapping[str, PhotoFacts] = field(default_factory=dict)
    recording_files: frozenset[str] | None = None

    def component(self, key: str) -> Component | None:
        """The component under its full name, or None."""
        return self.register.get(key)

    def critical(self, key: str) -> bool:
        """Whether the failure of a component can hurt someone: it, or its subsystem, says so."""
        branch = self.workshop.all_subsystems().get(key.split("/")[0])
        known = self.component(key)
        return bool(branch and branch.safety) or bool(known and known.line.safety)

    def hands_on(self, sheet: Sheet, subsystem: str) -> tuple[str, ...]:
        """The hands with hours on a subsystem in a sheet, else all with hours on the sheet.

        Hours without a hand are those of the only one who works here; where several do, nobody
        can tell, and there is no name.
        """
        booked = sheet.front.hours
        here = [hands for name, hands in booked if name in ("", subsystem)]
        spent = here or [hands for _, hands in booked]
        names = [hand for hands in spent for hand in hands.names()]
        known = self.workshop.hands.names()
        alone = known[0] if len(known) == 1 else ""
        return tuple(dict.fromkeys(name or alone for name in names if name or alone))

    def as_of(self, day: date) -> "CarFile":
        """The car file as it stood at the end of a day: later sheets and payments are not there,
        nor a cover that only a later sheet tells of."""
        kept = tuple(sheet for sheet in self.sheets if sheet.date <= day)
        told = {photo_path(s.date, p.file) for s in kept for p in s.front.photos}
        cover = self.car.cover if self.car.cover in told else None
        stated = tuple(s for s in self.statements if s.file.issued <= day)
        paid = tuple(p for p in self.car.payments if p.on <= day)
        car = self.car.model_copy(update={"cover": cover, "payments": paid})
        return replace(self, sheets=kept, statements=stated, car=car)


class Content(Struct, frozen=True):
    """A content folder: the workshop, its cars by folder name, and all problems found in reading.

    `workshop` is absent when its file could not be read at all; then there are no cars either.
    """

    workshop: Workshop | None
    workshop_source: Source
    cars: tuple[CarFile, ...] = ()
    problems: tuple[Problem, ...] = ()

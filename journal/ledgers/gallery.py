"""Gallery: every photograph by component, stage and month.

Hears `photos` in sheets.
"""

from datetime import date
from functools import cached_property

from msgspec import Struct

from journal.records.carfile import CarFile
from journal.records.photofacts import PhotoFacts
from journal.records.sheet import photo_path
from journal.words.groups import grouped, grouped_by_each
from journal.words.vocabulary import Stage


class Picture(Struct, frozen=True):
    """One photograph as a sheet tells of it.

    `path` is relative to `photos/`; `of` are component names; `number` counts from 1 in order
    of sheets and gives the picture its page. `facts` are absent while the file has not been looked at.
    """

    number: int
    path: str
    day: date
    sheet: str
    subsystem: str
    of: tuple[str, ...]
    stage: Stage | None
    caption: str | None
    alt: str | None
    facts: PhotoFacts | None = None

    @property
    def days_off(self) -> int | None:
        """How many days after the sheet's date the camera says it was taken, negative when before;
        None when it does not say."""
        if self.facts is None or self.facts.taken_on is None:
            return None
        return (self.facts.taken_on - self.day).days


class Gallery(Struct, frozen=True, dict=True):
    """All photographs in order of sheets."""

    pictures: tuple[Picture, ...] = ()

    def of(self, key: str) -> tuple[Picture, ...]:
        """Photographs of one component."""
        return self._by_component.get(key, ())

    def in_sheet(self, name: str) -> tuple[Picture, ...]:
        """Photographs of one sheet."""
        return self._by_sheet.get(name, ())

    def at(self, path: str) -> Picture | None:
        """The photograph at a path under `photos/`, or None."""
        return next(iter(self._by_path.get(path, ())), None)

    @cached_property
    def _by_component(self) -> dict[str, tuple[Picture, ...]]:
        return grouped_by_each(self.pictures, lambda p: p.of)

    @cached_property
    def _by_sheet(self) -> dict[str, tuple[Picture, ...]]:
        return grouped(self.pictures, lambda p: p.sheet)

    @cached_property
    def _by_path(self) -> dict[str, tuple[Picture, ...]]:
        return grouped(self.pictures, lambda p: p.path)


def fold_gallery(car: CarFile) -> Gallery:
    """Collect the photographs whose files are there, numbered in order."""
    pictures: list[Picture] = []
    for sheet in car.sheets:
        for photo in sheet.front.photos:
            path = photo_path(sheet.date, photo.file)
            if path not in car.photo_files:
                continue
            subsystem = photo.of[0].split("/")[0] if photo.of else sheet.front.subsystem[0]
            pictures.append(
                Picture(
                    len(pictures) + 1, path, sheet.date, sheet.name, subsystem, photo.of,
                    photo.stage, photo.caption, photo.alt, car.photo_facts.get(path),
                )
            )  # fmt: skip
    return Gallery(tuple(pictures))

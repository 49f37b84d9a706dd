"""What the sections of the dossier are made from, and what each of them is."""

from collections.abc import Callable, Iterable, Mapping
from functools import cached_property
from typing import Any

from msgspec import Struct, field

from journal.digests.gate import Gate, Reason
from journal.ledgers.gallery import Picture
from journal.ledgers.seals import Seals
from journal.pages.common import car_title
from journal.pages.dossier.places import Places
from journal.pages.links import Ref
from journal.pages.plates import Plate, plates_of
from journal.pages.standing import is_delivered
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words
from journal.words.vocabulary import Reader


class Section(Value, frozen=True):
    """One section: the layout that prints it, its heading, and the values that are printed."""

    kind: str
    title: str
    values: Mapping[str, Any]


class Photograph(Value, frozen=True):
    """One published photograph in print. `file` is its path within the car's folder of an archive;
    `tall` marks an upright one."""

    file: str
    alt: str
    code: Ref
    stage: str
    day: str
    caption: str
    tall: bool


class ReservationWords(Value, frozen=True):
    """One thing that stands against the handover, with the sheet that tells of it."""

    subsystem: str
    words: str
    sheet: Ref


class Book(Struct, frozen=True, dict=True):
    """One car as one reader may see it, with what stands against the handover and the seals."""

    view: CarView
    gate: Gate = field(default_factory=Gate)
    seals: Seals = field(default_factory=Seals)
    indexed: bool = True

    @cached_property
    def places(self) -> Places:
        """Links within the document."""
        return Places(self.view, indexed=self.indexed)

    @property
    def delivered(self) -> bool:
        """Whether the car had been handed over on the day the document speaks of."""
        return is_delivered(self.view)

    @property
    def standing(self) -> str:
        """The heading over what is there now."""
        return "As delivered" if self.delivered else "As it stands"

    def document(self, name: str, paper: str, draft: str = "") -> dict[str, str]:
        """What stands around every page of a document, and what the file says of itself."""
        car = car_title(self.view.car.car)
        return {
            "paper": paper,
            "title": f"{car}: {name[0].lower()}{name[1:]}",
            "name": name,
            "car": car,
            "workshop": self.view.car.workshop.name,
            "draft": draft,
            "keywords": f"seal root {self.seals.last.root}" if self.seals.last else "",
        }

    def photographs(self, pictures: Iterable[Picture]) -> tuple[Photograph, ...]:
        """The published ones of some photographs, in the order given."""
        return self.printed(plates_of(self.view, self.places, pictures))

    def printed(self, plates: Iterable[Plate]) -> tuple[Photograph, ...]:
        """Photographs of a page as the document prints them."""
        return tuple(
            Photograph(
                plate.src, plate.alt,
                self.places.picture_code(plate.number) if plate.number else Ref(""),
                plate.stage, plate.day, plate.caption, plate.shape == "tall",
            )
            for plate in plates
        )  # fmt: skip

    def reservations(self) -> tuple[ReservationWords, ...]:
        """Everything that stands against the handover, in words that the reader may read."""
        return tuple(
            ReservationWords(
                self.places.subsystem(r.subsystem).text,
                _words(r, self.view.reader),
                self.places.sheet_code(r.sheet) if r.sheet else Ref(""),
            )
            for r in self.gate.reasons
        )


def _words(reason: Reason, reader: Reader) -> str:
    return reason.told(day_words) if reason.is_for(reader) else reason.told_bare(day_words)


Sections = tuple[Callable[[Book], Section], ...]

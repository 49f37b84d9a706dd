"""Documents as files: the dossier, a statement, a sheet; values typeset with the pictures they show."""

from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path
from typing import Any

from msgspec import Struct

from journal.digests.gate import Gate
from journal.digests.since import Since
from journal.digests.statement import Stated
from journal.ledgers.seals import Seals
from journal.outputs.typeset import Paper, typeset
from journal.pages.dossier import dossier_values
from journal.pages.dossier.sheet import sheet_print
from journal.pages.dossier.statement import statement_print
from journal.pages.dossier.supplement import supplement_values
from journal.pages.view import CarView


class Document(Struct, frozen=True):
    """What is printed, before it is set: its layout, all that it says, and the day it bears."""

    template: str
    values: Mapping[str, Any]
    day: date

    def pdf(self, pictures: Path, *, apart: bool = False) -> bytes:
        """The document as a file. `pictures` is the folder of the car in an archive of its reader: what
        is published of each photograph is printed, never the photograph itself. With `apart` it is set
        by a process of its own."""
        shown = pictures_in(self.values, pictures)
        return typeset(self.template, self.values, shown, day=self.day, apart=apart)


def dossier(view: CarView, gate: Gate, seals: Seals, *, paper: Paper = "a4") -> Document:
    """The provenance dossier of a car, as one reader may see it.

    `gate` is of the whole car file; each of its reasons stands on the first page as a reservation. The
    document bears the day the view speaks of.
    """
    return Document("dossier.typ", dossier_values(view, gate, seals, paper=paper), view.until)


def supplement(
    view: CarView, gate: Gate, seals: Seals, since: Since, name: str, *, paper: Paper = "a4"
) -> Document:
    """What came after an earlier bag of a car, as one reader may see it; `name` is what the bag of the
    supplement is called. Else as for `dossier`; the seals are more than those of that bag."""
    values = supplement_values(view, gate, seals, since, name, paper=paper)
    return Document("supplement.typ", values, view.until)


def statement(view: CarView, stated: Stated, *, paper: Paper = "a4") -> Document:
    """A statement of a car, which bears its day of issue, or the day of the view while it runs."""
    values = statement_print(view, stated, paper=paper)
    return Document("statement.typ", values, stated.issued or view.until)


def sheet(view: CarView, name: str, *, paper: Paper = "a4") -> Document:
    """One day sheet by its name; it bears its own day. Raises KeyError when the view has none such."""
    found = {s.name: s for s in view.car.sheets}[name]
    return Document("sheet.typ", sheet_print(view, found, paper=paper), found.date)


def dossier_pdf(
    view: CarView, gate: Gate, seals: Seals, pictures: Path, *, paper: Paper = "a4"
) -> bytes:
    """The provenance dossier as a file, with pictures from a folder as `Document.pdf` has it."""
    return dossier(view, gate, seals, paper=paper).pdf(pictures)


def pictures_in(values: Mapping[str, Any], folder: Path) -> dict[str, Path]:
    """The pictures that values speak of, each once, by the path under which they name it."""
    return {file: folder / file for file in sorted(set(_files(values)))}


def _files(value: Any) -> Iterator[str]:
    if isinstance(value, Mapping):
        if "alt" in value and "file" in value:
            yield value["file"]
        for item in value.values():
            yield from _files(item)
    elif isinstance(value, list | tuple):
        for item in value:
            yield from _files(item)

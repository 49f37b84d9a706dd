"""The dossier as a file: its values typeset, with the pictures that they show."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from journal.digests.gate import Gate
from journal.ledgers.seals import Seals
from journal.outputs.typeset import Paper, typeset
from journal.pages.dossier import dossier_values
from journal.pages.view import CarView


def dossier_pdf(
    view: CarView, gate: Gate, seals: Seals, pictures: Path, *, paper: Paper = "a4"
) -> bytes:
    """The provenance dossier of a car, as one reader may see it.

    `gate` is of the whole car file; each of its reasons stands on the first page as a reservation.
    `pictures` is the folder of the car in an archive of this reader: what is published of each
    photograph is printed, never the photograph itself. The file bears the day the view speaks of.
    """
    values = dossier_values(view, gate, seals, paper=paper)
    return typeset("dossier.typ", values, pictures_in(values, pictures), day=view.until)


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

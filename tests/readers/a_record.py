"""A small car in which every reader sees something else."""

from typing import Any

from journal.records.carfile import CarFile
from tests.writing import a_car, a_sheet

PHOTOS = ("2024-01-01/a.jpg", "2024-01-01/plate.jpg", "2024-01-01/owner.jpg")


def car_with(**front: Any) -> CarFile:
    sheet = a_sheet("2024-01-01", **front)
    return a_car(
        {
            "brakes/pipes": "first-fit",
            "papers/chassis-plate": {"as-found": "first-fit", "identity": "yes"},
        },
        [sheet],
        photos=PHOTOS,
        papers={
            "invoice": {"title": "Old invoice", "for": "workshop"},
            "record": {"title": "Record", "numbers": {"chassis": "TD 58/0417"}, "for": "public"},
            "letter": {"title": "Letter"},
        },
        numbers={"chassis": {"found": "TD 58/0417", "on": "papers/chassis-plate"}},
        plate="SVX 417",
        brief="A car for long summers.",
        estimate={"brakes": "60"},
    )


PART = {
    "what": "Cylinder", "from": "northgate", "price": "48.50", "why": "bore scored", "note": "never again",
    "outcome": "reworked", "received": "today",
}  # fmt: skip

"""The table of photographs: what each shows, and what its file says of itself."""

from datetime import date

from journal.ledgers.gallery import Picture, fold_gallery
from journal.outputs.table import Cell, Table
from journal.records.carfile import CarFile
from journal.words.text import counted


def table_pictures(car: CarFile, day: date) -> Table:
    """One row a photograph that a sheet tells of, with the hash of its file and the camera's day."""
    pictures = fold_gallery(car).pictures
    columns = (
        "picture", "file", "sheet", "day", "shows", "stage", "taken on", "at", "days off", "form",
        "width", "height", "bytes", "sha-256",
    )  # fmt: skip
    dated = [p for p in pictures if p.days_off is not None]
    agree = sum(p.days_off == 0 for p in dated)
    total = (
        f"{counted(len(pictures), 'photograph')}; {len(dated)} tell when they were taken, "
        f"{agree} of them on the day of their sheet."
    )
    return Table(columns, tuple(_row(p) for p in pictures), total)


def _row(picture: Picture) -> tuple[Cell, ...]:
    facts = picture.facts
    told = (
        picture.number, picture.path, picture.sheet, picture.day, ", ".join(picture.of),
        picture.stage.value if picture.stage else None,
    )  # fmt: skip
    if facts is None:
        return (*told, *[None] * 8)
    clock = facts.taken_at.isoformat("minutes") if facts.taken_at else None
    return (
        *told, facts.taken_on, clock, picture.days_off, facts.form, facts.width, facts.height,
        facts.size, facts.sha256,
    )  # fmt: skip

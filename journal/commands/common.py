"""What commands share that read a content folder."""

from pathlib import Path

from journal.commands.options import (
    Day,
    Refusal,
    as_of_option,
    car_option,
    content_folder,
    folder_argument,
    refusing,
)
from journal.reading.content import read_content
from journal.records.carfile import CarFile, Content
from journal.words.names import nearest
from journal.words.text import listed

__all__ = [
    "Day", "Refusal", "as_of_option", "car_option", "folder_argument", "load", "one_car", "refusing",
]  # fmt: skip


def load(folder: Path) -> Content:
    """Read a content folder, or refuse one that is none."""
    return read_content(content_folder(folder))


def one_car(content: Content, name: str | None) -> CarFile:
    """The car named, or the only one there is."""
    names = [car.name for car in content.cars]
    if name is None and len(names) == 1:
        return content.cars[0]
    if name is None:
        if not names:
            raise Refusal("there is no car that can be read; journal check says what is wrong")
        raise Refusal(f"say which car: --car {listed(names, 'or --car')}")
    car = next((c for c in content.cars if c.name == name), None)
    if car is None:
        meant = nearest(name, names)
        raise Refusal(f'there is no car "{name}"; write {meant or listed(names, "or")}')
    return car

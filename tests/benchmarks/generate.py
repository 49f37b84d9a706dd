"""Write a workshop of any size: `python -m tests.benchmarks.generate TO [--seed 1] [--cars 20]
[--sheets 3000] [--pictures 20000] [--megapixels 0.3]`.

Same seed and sizes, same bytes. `journal check` finds nothing in it. Sheets and pictures are shared out
evenly among the cars; a picture of 0.3 megapixels takes some 55 kB, one of 12 some 1 MB.
"""

import argparse
import shutil
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path
from random import Random
from typing import NamedTuple

from tests.benchmarks.workshop.cars import WORKSHOP, car_kind, car_yaml, papers_yaml, register_yaml
from tests.benchmarks.workshop.days import deeds_by_sheet, found_of, working_days
from tests.benchmarks.workshop.photographs import drawn, stamped
from tests.benchmarks.workshop.sheets import DaySheet, sheet_of
from tests.benchmarks.workshop.statements import issue_statements

FIRST = date(2013, 1, 7)


class Size(NamedTuple):
    """How large a workshop is; `megapixels` are those of each picture."""

    seed: int = 1
    cars: int = 20
    sheets: int = 3000
    pictures: int = 20000
    megapixels: float = 0.3


def generate(root: Path, size: Size) -> None:
    """Write the content folder of a workshop; what lay there is gone."""
    shutil.rmtree(root, ignore_errors=True)
    _put(root / "workshop.yaml", WORKSHOP.encode())
    pictures = tuple(drawn(size.seed, size.megapixels)) if size.pictures else ()
    for number in range(size.cars):
        sheets = _share(size.sheets, number, size.cars)
        photos = _share(size.pictures, number, size.cars)
        _put_car(root, size, number, sheets, photos, pictures)
    issue_statements(root)


def _share(whole: int, number: int, of: int) -> int:
    """The part of the one with this number when a whole number is shared out evenly."""
    return whole * (number + 1) // of - whole * number // of


def _put_car(
    root: Path, size: Size, number: int, sheets: int, photos: int, pictures: tuple[bytes, ...]
) -> None:
    chance = Random(f"{size.seed}/{number}")
    kind, found = car_kind(number, chance), found_of(chance)
    booked_in = FIRST + timedelta(7 * number)
    folder, scan = root / kind.folder, "build-card.jpg" if photos else None
    # One picture of a car with any is the scan of its build card.
    written = tuple(_sheets(booked_in, kind.mileage, sheets, max(photos - 1, 0), found, chance))
    for sheet in written:
        _put(folder / "sheets" / str(sheet.day.year) / f"{sheet.name}.md", sheet.text.encode())
    hung = [f"{sheet.day}/{file}" for sheet in written for file in sheet.photos]
    for place, path in enumerate(hung):
        day = date.fromisoformat(path[:10])
        named = number * 10_000_000 + place + 1
        _put(folder / "photos" / path, stamped(pictures[place % len(pictures)], named, day))
    if scan:
        card = stamped(pictures[number % len(pictures)], number * 10_000_000, booked_in)
        _put(folder / "papers" / scan, card)
    cover = hung[-1] if hung else None
    _put(folder / "car.yaml", car_yaml(kind, booked_in, sheets, cover, chance).encode())
    _put(folder / "register.yaml", register_yaml(found, chance).encode())
    _put(folder / "papers" / "papers.yaml", papers_yaml(kind, booked_in, scan).encode())


def _sheets(
    first: date, mileage: int, sheets: int, photos: int, found: dict[str, str], chance: Random
) -> Iterator[DaySheet]:
    days = tuple(working_days(first, sheets, chance))
    earlier: list[str] = []
    for number, (day, deeds) in enumerate(deeds_by_sheet(days, found, chance)):
        driven = any(deed.work.get("did") == "proved" for deed in deeds)
        odometer = mileage + 2 * number if driven and number % 5 == 0 else None
        count = _share(photos, number, sheets)
        yield (sheet := sheet_of(day, number + 1, deeds, count, earlier, chance, odometer))
        earlier.append(sheet.name)


def _put(file: Path, data: bytes) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(data)


def main() -> None:
    """Write what was asked for."""
    size = Size()
    asked = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    asked.add_argument("to", type=Path)
    asked.add_argument("--seed", type=int, default=size.seed)
    asked.add_argument("--cars", type=int, default=size.cars)
    asked.add_argument("--sheets", type=int, default=size.sheets)
    asked.add_argument("--pictures", type=int, default=size.pictures)
    asked.add_argument("--megapixels", type=float, default=size.megapixels)
    told = asked.parse_args()
    generate(told.to, Size(told.seed, told.cars, told.sheets, told.pictures, told.megapixels))


if __name__ == "__main__":
    main()

"""The hashes of everything of a car that a seal answers for, and the days that the files tell of."""

import re
from collections.abc import Mapping
from datetime import date
from hashlib import file_digest
from pathlib import Path

from msgspec import Struct

from journal.records.carfile import CarFile
from journal.records.sheet import photo_path
from journal.words.text import normal

_NAMED = re.compile(r"(\d{4}-\d{2}-\d{2})-")
_DATED = re.compile(r"(\d{4}-\d{2}-\d{2})(?:/|$)")


class Files(Struct, frozen=True):
    """Files by path relative to the car's folder: their SHA-256 in hexadecimal, and the day that a
    file tells of where it tells of one."""

    hashes: Mapping[str, str]
    days: Mapping[str, date]


def files_of(root: Path, car: CarFile) -> Files:
    """What is there now. Photographs that have been looked at are not read again."""
    base = root / car.name
    known = {f"photos/{path}": facts.sha256 for path, facts in car.photo_facts.items()}
    unread = _unread(base, car)
    paths = [path for path, _ in _days(car)] + list(unread)
    paths += [f"photos/{path}" for path in car.photo_files]
    paths += [f"papers/{path}" for path in car.paper_files]
    paths += ["car.yaml", "register.yaml", "papers/papers.yaml"]
    hashes = {
        path: known.get(path) or _hash(base / path)
        for path in sorted(set(paths))
        if (base / path).is_file()
    }
    return Files(hashes, unread | dict(_days(car)) | _photo_days(car))


def _days(car: CarFile) -> list[tuple[str, date]]:
    """Sheets and issued statements, with their days."""
    told = [(sheet.source.path, sheet.date) for sheet in car.sheets]
    told += [(stated.source.path, stated.file.issued) for stated in car.statements]
    return [(path.removeprefix(f"{car.name}/"), day) for path, day in told]


def _unread(base: Path, car: CarFile) -> dict[str, date]:
    """Sheets that lie there and cannot be read, with the days that their names tell: no less there."""
    found: dict[str, date] = {}
    for file in sorted((base / "sheets").rglob("*.md")) if car.unread else ():
        named = _NAMED.match(file.name)
        if named and normal(file.stem) in car.unread:
            try:
                found[file.relative_to(base).as_posix()] = date.fromisoformat(named[1])
            except ValueError:
                continue
    return found


def _photo_days(car: CarFile) -> dict[str, date]:
    """Photographs by the first sheet that tells of them, else by the folder of a day that they lie in."""
    days: dict[str, date] = {}
    for path in car.photo_files:
        match = _DATED.match(path)
        if match:
            try:
                days[f"photos/{path}"] = date.fromisoformat(match[1])
            except ValueError:
                continue
    for sheet in reversed(car.sheets):
        for photo in sheet.front.photos:
            path = photo_path(sheet.date, photo.file)
            if path in car.photo_files:
                days[f"photos/{path}"] = sheet.date
    return days


def _hash(file: Path) -> str:
    with file.open("rb") as opened:
        return file_digest(opened, "sha256").hexdigest()

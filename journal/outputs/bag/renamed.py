"""A car file whose pictures are called as they lie in the bag."""

import re
from collections.abc import Iterable, Mapping
from urllib.parse import quote

from msgspec.structs import replace

from journal.outputs.bag.pictures import Packed
from journal.records.carfile import CarFile
from journal.records.fields import Named
from journal.records.sheet import Block, Photo, Sheet, photo_path


def renamed(car: CarFile, packed: Iterable[Packed]) -> CarFile:
    """The car file with photographs, cover and scans under their names in the bag.

    Of pictures that are not in the bag the names stay; their files are not among those that are there.
    """
    names = {p.source.removeprefix(f"{car.name}/"): _below(p.path, car.name) for p in packed}
    photos = {_inside(old): _inside(new) for old, new in names.items() if old[:7] == "photos/"}
    scans = {_inside(old): _inside(new) for old, new in names.items() if old[:7] == "papers/"}
    cover = car.car.cover
    return replace(
        car,
        car=car.car.model_copy(update={"cover": photos.get(cover, cover) if cover else None}),
        papers=Named(
            (name, paper.model_copy(update={"file": scans.get(paper.file, paper.file)}))
            if paper.file
            else (name, paper)
            for name, paper in car.papers
        ),
        sheets=tuple(_sheet(sheet, photos) for sheet in car.sheets),
        photo_files=frozenset(photos.values()),
        paper_files=frozenset(scans.values()),
        photo_facts={photos[p]: facts for p, facts in car.photo_facts.items() if p in photos},
    )  # fmt: skip


def _below(path: str, folder: str) -> str:
    return path.removeprefix(f"{folder}/")


def _inside(path: str) -> str:
    return path.partition("/")[2]


def _sheet(sheet: Sheet, photos: Mapping[str, str]) -> Sheet:
    """A sheet with its photographs renamed, in its front matter and where its text shows them."""
    called = tuple(_photo(sheet, photo, photos) for photo in sheet.front.photos)
    new = {
        old.file: now.file
        for old, now in zip(sheet.front.photos, called, strict=True)
        if old.file != now.file
    }
    if not new:
        return sheet
    body = tuple(Block(b.reader, _text(b.text, new), b.line) for b in sheet.body)
    return replace(sheet, front=sheet.front.model_copy(update={"photos": called}), body=body)


def _photo(sheet: Sheet, photo: Photo, photos: Mapping[str, str]) -> Photo:
    """A bare name stays one as long as it lies in the folder of its day."""
    old = photo_path(sheet.date, photo.file)
    new = photos.get(old, old)
    if new == old:
        return photo
    bare = new.removeprefix(f"{sheet.date.isoformat()}/")
    return photo.model_copy(update={"file": new if "/" in photo.file or "/" in bare else bare})


def _text(text: str, new: Mapping[str, str]) -> str:
    """Pictures set in a text by their file, as it is written there or with its blanks in code."""
    ways = {way: now for old, now in new.items() for way in (old, quote(old))}
    longest = sorted(ways, key=lambda way: (-len(way), way))
    set_in = re.compile(rf"\]\(<?({'|'.join(map(re.escape, longest))})>?(?=[\s)])")
    return set_in.sub(lambda match: f"]({ways[match[1]]}", text)

"""Files that are named in a text, called as they lie on the disk.

`é` is one character or two, and a disk may hold either form whatever an editor writes. A file that
is there under the other form of its name is the one that is meant; from here on it has one name.
"""

from collections.abc import Collection, Iterable, Mapping

from msgspec.structs import replace

from journal.records.car import Car
from journal.records.fields import Named
from journal.records.papers import Paper
from journal.records.sheet import Photo, Sheet, photo_path
from journal.words.text import normal


class OnDisk:
    """Paths of files as they lie on the disk, found by either form of their name."""

    def __init__(self, paths: Collection[str]) -> None:
        self.paths = paths
        # Of two that differ in nothing but their form the first in order of code points is meant.
        self._by_form: Mapping[str, str] = {
            normal(path): path for path in sorted(paths, reverse=True) if not path.isascii()
        }

    def find(self, path: str) -> str:
        """The path as it lies on the disk, or as it is written when there is no such file."""
        return path if path in self.paths else self._by_form.get(normal(path), path)


def sheets_on_disk(
    sheets: Iterable[Sheet], photos: OnDisk, recordings: OnDisk
) -> tuple[Sheet, ...]:
    """Sheets whose photographs and recordings are named as they lie on the disk."""
    return tuple(_sheet(sheet, photos, recordings) for sheet in sheets)


def car_on_disk(car: Car, photos: OnDisk) -> Car:
    """A car whose cover is named as it lies on the disk."""
    cover = car.cover and photos.find(car.cover)
    return car if cover == car.cover else car.model_copy(update={"cover": cover})


def papers_on_disk(papers: Named[Paper], scans: OnDisk) -> Named[Paper]:
    """Papers whose scans are named as they lie on the disk."""
    return Named(
        (name, p.model_copy(update={"file": scans.find(p.file)}) if p.file else p)
        for name, p in papers
    )


def _sheet(sheet: Sheet, photos: OnDisk, recordings: OnDisk) -> Sheet:
    front = sheet.front
    files = (*(photo.file for photo in front.photos), *(told.file for told in front.recording))
    if all(map(str.isascii, files)):
        return sheet
    found = {
        "photos": tuple(_photo(sheet, photo, photos) for photo in front.photos),
        "recording": tuple(
            moment.model_copy(update={"file": recordings.find(moment.file)})
            for moment in front.recording
        ),
    }
    return replace(sheet, front=front.model_copy(update=found))


def _photo(sheet: Sheet, photo: Photo, photos: OnDisk) -> Photo:
    path = photo_path(sheet.date, photo.file)
    found = photos.find(path)
    if found == path:
        return photo
    # A bare name stays one: it lies in the folder of its day.
    return photo.model_copy(
        update={"file": found if "/" in photo.file else found.rpartition("/")[2]}
    )

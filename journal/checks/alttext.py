"""Can whoever cannot see a photograph, or the scan of a paper, read what is seen in it?"""

from collections.abc import Iterator
from pathlib import PurePosixPath

from journal.records.carfile import CarFile
from journal.records.place import Loc, Source
from journal.records.problem import Problem, Severity, problem_at
from journal.records.sheet import photo_path
from journal.words.vocabulary import READER_RANK, Reader

# A scan of another kind is no picture, and needs no words in its place.
_PICTURES = frozenset(
    {".jpg", ".jpeg", ".png", ".webp", ".tif", ".tiff", ".heic", ".heif", ".avif"}
)


# Words as they are wanted: what is seen, not what it means.
_SUCH_AS = {
    "photograph": "a gear wheel with three chipped teeth",
    "scan": "a typed letter with a round stamp below",
}


def check_alttext(car: CarFile) -> Iterator[Problem]:
    """Photographs and scans that the owner may see and that have no words in their place."""
    for sheet in car.sheets:
        for place, photo in enumerate(sheet.front.photos):
            shown = _owner_sees(sheet.front.for_) and _owner_sees(photo.for_)
            there = photo_path(sheet.date, photo.file) in car.photo_files
            if shown and there and _says_nothing(photo.alt, photo.file):
                yield _missing(sheet.source, ("photos", place), "photograph", photo.file)
    for name, paper in car.papers:
        file = paper.file or ""
        scan = file in car.paper_files and PurePosixPath(file).suffix.lower() in _PICTURES
        if scan and _owner_sees(paper.for_) and _says_nothing(paper.alt, file):
            yield _missing(car.papers_source, ("papers", name, "file"), "scan", file)


def _owner_sees(widest: Reader) -> bool:
    return READER_RANK[Reader.OWNER] <= READER_RANK[widest]


def _says_nothing(alt: str | None, file: str) -> bool:
    """Whether there are no words, or no more of them than the name of the file."""
    if not alt:
        return True
    told, path = alt.casefold(), file.casefold()
    # Nearly all words are others, and a path takes long to be taken apart.
    return told in path and told in (PurePosixPath(path).name, PurePosixPath(path).stem)


def _missing(source: Source, loc: Loc, what: str, file: str) -> Problem:
    return problem_at(
        source, loc, "no-alt-text", f'the {what} "{file}" has no alt text',
        severity=Severity.WARNING, help=f"say what is seen, as in {{file: {file}, alt: {_SUCH_AS[what]}}}",
    )  # fmt: skip

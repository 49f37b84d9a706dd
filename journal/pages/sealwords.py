"""Seals in words: how the record stands, what each file's history is, and how anyone can check it."""

from collections.abc import Mapping

from journal.ledgers.seals import SealedFile, Sealing, Standing
from journal.pages.anchors import anchor
from journal.pages.links import Links, Ref
from journal.pages.statement import statement_path, statement_title
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words, in_words, sentence, some
from journal.records.papers import Paper
from journal.records.sheet import Sheet
from journal.words.text import counted, listed
from journal.words.vocabulary import Reader

PATH = "seals.html"

# What must be asked about, gravest first, then what was done openly: the heading, and what it means.
TOLD: dict[Standing, tuple[str, str]] = {
    Standing.CHANGED: (
        "Changed after it was sealed",
        "What stands here is not what was sealed, and nobody sealed the new version. Ask the workshop what "
        "was changed, and why.",
    ),
    Standing.REMOVED: (
        "Removed after it was sealed",
        "It was sealed and is gone. Ask the workshop where it is.",
    ),
    Standing.LATE: (
        "Written later for days that were closed",
        "It tells of days that a seal had closed, and no seal has it. It may be quite right; the seals "
        "do not say so.",
    ),
    Standing.AMENDED: (
        "Amended openly",
        "It was changed after it was sealed, and sealed again. That is honest: both versions have their "
        "place in the seals, and whoever kept the earlier one can prove it.",
    ),
    Standing.ADDED: (
        "Added openly",
        "It tells of days that were closed already, and a later seal has it. Nobody hides that it came "
        "later.",
    ),
}
GRAVE = frozenset({Standing.CHANGED, Standing.REMOVED, Standing.LATE})

_FIXED = {
    "car.yaml": "The particulars of the car",
    "register.yaml": "The register of components",
    "papers/papers.yaml": "The list of papers",
}


class SealLine(Value, frozen=True):
    """How a sheet stands to the seals: words, where the seals stand, and whether it must be asked about."""

    text: str
    href: str
    grave: bool


class FileWords(Value, frozen=True):
    """A file with its history. `path` is told to the workshop alone."""

    ref: Ref
    day: str
    path: str
    told: str


class Places:
    """What the files of a car are called on its pages, by path relative to the car's folder."""

    def __init__(self, view: CarView, links: Links) -> None:
        own = f"{view.car.name}/"
        self._links = links
        self._view = view
        self._sheets: Mapping[str, Sheet] = {
            sheet_file(view, sheet): sheet for sheet in view.car.sheets
        }
        self._pictures = {f"photos/{p.path}": p for p in view.gallery.pictures}
        self._papers: Mapping[str, tuple[str, Paper]] = {
            f"papers/{paper.file}": (name, paper) for name, paper in view.car.papers if paper.file
        }
        issued = zip(view.car.statements, view.statements.issued, strict=True)
        self._statements = {s.source.path.removeprefix(own): told for s, told in issued}

    def of(self, path: str) -> tuple[Ref, str] | None:
        """What a file is called, where it is shown, and its day; None for what no page shows."""
        links = self._links
        if path in self._sheets:
            sheet = self._sheets[path]
            return links.sheet(sheet.name), day_words(sheet.date)
        if path in self._pictures:
            picture = self._pictures[path]
            ref = Ref(f"Picture {picture.number}", links.picture(picture.number))
            return ref, day_words(picture.day)
        if path in self._papers:
            return links.paper(self._papers[path][0]), ""
        if path in self._statements:
            stated = self._statements[path]
            ref = Ref(
                statement_title(self._view, stated), links.to(statement_path(self._view, stated))
            )
            return ref, day_words(stated.issued) if stated.issued else ""
        return (Ref(_FIXED[path]), "") if path in _FIXED else None


def sheet_file(view: CarView, sheet: Sheet) -> str:
    """The path of a sheet relative to the car's folder."""
    return sheet.source.path.removeprefix(f"{view.car.name}/")


def file_words(view: CarView, places: Places, file: SealedFile) -> FileWords | None:
    """A file that is told of by name; None for one that is only counted."""
    workshop = view.reader is Reader.WORKSHOP
    found = places.of(file.path)
    if found is None and not (workshop and file.path):
        return None
    ref, day = found or (Ref(file.path), "")
    path = file.path if workshop and found else ""
    return FileWords(ref, day, path, sentence(_history(file)))


def _history(file: SealedFile) -> str:
    """When it was sealed, and again: `sealed on 1 March 2024, and again on 3 June 2024`."""
    days = _days(file.sealings)
    if not days:
        return ""
    first, *again = days
    return f"sealed on {first}" + (f", and again on {listed(again)}" if again else "")


def _days(sealings: tuple[Sealing, ...]) -> list[str]:
    return [day_words(sealing.on) for sealing in sealings]


def seal_line(links: Links, file: SealedFile | None) -> SealLine | None:
    """How a sheet stands to the seals; None where its reader is told nothing of it."""
    if file is None:
        return None
    days = _days(file.sealings)
    grave = file.standing in GRAVE
    return SealLine(_standing(file.standing, days), links.to(PATH), grave)


def _standing(standing: Standing, days: list[str]) -> str:
    on = f" on {days[0]}" if days else ""
    match standing:
        case Standing.SEALED:
            return f"Sealed{on}, unchanged"
        case Standing.AMENDED:
            again = f"again on {days[-1]}" if len(days) > 1 else "again later"
            return f"Sealed{on}, amended openly and sealed {again}"
        case Standing.ADDED:
            return f"Added after its day was closed, and sealed openly{on}"
        case Standing.CHANGED:
            return f"Changed after it was sealed{' on ' + days[-1] if days else ''}"
        case Standing.REMOVED:
            return f"Removed after it was sealed{' on ' + days[-1] if days else ''}"
        case Standing.LATE:
            return "Written after its day was closed, and not sealed"
        case Standing.OPEN:
            return "Not sealed yet"


def pictures_line(view: CarView, by_path: Mapping[str, SealedFile], sheet: str) -> str:
    """That photographs of a sheet are not what was sealed; empty when all are."""
    changed = sum(
        file is not None and file.standing is Standing.CHANGED
        for file in (by_path.get(f"photos/{p.path}") for p in view.gallery.in_sheet(sheet))
    )
    if not changed:
        return ""
    verb = "was" if changed == 1 else "were"
    return sentence(f"{some(changed, 'photograph')} {verb} changed after being sealed")


def verdict_words(view: CarView) -> str:
    """Whether the record is what was sealed, in one sentence."""
    seals = view.seals
    if seals.last is None:
        if seals.faults:
            return "There are seals, and none of them holds."
        return (
            "Nothing is sealed: that nothing was altered rests on the word of the workshop alone."
        )
    if seals.intact:
        up_to = day_words(seals.last.up_to)
        return f"The record holds: up to {up_to} everything is as it was sealed, or was amended openly."
    return "The record is not what was sealed. What differs stands below."


def counts_words(view: CarView) -> str:
    """How many files there are, and how they stand: `312 files: 309 as they were sealed, two amended`."""
    seals = view.seals
    named = (
        (Standing.SEALED, "as sealed"), (Standing.AMENDED, "amended openly"),
        (Standing.ADDED, "added openly"), (Standing.CHANGED, "changed since"),
        (Standing.REMOVED, "removed since"), (Standing.LATE, "written later and in no seal"),
        (Standing.OPEN, "not sealed yet"),
    )  # fmt: skip
    said = [f"{in_words(seals.count(kind))} {words}" for kind, words in named if seals.count(kind)]
    return f"{counted(len(seals.files), 'file')} in all: {listed(said)}." if said else ""


def seal_anchor(number: int) -> str:
    """The place of a seal on the page."""
    return anchor("seal", str(number))

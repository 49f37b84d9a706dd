"""Numbers: each stamped number as recorded, as found, as delivered, and what speaks against it.

Hears `numbers` in the car file and the papers, `number` and `now` in work on the
component that carries a number, and photographs of it; ignores all else. Two statements of the
same number that differ in their letters or digits make it disputed; nothing is averaged away.
A number read after another item took the place is that item's own and disputes nothing.

The chassis number of a car of 1981 or later is held against 49 CFR 565.15 and ISO 3779, as a
remark; before that chassis numbers have no common form, and only the car's own factory record
says whether one is right.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from enum import StrEnum

from msgspec import Struct
from msgspec.structs import replace

from journal.records.carfile import CarFile
from journal.records.sheet import Sheet, photo_path
from journal.records.work import Work
from journal.words.dates import year_in
from journal.words.text import comparable
from journal.words.vin import FIRST_YEAR, vin_remark
from journal.words.vocabulary import Evidence, Origin

CHASSIS = ("chassis", "vin")
RECORD = "factory record"
HIDDEN = "•"


class Verdict(StrEnum):
    """How a number on the car stands against the car's own factory record."""

    AGREES = "agrees with the factory record"
    DIFFERS = "differs from the factory record"
    SILENT = "no factory record gives it"
    MASKED = "the part that would tell is not shown here"


class Statement(Struct, frozen=True):
    """One statement of a number: by whom (a paper, the car as found, a sheet), on what day.

    `another` marks a number read on an item that has taken the place of the one found.
    """

    value: str
    kind: str
    ref: str | None = None
    day: date | None = None
    another: bool = False


class NumberLine(Struct, frozen=True):
    """One number with everything that speaks for and against it.

    `moved` is the sheet that last put another item in the carrier's place, when no number was
    read since; `evidence` the best that speaks for the number; `record` how it stands against the
    factory record; `remark` what the rules for numbers of 17 characters say of it, if they apply.
    """

    name: str
    on: str | None
    note: str | None
    statements: tuple[Statement, ...]
    moved: str | None = None
    evidence: Evidence = Evidence.STATED
    record: Verdict = Verdict.SILENT
    remark: str | None = None

    @property
    def disputed(self) -> bool:
        """Whether two statements of the item found differ in letters or digits."""
        return len({comparable(s.value) for s in self.statements if not s.another}) > 1

    @property
    def masked(self) -> bool:
        """Whether its last characters are taken out, so that nobody can tell whether it agrees."""
        return any(HIDDEN in s.value for s in self.statements)

    @property
    def recorded(self) -> tuple[Statement, ...]:
        """What the papers say."""
        return tuple(s for s in self.statements if s.kind == "paper")

    @property
    def read(self) -> tuple[Statement, ...]:
        """What was read on the car, in order of days."""
        return tuple(s for s in self.statements if s.kind != "paper")

    @property
    def found(self) -> Statement | None:
        """As found: the car file's reading, else the first that a sheet took of the item found."""
        return next((s for s in self.read if not s.another), None)

    @property
    def delivered(self) -> Statement | None:
        """As it stands last; absent when another item is there whose number nobody read."""
        return self.read[-1] if self.read and self.moved is None else None


class Numbers(Struct, frozen=True):
    """The car's numbers in the order of the car file, then those only papers know."""

    lines: tuple[NumberLine, ...] = ()

    @property
    def disputed_components(self) -> frozenset[str]:
        """Components that carry a disputed number."""
        return frozenset(line.on for line in self.lines if line.on and line.disputed)


def fold_numbers(car: CarFile) -> Numbers:
    """Gather statements by number name; readings in sheets join the number of their component."""
    names = dict.fromkeys(car.car.numbers.names())
    names |= dict.fromkeys(n for _, paper in car.papers for n in paper.numbers.names())
    work = _work_by_component(car)
    shown = frozenset(
        key
        for sheet in car.sheets
        for photo in sheet.front.photos
        if photo_path(sheet.date, photo.file) in car.photo_files
        for key in photo.of
    )
    return Numbers(tuple(_line(car, name, work, shown) for name in names))


def _work_by_component(car: CarFile) -> dict[str, list[tuple[Sheet, Work]]]:
    told: dict[str, list[tuple[Sheet, Work]]] = {}
    for sheet in car.sheets:
        for key, work in sheet.front.work:
            told.setdefault(key, []).append((sheet, work))
    return told


def _line(
    car: CarFile,
    name: str,
    told: Mapping[str, Sequence[tuple[Sheet, Work]]],
    shown: frozenset[str],
) -> NumberLine:
    written = car.car.numbers.get(name)
    on, note = (written.on, written.note) if written else (None, None)
    read, moved = _read(told.get(on, ())) if on else ([], None)
    found = (
        [Statement(written.found, "as found", None, car.car.booked_in)]
        if written and written.found
        else []
    )
    line = NumberLine(name, on, note, (*_papers(car, name), *found, *read), moved)
    return replace(
        line,
        evidence=_evidence(line, shown),
        record=_against_record(car, line),
        remark=_remark(car, line),
    )


def _papers(car: CarFile, name: str) -> Iterator[Statement]:
    for paper, says in car.papers:
        value = says.numbers.get(name)
        if value is not None:
            yield Statement(value, "paper", paper, says.date)


def _read(told: Sequence[tuple[Sheet, Work]]) -> tuple[list[Statement], str | None]:
    """Readings of the carrier's number in the work on it, and the sheet of a change not read since."""
    statements: list[Statement] = []
    another, moved = False, None
    for sheet, work in told:
        if work.now is not None:
            another, moved = work.now is not Origin.FIRST_FIT, sheet.name
        if work.number:
            statements.append(Statement(work.number, "sheet", sheet.name, sheet.date, another))
            moved = None
    return statements, moved


def _evidence(line: NumberLine, shown: frozenset[str]) -> Evidence:
    """Proven: read on the car, given so by a paper, and photographed (`shown`); shown: photographed."""
    if line.disputed:
        return Evidence.DISPUTED
    if not line.read or line.on not in shown:
        return Evidence.STATED
    return Evidence.PROVEN if line.recorded else Evidence.SHOWN


def _against_record(car: CarFile, line: NumberLine) -> Verdict:
    """A number in another place of the car, `chassis-stamp`, is held against the record's `chassis`."""
    words = line.name.split("-")
    names = ["-".join(words[:end]) for end in range(1, len(words) + 1)]
    given = {
        comparable(value)
        for _, paper in car.papers
        if is_factory_record(paper.kind)
        for name in names
        if (value := paper.numbers.get(name)) is not None
    }
    if not given or line.found is None:
        return Verdict.SILENT
    if line.masked:
        return Verdict.MASKED
    return Verdict.AGREES if given == {comparable(line.found.value)} else Verdict.DIFFERS


def is_factory_record(kind: str | None) -> bool:
    """Whether a paper of this kind is the factory's own record of the car."""
    return (kind or "").casefold().startswith(RECORD)


def _remark(car: CarFile, line: NumberLine) -> str | None:
    year = year_in(car.car.year)
    if line.name.split("-")[0] not in CHASSIS or year is None or year < FIRST_YEAR:
        return None
    stated = line.found or next(iter(line.recorded), None)
    # A masked number has lost the characters that the rules would judge.
    return vin_remark(stated.value) if stated and not line.masked else None


def values_of(statements: Iterable[Statement]) -> tuple[tuple[str, tuple[Statement, ...]], ...]:
    """Statements by what they say, those that agree together, each value as first written."""
    same: dict[str, list[Statement]] = {}
    for statement in statements:
        same.setdefault(comparable(statement.value), []).append(statement)
    return tuple((group[0].value, tuple(group)) for group in same.values())

"""One car file: a folder with `car.yaml`, the register, the papers, the sheets and the photographs."""

from collections.abc import Callable, Iterable
from os.path import lexists
from pathlib import Path, PurePosixPath
from typing import Protocol, TypeVar

from msgspec import Struct

from journal.reading.files import Files, files_below
from journal.reading.followed import readers_followed
from journal.reading.ondisk import OnDisk, car_on_disk, papers_on_disk, sheets_on_disk
from journal.reading.shapes import read_shape
from journal.reading.sheet import read_sheet
from journal.reading.text import FILE_BYTES, read_bytes, text_of
from journal.reading.yamltext import is_lost, read_yaml
from journal.records.car import Car
from journal.records.carfile import CarFile
from journal.records.fields import Named, Written
from journal.records.papers import Paper, PapersFile
from journal.records.place import Loc, Place, Source
from journal.records.problem import Problem, Severity, problem_at
from journal.records.register import Component, Register, RegisterFile
from journal.records.sheet import Sheet, sheet_order
from journal.records.statement import Statement, StatementFile, statement_order
from journal.records.workshop import Workshop
from journal.words.names import is_slug, slug_of
from journal.words.text import normal

R = TypeVar("R", bound=Written)


def read_yaml_file(root: Path, path: str, shape: type[R]) -> tuple[R | None, Source, list[Problem]]:
    """One YAML file as a record, with its source and all that is wrong in it."""
    raw, fault = read_bytes(root, path, FILE_BYTES)
    return (None, Source(path), [fault]) if fault is not None else yaml_file_of(raw, path, shape)


def yaml_file_of(raw: bytes, path: str, shape: type[R]) -> tuple[R | None, Source, list[Problem]]:
    """The record that bytes hold, as `read_yaml_file` gives it when they lie at that path."""
    text, unseen = text_of(raw, path, FILE_BYTES)
    if text is None:
        return None, Source(path), unseen
    data, source, problems = read_yaml(text, path, tuple(text.split("\n")))
    if is_lost(data, problems):
        return None, source, unseen + problems
    record, source, wrong = read_shape(shape, data, source)
    return record, source, unseen + problems + wrong


class YamlReader(Protocol):
    """Reads one YAML file, as `read_yaml_file` does."""

    def __call__(
        self, root: Path, path: str, shape: type[R], /
    ) -> tuple[R | None, Source, list[Problem]]:
        """The record, its source, and all that is wrong in it."""


class Ways(Struct, frozen=True):
    """How single files are read, and which there are below a folder: from the disk, unless somebody
    remembers it."""

    yaml: YamlReader = read_yaml_file
    sheet: Callable[[Path, str], tuple[Sheet | None, list[Problem]]] = read_sheet
    files: Callable[[Path, str], Files] = files_below


AFRESH = Ways()


def read_car(
    root: Path, name: str, workshop: Workshop, workshop_source: Source, ways: Ways = AFRESH
) -> tuple[CarFile | None, list[Problem]]:
    """The car file in the folder `name`, or None when its `car.yaml` cannot be used.

    A register or papers file that cannot be used has a source without marks.
    """
    car, source, problems = ways.yaml(root, f"{name}/car.yaml", Car)
    register, wrong = _read_register(root, name, ways)
    problems += wrong
    papers, papers_source, wrong = _read_papers(root, name, ways)
    problems += wrong
    statements, wrong = _read_statements(root, name, ways)
    problems += wrong
    sheets, unread, partly, wrong = _read_sheets(root, name, ways)
    problems += wrong
    photos, scans = ways.files(root, f"{name}/photos"), ways.files(root, f"{name}/papers")
    recordings = ways.files(root, f"{name}/recordings")
    problems += photos.problems + scans.problems + recordings.problems
    if car is None:
        return None, problems
    hung, filed = OnDisk(photos.paths), OnDisk(scans.paths)
    return (
        CarFile(
            name, workshop, workshop_source, source, car_on_disk(car, hung), register, papers_source,
            papers_on_disk(papers, filed), sheets_on_disk(sheets, hung, OnDisk(recordings.paths)),
            statements, photos.paths, scans.paths, unread, partly,
            recording_files=recordings.paths if lexists(root / name / "recordings") else None,
        ),
        problems,
    )  # fmt: skip


def _read_papers(root: Path, name: str, ways: Ways) -> tuple[Named[Paper], Source, list[Problem]]:
    path = f"{name}/papers/papers.yaml"
    if not lexists(root / path):
        # Nothing is wrong with it, so it counts as read: a source with the mark of its start.
        return Named(), Source(path, (), {(): 1}), []
    read, source, problems = ways.yaml(root, path, PapersFile)
    if read is None:
        return Named(), Source(path, source.lines), problems
    return read.papers, source, problems


def _read_register(root: Path, name: str, ways: Ways) -> tuple[Register, list[Problem]]:
    path = f"{name}/register.yaml"
    if not lexists(root / path):
        way = "open the car file with journal book-in, which writes one"
        missing = Problem(Place(path, 1), "no-register", "the car has no register", help=way)
        return Register(Source(path)), [missing]
    written, source, problems = ways.yaml(root, path, RegisterFile)
    if written is None:
        return Register(Source(path, source.lines)), problems
    problems += misnamed(source, ("components",), written.components.names())
    for subsystem, entries in written.components:
        problems += misnamed(source, ("components", subsystem), entries.names())
    components = tuple(
        Component(f"{subsystem}/{slug}", subsystem, line)
        for subsystem, entries in written.components
        for slug, line in entries
        if is_slug(subsystem) and is_slug(slug)
    )
    return Register(source, components), problems


def misnamed(source: Source, loc: Loc, names: Iterable[str]) -> list[Problem]:
    """Names under a key path that cannot name a page, and are left out with what is under them."""
    return [
        problem_at(
            source, (*loc, name), "bad-name",
            f'a name must be lower-case words joined by hyphens, found "{name}"',
            help=f"write {slug_of(name)}" if slug_of(name) else None,
        )
        for name in names if not is_slug(name)
    ]  # fmt: skip


def _read_statements(
    root: Path, name: str, ways: Ways
) -> tuple[tuple[Statement, ...], list[Problem]]:
    statements: list[Statement] = []
    files, problems = ways.files(root, f"{name}/statements")
    for file in sorted(files):
        path = f"{name}/statements/{file}"
        read, source, wrong = ways.yaml(root, path, StatementFile)
        problems += wrong
        if read is not None:
            statements.append(Statement(PurePosixPath(path).stem, source, read))
    return tuple(sorted(statements, key=statement_order)), problems


def _read_sheets(
    root: Path, name: str, ways: Ways
) -> tuple[tuple[Sheet, ...], frozenset[str], frozenset[str], list[Problem]]:
    """The sheets in order, the names of those that could not be read at all or not wholly, and all
    that is wrong."""
    sheets: dict[str, Sheet] = {}
    unread: set[str] = set()
    partly: set[str] = set()
    files, problems = ways.files(root, f"{name}/sheets")
    for file in sorted(files):
        path = f"{name}/sheets/{file}"
        if not file.endswith(".md"):
            problems.append(_stray_file(path))
            continue
        sheet, wrong = ways.sheet(root, path)
        problems += wrong
        if sheet is None:
            unread.add(normal(PurePosixPath(path).stem))
            continue
        # Some systems take names for the same that differ in capitals alone.
        first = sheets.setdefault(sheet.name.casefold(), sheet)
        if first is not sheet:
            problems.append(_same_name(sheet, first))
            continue
        if any(problem.severity is Severity.ERROR for problem in wrong):
            partly.add(sheet.name)
    in_order = readers_followed(sorted(sheets.values(), key=sheet_order))
    return in_order, frozenset(unread), frozenset(partly), problems


def _stray_file(path: str) -> Problem:
    return Problem(
        Place(path, 1), "stray-file", "the file lies among the sheets and is not one",
        Severity.WARNING, help="give it the ending .md, or move it elsewhere",
    )  # fmt: skip


def _same_name(sheet: Sheet, first: Sheet) -> Problem:
    return Problem(
        Place(sheet.source.path, 1), "sheet-name-twice",
        f'two sheets have the name "{sheet.name}"', help="rename one of the two files",
        note="the first one is here", note_place=Place(first.source.path, 1),
    )  # fmt: skip

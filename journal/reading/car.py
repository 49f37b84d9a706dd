"""One car file: a folder with `car.yaml`, the register, the papers, the sheets and the photographs."""

from pathlib import Path, PurePosixPath
from typing import TypeVar

from journal.reading.shapes import read_shape
from journal.reading.sheet import read_sheet
from journal.reading.text import read_text
from journal.reading.yamltext import read_yaml
from journal.records.car import Car
from journal.records.carfile import CarFile
from journal.records.fields import Named, Written
from journal.records.papers import Paper, PapersFile
from journal.records.place import Place, Source
from journal.records.problem import Problem, Severity
from journal.records.register import Component, Register, RegisterFile
from journal.records.sheet import Sheet, sheet_order
from journal.records.statement import Statement, StatementFile, statement_order
from journal.records.workshop import Workshop

R = TypeVar("R", bound=Written)


def read_yaml_file(root: Path, path: str, shape: type[R]) -> tuple[R | None, Source, list[Problem]]:
    """One YAML file as a record, with its source and all that is wrong in it."""
    text, problem = read_text(root, path)
    if problem is not None:
        return None, Source(path), [problem]
    data, source, problems = read_yaml(text, path, tuple(text.split("\n")))
    if problems and not data:
        return None, source, problems
    record, source, wrong = read_shape(shape, data, source)
    return record, source, problems + wrong


def read_car(
    root: Path, name: str, workshop: Workshop, workshop_source: Source
) -> tuple[CarFile | None, list[Problem]]:
    """The car file in the folder `name`, or None when its `car.yaml` cannot be used.

    A register or papers file that cannot be used has a source without marks.
    """
    car, source, problems = read_yaml_file(root, f"{name}/car.yaml", Car)
    register, wrong = _read_register(root, name)
    problems += wrong
    papers, papers_source, wrong = _read_papers(root, name)
    problems += wrong
    statements, wrong = _read_statements(root, name)
    problems += wrong
    sheets, unread, partly, wrong = _read_sheets(root, name)
    problems += wrong
    if car is None:
        return None, problems
    return (
        CarFile(
            name, workshop, workshop_source, source, car, register, papers_source, papers, sheets, statements,
            _files(root, f"{name}/photos"), _files(root, f"{name}/papers"), unread,
            partly,
        ),
        problems,
    )  # fmt: skip


def _read_papers(root: Path, name: str) -> tuple[Named[Paper], Source, list[Problem]]:
    path = f"{name}/papers/papers.yaml"
    if not (root / path).exists():
        # Nothing is wrong with it, so it counts as read: a source with the mark of its start.
        return Named(), Source(path, (), {(): 1}), []
    read, source, problems = read_yaml_file(root, path, PapersFile)
    if read is None:
        return Named(), Source(path, source.lines), problems
    return read.papers, source, problems


def _read_register(root: Path, name: str) -> tuple[Register, list[Problem]]:
    path = f"{name}/register.yaml"
    if not (root / path).exists():
        way = "open the car file with journal book-in, which writes one"
        missing = Problem(Place(path, 1), "no-register", "the car has no register", help=way)
        return Register(Source(path)), [missing]
    written, source, problems = read_yaml_file(root, path, RegisterFile)
    if written is None:
        return Register(Source(path, source.lines)), problems
    components = tuple(
        Component(f"{subsystem}/{slug}", subsystem, line)
        for subsystem, entries in written.components
        for slug, line in entries
    )
    return Register(source, components), problems


def _read_statements(root: Path, name: str) -> tuple[tuple[Statement, ...], list[Problem]]:
    statements: list[Statement] = []
    problems: list[Problem] = []
    for file in sorted(_files(root, f"{name}/statements")):
        path = f"{name}/statements/{file}"
        read, source, wrong = read_yaml_file(root, path, StatementFile)
        problems += wrong
        if read is not None:
            statements.append(Statement(PurePosixPath(path).stem, source, read))
    return tuple(sorted(statements, key=statement_order)), problems


def _read_sheets(
    root: Path, name: str
) -> tuple[tuple[Sheet, ...], frozenset[str], frozenset[str], list[Problem]]:
    """The sheets in order, the names of those that could not be read at all or not wholly, and all
    that is wrong."""
    sheets: dict[str, Sheet] = {}
    unread: set[str] = set()
    partly: set[str] = set()
    problems: list[Problem] = []
    for file in sorted(_files(root, f"{name}/sheets")):
        path = f"{name}/sheets/{file}"
        if not file.endswith(".md"):
            problems.append(_stray_file(path))
            continue
        sheet, wrong = read_sheet(root, path)
        problems += wrong
        if sheet is None:
            unread.add(PurePosixPath(path).stem)
            continue
        if sheet.name in sheets:
            problems.append(_same_name(sheet, sheets[sheet.name]))
            continue
        sheets[sheet.name] = sheet
        if any(problem.severity is Severity.ERROR for problem in wrong):
            partly.add(sheet.name)
    in_order = tuple(sorted(sheets.values(), key=sheet_order))
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


def _files(root: Path, folder: str) -> frozenset[str]:
    """Files below a folder by relative path, without hidden ones and without links that lead out."""
    base = root / folder
    found = (path for path in base.rglob("*") if path.is_file())
    return frozenset(
        path.relative_to(base).as_posix()
        for path in found
        if not any(part.startswith(".") for part in path.relative_to(base).parts)
        and path.resolve().is_relative_to(root.resolve())
    )

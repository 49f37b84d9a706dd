"""Which files of a content folder may be read: plain ones that lie in it, under names that can be told.

A link that leads out of the folder is not followed, since what it leads to is in no copy of the
journal and may be anything of this computer. Nothing here opens a file.
"""

import os
import stat
from pathlib import Path
from typing import NamedTuple

from journal.records.place import Place
from journal.records.problem import Problem
from journal.words.hidden import name_spelt_out, without_hidden
from journal.words.names import is_slug, slug_of

# A file name may take 255 bytes on the systems in use; its page has a longer ending.
LONGEST_NAME = 200


class Files(NamedTuple):
    """Plain files below a folder by path relative to it, and what is wrong with the rest."""

    paths: frozenset[str]
    problems: list[Problem]


def files_below(root: Path, folder: str) -> Files:
    """The files below a folder of the content, without hidden ones."""
    paths: set[str] = set()
    problems: list[Problem] = []
    waiting = [folder] if _is_there(root, folder, problems) else []
    while waiting:
        here = waiting.pop()
        for entry in _entries(root, here, problems):
            path = f"{here}/{entry.name}"
            if not _is_plain(entry) and (fault := fault_of(root, path)):
                problems.append(fault)
            elif entry.is_dir():
                waiting.append(path)
            else:
                paths.add(path.removeprefix(f"{folder}/"))
    return Files(frozenset(paths), problems)


def car_folders(root: Path) -> tuple[tuple[str, ...], list[Problem]]:
    """The folders that hold a car file, in order, and those that do and cannot be one."""
    names: list[str] = []
    problems: list[Problem] = []
    for entry in _entries(root, "", problems):
        try:
            os.lstat(root / entry.name / "car.yaml")
        except (FileNotFoundError, NotADirectoryError):
            continue
        except OSError as denied:
            # Nobody can tell whether it holds a car; what is of the system alone has other names.
            problems += [unreadable(entry.name, denied)] if is_slug(entry.name) else []
            continue
        fault = fault_of(root, entry.name) or _not_a_car(entry.name)
        if fault:
            problems.append(fault)
        else:
            names.append(entry.name)
    return tuple(names), problems


def _is_plain(entry: "os.DirEntry[str]") -> bool:
    """Whether it is a file or folder with which nothing is wrong, as nearly all are."""
    try:
        kind = entry.stat(follow_symlinks=False).st_mode
    except OSError:
        return False
    return (stat.S_ISREG(kind) or stat.S_ISDIR(kind)) and is_tellable(entry.name)


def fault_of(root: Path, path: str) -> Problem | None:
    """Why a file or folder of the content is not read, or None."""
    name = path.rsplit("/", 1)[-1]
    if not is_tellable(name):
        return Problem(
            Place(name_spelt_out(path), 1), "bad-file-name",
            f'the name "{name_spelt_out(name)}" cannot be used',
            help=f"rename it with letters, digits and hyphens, at most {LONGEST_NAME}",
        )  # fmt: skip
    file = root / path
    try:
        if file.is_symlink() and (leads := _where(root, file)):
            return _link(path, leads)
        kind = file.stat().st_mode
    except OSError as fault:
        return unreadable(path, fault)
    if stat.S_ISREG(kind) or stat.S_ISDIR(kind):
        return None
    return Problem(
        Place(path, 1), "unreadable-file", "what lies here is no file but a pipe, a socket or a device",
        help="put a plain file in its place, or take it away",
    )  # fmt: skip


def unreadable(path: str, fault: OSError) -> Problem:
    """A file or folder that the computer will not open."""
    reason = (fault.strerror or "it cannot be opened").lower()
    return Problem(Place(path, 1), "unreadable-file", f"the file cannot be read: {reason}")


def leads_out(root: Path, path: str) -> Problem | None:
    """The problem with a path that any link on the way takes out of the content folder, or None."""
    return None if _lies_in(root, root / path) else _link(path, "out of the content folder")


def is_tellable(name: str) -> bool:
    """Whether a file name is text that can be printed, and short enough for a page of its own."""
    if name.isascii() and name.isprintable():
        return len(name) <= LONGEST_NAME
    try:
        short = len(name.encode("utf-8")) <= LONGEST_NAME
    except UnicodeEncodeError:
        return False
    return short and not set(name) & set("\t\n\r") and not without_hidden(name)[1]


def _is_there(root: Path, folder: str, problems: list[Problem]) -> bool:
    if not os.path.lexists(root / folder):
        return False
    fault = fault_of(root, folder)
    problems += [fault] if fault else []
    return fault is None


def _entries(root: Path, folder: str, problems: list[Problem]) -> list[os.DirEntry[str]]:
    try:
        with os.scandir(root / folder) as entries:
            return sorted((e for e in entries if e.name[0] != "."), key=lambda e: e.name)
    except OSError as fault:
        problems.append(unreadable(folder, fault))
        return []


def _where(root: Path, link: Path) -> str:
    """Where a link leads that is not followed, in words; empty when it leads to a file of the content."""
    if not _lies_in(root, link):
        return "out of the content folder"
    if not link.exists():
        return "nowhere"
    return "to a folder" if link.is_dir() else ""


def _lies_in(root: Path, file: Path) -> bool:
    return Path(os.path.realpath(file)).is_relative_to(os.path.realpath(root))


def _link(path: str, leads: str) -> Problem:
    return Problem(
        Place(path, 1), "link-not-followed", f"this is a link that leads {leads}",
        help="put the thing itself in its place, or take the link away",
    )  # fmt: skip


def _not_a_car(name: str) -> Problem | None:
    if is_slug(name):
        return None
    slug = slug_of(name)
    return Problem(
        Place(f"{name}/car.yaml", 1), "bad-file-name", f'the folder "{name}" cannot name a car',
        help=f"rename it {slug}" if slug else "rename it in lower-case words joined by hyphens",
    )  # fmt: skip

"""The last look before an archive takes the place of the one before: nothing private is in it.

A leak is told as a problem and not as a fault of the program with its traceback, since from outside
the two cannot be told apart: someone wrote a name in a way that no mask knows, or a page shows what
it should not. Either way it is the workshop that reads the message, and it needs the page and the line.
The secret itself is never in the message: logs are read by others too.
"""

from collections.abc import Iterable, Sequence
from pathlib import Path, PurePosixPath

from journal.outputs.leaks import Leak, Search
from journal.outputs.private import private_texts, seen_texts
from journal.records.carfile import CarFile
from journal.records.place import Place
from journal.records.problem import Problem, problem_order
from journal.words.text import counted
from journal.words.vocabulary import Reader

_WHOSE = {Reader.OWNER: "owner's", Reader.KEEPER: "next keeper's", Reader.PUBLIC: "public"}


class Withheld(Exception):
    """An archive that would show what its reader may not see; `problems` say what and where."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__(f"the archive would show {counted(len(problems), 'private thing')}")
        self.problems = problems


def refuse_leaks(
    folder: Path, full: CarFile, seen: CarFile, others: Sequence[CarFile], reader: Reader
) -> None:
    """Raise Withheld when a finished archive holds anything of a car that its reader may not see."""
    search = search_for(full, seen, others, reader)
    leaks = tuple(search.leaks(folder)) if search else ()
    if leaks:
        raise Withheld(leak_problems(leaks, reader))


def search_for(
    full: CarFile, seen: CarFile, others: Sequence[CarFile], reader: Reader
) -> Search | None:
    """A search for all of a car that its reader may not see; None when there is nothing of that kind."""
    private = private_texts(full, seen, others, reader)
    return Search(private, seen_texts(seen)) if private else None


def leak_problems(leaks: Iterable[Leak], reader: Reader) -> tuple[Problem, ...]:
    """One problem for each line on which something was written that leaks."""
    by_place: dict[Place, list[Leak]] = {}
    for leak in leaks:
        by_place.setdefault(leak.private.place, []).append(leak)
    told = (_problem(place, found, reader) for place, found in by_place.items())
    return tuple(sorted(told, key=problem_order))


def _problem(place: Place, leaks: Sequence[Leak], reader: Reader) -> Problem:
    files = tuple(dict.fromkeys(map(_where, sorted(leaks, key=_nearness))))
    others = f" and {counted(len(files) - 1, 'other file')}" if len(files) > 1 else ""
    return Problem(
        place, "private-in-archive",
        f"the {_WHOSE[reader]} archive would show {leaks[0].private.kind.value} that is written here, "
        f"in {files[0]}{others}",
        help="write it in another way where that page takes it from, or give it a narrower reader with "
        "for: or a block; if nothing there tells it, the program is at fault",
    )  # fmt: skip


def _nearness(leak: Leak) -> tuple[bool, bool, str]:
    """Pages go first, and among them those of sheets, which are nearest to what was written."""
    return (not leak.file.endswith(".html"), not leak.file.startswith("sheets/"), leak.file)


def _where(leak: Leak) -> str:
    """A file of the archive; a name that tells is not told again."""
    if not leak.in_name:
        return leak.file
    return f"the name of a file in {PurePosixPath(leak.file).parent.as_posix()}/".replace(
        "./", "its folder"
    )

"""Problems: what is wrong in what was written, as values with a place and a way out."""

from collections.abc import Iterable
from enum import StrEnum

from msgspec import Struct
from msgspec.structs import force_setattr

from journal.records.place import Key, Place, Source
from journal.words.text import counted, shortened

# A message is read by a person; what it quotes may be as long as a file.
_ROOM = {"message": 400, "quoted": 300, "help": 600, "note": 400}


class Severity(StrEnum):
    """An error leaves the thing it names out of the archive; a warning does not."""

    ERROR = "error"
    WARNING = "warning"


class Problem(Struct, frozen=True):
    """One mistake at one place.

    `code` names the bad thing and stands in `journal.records.codes`; `message` is one sentence
    with the value as written; `quoted` is the author's own line; `note` names the other place
    involved; `help` is there only when the step is sure. Each of them is cut where it is very long.
    """

    place: Place
    code: str
    message: str
    severity: Severity = Severity.ERROR
    quoted: str = ""
    help: str | None = None
    note: str | None = None
    note_place: Place | None = None

    def __post_init__(self) -> None:
        """Cut what is too long to be read in a message."""
        for name, room in _ROOM.items():
            text = getattr(self, name)
            if text and len(text) > room:
                force_setattr(self, name, shortened(text, room))


# The rest of a file with more is told by its number: it is one slip repeated, or no file of ours.
MOST_OF_A_FILE = 100


def shown_of(problems: Iterable[Problem]) -> tuple[tuple[Problem, ...], dict[str, int]]:
    """The problems that are shown, the first hundred of each file, and how many are not, by path."""
    shown: list[Problem] = []
    seen: dict[str, int] = {}
    for problem in problems:
        path = problem.place.path
        seen[path] = seen.get(path, 0) + 1
        if seen[path] <= MOST_OF_A_FILE:
            shown.append(problem)
    left = {path: n - MOST_OF_A_FILE for path, n in seen.items() if n > MOST_OF_A_FILE}
    return tuple(shown), left


def left_words(left: int) -> str:
    """What is said of problems that are not shown."""
    verb = "is" if left == 1 else "are"
    return f"{counted(left, 'more problem')} of this file {verb} not shown"


def problem_order(problem: Problem) -> tuple[str, int, str, str]:
    """Problems are shown by path, line and code; the message settles what is left."""
    return (problem.place.path, problem.place.line, problem.code, problem.message)


def problem_at(
    source: Source,
    loc: tuple[Key, ...],
    code: str,
    message: str,
    *,
    severity: Severity = Severity.ERROR,
    help: str | None = None,
    note: str | None = None,
    note_place: Place | None = None,
) -> Problem:
    """A problem at a key path of a source, quoting the line that stands there."""
    place = source.place(*loc)
    return Problem(
        place, code, message, severity, source.text_at(place.line), help, note, note_place
    )

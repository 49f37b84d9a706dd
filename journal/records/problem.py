"""Problems: what is wrong in what was written, as values with a place and a way out."""

from dataclasses import dataclass
from enum import StrEnum

from journal.records.place import Key, Place, Source


class Severity(StrEnum):
    """An error leaves the thing it names out of the archive; a warning does not."""

    ERROR = "error"
    WARNING = "warning"


@dataclass(frozen=True)
class Problem:
    """One mistake at one place.

    `code` names the bad thing and stands in `journal.records.codes`; `message` is one sentence
    with the value as written; `quoted` is the author's own line; `note` names the other place
    involved; `help` is there only when the step is sure.
    """

    place: Place
    code: str
    message: str
    severity: Severity = Severity.ERROR
    quoted: str = ""
    help: str | None = None
    note: str | None = None
    note_place: Place | None = None


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

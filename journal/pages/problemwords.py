"""Problems of what was written, as a page shows them to the workshop."""

from collections.abc import Iterable, Sequence

from journal.pages.value import Value
from journal.pages.words import some
from journal.records.problem import Problem, Severity, left_words, problem_order, shown_of
from journal.words.text import listed


class ProblemWords(Value, frozen=True):
    """One problem: where, what, the author's own line, and the way out."""

    place: str
    severity: str
    message: str
    quoted: str
    note: str
    help: str


def problem_words(problems: Iterable[Problem]) -> tuple[ProblemWords, ...]:
    """Problems in order of path and line; what is left of a file with very many stands at the end."""
    shown, left = shown_of(sorted(problems, key=problem_order))
    told = (
        ProblemWords(
            f"{p.place.path}:{p.place.line}", p.severity.value, p.message,
            p.quoted.strip(), _note(p), p.help or "",
        )
        for p in shown
    )  # fmt: skip
    more = (
        ProblemWords(path, Severity.ERROR.value, left_words(number), "", "", "")
        for path, number in left.items()
    )
    return (*told, *more)


def problem_count(problems: Sequence[Problem]) -> str:
    """`two errors and one warning`."""
    errors = sum(p.severity is Severity.ERROR for p in problems)
    warnings = len(problems) - errors
    said = [some(errors, "error")] if errors else []
    said += [some(warnings, "warning")] if warnings else []
    return listed(said)


def _note(problem: Problem) -> str:
    if problem.note is None or problem.note_place is None:
        return problem.note or ""
    return f"{problem.note} ({problem.note_place.path}:{problem.note_place.line})"

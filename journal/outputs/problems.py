"""Problems as text for the terminal, and as JSON for other programs."""

import json
from collections.abc import Sequence

from journal.records.problem import Problem, Severity, left_words, shown_of
from journal.words.text import counted, listed


def problem_text(problem: Problem) -> str:
    """A problem in the form `file:line: what is wrong`, the author's line, note and help."""
    place = problem.place
    head = f"{place.path}:{place.line}: {problem.severity.value}[{problem.code}]: {problem.message}"
    lines = [head]
    if problem.quoted.strip():
        lines.append(f"{place.line:>5} | {problem.quoted.rstrip()}")
    if problem.note:
        where = (
            f" ({problem.note_place.path}:{problem.note_place.line})" if problem.note_place else ""
        )
        lines.append(f"  note: {problem.note}{where}")
    if problem.help:
        lines.append(f"  help: {problem.help}")
    return "\n".join(lines)


def problems_text(problems: Sequence[Problem]) -> str:
    """All problems with a blank line between them, and their count at the end."""
    if not problems:
        return "All clean."
    shown, left = shown_of(problems)
    more = [f"{path}: {left_words(number)}" for path, number in left.items()]
    return "\n\n".join([*(problem_text(p) for p in shown), *more, summary(problems)])


def summary(problems: Sequence[Problem]) -> str:
    """`2 errors and 1 warning in 2 files.`"""
    errors = sum(p.severity is Severity.ERROR for p in problems)
    warnings = len(problems) - errors
    counts = [
        *([counted(errors, "error")] if errors else []),
        *([counted(warnings, "warning")] if warnings else []),
    ]
    files = len({p.place.path for p in problems})
    return f"{listed(counts)} in {counted(files, 'file')}."


def problems_json(problems: Sequence[Problem]) -> str:
    """A list of objects with path, line, severity, code, message, quoted, note, help."""
    return json.dumps([_object(p) for p in problems], indent=2, ensure_ascii=False)


def _object(problem: Problem) -> dict[str, object]:
    where = problem.note_place
    return {
        "path": problem.place.path,
        "line": problem.place.line,
        "severity": problem.severity.value,
        "code": problem.code,
        "message": problem.message,
        "quoted": problem.quoted,
        "note": problem.note,
        "note-path": where.path if where else None,
        "note-line": where.line if where else None,
        "help": problem.help,
    }

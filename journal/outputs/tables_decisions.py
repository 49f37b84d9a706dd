"""The table `decisions`: questions with their answers, and choices with who made them."""

from datetime import date

from journal.ledgers.decisions import Choice, Question, fold_decisions
from journal.outputs.table import Cell, Table
from journal.records.carfile import CarFile


def table_decisions(car: CarFile, day: date) -> Table:
    """What waits for a word first, then what was decided, the latest first."""
    told = fold_decisions(car)
    columns = (
        "matter", "what", "component", "now", "since", "age in days", "asked of", "decided by",
        "decided on", "advice", "answer", "put off", "stands", "sheet",
    )  # fmt: skip
    rows = (
        *(_question(q, day) for q in told.asked),
        *(_choice(c, day) for c in told.undecided),
        *(_question(q, day) for q in told.answered),
        *(_choice(c, day) for c in told.decided),
    )
    total = (
        f"{len(told.asked)} of {len(told.questions)} questions without an answer, "
        f"{len(told.undecided)} departures undecided, on {day.isoformat()}."
    )
    return Table(columns, rows, total)


def _question(question: Question, day: date) -> tuple[Cell, ...]:
    return (
        "question", question.text, question.on, None, question.asked, question.age(day), question.of,
        None, question.answered, None, question.answer, question.put_off, None,
        question.answered_in or question.asked_in,
    )  # fmt: skip


def _choice(choice: Choice, day: date) -> tuple[Cell, ...]:
    return (
        choice.matter.value, choice.what, choice.component, choice.now.value if choice.now else None,
        choice.day, choice.age(day) if choice.undecided else None, None, choice.by, choice.on,
        choice.advice, None, None, choice.stands, choice.decided_in or choice.sheet,
    )  # fmt: skip

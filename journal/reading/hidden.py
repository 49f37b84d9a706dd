"""What is said of characters that nobody sees: one problem a text, at the first of them."""

from collections.abc import Sequence

from journal.records.place import Place
from journal.records.problem import Problem, Severity
from journal.words.hidden import MOST_MARKS, Found, character_words, spelt_out, without_hidden
from journal.words.text import counted


def hidden_problem(
    path: str, lines: Sequence[str], found: Sequence[Found], first_line: int = 1
) -> Problem:
    """The problem with characters that were taken out of a text, of which there is at least one.

    `lines` are those of the text as it was; `first_line` is the line of the file on which it starts.
    """
    first, *others = found
    next_one = next((f for f in others if f.line != first.line), first)
    return Problem(
        Place(path, first_line + first.line - 1), "hidden-character", _sentence(first.character),
        Severity.WARNING, quoted=without_hidden(spelt_out(lines[first.line - 1]))[0],
        help="take it out and write the words beside it anew; the pages leave it out",
        note=_more(len(others)) if others else None,
        note_place=Place(path, first_line + next_one.line - 1) if others else None,
    )  # fmt: skip


def _sentence(character: str) -> str:
    words = character_words(character)
    if spelt_out(character) == character:
        return f"more than {MOST_MARKS} accents stand on one letter, the next is {words}"
    return f"a character that nobody sees stands here, {words}"


def _more(others: int) -> str:
    verb = "stands" if others == 1 else "stand"
    return f"{counted(others, 'more such character')} {verb} in the text, the next one here"

"""What a form of a bench sum sends, as what a person would write for that sum; and what it comes to."""

from collections.abc import Iterable, Mapping
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from journal.bench.base.definition import Input, Sum, Takes
from journal.bench.base.reading import Mistake
from journal.bench.base.rows import MOST_ROWS, joined_rows, split_rows
from journal.bench.base.working import Answer, work_out
from journal.outputs.sheets.yamlform import well_formed
from journal.words.quantities import NotRead

# An entry that is asked for and not there yet is no mistake while somebody writes.
_MISSING = "missing-key"

Written = tuple[tuple[str, str], ...]


class Asked(Struct, frozen=True):
    """A sum with what is written for its inputs, as in the terminal, and what it comes to.

    `answer` is absent while anything is `wrong` or `missing`. A mistake in `wrong` whose key is none of
    the sum's inputs belongs beside no field.
    """

    sum: Sum
    written: Written
    answer: Answer | None
    wrong: tuple[Mistake, ...] = ()
    missing: tuple[Input, ...] = ()

    @property
    def begun(self) -> bool:
        """Whether anything was written that would not be taken anyway."""
        return bool(self.told or self.wrong)

    @property
    def told(self) -> Written:
        """What is written and would not be taken anyway, in the order asked."""
        written = dict(self.written)
        return tuple(
            (each.name, written[each.name])
            for each in self.sum.inputs
            if each.name in written and written[each.name] != each.default
        )


def asked_of(sum_: Sum, written: Iterable[tuple[str, str]]) -> Asked:
    """A sum asked with texts by the names of its inputs, such as stand in an address."""
    return _asked(sum_, tuple((name, text) for name, text in written if text.strip()), ())


def asked_in_form(sum_: Sum, given: Any) -> Asked | None:
    """A sum asked by its form: a text for each input, or for rows a list of cells by their columns.

    None for what is not of this form.
    """
    if not isinstance(given, Mapping):
        return None
    written: list[tuple[str, str]] = []
    wrong: list[Mistake] = []
    for name, told in given.items():
        asked = sum_.input(name)
        if asked is None:
            return None
        try:
            text = _text_of(asked, told)
        except NotRead as fault:
            wrong.append(Mistake(name, fault.code, fault.sentence, fault.help))
            continue
        if text is None:
            return None
        written += [(name, text)] if text else []
    return _asked(sum_, tuple(written), tuple(wrong))


def _text_of(asked: Input, told: Any) -> str | None:
    """What a person would write for an input; None for what no form sends."""
    if asked.takes is Takes.ROWS:
        rows = _rows_in(told)
        return None if rows is None else joined_rows(asked, rows)
    return well_formed(told).strip() if isinstance(told, str) else None


def _rows_in(told: Any) -> list[dict[str, str]] | None:
    """Rows that say anything; None for what are none."""
    if not isinstance(told, list) or len(told) > MOST_ROWS:
        return None
    if not all(
        isinstance(row, dict) and all(isinstance(c, str) for c in row.values()) for row in told
    ):
        return None
    rows = [{name: well_formed(cell) for name, cell in row.items()} for row in told]
    return [row for row in rows if any(cell.strip() for cell in row.values())]


def _asked(sum_: Sum, written: Written, wrong: tuple[Mistake, ...]) -> Asked:
    answer = work_out(sum_, written)
    if isinstance(answer, Answer):
        return Asked(sum_, written, None if wrong else answer, wrong)
    told = {mistake.key for mistake in wrong}
    found = [mistake for mistake in answer if mistake.key not in told]
    lacks = {m.key for m in found if m.code == _MISSING and not _has(written, m.key)}
    missing = tuple(each for each in sum_.inputs if each.name in lacks)
    asked = Asked(sum_, written, None, (), missing)
    if not (wrong or asked.told):
        # A form that nobody has begun to fill in has no mistakes.
        return asked
    return replace(asked, wrong=(*wrong, *(m for m in found if m.key not in lacks)))


def _has(written: Written, key: str) -> bool:
    """Whether something is written there: then it is a row that lacks a cell."""
    return any(name == key for name, _ in written)


def cells_of(asked: Input, text: str) -> list[dict[str, str]]:
    """The rows of a text to fill a table with; none where it cannot be read as rows."""
    try:
        return split_rows(asked, text)
    except NotRead:
        return []

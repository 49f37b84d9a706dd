"""Bench sums: those that the sheets keep, worked out anew from what was given to them.

Hears `sums` in sheets and ignores all else. What cannot be worked out is told at the line of the input
that is wrong, and is not kept. One of the same name for the same components takes the place of an
earlier one.
"""

from collections.abc import Iterator
from datetime import date
from functools import cached_property

from msgspec import Struct

from journal.bench import SUM_NAMED
from journal.bench.base.definition import Job
from journal.bench.base.reading import Mistake
from journal.bench.base.working import Answer, work_out
from journal.records.carfile import CarFile
from journal.records.problem import Problem, problem_at
from journal.records.sheet import Sheet
from journal.records.sum import SumLine
from journal.words.groups import grouped, grouped_by_each
from journal.words.names import nearest, title_of


class KeptSum(Struct, frozen=True):
    """A sum as one sheet keeps it, with its answer. `subsystem` is that of its first component, else
    the first of its sheet."""

    name: str
    day: date
    sheet: str
    subsystem: str
    of: tuple[str, ...]
    note: str | None
    answer: Answer

    @property
    def title(self) -> str:
        """What the writer calls it: `Laygear shims`."""
        return title_of(self.name)


class Sums(Struct, frozen=True, dict=True):
    """All sums that were kept, in order of sheets."""

    kept: tuple[KeptSum, ...] = ()
    problems: tuple[Problem, ...] = ()

    def of_sheet(self, name: str) -> tuple[KeptSum, ...]:
        """Those that a sheet keeps."""
        return self._by_sheet.get(name, ())

    def on(self, key: str) -> tuple[KeptSum, ...]:
        """Those worked out for a component."""
        return self._by_component.get(key, ())

    def serving(self, job: Job) -> tuple[KeptSum, ...]:
        """Those that serve a job."""
        return tuple(kept for kept in self.kept if kept.answer.sum.job is job)

    @property
    def latest(self) -> tuple[KeptSum, ...]:
        """Of those with one name for the same components the last, in the order first kept."""
        last: dict[tuple[str, tuple[str, ...], str], KeptSum] = {}
        for kept in self.kept:
            last[(kept.name, kept.of, kept.subsystem)] = kept
        return tuple(last.values())

    @cached_property
    def _by_sheet(self) -> dict[str, tuple[KeptSum, ...]]:
        return grouped(self.kept, lambda kept: kept.sheet)

    @cached_property
    def _by_component(self) -> dict[str, tuple[KeptSum, ...]]:
        return grouped_by_each(self.kept, lambda kept: kept.of)


def digest_sums(car: CarFile) -> Sums:
    """Work out every sum that the sheets keep."""
    kept: list[KeptSum] = []
    problems: list[Problem] = []
    for sheet in car.sheets:
        for name, line in sheet.front.sums:
            answer = _answer(line)
            if isinstance(answer, Answer):
                kept.append(_kept(sheet, name, line, answer))
            else:
                problems += _problems(sheet, name, line, answer)
    return Sums(tuple(kept), tuple(problems))


def _answer(line: SumLine) -> Answer | tuple[Mistake, ...]:
    known = SUM_NAMED.get(line.sum_)
    return work_out(known, line.inputs) if known else ()


def _kept(sheet: Sheet, name: str, line: SumLine, answer: Answer) -> KeptSum:
    subsystem = line.of[0].split("/")[0] if line.of else sheet.front.subsystem[0]
    return KeptSum(name, sheet.date, sheet.name, subsystem, line.of, line.note, answer)


def _problems(
    sheet: Sheet, name: str, line: SumLine, mistakes: tuple[Mistake, ...]
) -> Iterator[Problem]:
    loc = ("sums", name)
    if line.sum_ not in SUM_NAMED:
        meant = nearest(line.sum_, SUM_NAMED)
        way = f"write {meant}" if meant else "journal sum lists those that there are"
        message = f'there is no bench sum "{line.sum_}"'
        yield problem_at(sheet.source, (*loc, "sum"), "unknown-sum", message, help=way)
    for mistake in mistakes:
        message = f"{mistake.key} of {name} {mistake.sentence}"
        at = (*loc, mistake.key)
        yield problem_at(sheet.source, at, mistake.code, message, help=mistake.help or None)

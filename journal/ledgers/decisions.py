"""Decisions: what was asked and of whom, what was answered, and who decided each departure.

Hears `snags` with `ask`, `now` and `decided` in `work`, and `extras`; ignores all else. A departure
for which no sheet says who decided is undecided as long as the item it put there stays.
"""

from collections.abc import Iterator
from datetime import date
from enum import StrEnum

from msgspec import Struct
from msgspec.structs import replace

from journal.records.carfile import CarFile
from journal.records.sections import SnagLine
from journal.records.sheet import Sheet
from journal.records.work import Decided, Work
from journal.words.vocabulary import CONFORMITY, Origin


class Question(Struct, frozen=True):
    """One question, from asking to answer.

    `of` is the one asked: `owner`, `workshop`, a hand or a name as written. `put_off` is the reason
    when it was put off. `answer` and what goes with it are absent while it is open; `hold` tells
    that it stops the handover until then.
    """

    name: str
    text: str
    of: str
    asked: date
    asked_in: str
    subsystem: str
    on: str | None = None
    hold: bool = False
    put_off: str | None = None
    answer: str | None = None
    answered: date | None = None
    answered_in: str | None = None

    @property
    def open(self) -> bool:
        """Whether no answer is written."""
        return self.answered is None

    def age(self, day: date) -> int:
        """Days from asking to the answer, or to `day` while there is none."""
        return ((self.answered or day) - self.asked).days


class Matter(StrEnum):
    """What a decision is about."""

    DEPARTURE = "departure"
    WORK = "work"
    EXTRA = "extra"


class Choice(Struct, frozen=True):
    """One thing that somebody has to decide, with who did.

    `day` is when it came about, in `sheet`. `by` is absent while nobody is said to have decided;
    `on` is absent when the day of the decision is not written. `decided_in` is the sheet that tells
    who decided. `stands` is false once something else took the place of what was chosen.
    """

    matter: Matter
    what: str
    day: date
    sheet: str
    subsystem: str
    component: str | None = None
    now: Origin | None = None
    why: str | None = None
    by: str | None = None
    on: date | None = None
    advice: str | None = None
    decided_in: str | None = None
    stands: bool = True

    @property
    def undecided(self) -> bool:
        """Whether it still wants somebody's word."""
        return self.by is None and self.stands

    def age(self, day: date) -> int:
        """Days since it came about."""
        return (day - self.day).days


class Decisions(Struct, frozen=True):
    """Questions in the order asked, and choices in the order in which they came about."""

    questions: tuple[Question, ...] = ()
    choices: tuple[Choice, ...] = ()

    @property
    def asked(self) -> tuple[Question, ...]:
        """Questions without an answer, the oldest first."""
        return tuple(q for q in self.questions if q.open)

    @property
    def answered(self) -> tuple[Question, ...]:
        """Questions with their answers, the latest answer first."""
        done = [q for q in self.questions if not q.open]
        return tuple(sorted(done, key=lambda q: q.answered or date.min, reverse=True))

    @property
    def undecided(self) -> tuple[Choice, ...]:
        """Departures in place for which nobody is said to have decided, the oldest first."""
        return tuple(c for c in self.choices if c.undecided)

    @property
    def decided(self) -> tuple[Choice, ...]:
        """What somebody decided, the latest first."""
        done = [c for c in self.choices if c.by is not None]
        return tuple(sorted(done, key=lambda c: c.on or c.day, reverse=True))


def fold_decisions(car: CarFile) -> Decisions:
    """Follow every question and every choice through the sheets."""
    return Decisions(_questions(car), _choices(car))


def _questions(car: CarFile) -> tuple[Question, ...]:
    """A snag raised again under its name asks anew; the earlier question keeps its answer."""
    open_now: dict[str, int] = {}
    asked: list[Question] = []
    for sheet in car.sheets:
        for name, line in sheet.front.snags:
            if name not in open_now and line.ask is not None and line.raise_ is not None:
                open_now[name] = len(asked)
                asked.append(_asked(sheet, name, line))
            if name in open_now:
                place = open_now[name]
                asked[place] = _heard(asked[place], sheet, line)
                if not asked[place].open:
                    del open_now[name]
    return tuple(asked)


def _asked(sheet: Sheet, name: str, line: SnagLine) -> Question:
    subsystem = line.on.split("/")[0] if line.on else sheet.front.subsystem[0]
    return Question(
        name, line.raise_ or "", line.ask or "", sheet.date, sheet.name, subsystem, line.on, line.hold
    )  # fmt: skip


def _heard(question: Question, sheet: Sheet, line: SnagLine) -> Question:
    if line.defer is not None:
        question = replace(question, put_off=line.defer)
    if line.clear is not None:
        question = replace(question, answer=line.clear, answered=sheet.date, answered_in=sheet.name)
    return question


def _choices(car: CarFile) -> tuple[Choice, ...]:
    choices: list[Choice] = []
    # The departure that is in each place now.
    standing: dict[str, int] = {}
    for day, sheet, key, work in sorted(_work(car), key=lambda w: (w[0], w[1].date)):
        if work.now is not None:
            if key in standing:
                place = standing.pop(key)
                choices[place] = replace(choices[place], stands=False)
            if _departs(work):
                standing[key] = len(choices)
                choices.append(_of_work(Matter.DEPARTURE, day, sheet, key, work))
                continue
        if work.decided is None:
            continue
        if key in standing and choices[standing[key]].by is None:
            place = standing[key]
            choices[place] = _decided(choices[place], work.decided, sheet)
        else:
            choices.append(_of_work(Matter.WORK, day, sheet, key, work))
    return tuple(sorted((*choices, *_extras(car)), key=lambda c: c.day))


def _work(car: CarFile) -> Iterator[tuple[date, Sheet, str, Work]]:
    """Every line of work with the day on which it was true."""
    for sheet in car.sheets:
        for key, work in sheet.front.work:
            yield min(work.since or sheet.date, sheet.date), sheet, key, work


def _departs(work: Work) -> bool:
    """Whether what is put in place is known to depart from the works specification."""
    if work.conforms is not None:
        return work.conforms.high < 1
    usual = CONFORMITY[work.now] if work.now is not None else None
    return usual is not None and usual < 1


def _of_work(matter: Matter, day: date, sheet: Sheet, key: str, work: Work) -> Choice:
    choice = Choice(
        matter, work.why or work.found or work.note or "", day, sheet.name, key.split("/")[0], key,
        work.now, work.why,
    )  # fmt: skip
    return _decided(choice, work.decided, sheet) if work.decided else choice


def _decided(choice: Choice, decided: Decided, sheet: Sheet) -> Choice:
    return replace(
        choice, by=decided.by, on=decided.on, advice=decided.advice, decided_in=sheet.name
    )


def _extras(car: CarFile) -> Iterator[Choice]:
    for sheet in car.sheets:
        for _, extra in sheet.front.extras:
            key = extra.of[0] if extra.of else None
            subsystem = key.split("/")[0] if key else sheet.front.subsystem[0]
            choice = Choice(Matter.EXTRA, extra.what, sheet.date, sheet.name, subsystem, key)
            yield _decided(choice, extra.decided, sheet)

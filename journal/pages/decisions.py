"""Decisions: what was asked and answered, and who decided what, when, and on what advice."""

from datetime import date
from functools import partial
from typing import Any

from journal.ledgers.decisions import Choice, Decisions, Matter, Question
from journal.pages.anchors import anchor
from journal.pages.common import OriginMark, frame, has_page, origin_mark
from journal.pages.leafwords import AS_TOLD, contents, sections_told, titled, turn_words
from journal.pages.links import Links, Ref
from journal.pages.page import Later, Page
from journal.pages.parting import Leaf, Section, parted
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words, days_words, in_words, sentence, some, who

PATH = "decisions.html"
# As many questions and choices as one page holds.
ROOM = 225
HEADINGS = {
    "asked": "Asked, and not answered",
    "resting": "Asked, and put off",
    "undecided": "Departures, and no word whose",
    "answered": "Asked and answered",
    "departures": "Departures from the works specification",
    "works": "Work that somebody had to decide on",
    "extras": "Extras agreed",
}
_MATTERS = (
    ("departures", Matter.DEPARTURE), ("works", Matter.WORK), ("extras", Matter.EXTRA),
)  # fmt: skip


class QuestionWords(Value, frozen=True):
    """One question with its answer, where there is one."""

    anchor: str
    text: str
    of: str
    on: Ref
    asked: str
    asked_in: Ref
    age: str
    hold: bool
    put_off: str
    answer: str
    answered: str
    answered_in: Ref | None


class ChoiceWords(Value, frozen=True):
    """One thing decided, or to be decided. `mark` is the origin that was chosen, for a departure."""

    ref: Ref
    mark: OriginMark | None
    what: str
    by: str
    on: str
    advice: str
    sheet: Ref
    since: str
    age: str
    overtaken: bool


def page_decisions(view: CarView) -> tuple[Page, ...]:
    """Open questions and departures nobody is said to have decided, then all that was decided."""
    if not has_page(view.reader, PATH):
        return ()
    start, leaves = Links(view, ""), parted(PATH, _sections(view.decisions), ROOM)
    return tuple(
        Page(view.base + leaf.path, "decisions.html", Later(partial(_values, start, leaves, leaf)))
        for leaf in leaves
    )


def _sections(told: Decisions) -> tuple[Section, ...]:
    return (
        Section("asked", tuple(q for q in told.asked if not q.put_off)),
        Section("resting", tuple(q for q in told.asked if q.put_off)),
        Section("undecided", told.undecided),
        Section("answered", told.answered),
        *(
            Section(key, tuple(c for c in told.decided if c.matter is matter))
            for key, matter in _MATTERS
        ),
    )


def _values(start: Links, leaves: tuple[Leaf, ...], leaf: Leaf) -> dict[str, Any]:
    links, view = start.at(leaf.path), start.view
    told = view.decisions

    def questions(key: str) -> tuple[QuestionWords, ...]:
        return tuple(_question(view, links, question) for question in leaf.entries(key))

    def choices(key: str) -> tuple[ChoiceWords, ...]:
        return tuple(_choice(view, links, choice) for choice in leaf.entries(key))

    return {
        **frame(links, titled("Decisions", leaf)),
        "any": bool(told.questions or told.choices),
        "lead": _lead(told),
        **{key: questions(key) for key in ("asked", "resting", "answered")},
        **{key: choices(key) for key in ("undecided", "departures", "works", "extras")},
        "headings": HEADINGS,
        "continued": leaf.continued,
        "contents": contents(links, leaves, HEADINGS),
        "turn": turn_words(links, leaves, sections_told(HEADINGS), AS_TOLD),
    }


def _lead(told: Decisions) -> str:
    resting, wanting = sum(bool(q.put_off) for q in told.asked), len(told.undecided)
    asked = len(told.asked) - resting
    open_words = f"{some(asked, 'question')} {'waits' if asked == 1 else 'wait'} for an answer"
    if resting:
        open_words += f"; {in_words(resting)} {'was' if resting == 1 else 'were'} put off"
    if not wanting:
        return f"{sentence(open_words)}. Every departure says who decided it."
    verb = "does" if wanting == 1 else "do"
    return f"{sentence(open_words)}. {sentence(some(wanting, 'departure'))} {verb} not say who decided."


def _question(view: CarView, links: Links, question: Question) -> QuestionWords:
    where = links.component(question.on, full=True) if question.on else None
    return QuestionWords(
        anchor("question", question.name),
        question.text,
        who(view.car.workshop, question.of),
        where or links.subsystem(question.subsystem),
        day_words(question.asked),
        links.sheet(question.asked_in),
        days_words(question.age(view.until)),
        question.hold,
        question.put_off or "",
        question.answer or "",
        _day(question.answered),
        links.sheet(question.answered_in) if question.answered_in else None,
    )


def _choice(view: CarView, links: Links, choice: Choice) -> ChoiceWords:
    where = links.component(choice.component, full=True) if choice.component else None
    departs = choice.matter is Matter.DEPARTURE and choice.now is not None
    return ChoiceWords(
        where or links.subsystem(choice.subsystem),
        origin_mark(choice.now) if departs and choice.now else None,
        sentence(choice.what),
        who(view.car.workshop, choice.by) if choice.by else "",
        _day(choice.on),
        choice.advice or "",
        links.sheet(choice.decided_in or choice.sheet),
        day_words(choice.day),
        days_words(choice.age(view.until)),
        not choice.stands,
    )


def _day(day: date | None) -> str:
    return day_words(day) if day else ""

"""Decisions: what was asked and answered, and who decided each departure."""

from datetime import date
from typing import Any

from journal.ledgers.decisions import Choice, Decisions, Matter, fold_decisions
from journal.records.sheet import Sheet
from journal.words.vocabulary import Origin
from tests.writing import a_car, a_sheet

REGISTER = {"brakes/pipes": "first-fit", "electrical/dynamo": "first-fit", "body/sill": "unknown"}
ASKED = {"pipes": {"raise": "steel or copper-nickel?", "ask": "owner", "on": "brakes/pipes"}}


def told(*sheets: Sheet) -> Decisions:
    return fold_decisions(a_car(REGISTER, sheets))


def work(day: str, key: str = "brakes/pipes", **line: Any) -> Sheet:
    return a_sheet(day, work={key: {k.replace("_", "-"): v for k, v in line.items()}})


def test_question__waits_until_its_snag_is_cleared() -> None:
    asked = a_sheet("2024-01-01", snags=ASKED)
    answered = a_sheet("2024-01-22", snags={"pipes": {"clear": "copper-nickel, she says"}})
    (question,) = told(asked).asked
    assert ("owner", 40) == (question.of, question.age(date(2024, 2, 10)))
    decisions = told(asked, answered)
    assert () == decisions.asked
    (question,) = decisions.answered
    assert ("copper-nickel, she says", 21) == (question.answer, question.age(date(2025, 1, 1)))


def test_question__put_off_still_waits_and_says_why() -> None:
    put_off = a_sheet("2024-01-08", snags={"pipes": {"defer": "when the axle is back"}})
    (question,) = told(a_sheet("2024-01-01", snags=ASKED), put_off).asked
    assert "when the axle is back" == question.put_off


def test_question__asked_again_keeps_the_first_answer() -> None:
    decisions = told(
        a_sheet("2024-01-01", snags=ASKED),
        a_sheet("2024-01-08", snags={"pipes": {"clear": "steel"}}),
        a_sheet("2024-02-01", snags=ASKED),
    )
    assert ["steel"] == [q.answer for q in decisions.answered]
    assert [date(2024, 2, 1)] == [q.asked for q in decisions.asked]


def test_snag_that_asks_nobody__is_no_question() -> None:
    assert () == told(a_sheet("2024-01-01", snags={"weep": "union weeps"})).questions


def test_departure__says_who_decided_when_and_on_what_advice() -> None:
    decided = {"by": "owner", "on": "2024-01-03", "advice": "steel if it is to be judged"}
    (choice,) = told(work("2024-01-08", now="service", why="rust", decided=decided)).choices
    assert (Matter.DEPARTURE, "owner", date(2024, 1, 3), "steel if it is to be judged") == (
        choice.matter, choice.by, choice.on, choice.advice,
    )  # fmt: skip
    assert not choice.undecided


def test_departure__without_a_word_is_undecided_until_a_later_sheet_gives_it() -> None:
    fitted = work("2024-01-08", now="upgrade", why="rust")
    (choice,) = told(fitted).undecided
    assert ("brakes/pipes", Origin.UPGRADE, 10) == (
        choice.component, choice.now, choice.age(date(2024, 1, 18)),
    )  # fmt: skip
    decisions = told(fitted, work("2024-01-20", decided="owner"))
    assert () == decisions.undecided
    (choice,) = decisions.decided
    assert ("owner", "2024-01-20-day", date(2024, 1, 8)) == (
        choice.by, choice.decided_in, choice.day,
    )  # fmt: skip


def test_departure__that_was_undone_waits_for_nobody() -> None:
    decisions = told(work("2024-01-08", now="upgrade"), work("2024-02-01", now="first-fit"))
    assert () == decisions.undecided
    assert [False] == [choice.stands for choice in decisions.choices]


def test_departure__is_what_conforms_less_than_fully() -> None:
    def matters(**line: Any) -> list[Matter]:
        return [c.matter for c in told(work("2024-01-08", **line)).choices]

    assert [] == matters(now="pattern")
    assert [] == matters(now="unknown")
    assert [Matter.DEPARTURE] == matters(now="pattern", conforms="0.75", why="two-pack")
    assert [] == matters(now="service", conforms="1", why="the same to the eye")


def test_work_that_departs_from_nothing__is_told_when_somebody_decided_it() -> None:
    sheet = work("2024-01-08", "body/sill", now="pattern", why="past saving", decided="owner")
    (choice,) = told(sheet).choices
    assert (Matter.WORK, "past saving") == (choice.matter, choice.what)


def test_extra__is_a_decision() -> None:
    extra = {"heater": {"what": "a heater", "hours": "6", "decided": {"by": "owner"}}}
    (choice,) = told(a_sheet("2024-01-08", extras=extra)).choices
    assert (Matter.EXTRA, "a heater", "owner") == (choice.matter, choice.what, choice.by)


def test_choices__do_not_depend_on_when_a_line_was_told() -> None:
    # Told in February that it was done in December: before what was done in January.
    first = work("2024-02-01", now="upgrade", since="2023-12-01")
    then = work("2024-01-08", now="pattern")
    choices: tuple[Choice, ...] = told(first, then).choices
    assert [(date(2023, 12, 1), False)] == [(c.day, c.stands) for c in choices]

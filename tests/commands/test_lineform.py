"""A line as options of `journal write`, and back: what is not touched says the same."""

from collections.abc import Mapping
from datetime import date
from typing import Any

import click
import pytest
from hypothesis import HealthCheck, assume, given, settings

from journal.commands.lineform import line_as_text, line_from_text
from journal.outputs.sheets.merging import BEGINS, keyed
from journal.outputs.sheets.print import line_told
from journal.records.draft import DraftLine
from tests.drawing import keys_of, record_of

DAY = date(2024, 3, 5)


@pytest.mark.parametrize(
    ("line", "text"),
    [
        ({"work": {"brakes/drums": {"did": ["removed", "cleaned"]}}}, "--did brakes/drums=removed,cleaned"),
        (
            {"work": {"brakes/drums": {"did": "fitted", "now": "pattern", "found": "too long"}}},
            "--did brakes/drums=fitted --now brakes/drums=pattern --work 'brakes/drums=found: too long'",
        ),
        ({"hours": {"MT": "3.5", "JB": "1"}}, "--hours MT=3.5 --hours JB=1"),
        ({"subsystem": ["fuel", "brakes"]}, "--subsystem fuel --subsystem brakes"),
        ({"parts": {"kit": {"what": "a kit", "qty": "2"}}}, "--part 'kit=what: a kit, qty: 2'"),
        ({"outwork": {"drums": {"sent": "2"}}}, "--outwork 'drums=sent: 2'"),
        (
            {"measured": {"end float": {"read": ["0.2", "0.3"], "unit": "mm"}}},
            "--measured 'end float=read: [0.2, 0.3], unit: mm'",
        ),
        ({"snags": {"leak": {"raise": "it's wet"}}}, """--raise 'leak=it'"'"'s wet'"""),
        ({"snags": {"leak": {"clear": "dry"}}}, "--clear leak=dry"),
        ({"snags": {"leak": {"raise": "wet", "hold": "yes"}}}, "--snag 'leak=raise: wet, hold: yes'"),
        ({"proving": {"no-leaks": "dry"}}, "--proof 'no-leaks=found: dry'"),
        ({"rechecks": {"nuts": {"after": "1 week"}}}, "--recheck 'nuts=after: 1 week'"),
        ({"ask": "Which?"}, ""),
    ],
)  # fmt: skip
def test_line__stands_there_as_one_would_say_it(line: dict[str, Any], text: str) -> None:
    assert text == line_as_text(line)
    if text:
        plain = line_told(DraftLine.model_validate(line))
        assert plain == line_from_text(text, {}, DAY, "MT")


def test_words_and_time__stay_and_the_question_is_answered() -> None:
    line = {"words": "drums off", "at": "0:12", "ask": "Front or rear?"}
    assert {
        "words": "drums off", "at": "0:12", "work": {"brakes/drums": {"did": "removed"}},
    } == line_from_text("--did brakes/drums=removed", line, DAY, "MT")  # fmt: skip


def test_hours_with_their_kind__stay_beside_those_that_are_typed() -> None:
    line = {"hours": {"JB": {"hours": "1", "kind": "rework"}}}
    assert "" == line_as_text(line)
    assert {"hours": {"JB": {"hours": "1", "kind": "rework"}, "MT": "2"}} == line_from_text(
        "--hours 2", line, DAY, "MT"
    )


def test_hours_of_another_kind_and_of_nobody__stay_until_others_are_typed() -> None:
    line = {"hours": {"hours": "1", "kind": "rework"}, "work": {"brakes/drums": {"did": "fitted"}}}
    text = "--did brakes/drums=fitted"
    assert text == line_as_text(line)
    assert line == line_from_text(text, line, DAY, "MT")
    assert {"MT": "2"} == line_from_text(f"{text} --hours 2", line, DAY, "MT")["hours"]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("--did brakes/drums=remvoed", 'did of brakes/drums cannot be "remvoed"; write removed'),
        ("--hours 2", "say whose hours these are: --hours MT=2, or --hand MT"),
        ("--snag leak", '--snag "leak" has no name and value; write --snag name=value'),
        ("--snag 'leak=rise: wet'", 'unknown key "rise"; write raise'),
        ("--note hello", "No such option '--note'. Did you mean '--now'?"),
        ("--hold", "this says nothing that a sheet could hold"),
        ("--raise 'a=b", "a quote is opened and not closed"),
    ],
)
def test_text_that_says_nothing__is_refused_in_words(text: str, told: str) -> None:
    with pytest.raises(click.ClickException) as fault:
        line_from_text(text, {}, DAY, "")
    assert told == fault.value.format_message()


@settings(max_examples=100, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])
@given(keys_of(DraftLine))
def test_any_line__typed_as_it_stands_is_the_same_line(told: Mapping[str, Any]) -> None:
    line = line_told(record_of(DraftLine, told))
    line.pop("ask", None)
    # An entry that says nothing cannot be typed, and a number of hours is somebody's once it is typed.
    assume(all(entry for kind in BEGINS for entry in keyed(line.get(kind)).values()))
    assume(not isinstance(line.get("hours"), str))
    text = line_as_text(line)
    if text:
        assert line == line_from_text(text, line, DAY, "MT")

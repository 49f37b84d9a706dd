"""Hours as they are told: the phrases and what they come to were written by hand before the program was
asked. Twenty minutes are a third of an hour, 0.33 in a sheet."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.hearing.hours import Hours, hours_in
from journal.hearing.numbers import numbers_in
from journal.hearing.tokens import tokens_of


def heard(said: str) -> tuple[Hours, ...]:
    tokens = tokens_of(said)
    return hours_in(tokens, numbers_in(tokens))


def sure(said: str) -> list[str]:
    """The hours of today; a question mark stands behind what is asked."""
    return [hours.hours + ("" if hours.sure else "?") for hours in heard(said) if hours.today]


LENGTHS = [
    ("three and a half hours", ["3.5"]),
    ("an hour and a half", ["1.5"]),
    ("hour and a half on the brakes", ["1.5"]),
    ("half an hour", ["0.5"]),
    ("three hours", ["3"]),
    ("3.5 hours", ["3.5"]),
    ("3½ hours today", ["3.5"]),
    ("two and three quarter hours", ["2.75"]),
    ("an hour and three quarters", ["1.75"]),
    ("three quarters of an hour", ["0.75"]),
    ("a quarter of an hour on it", ["0.25"]),
    ("twenty minutes", ["0.33"]),
    ("forty five minutes", ["0.75"]),
    ("spent ten minutes on the door", ["0.17"]),
    ("an hour and twenty minutes", ["1.33"]),
    ("two hours twenty", ["2.33"]),
    ("two hours and ten minutes", ["2.17"]),
    ("a couple of hours", ["2"]),
    ("a good three hours", ["3"]),
    ("about four hours", ["4"]),
    ("four hours or so", ["4"]),
    ("2hrs on the gearbox", ["2"]),
    ("2.5h brakes", ["2.5"]),
    ("I spent three hours on the brakes and one and a half hours on the steering", ["3", "1.5"]),
    ("took me two hours", ["2"]),
    ("that took an hour", ["1"]),
    ("it took the best part of three hours", ["3"]),
    ("worked for two hours", ["2"]),
    ("two hours sanding", ["2"]),
    ("an hour's work", ["1"]),
    ("did it in two hours", ["2"]),
    ("three hours no tell a lie four hours", ["4"]),
    ("spent another hour on the wiring", ["1"]),
    ("six hours less half an hour for tea", ["5.5"]),
    ("it should have taken an hour it took me three hours", ["3"]),
    ("soaked it overnight and then spent two hours on the trim", ["2"]),
    ("he came at ten and I spent two hours with him", ["2"]),
    ("call it five hours", ["5"]),
    ("five hours all in three on the back axle and two on the steering", ["3", "2"]),
    ("4 hours today on the gearbox, 1.5 on the brakes", ["4", "1.5"]),
    ("two hours for me and an hour and a half for Joe", ["2", "1.5"]),
    ("two hours on the brakes and two bolts sheared", ["2"]),
    ("three hours and twenty minutes no thirty minutes", ["3.5"]),
    ("Edith did two hours on the trim and I did five", ["2", "5"]),
    ("hours today were three and a half", ["3.5"]),
    ("total hours six", ["6"]),
    ("I'd say four hours", ["4"]),
    ("three hours I reckon", ["3"]),
    ("right that's me done for today four hours all told", ["4"]),
]


@pytest.mark.parametrize(("said", "expected"), LENGTHS)
def test_length_of_time__that_was_worked(said: str, expected: list[str]) -> None:
    assert expected == sure(said)


ASKED = [
    ("two and a bit hours", "2", "How many hours was two and a bit hours?"),
    ("three hours and a bit", "3", "How many hours was three hours and a bit?"),
    ("two or three hours", "2", "Was it 2 or 3 hours?"),
    ("two to three hours", "2", "Was it 2 or 3 hours?"),
    ("an hour or two", "1", "Was it 1 or 2 hours?"),
    ("half an hour to an hour", "0.5", "Was it 0.5 or 1 hours?"),
    ("half a day on the doors", "4", "How many hours was half a day?"),
    ("all day on the wiring", "8", "How many hours was all day?"),
    ("the whole morning went on it", "4", "How many hours was the whole morning?"),
    ("spent the afternoon on the hood", "4", "How many hours was the afternoon?"),
    ("spent a day on it", "8", "How many hours was a day?"),
    ("a few hours on the loom", "3", "How many hours was a few hours?"),
    ("from ten until dinner time", "2", "How many hours was from ten until dinner time?"),
    (
        "worked through till six",
        "",
        "Since when was there work until 6:00, and how many hours was it?",
    ),
]


@pytest.mark.parametrize(("said", "proposed", "question"), ASKED)
def test_length_of_time__that_is_unsure_is_asked(said: str, proposed: str, question: str) -> None:
    ((hours),) = heard(said)
    assert (proposed, False, question) == (hours.hours, hours.sure, hours.ask)


SPANS = [
    ("from nine till one", ["4"]),
    ("nine to half past twelve", ["3.5"]),
    ("worked from nine to five", ["8"]),
    ("eight thirty to quarter past four", ["7.75"]),
    ("eight thirty till five", ["8.5"]),
    ("from half nine until ten to one", ["3.33"]),
    ("9.30 till 1", ["3.5"]),
    ("9am to 1pm", ["4"]),
    ("from 13:00 to 17:30", ["4.5"]),
    ("from two till half past five", ["3.5"]),
    ("nine till noon", ["3"]),
    ("ten till twelve and one till four", ["2", "3"]),
    ("from eight in the morning until six", ["10"]),
    ("started at eight finished at five", ["9"]),
    ("started at eight finished at five with half an hour for lunch", ["8.5"]),
    ("started at half eight and packed up at five less an hour for lunch", ["7.5"]),
    ("in at nine and knocked off at four", ["7"]),
    ("worked eight till five with an hour for dinner", ["8"]),
    ("got in at half past eight had a brew then worked straight through to one", ["4.5"]),
    ("on it from nine until about twelve and then from one till half past four", ["3", "3.5"]),
    ("half an hour for lunch, from nine till five", ["7.5"]),
    ("from quarter to nine till twelve", ["3.25"]),
]


@pytest.mark.parametrize(("said", "expected"), SPANS)
def test_times_of_the_day__are_the_hours_between(said: str, expected: list[str]) -> None:
    assert expected == sure(said)


NOT_WORKED = [
    "it's two hours' drive",
    "an hour's drive there and back",
    "it's an hour away",
    "he'll be here in two hours",
    "leave it for 24 hours",
    "leave it twenty four hours",
    "it cures in an hour",
    "soaked overnight",
    "soaked them for two hours in paraffin",
    "waited an hour for the courier",
    "half an hour ago",
    "two hours later",
    "it took him two hours",
    "he spent three hours on it",
    "they quoted six hours",
    "let it stand for half an hour",
    "in the oven for two hours",
    "held pressure for ten minutes",
    "ran it for twenty minutes",
    "every twenty minutes",
    "a day off",
    "the other day",
    "six to ten thou",
    "from six to ten thou",
    "went from twelve to fourteen thou",
    "two to three turns",
    "the shop's open from nine till one",
    "twelve minutes of arc",
    "number one to number four",
    "at half past nine",
    "book time is three hours",
    "it's a two hour job",
    "it's an hour and a half each way",
    "hours and hours",
    "",
]


@pytest.mark.parametrize("said", NOT_WORKED)
def test_time__that_is_not_worked(said: str) -> None:
    assert [] == sure(said)


OTHER_DAYS = [
    "it'll take two hours",
    "should take a day",
    "yesterday I did three hours",
    "I did three hours yesterday",
    "last week I spent four hours on this",
    "on monday I did two hours",
    "tomorrow I'll spend an hour on it",
    "another two hours tomorrow",
    "that needs another hour",
    "I've another two hours to do",
    "ten hours this week",
    "it would have taken three hours",
    "going to take two or three hours",
]


@pytest.mark.parametrize("said", OTHER_DAYS)
def test_time__of_another_day_is_not_of_today(said: str) -> None:
    (hours,) = heard(said)
    assert not hours.today


def test_time__of_today_stands_beside_that_of_yesterday() -> None:
    assert ["2"] == sure("yesterday I did three hours and today I did two hours")
    assert ["2"] == sure("did two hours today, three hours yesterday")


@pytest.mark.parametrize(
    ("said", "whole"),
    [("six hours all told", True), ("all day on the wiring", True), ("seven hours altogether", True),
     ("started at nine finished at five", True), ("two hours on the brakes", False),
     ("half a day on the doors", False), ("seven hours in total today", True)],
)  # fmt: skip
def test_hours__of_the_whole_day_are_marked(said: str, whole: bool) -> None:
    (hours,) = heard(said)
    assert whole == hours.whole_day


def test_hours__have_the_tokens_they_were_said_in() -> None:
    said = "so I worked um from nine till five with half an hour for lunch okay"
    tokens = tokens_of(said)
    (hours,) = hours_in(tokens, numbers_in(tokens))
    assert (
        "from nine till five with half an hour"
        == (said[tokens[hours.first].start : tokens[hours.last - 1].end])
    )


# Every time of the day in words, by hand from the clock: minutes after nine.
PAST_NINE = [
    ("nine", 0), ("five past nine", 5), ("ten past nine", 10), ("quarter past nine", 15),
    ("nine fifteen", 15),
    ("twenty past nine", 20), ("twenty five past nine", 25), ("half past nine", 30), ("nine thirty", 30),
    ("half nine", 30), ("9.30", 30), ("9:45", 45), ("twenty five to ten", 35), ("twenty to ten", 40),
    ("quarter to ten", 45), ("a quarter to ten", 45), ("five to ten", 55), ("nine o'clock", 0), ("9am", 0),
    ("nine in the morning", 0),
]  # fmt: skip


@pytest.mark.parametrize(("said", "minutes"), PAST_NINE)
def test_time_of_the_day__is_read_to_the_minute(said: str, minutes: int) -> None:
    (hours,) = heard(f"worked from {said} until noon")
    assert f"{(180 - minutes) / 60:.2f}".rstrip("0").rstrip(".") == hours.hours


@given(st.integers(1, 23), st.integers(0, 59))
def test_hours_and_minutes__are_the_nearest_hundredth(hours: int, minutes: int) -> None:
    said = f"spent {hours} hours and {minutes} minutes on it"
    whole = (hours * 60 + minutes) * 100
    hundredths = (whole * 2 + 60) // 120
    expected = f"{hundredths // 100}.{hundredths % 100:02d}".rstrip("0").rstrip(".")
    assert sure(said) == ([expected] if whole <= 16 * 6000 else [])


VOCABULARY = (
    "from nine till to half past quarter two hours an hour and a bit for lunch less or three all day started"
    " at finished yesterday it'll take . , 9.30 until minutes"
)
WORDS = st.sampled_from(VOCABULARY.split())


@given(st.lists(WORDS, max_size=25))
def test_any_words__give_hours_that_a_day_has(words: list[str]) -> None:
    tokens = tokens_of(" ".join(words))
    for hours in hours_in(tokens, numbers_in(tokens)):
        assert 0 <= hours.first < hours.last <= len(tokens)
        assert hours.sure is (hours.ask == "")
        assert hours.hours == "" or 0 < float(hours.hours) <= 24

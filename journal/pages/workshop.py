"""The front page across cars: what each car's work has come to, and what is wrong in the files."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from journal.digests.waiting import hurt
from journal.pages.common import ARCHIVE_OF, car_title, feed_ref, has_page
from journal.pages.links import Links, Ref
from journal.pages.newswords import (
    FIRST,
    NewsLine,
    awaited_line,
    came_in_words,
    lately_words,
    week_words,
)
from journal.pages.page import Page
from journal.pages.plates import Plate, cover_of
from journal.pages.problemwords import problem_count, problem_words
from journal.pages.standing import is_delivered, standing_sentences
from journal.pages.view import CarView
from journal.pages.waitingwords import still_awaited
from journal.pages.words import day_words, in_words, sentence, some
from journal.records.problem import Problem
from journal.words.cautions import GENERAL

PATH = "index.html"


class CarCard(NamedTuple):
    """One car: where it stands and what holds it."""

    ref: Ref
    note: str
    cover: Plate | None
    sentences: tuple[str, ...]
    holds: tuple[NewsLine, ...]


class FirstThing(NamedTuple):
    """Something to do or to chase first, with the car that it belongs to."""

    car: Ref
    line: NewsLine


def page_workshop(views: Sequence[CarView], problems: Sequence[Problem]) -> tuple[Page, ...]:
    """The front page of an archive of several cars."""
    first = views[0]
    values = {
        "title": first.car.workshop.name,
        "document": f"{first.car.workshop.name}: the cars",
        "up": "",
        "scripts": (),
        "feeds": tuple(feed_ref(_links(view)) for view in views),
        "workshop": first.car.workshop.name,
        "archive": ARCHIVE_OF[first.reader],
        "until": day_words(max(view.until for view in views)),
        "how_many": _how_many(views),
        "first_things": _first_things(views),
        "waiting": _waiting_pages(views),
        "came_in": _of_every(views, came_in_words),
        "weeks": _weeks(views),
        "lately": lately_words(),
        "cars": tuple(_card(view) for view in views),
        "problems": problem_words(problems),
        "problem_count": problem_count(problems),
        "general_caution": GENERAL,
    }
    return (Page(PATH, "workshop.html", values),)


def _how_many(views: Sequence[CarView]) -> str:
    delivered = sum(is_delivered(view) for view in views)
    away = f", {in_words(delivered)} delivered" if delivered else ""
    return sentence(some(len(views), "car")) + away


def _links(view: CarView) -> Links:
    """Links of a car seen from above its folder start with the folder's name."""
    links = Links(view, "")
    links.home = view.base
    return links


def _car_ref(view: CarView) -> Ref:
    return Ref(car_title(view.car.car), _links(view).to("index.html"))


def _first_things(views: Sequence[CarView]) -> tuple[FirstThing, ...]:
    """What is waited for across all cars, what hurts most first, as far as a front page goes."""
    awaited = [(view, item) for view in views for item in still_awaited(view)]
    awaited.sort(key=lambda entry: hurt(entry[1]))
    return tuple(
        FirstThing(_car_ref(view), awaited_line(view, _links(view), item))
        for view, item in awaited[:FIRST]
    )


def _waiting_pages(views: Sequence[CarView]) -> tuple[Ref, ...]:
    """Where the rest stands, car by car."""
    return tuple(
        Ref(car_title(view.car.car), _links(view).to("waiting.html"))
        for view in views
        if still_awaited(view) and has_page(view.reader, "waiting.html")
    )


def _weeks(views: Sequence[CarView]) -> tuple[tuple[Ref, str], ...]:
    """Hours of the latest week in which anything is told, car by car."""
    latest = max(view.news.monday for view in views)
    return tuple(
        (_car_ref(view), week_words(view))
        for view in views
        if view.news.week and view.news.monday == latest
    )


def _of_every(
    views: Sequence[CarView], words: Callable[[CarView, Links], tuple[NewsLine, ...]]
) -> tuple[FirstThing, ...]:
    return tuple(
        FirstThing(_car_ref(view), line) for view in views for line in words(view, _links(view))
    )


def _card(view: CarView) -> CarCard:
    links = _links(view)
    held = view.snags.holds
    holds = [NewsLine(s.text, "", links.sheet(s.raised_in), True) for s in held[:FIRST]]
    if len(held) > FIRST:
        more = f"And {in_words(len(held) - FIRST)} more"
        holds.append(NewsLine(more, "", Ref("", links.to("snags.html")), True))
    return CarCard(
        _car_ref(view),
        view.car.car.body,
        cover_of(view, links),
        standing_sentences(view),
        tuple(holds),
    )

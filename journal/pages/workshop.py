"""The front page across cars: what each car's work has come to, and what is wrong in the files."""

from collections.abc import Sequence
from datetime import date
from operator import itemgetter

from msgspec import Struct

from journal.digests.waiting import Hurt, hurt
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
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.waitingwords import still_awaited
from journal.pages.words import day_words, in_words, sentence, some
from journal.records.problem import Problem
from journal.words.cautions import GENERAL

PATH = "index.html"


class CarCard(Value, frozen=True):
    """One car: where it stands and what holds it."""

    ref: Ref
    note: str
    cover: Plate | None
    sentences: tuple[str, ...]
    holds: tuple[NewsLine, ...]


class FirstThing(Value, frozen=True):
    """Something to do or to chase first, with the car that it belongs to."""

    car: Ref
    line: NewsLine


class CarFront(Struct, frozen=True):
    """What one car gives to the front page across cars, as values that need no car file any more.

    `first` are the first things waited for, what hurts most first, each behind what it is sorted by;
    `week` is told of the week of `monday` when anything happened in it.
    """

    feed: Ref
    workshop: str
    archive: str
    until: date
    delivered: bool
    first: tuple[tuple[Hurt, FirstThing], ...]
    waiting: Ref | None
    came_in: tuple[FirstThing, ...]
    monday: date
    week: tuple[Ref, str] | None
    card: CarCard


def page_workshop(views: Sequence[CarView], problems: Sequence[Problem]) -> tuple[Page, ...]:
    """The front page of an archive of several cars."""
    return page_fronts(tuple(map(front_of, views)), problems)


def page_fronts(fronts: Sequence[CarFront], problems: Sequence[Problem]) -> tuple[Page, ...]:
    """The same from what each car gives to it."""
    first = fronts[0]
    awaited = sorted((thing for front in fronts for thing in front.first), key=itemgetter(0))
    latest = max(front.monday for front in fronts)
    values = {
        "title": first.workshop,
        "document": f"{first.workshop}: the cars",
        "up": "",
        "scripts": (),
        "feeds": tuple(front.feed for front in fronts),
        "workshop": first.workshop,
        "archive": first.archive,
        "until": day_words(max(front.until for front in fronts)),
        "how_many": _how_many(fronts),
        "first_things": tuple(thing for _, thing in awaited[:FIRST]),
        "waiting": tuple(front.waiting for front in fronts if front.waiting),
        "came_in": tuple(line for front in fronts for line in front.came_in),
        "weeks": tuple(f.week for f in fronts if f.week and f.monday == latest),
        "lately": lately_words(),
        "cars": tuple(front.card for front in fronts),
        "problems": problem_words(problems),
        "problem_count": problem_count(problems),
        "general_caution": GENERAL,
    }
    return (Page(PATH, "workshop.html", values),)


def front_of(view: CarView) -> CarFront:
    """What a car gives to the front page across cars."""
    links, car = _links(view), _car_ref(view)
    awaited = sorted(still_awaited(view), key=hurt)
    waits = awaited and has_page(view.reader, "waiting.html")
    return CarFront(
        feed_ref(links),
        view.car.workshop.name,
        ARCHIVE_OF[view.reader],
        view.until,
        is_delivered(view),
        tuple((hurt(i), FirstThing(car, awaited_line(view, links, i))) for i in awaited[:FIRST]),
        Ref(car_title(view.car.car), links.to("waiting.html")) if waits else None,
        tuple(FirstThing(car, line) for line in came_in_words(view, links)),
        view.news.monday,
        (car, week_words(view)) if view.news.week else None,
        _card(view),
    )


def _how_many(fronts: Sequence[CarFront]) -> str:
    delivered = sum(front.delivered for front in fronts)
    away = f", {in_words(delivered)} delivered" if delivered else ""
    return sentence(some(len(fronts), "car")) + away


def _links(view: CarView) -> Links:
    """Links of a car seen from above its folder start with the folder's name."""
    links = Links(view, "")
    links.home = view.base
    return links


def _car_ref(view: CarView) -> Ref:
    return Ref(car_title(view.car.car), _links(view).to("index.html"))


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

"""The front page across cars: what each car's work has come to, and what is wrong in the files."""

from collections.abc import Sequence
from typing import NamedTuple

from journal.pages.common import ARCHIVE_OF, car_title
from journal.pages.links import Links, Ref
from journal.pages.page import Page
from journal.pages.plates import Plate, cover_of
from journal.pages.problemwords import problem_count, problem_words
from journal.pages.standing import is_delivered, standing_sentences
from journal.pages.view import CarView
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
    holds: tuple[tuple[str, Ref], ...]


def page_workshop(views: Sequence[CarView], problems: Sequence[Problem]) -> tuple[Page, ...]:
    """The front page of an archive of several cars."""
    first = views[0]
    values = {
        "title": first.car.workshop.name,
        "document": f"{first.car.workshop.name}: the cars",
        "stylesheet": "style.css",
        "workshop": first.car.workshop.name,
        "archive": ARCHIVE_OF[first.reader],
        "until": day_words(max(view.until for view in views)),
        "how_many": _how_many(views),
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


def _card(view: CarView) -> CarCard:
    # Links of a car seen from above its folder start with the folder's name.
    links = Links(view, "")
    links.home = view.base
    holds = tuple((snag.text, links.sheet(snag.raised_in)) for snag in view.snags.holds)
    return CarCard(
        Ref(car_title(view.car.car), links.to("index.html")),
        view.car.car.body,
        cover_of(view, links),
        standing_sentences(view),
        holds,
    )

"""Bench sums: all that were kept, by the job that they serve."""

from typing import NamedTuple

from journal.bench import SUMS
from journal.bench.base.definition import Job
from journal.digests.sums import KeptSum
from journal.pages.common import frame
from journal.pages.links import Links, Ref
from journal.pages.page import Page
from journal.pages.sumwords import Beside, SumWords, beside, sum_words
from journal.pages.view import CarView
from journal.pages.words import day_words, sentence, some
from journal.words.vocabulary import Reader

PATH = "sums.html"


class Kept(NamedTuple):
    """A kept sum; where it was worked out again later, the day and the place of the next time."""

    words: SumWords
    again: Ref | None


class JobWords(NamedTuple):
    """The sums of one job: those that were kept, and the cautions that go with them."""

    label: str
    kept: tuple[Kept, ...]
    cautions: tuple[str, ...]


class Offered(NamedTuple):
    """A sum that can be worked out, for the workshop to know of it."""

    name: str
    beside: Beside


def page_sums(view: CarView) -> tuple[Page, ...]:
    """The sums that the sheets keep; for the workshop besides, those that there are."""
    links = Links(view, PATH)
    values = {
        **frame(links, "Bench sums"),
        "lead": _lead(view),
        "jobs": tuple(_job(view, links, job) for job in Job if view.sums.serving(job)),
        "offered": tuple(
            (sentence(job.value), tuple(Offered(s.name, beside(s)) for s in SUMS if s.job is job))
            for job in Job
            if view.reader is Reader.WORKSHOP and any(s.job is job for s in SUMS)
        ),
    }
    return (Page(view.base + PATH, "sums.html", values),)


def _lead(view: CarView) -> str:
    many = len(view.sums.kept)
    if not many:
        return ""
    told = sentence(some(many, "sum"))
    return f"{told} worked out at the bench and kept with the day; figures and working stand there."


def _job(view: CarView, links: Links, job: Job) -> JobWords:
    kept = view.sums.serving(job)
    cautions = dict.fromkeys(k.answer.sum.caution for k in kept)
    told = tuple(Kept(sum_words(links, k), _again(links, k, kept)) for k in kept)
    return JobWords(sentence(job.value), told, tuple(cautions))


def _again(links: Links, one: KeptSum, kept: tuple[KeptSum, ...]) -> Ref | None:
    """The next sum of the same name for the same things, if there is one."""
    same = [k for k in kept if (k.name, k.of, k.subsystem) == (one.name, one.of, one.subsystem)]
    later = same[same.index(one) + 1 :]
    return Ref(day_words(later[0].day), sum_words(links, later[0]).place.href) if later else None

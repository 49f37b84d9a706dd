"""Bench sums: all that were kept, by the job that they serve."""

from typing import NamedTuple

from journal.bench import SUMS
from journal.bench.base.definition import Job
from journal.pages.common import frame
from journal.pages.links import Links
from journal.pages.page import Page
from journal.pages.sumwords import Beside, SumWords, beside, sum_words
from journal.pages.view import CarView
from journal.pages.words import sentence, some
from journal.words.vocabulary import Reader

PATH = "sums.html"


class JobWords(NamedTuple):
    """The sums of one job: those that were kept, and the cautions that go with them."""

    label: str
    kept: tuple[SumWords, ...]
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
    return f"{sentence(some(many, 'sum'))} worked out at the bench and kept with the day."


def _job(view: CarView, links: Links, job: Job) -> JobWords:
    kept = view.sums.serving(job)
    cautions = dict.fromkeys(k.answer.sum.caution for k in kept)
    return JobWords(sentence(job.value), tuple(sum_words(links, k) for k in kept), tuple(cautions))

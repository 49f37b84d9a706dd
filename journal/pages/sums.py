"""Bench sums: all that were kept, by the job that they serve."""

from collections.abc import Iterator
from functools import partial
from itertools import pairwise
from typing import Any

from journal.bench import SUMS
from journal.bench.base.definition import Job
from journal.digests.sums import KeptSum, Sums
from journal.pages.common import frame
from journal.pages.leafwords import AS_TOLD, contents, sections_told, titled, turn_words
from journal.pages.links import Links, Ref
from journal.pages.page import Later, Page
from journal.pages.parting import Leaf, Section, Stretch, parted
from journal.pages.sumwords import Beside, SumWords, beside, sum_words
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words, sentence, some
from journal.words.groups import grouped
from journal.words.vocabulary import Reader

PATH = "sums.html"
# As many sums as one page holds.
ROOM = 100


class Kept(Value, frozen=True):
    """A kept sum; where it was worked out again later, the day and the place of the next time."""

    words: SumWords
    again: Ref | None


class JobWords(Value, frozen=True):
    """The sums of one job: those that were kept, and the cautions that go with them."""

    label: str
    kept: tuple[Kept, ...]
    cautions: tuple[str, ...]
    anchor: str


class Offered(Value, frozen=True):
    """A sum that can be worked out, for the workshop to know of it."""

    name: str
    beside: Beside


def page_sums(view: CarView) -> tuple[Page, ...]:
    """The sums that the sheets keep; for the workshop besides, those that there are."""
    start, leaves = Links(view, ""), parted(PATH, _sections(view.sums), ROOM)
    return tuple(
        Page(view.base + leaf.path, "sums.html", Later(partial(_values, start, leaves, leaf)))
        for leaf in leaves
    )


def _sections(sums: Sums) -> Iterator[Section]:
    kept = (of for job in Job if (of := sums.serving(job)))
    return (Section(f"job-{n}", of) for n, of in enumerate(kept, 1))


def _values(start: Links, leaves: tuple[Leaf, ...], leaf: Leaf) -> dict[str, Any]:
    links, view = start.at(leaf.path), start.view
    headings = {s.key: _label(s.entries[0]) for other in leaves for s in other.stretches}
    return {
        **frame(links, titled("Bench sums", leaf)),
        "lead": _lead(view),
        "jobs": tuple(_job(links, stretch) for stretch in leaf.stretches),
        "offered": _offered() if view.reader is Reader.WORKSHOP and leaf.number == leaf.of else (),
        "continued": leaf.continued,
        "contents": contents(links, leaves, headings),
        "turn": turn_words(links, leaves, sections_told(headings), AS_TOLD),
    }


def _label(kept: KeptSum) -> str:
    return sentence(kept.answer.sum.job.value)


def _offered() -> tuple[tuple[str, tuple[Offered, ...]], ...]:
    """The sums that there are, by the jobs that they serve."""
    return tuple(
        (sentence(job.value), tuple(Offered(s.name, beside(s)) for s in SUMS if s.job is job))
        for job in Job
        if any(s.job is job for s in SUMS)
    )


def _lead(view: CarView) -> str:
    many = len(view.sums.kept)
    if not many:
        return ""
    told = sentence(some(many, "sum"))
    return f"{told} worked out at the bench and kept with the day; figures and working stand there."


def _job(links: Links, stretch: Stretch) -> JobWords:
    later = links.view.once(_worked_again)
    cautions = dict.fromkeys(k.answer.sum.caution for k in stretch.entries)
    told = tuple(
        Kept(sum_words(links, k), _again(links, later.get(_who(k)))) for k in stretch.entries
    )
    return JobWords(_label(stretch.entries[0]), told, tuple(cautions), stretch.key)


_Who = tuple[str, str, tuple[str, ...], str, str]


def _who(kept: KeptSum) -> _Who:
    """What tells a sum from all others: a sheet keeps one of a name."""
    return (kept.answer.sum.job.value, kept.name, kept.of, kept.subsystem, kept.sheet)


def _worked_again(view: CarView) -> dict[_Who, KeptSum]:
    """For each sum the next one of the same name that serves the same job for the same things."""
    same = grouped(view.sums.kept, lambda kept: _who(kept)[:-1])
    return {_who(one): later for of in same.values() for one, later in pairwise(of)}


def _again(links: Links, later: KeptSum | None) -> Ref | None:
    return Ref(day_words(later.day), sum_words(links, later).place.href) if later else None

"""What each reader sees of a photograph's file: a fact that is not listed is the workshop's alone."""

from datetime import date, time

import pytest
from msgspec import NODEFAULT
from msgspec.structs import fields

from journal.readers import facts_for
from journal.readers.rules import SEEN_FACTS
from journal.records.photofacts import PhotoFacts
from journal.words.vocabulary import Reader

FACTS = PhotoFacts("ab" * 32, 4711, 4000, 3000, "JPEG", date(2024, 3, 5), time(14, 20))


@pytest.mark.parametrize(
    ("reader", "clock"),
    [
        (Reader.WORKSHOP, time(14, 20)),
        (Reader.OWNER, time(14, 20)),
        (Reader.KEEPER, time(14, 20)),
        (Reader.PUBLIC, None),
    ],
)
def test_public__sees_the_day_and_not_the_hour(reader: Reader, clock: time | None) -> None:
    seen = facts_for(reader, {"a.jpg": FACTS})["a.jpg"]
    assert (date(2024, 3, 5), clock) == (seen.taken_on, seen.taken_at)
    assert (FACTS.sha256, 4711, 4000, 3000) == (seen.sha256, seen.size, seen.width, seen.height)


@pytest.mark.parametrize("reader", [Reader.OWNER, Reader.KEEPER, Reader.PUBLIC])
def test_fact_that_is_not_listed__has_nothing_to_stand_for_it(reader: Reader) -> None:
    unlisted = [f for f in fields(PhotoFacts) if f.name not in SEEN_FACTS[reader]]
    assert [] == [f.name for f in unlisted if f.default is NODEFAULT]
    assert SEEN_FACTS[reader] <= {f.name for f in fields(PhotoFacts)}

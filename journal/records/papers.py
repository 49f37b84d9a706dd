"""`papers/papers.yaml`: the papers of a car and what each of them says."""

from typing import Annotated

from pydantic import BeforeValidator

from journal.records.fields import (
    Amount,
    Day,
    Named,
    Text,
    Written,
    as_list,
    one_of,
    short_form,
    vocabulary_schema,
)
from journal.words.vocabulary import Reader

ReaderField = Annotated[Reader, BeforeValidator(one_of(Reader)), vocabulary_schema(Reader)]


class Keeper(Written):
    """One who kept the car, from a day on, to a day when it is known."""

    name: Text
    from_: Day | None = None
    to: Day | None = None
    place: Text | None = None


class Paper(Written):
    """One paper: a factory record, an old invoice, a registration book, a period photograph.

    `date` is the day it was issued, `dated` the same in words when the day is not known
    ("spring 1961"); `file` is its scan in `papers/`, and `alt` what is seen in that; `says` is what
    it tells; `numbers` are the car's numbers as it gives them, `keepers`, `registration` and
    `odometer` what it tells of those; `for_` is the widest reader who may see it.
    """

    title: Text
    kind: Text | None = None
    date: Day | None = None
    dated: Text | None = None
    source: Text | None = None
    file: Text | None = None
    alt: Text | None = None
    says: Text | None = None
    numbers: Named[Text] = Named()
    keepers: Annotated[
        tuple[Annotated[Keeper, short_form("name")], ...], BeforeValidator(as_list)
    ] = ()
    registration: Text | None = None
    odometer: Amount | None = None
    for_: ReaderField = Reader.KEEPER


class PapersFile(Written):
    """The papers as written, by short name."""

    papers: Named[Paper] = Named()

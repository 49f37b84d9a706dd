"""The sections of a sheet that a line heard in a talk may fill too: one type for each, wherever it stands."""

from typing import Annotated

from pydantic import AfterValidator, BeforeValidator

from journal.records.fields import (
    Named,
    Number,
    Text,
    Unit,
    Written,
    Yes,
    as_list,
    not_empty,
    short_form,
)
from journal.records.goods import OutworkLine, PartLine
from journal.records.limit import LimitField
from journal.records.papers import ReaderField
from journal.records.recheck import RecheckLine
from journal.records.work import Work
from journal.words.vocabulary import Reader


class Measured(Written):
    """Readings of one dimension on one component, with the limits they must keep."""

    on: Text | None = None
    read: Annotated[tuple[Number, ...], BeforeValidator(as_list), AfterValidator(not_empty)]
    unit: Unit
    limit: LimitField | None = None
    with_: Text | None = None
    note: Text | None = None


class SnagLine(Written):
    """A snag raised, put off or cleared. `hold` stops the handover until it is cleared."""

    raise_: Text | None = None
    hold: Yes = False
    on: Text | None = None
    ask: Text | None = None
    defer: Text | None = None
    clear: Text | None = None
    by: Text | None = None
    for_: ReaderField = Reader.KEEPER


class Proof(Written):
    """A check that must be recorded before a safety-critical subsystem is handed over.

    `found` is the result in words, `read` its reading; it stands unless `passed` is no. `by` is
    the hand, `checked` the second pair of eyes. `does_not_apply` is the reason why this car needs
    no such proof; then nothing else was found.
    """

    found: Text | None = None
    does_not_apply: Text | None = None
    read: Annotated[tuple[Number, ...], BeforeValidator(as_list)] = ()
    unit: Unit | None = None
    passed: Yes = True
    by: Text | None = None
    checked: Text | None = None
    note: Text | None = None

    @property
    def says_both(self) -> bool:
        """Whether it does not apply and has a result all the same."""
        return bool(self.does_not_apply and (self.found or self.read or not self.passed))


WorkSection = Named[Annotated[Work, short_form("did")]]
PartsSection = Named[PartLine]
OutworkSection = Named[OutworkLine]
MeasuredSection = Named[Measured]
ProvingSection = Named[Annotated[Proof, short_form("found")]]
SnagsSection = Named[Annotated[SnagLine, short_form("raise")]]
RechecksSection = Named[Annotated[RecheckLine, short_form("after")]]

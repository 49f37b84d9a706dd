"""What was heard in a talk and nobody has confirmed: lines that stand in a sheet and count for nothing."""

from journal.records.fields import Named, Text, Written
from journal.records.hours import HoursField
from journal.records.lists import Slugs
from journal.records.recording import MomentField
from journal.records.sections import (
    MeasuredSection,
    OutworkSection,
    PartsSection,
    ProvingSection,
    RechecksSection,
    SnagsSection,
    WorkSection,
)


class DraftLine(Written):
    """One line that was heard: the `words`, `at` which moment of the recording, what is to be asked
    about them, and what the line would put into the sheet, in the sections of a sheet.

    A line without sections is a question. No line counts before somebody confirms it; then it is taken
    out of the draft and what it would put stands in the sheet.
    """

    words: Text | None = None
    at: MomentField | None = None
    ask: Text | None = None
    subsystem: Slugs = ()
    hours: HoursField = Named()
    work: WorkSection = Named()
    parts: PartsSection = Named()
    outwork: OutworkSection = Named()
    measured: MeasuredSection = Named()
    proving: ProvingSection = Named()
    snags: SnagsSection = Named()
    rechecks: RechecksSection = Named()


_OF_THE_LINE = ("words", "at", "ask")

# What a line may put into a sheet, in the order of a sheet; each section has the same type in both.
SECTIONS = tuple(name for name in DraftLine.model_fields if name not in _OF_THE_LINE)

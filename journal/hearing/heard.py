"""What was heard in a talk: proposals for a day sheet, each beside the words it came from."""

from collections.abc import Mapping
from enum import StrEnum
from fractions import Fraction

from msgspec import Struct, field

from journal.reading.yamltext import Plain


class Kind(StrEnum):
    """What a line proposes, or asks."""

    ACT = "act"
    ORIGIN = "origin"
    FOUND = "found"
    HOURS = "hours"
    MEASURED = "measured"
    PART = "part"
    WAITING = "waiting"
    SNAG = "snag"
    NEXT = "next"
    DECIDED = "decided"
    CHECK = "check"
    QUESTION = "question"


class Line(Struct, frozen=True):
    """One proposal.

    `start` and `end` are the characters of the talk's text that it came from, `words` those words, `at`
    the second in the recording where there is one. `told` is the front matter that it would put into the
    sheet, as a sheet says it; empty for a bare question. `ask` is what is unsure, in a sentence; empty
    where nothing is. `of` are the components it speaks of.
    """

    kind: Kind
    start: int
    end: int
    words: str
    at: Fraction | None = None
    told: Mapping[str, Plain] = field(default_factory=dict)
    ask: str = ""
    of: tuple[str, ...] = ()


class Heard(Struct, frozen=True):
    """A talk as the draft of a sheet: a title, the subsystems, the lines in the order of the talk, the
    narrative, what the talk speaks of, and notes that concern the whole of it."""

    title: str
    subsystem: tuple[str, ...]
    lines: tuple[Line, ...]
    narrative: str
    components: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()

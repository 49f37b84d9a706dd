"""What a bench sum is: its inputs, its formula, its outputs, and all that must stand beside a result.

One definition serves the terminal, the day sheet, the pages and the live form.
"""

from collections.abc import Callable
from enum import StrEnum

from msgspec import Struct

from journal.bench.base.given import Given
from journal.bench.base.worked import Output, Worked
from journal.words.quantities import KINDS


class Job(StrEnum):
    """What a sum is for, in the word of the trade; sums are listed in this order."""

    FITTING = "fitting and shimming"
    ENGINE = "engine"
    GEARING = "gearing and tyres"
    BRAKES = "brakes"
    FASTENERS = "fasteners and threads"
    SPRINGS = "springs and weights"
    ELECTRICAL = "electrical"
    PLATING = "plating"
    PAINT = "paint and fluids"
    QUOTING = "quoting"


class Takes(StrEnum):
    """How much an input takes."""

    ONE = "one"
    RANGE = "range"
    READINGS = "readings"
    ROWS = "rows"


# Kinds of input that are no quantity: one of its choices; a few words such as the name of a valve or
# a designation.
WORD, TEXT = "word", "text"


class Input(Struct, frozen=True):
    """Something that a sum asks for.

    `name` is the key as it is written, `meaning` what it is, in a few words that stand after it.
    `kind` is one of `KINDS`, `WORD` or `TEXT`. It is required unless it has a `default`, written as
    a person would write it, or is `optional`. `least` and `most` are what is physically possible, as
    quantities with their unit; both may be reached. `choices` are the words of a `WORD` with their
    meanings, `columns` those of rows; the first column names its row. `symbol` stands for it in the
    formula.
    """

    name: str
    meaning: str
    kind: str = TEXT
    takes: Takes = Takes.ONE
    symbol: str = ""
    optional: bool = False
    default: str = ""
    least: str = ""
    most: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    columns: "tuple[Input, ...]" = ()

    @property
    def required(self) -> bool:
        """Whether nothing can be worked out without it."""
        return not self.optional and not self.default

    @property
    def measures(self) -> bool:
        """Whether it is a quantity."""
        return self.kind in KINDS


class Sum(Struct, frozen=True):
    """A small calculation of the workshop.

    `asks` is the question that it answers. `formula` is the same as `in_words` in symbols, a line
    each. `limits` say where it does not hold, `caution` defers to the maker's manual, `sources` are
    published ones, or say that the rule is common practice. `example` is an invented one: what is
    written for each input. `work` takes inputs that have been read and are each possible; what cannot
    be together it refuses by `NotWorked`.
    """

    name: str
    title: str
    job: Job
    asks: str
    inputs: tuple[Input, ...]
    outputs: tuple[Output, ...]
    in_words: str
    formula: tuple[str, ...]
    limits: tuple[str, ...]
    caution: str
    sources: tuple[str, ...]
    example: tuple[tuple[str, str], ...]
    work: Callable[[Given], Worked]

    def input(self, name: str) -> Input | None:
        """The input of a name, or None."""
        return next((i for i in self.inputs if i.name == name), None)

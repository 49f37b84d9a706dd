"""What a speedometer may show: UN Regulation 39, paragraph 5.3, as a yardstick.

Speeds are exact and in km/h: never less than the true one, and at most a tenth of that and 4 km/h more.
"""

from collections.abc import Iterable
from fractions import Fraction

from msgspec import Struct

from journal.bench.base.definition import WORD, Input
from journal.bench.base.worked import Grid
from journal.words.amounts import fixed_number
from journal.words.units import convert

SOURCE = (
    "UN Regulation 39, paragraph 5.3: 0 \N{LESS-THAN OR EQUAL TO} V1 \N{MINUS SIGN} V2 \N{LESS-THAN OR EQUAL TO} 0.1 V2 + 4 km/h, "
    "V1 as shown and V2 as driven; its test speeds of 40, 80 and 120 km/h are cited from memory."
)
LIMIT = "The limits are those of type approval today, a yardstick for an older car; what binds is the law of its year and country."

# True speeds at which an answer is told: those of the test, and those posted on British roads.
_TOLD = {"km/h": (40, 80, 120), "mph": (30, 50, 70)}
_TESTED = (40, 80, 120)

DIAL = Input(
    "dial", "the unit of the dial", WORD, default="mph",
    choices=(("mph", "miles an hour"), ("km/h", "kilometres an hour")),
)  # fmt: skip


def most_shown(true: Fraction) -> Fraction:
    """The most that may be shown at a true speed."""
    return true + true / 10 + 4


def keeps_law(shown: Fraction, true: Fraction) -> bool:
    """Whether what is shown is allowed at a true speed."""
    return true <= shown <= most_shown(true)


def always_kept(ratio: Fraction) -> bool:
    """Whether a dial that shows `ratio` times the true speed is allowed at the speeds of the test."""
    return all(keeps_law(ratio * true, Fraction(true)) for true in _TESTED)


def error_words(ratio: Fraction) -> str:
    """A dial that shows `ratio` times the true speed, in words: `6.3 % slow`."""
    off = 100 * (ratio - 1)
    if abs(off) < Fraction(1, 20):
        return "right"
    return f"{fixed_number(abs(off), 1)} % {'fast' if off > 0 else 'slow'}"


class Dial(Struct, frozen=True):
    """Tells speeds in the unit of a dial, `km/h` or `mph`."""

    unit: str

    def number(self, speed: Fraction) -> str:
        """A speed without its unit."""
        return fixed_number(convert(speed, "km/h", self.unit), 1).removesuffix(".0")

    def __call__(self, speed: Fraction) -> str:
        """A speed: `62.3 mph`."""
        return f"{self.number(speed)} {self.unit}"

    def told_speeds(self) -> tuple[Fraction, ...]:
        """True speeds at which an answer is told."""
        return tuple(convert(speed, self.unit, "km/h") for speed in _TOLD[self.unit])

    def verdict(self, shown: Fraction, true: Fraction) -> str:
        """Whether a reading is allowed, and else by how much it is not."""
        if shown < true:
            return f"{self(true - shown)} too low"
        if shown > most_shown(true):
            return f"{self(shown - most_shown(true))} too high"
        return "allowed"

    def grid(self, readings: Iterable[tuple[Fraction, Fraction]]) -> Grid:
        """Readings, each the true speed and what is shown, against what is allowed."""
        rows = tuple(
            (
                self(true),
                self(shown),
                f"{self.number(true)} to {self(most_shown(true))}",
                self.verdict(shown, true),
            )
            for true, shown in readings
        )
        return Grid("What it shows", ("True speed", "Shown", "May be shown today", "Verdict"), rows)

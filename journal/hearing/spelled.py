"""Part numbers in a talk."""

from collections.abc import Sequence
from dataclasses import dataclass

from journal.hearing.tokens import Token


@dataclass(frozen=True)
class PartNumber:
    """A part number: tokens `first` to before `last`, and how it is written."""

    first: int
    last: int
    text: str


def part_numbers_in(tokens: Sequence[Token]) -> tuple[PartNumber, ...]:
    """Every part number."""
    return ()

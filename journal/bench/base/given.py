"""What is given to a sum once it has been read: every value exact, in the unit it was written in."""

from collections.abc import Iterator, Mapping
from fractions import Fraction

from msgspec import Struct

from journal.words.quantities import Quantity, Span
from journal.words.units import IMPERIAL, partner_unit


class NotWorked(ValueError):
    """Inputs that are each possible and cannot be together.

    `key` is the input that is told of, `sentence` continues after its name, `help` is the way out.
    """

    def __init__(self, key: str, sentence: str, help: str = "") -> None:
        super().__init__(f"{key} {sentence}; {help}" if help else f"{key} {sentence}")
        self.key, self.sentence, self.help = key, sentence, help


class Given(Struct, frozen=True):
    """The values of a sum's inputs by their names, or those of one row by its columns.

    What is optional and was not written is not there. Each method answers for inputs that take what
    it is called after; to ask it for another is a fault of the program.
    """

    values: Mapping[str, object]

    def has(self, name: str) -> bool:
        """Whether an optional input was written."""
        return name in self.values

    def one(self, name: str) -> Quantity:
        """The quantity of an input that takes one."""
        value = self.values[name]
        assert isinstance(value, Quantity), name
        return value

    def number(self, name: str) -> Fraction:
        """The amount of a count, a number or a ratio."""
        return self.one(name).amount

    def span(self, name: str) -> Span:
        """The two ends of an input that takes a range."""
        value = self.values[name]
        assert isinstance(value, Span), name
        return value

    def readings(self, name: str) -> tuple[Quantity, ...]:
        """The quantities of an input that takes readings."""
        value = self.values[name]
        assert isinstance(value, tuple), name
        assert all(isinstance(entry, Quantity) for entry in value), name
        return value

    def rows(self, name: str) -> "tuple[Given, ...]":
        """The rows of an input that takes rows; none where it was not written."""
        value = self.values.get(name, ())
        assert isinstance(value, tuple), name
        assert all(isinstance(entry, Given) for entry in value), name
        return value

    def word(self, name: str) -> str:
        """The word chosen, or the text written."""
        value = self.values[name]
        assert isinstance(value, str), name
        return value

    @property
    def imperial(self) -> bool:
        """Whether the first quantity that both systems can tell was written in imperial units; then
        the answer is told in these too."""
        units = (q.unit for q in self.quantities() if q.unit and partner_unit(q.unit))
        return next(units, "") in IMPERIAL

    def quantities(self) -> Iterator[Quantity]:
        """Every quantity, in the order of the inputs."""
        for value in self.values.values():
            yield from _quantities(value)


def _quantities(value: object) -> Iterator[Quantity]:
    if isinstance(value, Quantity):
        yield value
    elif isinstance(value, Span):
        yield from (value.low, value.high)
    elif isinstance(value, Given):
        yield from value.quantities()
    elif isinstance(value, tuple):
        for entry in value:
            yield from _quantities(entry)

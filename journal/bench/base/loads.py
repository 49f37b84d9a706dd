"""Loads on a circuit, in watts and in amperes, that can be on together."""

from fractions import Fraction

from msgspec import Struct

from journal.bench.base.given import Given, NotWorked


class Loads(Struct, frozen=True):
    """Powers in W and currents in A at a voltage."""

    powers: tuple[Fraction, ...]
    currents: tuple[Fraction, ...]
    volts: Fraction

    @property
    def amps(self) -> Fraction:
        """The current of all of them together."""
        return sum((watts / self.volts for watts in self.powers), Fraction(0)) + sum(self.currents)

    def step(self) -> str:
        """The working: `load: (55 + 55) / 12 + 2.5 = 11.67 A`."""
        told = f"{float(self.amps):.2f}".rstrip("0").rstrip(".")
        watts = " + ".join(f"{float(each):g}" for each in self.powers)
        terms = [f"{float(each):g}" for each in self.currents]
        if self.powers:
            terms.insert(0, f"{f'({watts})' if self.powers[1:] else watts} / {float(self.volts):g}")
        return f"load: {told} A" if terms == [told] else f"load: {' + '.join(terms)} = {told} A"


def loads_given(given: Given) -> Loads:
    """The loads of the inputs `power`, `current` and `voltage`; one of the first two must be there."""
    if not given.has("power") and not given.has("current"):
        raise NotWorked(
            "power", "is missing", "give the power of the load in W, as stamped on the bulb, or its current in A"
        )  # fmt: skip
    powers = given.readings("power") if given.has("power") else ()
    currents = given.readings("current") if given.has("current") else ()
    return Loads(
        tuple(power.to("W") for power in powers),
        tuple(current.to("A") for current in currents),
        given.one("voltage").to("V"),
    )

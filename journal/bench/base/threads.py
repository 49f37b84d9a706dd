"""Screw threads: their forms, and the diameters that follow from nominal diameter and pitch.

All lengths are in mm. A form is held by what its standard says of a pitch of one; the play that
ordinary fits leave is that of the medium fit of ISO 965-1, 6g in 6H, for every form: those of BS 84
and of ASME B1.1 are much alike.
"""

from fractions import Fraction
from math import radians, tan

from msgspec import Struct

from journal.words.amounts import fixed_number

INCH = Fraction("25.4")


class Form(Struct, frozen=True):
    """The shape of a thread.

    `angle` is the angle between its flanks in degrees; `effective` and `minor` are how far the
    effective and the minor diameter lie below the nominal one, in pitches; `charted` is what drill
    charts count as full depth, on the diameter and in pitches.
    """

    name: str
    angle: Fraction
    effective: Fraction
    minor: Fraction
    charted: Fraction

    @property
    def spread(self) -> float:
        """How much an effective diameter seems to grow for an error of pitch of one: cot(angle / 2)."""
        return 1 / tan(radians(float(self.angle) / 2))


# BS 84: depth 0.640327 p, crests and roots rounded.
WHITWORTH = Form(
    "Whitworth", Fraction(55), Fraction("0.640327"), Fraction("1.280654"), Fraction("1.280654")
)
# ISO 68-1 and ASME B1.1: 3/8 and 5/8 of the height of the sharp triangle, on both sides. Drill charts
# count 3/4 of it, the depth of the screw.
ISO = Form("ISO", Fraction(60), Fraction("0.649519"), Fraction("1.082532"), Fraction("1.299038"))
# BS 93: depth 0.6 p.
BA = Form("BA", Fraction("47.5"), Fraction("0.6"), Fraction("1.2"), Fraction("1.2"))
# BS 811: depth 0.5327 p.
CYCLE = Form("cycle", Fraction(60), Fraction("0.5327"), Fraction("1.0654"), Fraction("1.0654"))


class Thread(Struct, frozen=True):
    """A thread of a standard series: `name` as the trade says it, nominal diameter and pitch in mm.

    `tpi` is the number of threads per inch of one that is told so, else nothing. `series` is the word
    for its series.
    """

    name: str
    series: str
    form: Form
    diameter: Fraction
    pitch: Fraction
    tpi: Fraction | None = None

    @property
    def effective(self) -> Fraction:
        """Effective (pitch) diameter."""
        return self.diameter - self.form.effective * self.pitch

    @property
    def minor(self) -> Fraction:
        """Minor diameter of the hole: its bore before the thread was cut to full depth."""
        return self.diameter - self.form.minor * self.pitch

    @property
    def pitch_words(self) -> str:
        """`22 threads per inch`, `1.25 mm pitch`."""
        if self.tpi is not None:
            return f"{plain(self.tpi, 2)} threads per inch"
        return f"{plain(self.pitch, 3)} mm pitch"

    def same_as(self, other: "Thread") -> bool:
        """Whether two threads are one under two names: 1/4 BSF and 1/4 brass."""
        mine, theirs = ((t.form, t.diameter, t.pitch) for t in (self, other))
        return mine == theirs

    # ISO 965-1:1998, clause 13, in micrometres there. The table of the standard rounds these values.

    @property
    def allowance(self) -> float:
        """How far a screw is made below its nominal size at the least (deviation g)."""
        return (15 + 11 * float(self.pitch)) / 1000

    @property
    def screw_tolerance(self) -> float:
        """Tolerance of a screw's effective diameter (grade 6)."""
        return float(90 * float(self.pitch) ** 0.4 * float(self.diameter) ** 0.1 / 1000)

    @property
    def hole_tolerance(self) -> float:
        """Tolerance of a hole's effective diameter (grade 6)."""
        return 1.32 * self.screw_tolerance

    @property
    def crest_tolerance(self) -> float:
        """Tolerance of a screw's outside diameter (grade 6)."""
        pitch = float(self.pitch)
        return float((180 * pitch ** (2 / 3) - 3.15 / pitch**0.5) / 1000)

    @property
    def bore_tolerance(self) -> float:
        """Tolerance of a hole's minor diameter (grade 6)."""
        pitch = float(self.pitch)
        if pitch < 1:
            return float((433 * pitch - 190 * pitch**1.22) / 1000)
        return float(230 * pitch**0.7 / 1000)


def plain(value: Fraction, places: int) -> str:
    """A number with no more decimals than it needs."""
    told = fixed_number(value, places)
    return told.rstrip("0").rstrip(".") if "." in told else told

"""Cables: the drop of published examples, and the ratings and resistances of published tables."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.bench.base.cables import CABLES, resistance
from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        # 2 x 18 m x 2.1 A / (56 x 0.6 V) = 2.25, "go with the standard cross-section of 2.5 mm2".
        "25 W position lamp on a mast, svb-media.de, electric wire and terminals",
        {"current": "2.1 A", "length": "18 m", "return": "cable", "share": "5 %", "temperature": "20 C", "laid": "alone"},
        {"least": "2.25 mm2", "area": "2.50 mm2"},
    ),
    Example(
        # 1 A x (2 x 20 m x 0.01785 / 1.3) = 0.549 V.
        "16 AWG over 20 m, doityourselfsolarenergyprojects.blogspot.com, Calculating voltage drop on 12 volt",
        {"current": "1 A", "length": "20 m", "return": "cable", "temperature": "20 C", "fitted": "1.3 mm2"},
        {"fitted-drop": "0.549 V"},
    ),
    Example(
        # 500 / 13.8 = 36.2 A.
        "Amplifier of 500 W at 13.8 V, hotrod.com/how-to/0804rc-electrical-current",
        {"power": "500 W", "voltage": "13.8 V", "length": "1 m"},
        {"load": "36.2 A"},
    ),
)  # fmt: skip

# Strands, mm2, ohm for a metre at 20 C, A and volts dropped over 5 m at that current: rydertowing.co.uk,
# guidance on choice and use of cable.
RYDER = (
    ("9/0.30", "0.65", "0.0294", "5.75", "0.845"), ("14/0.30", "1", "0.0189", "8.75", "0.827"),
    ("21/0.30", "1.5", "0.0125", "12.75", "0.797"), ("28/0.30", "2", "0.0094", "17.5", "0.823"),
    ("35/0.30", "2.5", "0.0075", "21.75", "0.816"), ("44/0.30", "3", "0.0060", "25.5", "0.765"),
)  # fmt: skip
# mm2 and the most that a metre of fine-stranded plain copper may resist at 20 C, in milliohm: IEC 60228,
# class 5 (mycableengineering.com/knowledge-base/iec-60228-dc-resistance).
CLASS_5 = {"0.5": 39.0, "0.75": 26.0, "1": 19.5, "1.5": 13.3, "2.5": 7.98, "4": 4.95, "6": 3.30, "10": 1.91, "16": 1.21, "25": 0.78}  # fmt: skip
# Factor from resistance at a temperature back to 20 C: IEC 60228 (uecables.com/471).
TO_20 = {5: 1.064, 40: 0.926, 60: 0.862, 80: 0.806}

BASE = {"power": "110 W", "length": "3.5 m", "drop": "0.3 V"}


def _exact(written: dict[str, str], name: str) -> Fraction:
    results = {r.name: r.exact for r in answer_of("cable-size", written).worked.results}
    return Fraction(results[name] or 0)


def test_ratings__are_those_of_the_table() -> None:
    told = {c.strands: (c.area, c.rating) for c in CABLES["standard"]}
    assert {s: (Fraction(a), Fraction(amps)) for s, a, _, amps, _ in RYDER} == {
        s: told[s] for s, *_ in RYDER
    }


@pytest.mark.parametrize(("strands", "area", "ohm", "amps", "volts"), RYDER)
def test_drop__warm_is_that_of_the_table_or_a_little_more(
    strands: str, area: str, ohm: str, amps: str, volts: str
) -> None:
    written = {"current": f"{amps} A", "length": "5 m", "fitted": f"{area} mm2", "laid": "alone"}
    assert pytest.approx(float(volts), rel=0.08) == float(_exact(written, "fitted-drop"))
    assert pytest.approx(float(ohm), rel=0.08) == float(resistance(Fraction(area), Fraction(1), Fraction(40)))  # fmt: skip


def test_copper__resists_no_more_than_the_standard_allows() -> None:
    for area, most in CLASS_5.items():
        milliohm = 1000 * float(resistance(Fraction(area), Fraction(1), Fraction(20)))
        assert 0.88 * most < milliohm <= most


def test_copper__grows_with_warmth_as_the_standard_says() -> None:
    one = Fraction(1)
    for warm, factor in TO_20.items():
        share = resistance(one, one, Fraction(20)) / resistance(one, one, Fraction(warm))
        assert pytest.approx(factor, rel=0.005) == float(share)


def test_cables__get_thicker_and_carry_more() -> None:
    for cables in CABLES.values():
        assert [c.area for c in cables] == sorted({c.area for c in cables})
        assert [c.rating for c in cables] == sorted({c.rating for c in cables})


def test_verdict__says_what_decides() -> None:
    told = [
        answer_of("cable-size", written).worked.verdict
        for written in (
            BASE,
            {"current": "22 A", "length": "8 ft"},
            BASE | {"fitted": "2 mm2"},
            BASE | {"fitted": "3 mm2"},
        )
    ]
    assert [
        "35/0.30, 2.5 mm2 is the thinnest that will do, for the drop.",
        "65/0.30, 4.5 mm2 is the thinnest that will do, to carry the load.",
        "The cable of 2 mm2 that is there is too thin: 35/0.30, 2.5 mm2 is the thinnest that will do, for the drop.",
        "The cable of 3 mm2 that is there will do.",
    ] == told


def test_six_volts__need_four_times_the_copper() -> None:
    """For the same lamp twice the current, and half the volts to lose in it."""
    at = {v: _exact({"power": "55 W", "voltage": f"{v} V", "length": "2 m", "share": "4 %"}, "least") for v in (6, 12)}  # fmt: skip
    assert at[6] == 4 * at[12]


@given(st.integers(1, 80), st.integers(1, 60), st.integers(1, 4))
def test_copper__needed_grows_with_current_and_length(amps: int, metres: int, more: int) -> None:
    def least(current: int, length: int) -> Fraction:
        return _exact({"current": f"{current} A", "length": f"{length / 10} m", "drop": "5 V"}, "least")  # fmt: skip

    assert least(amps, metres) < least(amps + more, metres)
    assert least(amps, metres) < least(amps, metres + more)


@pytest.mark.parametrize(
    ("wrong", "mistake"),
    [
        ({"length": "2 m"}, "power is missing; give the power of the load in W, as stamped on the bulb, or its current in A"),
        (BASE | {"drop": "3 m"}, 'drop must be a voltage, found "3 m"; write it in V'),
        (BASE | {"drop": "9 V", "voltage": "6 V"}, "drop must be less than the voltage; 0.3 to 0.5 V is usual at 12 V"),
        (BASE | {"laid": "in air"}, 'laid cannot be "in air"; write loom or alone'),
        (
            {"current": "600 A", "length": "20 m"},
            "length asks with this load for more than any cable known here, 482 mm2 and 600 A; bring the battery nearer, allow more drop, or split the load",
        ),
    ],
)  # fmt: skip
def test_mistake__is_one_sentence(wrong: dict[str, str], mistake: str) -> None:
    assert [mistake] == mistakes_of("cable-size", wrong)

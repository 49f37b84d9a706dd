"""Coil springs: modulus, wire to the fourth, eight times diameter cubed and coils."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        # D = 0.4375 - 0.037 = 0.4 in, 10.5 coils work: 11.85e6 x 0.037^4 / (8 x 0.4^3 x 10.5).
        "J. E. Shigley, Mechanical Engineering Design, example on a spring of 0.037 in music wire (from memory): 4.13 lbf/in, index 10.8",
        {
            "wire": "0.037 in", "outside": "0.437 in", "coils": "12.5", "modulus": "11850000 psi",
        },
        {"rate": "4.13 lbf/in", "index": "10.8"},
    ),
    Example(
        # D = 26 mm, 9 coils work: 79300 x 256 / (8 x 17576 x 9) = 16.04.
        "Examination question (mis.kyeop.go.ke 50917770): 4 mm wire, 11 coils, 30 mm outside, G 79.3 GPa; answered by hand",
        {"wire": "4 mm", "outside": "30 mm", "coils": "11", "modulus": "79300 MPa"},
        {"rate": "16.04 N/mm", "index": "6.5", "solid": "44 mm"},
    ),
    Example(
        "Calculating the load (planetspring.com): free 0.750 in, 22 lbf/in, 5.5 lbf at 0.500 in; the wire worked backwards by hand",
        {
            # 22 lbf/in = 11.5e6 x 0.0625^4 / (8 x 0.4^3 x n) gives n = 15.578.
            "wire": "0.0625 in", "outside": "0.4625 in", "coils": "15.578", "ends": "open",
            "modulus": "11500000 psi", "free": "0.750 in", "fitted": "0.500 in",
        },
        {"rate": "22 lbf/in", "load": "5.5 lbf"},
    ),
)  # fmt: skip

SPRING = {"wire": "10 mm", "outside": "110 mm", "coils": "8"}


def _exact(written: dict[str, str]) -> dict[str, Fraction]:
    worked = answer_of("coil-spring", written).worked
    return {r.name: Fraction(r.exact) for r in worked.results if r.exact is not None}


@given(st.integers(50, 150))
def test_rate__grows_with_the_wire_to_the_fourth(tenths: int) -> None:
    # One mean diameter of 100 mm; the wire in tenths of a millimetre.
    def rate(wire: int) -> Fraction:
        written = {"wire": f"{wire / 10} mm", "outside": f"{100 + wire / 10} mm", "coils": "8"}
        return _exact(written)["rate"]

    assert rate(tenths) * 2**4 == rate(2 * tenths)


@given(st.integers(3, 20))
def test_rate__halves_with_twice_the_coils_that_work(coils: int) -> None:
    one, two = (
        _exact(SPRING | {"coils": str(n), "ends": "open"})["rate"] for n in (coils, 2 * coils)
    )
    assert one == 2 * two


def test_factor__of_wahl() -> None:
    # (4 x 8 - 1) / (4 x 8 - 4) + 0.615 / 8 = 1.184 (tables of handbooks, from memory); 8 F D / (pi d^3)
    # with 1000 N, 80 mm and 10 mm is 203.7 N/mm2.
    exact = _exact({"wire": "10 mm", "outside": "90 mm", "coils": "8", "load": "1000 N"})
    assert pytest.approx(1.184 * 203.72, rel=1e-3) == float(exact["stress"])


def test_load_and_length__follow_from_each_other() -> None:
    by_length = _exact(SPRING | {"free": "300 mm", "fitted": "220 mm"})
    load = by_length["load"]
    by_load = _exact(SPRING | {"free": "300 mm", "load": f"{float(load):.9f} N"})
    assert pytest.approx(220) == float(by_load["loaded"])


def test_ends__that_are_not_ground_stand_one_wire_higher() -> None:
    assert 10 == _exact(SPRING | {"ground": "no"})["solid"] - _exact(SPRING)["solid"]


def test_spring__that_closes_is_told() -> None:
    worked = answer_of("coil-spring", SPRING | {"free": "200 mm", "load": "9000 N"}).worked
    assert worked.right is False
    # 78500 x 10^4 / (8 x 100^3 x 6) = 16.35 N/mm; 9000 / 16.35 is more than 200 mm.
    assert (
        "The spring has a rate of 16.4 N/mm and is closed solid before it carries 9000 N."
        == worked.verdict
    )
    assert worked.warnings[0].startswith("The stress at that load is more than 700 MPa")


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ({"wire": "30 mm"}, "wire is too thick for such a spring; write the diameter over the coils as outside, and that of the wire as wire"),
        ({"coils": "2"}, "coils must be more than those of the ends that do not work; count all coils from end to end"),
        ({"free": "200 mm", "fitted": "210 mm"}, "fitted must be shorter than free; measure both again"),
        ({"fitted": "210 mm"}, "free is not told; measure the spring off the car, or leave fitted out"),
        ({"free": "300 mm", "fitted": "210 mm", "load": "1 kN"}, "fitted is told and load too; write one of them; the other follows"),
    ],
)  # fmt: skip
def test_spring__that_cannot_be_is_refused(written: dict[str, str], told: str) -> None:
    assert [told] == mistakes_of("coil-spring", SPRING | written)

"""Leaf springs: thickness cubed, three times for a leaf of full length and twice for a graduated one."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

# Semi-elliptical vehicle spring (tutorsglobe.com 5284047, after Khurmi and Gupta): 6000 N, seven leaves
# 65 mm wide, two of full length, 1.1 m, 80 mm held as by a band, stress 350 MPa.
KHURMI = {
    "length": "1.1 m", "width": "65 mm", "leaves": "7", "full": "2", "clamped": "80 mm",
    "clamp": "band", "load": "6000 N", "modulus": "210000 MPa",
}  # fmt: skip

EXAMPLES = (
    Example(
        # 18 W L / (b t^2 (2 nG + 3 nF)) = 18 x 3000 x 510 / (65 x 8.7^2 x 16) = 349.8 MPa.
        "Vehicle spring (tutorsglobe.com 5284047), by hand: leaves of 8.7 mm have a stress of 350 MPa",
        KHURMI | {"thickness": "8.7 mm"},
        {"stress": "350 MPa"},
    ),
    Example(
        # 12 x 3000 x 510^3 / (210000 x 65 x 9^3 x 16) = 29.99 mm.
        "Vehicle spring (tutorsglobe.com 5284047), by hand: leaves of 9 mm bend by 30 mm (Khurmi prints 30, from memory)",
        KHURMI | {"thickness": "9 mm"},
        {"bends": "30.0 mm"},
    ),
    Example(
        # 8 x 30e6 x 5 x 2.5 x 0.25^3 / (3 x 50^3) = 125.0 lbf/in.
        "Leaf spring stiffness, semi-elliptic laminated (piping-designer.com): 8 E n w t^3 / (3 l^3), by hand",
        {
            "length": "50 in", "width": "2.5 in", "leaves": "5", "full": "0", "thickness": "0.25 in",
            "modulus": "30000000 psi",
        },
        {"rate": "125.0 lbf/in"},
    ),
    Example(
        # Two cantilevers of n equal leaves side by side: 2 x 3 E n I / L^3, I = b t^3 / 12:
        # 2 x 3 x 200000 x 4 x (60 x 512 / 12) / 500^3 = 98.3 N/mm.
        "Multi-leaf spring of equal leaves (novasolver.jp): k = 3 E n I / L^3 at each end, by hand",
        {
            "length": "1000 mm", "width": "60 mm", "leaves": "4", "full": "4", "thickness": "8 mm",
            "modulus": "200000 MPa",
        },
        {"rate": "98.3 N/mm"},
    ),
)  # fmt: skip


def _exact(written: dict[str, str]) -> dict[str, Fraction]:
    worked = answer_of("leaf-spring", written).worked
    return {r.name: Fraction(r.exact) for r in worked.results if r.exact is not None}


SPRING = {"length": "1000 mm", "width": "45 mm", "leaves": "6", "thickness": "6 mm"}


@given(st.integers(20, 100), st.integers(1, 6), st.integers(1, 40))
def test_leaves__that_are_told_for_a_rate_have_it(tenths: int, full: int, more: int) -> None:
    written = SPRING | {"thickness": f"{tenths / 10} mm", "full": str(full)}
    now = _exact(written)["rate"]
    wanted = f"{float(now) * (1 + more / 10):.6f} N/mm"
    if not 1 < float(now) * (1 + more / 10) < 500:
        return
    found = _exact(written | {"wanted": wanted})
    each = _exact(written | {"thickness": f"{float(found['each']):.9f} mm"})["rate"] if 2 <= found["each"] <= 25 else None  # fmt: skip
    if each is not None:
        assert float(wanted.split()[0]) == pytest.approx(float(each), rel=1e-6)
    if 2 <= found["more"] <= 25:
        leaves = ", ".join([f"{tenths / 10} mm"] * 6 + [f"{float(found['more']):.9f} mm"])
        pack = _exact(written | {"leaves": "7", "thickness": leaves})["rate"]
        assert float(wanted.split()[0]) == pytest.approx(float(pack), rel=1e-6)


def test_leaf__alone_counts_the_more_the_thicker_it_is() -> None:
    thin = _exact(SPRING | {"thickness": "6, 6, 6, 6, 6, 4 mm"})["rate"]
    assert thin < _exact(SPRING)["rate"] < _exact(SPRING | {"thickness": "7 mm"})["rate"]


def test_clamp__by_bolts_leaves_a_third_of_its_length_to_work() -> None:
    # 1000 - 2/3 x 90 = 940 and 1000 - 90 = 910; rates go with the cube.
    bolts, band = (
        _exact(SPRING | {"clamped": "90 mm", "clamp": clamp})["rate"] for clamp in ("bolts", "band")
    )
    assert Fraction(940, 910) ** 3 == band / bolts


def test_verdict__tells_how_thick_a_leaf_must_be() -> None:
    # 206000 x 45 x (3 + 2 x 5) x 216 / (6 x 500^3) = 34.7 N/mm; t^3 = 5.29 / (206000 x 45 / 7.5e8) / 2.
    worked = answer_of("leaf-spring", SPRING | {"wanted": "40 N/mm"}).worked
    assert (
        "The spring has a rate of 34.7 N/mm. For 40.0 N/mm one more graduated leaf of 5.98 mm does it, or every leaf of 6.29 mm."
    ) == worked.verdict


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ({"thickness": "6, 6 mm"}, "thickness must be one for all, or one for each of 6 leaves, found 2; write them from the main leaf down"),
        ({"full": "7"}, "full must be no more than all 6 leaves; count those that reach both eyes"),
        ({"length": "500 mm", "clamped": "400 mm"}, "clamped leaves less than half of the length to work; measure between the U-bolts only"),
    ],
)  # fmt: skip
def test_spring__that_cannot_be_is_refused(written: dict[str, str], told: str) -> None:
    assert [told] == mistakes_of("leaf-spring", SPRING | written)

"""Shim packs: exact, the fewest there are, and never more of a size than the drawer holds."""

from fractions import Fraction
from itertools import pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import LinearConstraint, milp

from journal.bench.shim_pack import Packs, TooFine, packs_from
from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        # Reading 1.93, standard 0.11 to 0.17 mm: 1.93 - 0.14 = 1.79, and "the 1.80 mm shim is best".
        "Thrust clearance of a mainshaft, Honda Civic workshop manual, stored at garethcivicshopmanual.z21.web.core.windows.net",
        {"target": "1.79 mm", "tolerance": "0.03 mm", "shims": "1.75 mm; 1.80; 1.85; 1.90"},
        {"pack": "1 of 1.80 mm", "thickness": "1.80 mm", "off": "0.01 mm"},
    ),
    Example(
        # 75.01 - 4.48 - 15.0 - 55 = 0.53, told to be rounded to 0.55; shims of six thicknesses are supplied.
        "Middle drive pinion shims, Yamaha YFM400FAR service manual, page 450 (manualarchiveguide.com)",
        {
            "target": "0.55 mm", "tolerance": "0 mm",
            "shims": "0.10 mm x 1, 0.15 x 1, 0.20 x 1, 0.30 x 1, 0.40 x 1, 0.50 x 1",
        },
        {"pack": "1 of 0.40 mm and 1 of 0.15 mm", "pieces": "2", "thickness": "0.55 mm"},
    ),
    Example(
        # Measuring shim 1.00 + end float 0.32 - preload 0.05 = 1.27; supplied in steps of 0.01 mm.
        "Input shaft shim of a Mercury Cougar 2.5 manual transaxle, shim selection table (fixxvault.xnetik.us)",
        {
            "target": "1.27 mm", "tolerance": "0.005 mm",
            "shims": ", ".join(f"{n / 100:.2f} mm x 1" for n in range(115, 172)),
        },
        {"pieces": "1", "thickness": "1.27 mm", "off": "0.00 mm"},
    ),
    Example(
        # Coins of 1, 3 and 4: taking the largest first needs three for 6, two of 3 do.
        "Change-making problem, the usual textbook case where taking the largest first fails (from memory)",
        {"target": "6 mm", "tolerance": "0 mm", "shims": "1 mm x 9, 3 x 9, 4 x 9"},
        {"pack": "2 of 3.00 mm", "pieces": "2"},
    ),
)  # fmt: skip

Drawer = list[tuple[Fraction, int]]
sizes = st.integers(1, 60).map(lambda n: Fraction(n, 100))
drawers = st.lists(st.tuples(sizes, st.integers(0, 3)), min_size=1, max_size=5)
targets = st.integers(0, 300).map(lambda n: Fraction(n, 100))
tolerances = st.integers(0, 12).map(lambda n: Fraction(n, 200))


def _every(drawer: Drawer) -> list[tuple[int, Fraction]]:
    """The pieces and the thickness of every pack there is, tried one by one."""
    ways = product(*(range(count + 1) for _, count in drawer))
    return [
        (sum(way), sum((n * size for n, (size, _) in zip(way, drawer, strict=True)), Fraction(0)))
        for way in ways
    ]


def _held(drawer: Drawer, packs: Packs) -> bool:
    held: dict[Fraction, int] = {}
    for size, count in drawer:
        held[size] = held.get(size, 0) + count
    every = [*packs.best, *filter(None, (packs.under, packs.over))]
    return all(count <= held[size] for pack in every for size, count in pack.shims)


@given(drawers, targets, tolerances)
def test_best__is_that_of_all_packs_tried_one_by_one(
    drawer: Drawer, target: Fraction, tolerance: Fraction
) -> None:
    if not any(count for _, count in drawer):
        return
    packs = packs_from(drawer, target, tolerance)
    assert _held(drawer, packs)
    within = [
        (n, abs(total - target)) for n, total in _every(drawer) if abs(total - target) <= tolerance
    ]
    told = [(pack.pieces, abs(pack.thickness - target)) for pack in packs.best]
    assert sorted(within)[:1] == told[:1]
    assert told == sorted(told)
    assert all(off > closer for (_, off), (_, closer) in pairwise(told))


@given(drawers, targets, tolerances)
def test_nearest__are_told_when_no_pack_keeps_the_tolerance(
    drawer: Drawer, target: Fraction, tolerance: Fraction
) -> None:
    if not any(count for _, count in drawer):
        return
    packs = packs_from(drawer, target, tolerance)
    if packs.best:
        return
    some = [total for n, total in _every(drawer) if n]
    under = max((total for total in some if total < target), default=None)
    over = min((total for total in some if total > target), default=None)
    assert (under, over) == tuple(p.thickness if p else None for p in (packs.under, packs.over))


@given(
    st.lists(st.tuples(st.integers(3, 90), st.integers(1, 10)), min_size=8, max_size=30),
    st.integers(50, 900),
)
def test_fewest__agrees_with_a_library_of_integer_programming(
    drawer: list[tuple[int, int]], target: int
) -> None:
    """scipy's `milp` for the same question, in hundredths, on drawers too large to try every pack."""
    found = milp(
        [1] * len(drawer),
        integrality=[1] * len(drawer),
        bounds=([0] * len(drawer), [count for _, count in drawer]),
        constraints=LinearConstraint([[size for size, _ in drawer]], target - 1, target + 1),
    )
    packs = packs_from(
        [(Fraction(size, 100), count) for size, count in drawer],
        Fraction(target, 100),
        Fraction(1, 100),
    )
    if found.x is None or round(found.fun) > 24:
        assert () == packs.best
    else:
        assert round(found.fun) == packs.best[0].pieces


def test_pack__of_thin_shims_is_left_for_a_thicker_one() -> None:
    # 0.30 is 0.10 + 0.20 or 0.15 + 0.15: the thin one stays in the drawer.
    (best,) = packs_from(
        [(Fraction(n, 100), 2) for n in (10, 20, 15)], Fraction(30, 100), Fraction(0)
    ).best
    assert ((Fraction(15, 100), 2),) == best.shims


def test_drawer__of_thirty_sizes_in_thou_and_mm_is_searched_exactly() -> None:
    drawer = [(Fraction(n, 100), 10) for n in range(5, 20)]
    drawer += [(Fraction(n) * Fraction("0.0254"), 10) for n in range(2, 17)]
    best = packs_from(drawer, Fraction("2.4837"), Fraction("0.0001")).best
    assert best
    assert all(abs(pack.thickness - Fraction("2.4837")) <= Fraction("0.0001") for pack in best)


def test_measure__that_is_finer_than_any_micrometer_is_refused() -> None:
    with pytest.raises(TooFine):
        packs_from([(Fraction("0.123456789"), 3), (Fraction("0.1"), 1)], Fraction(1), Fraction(0))
    assert [
        "shims have thicknesses too fine to be added up exactly; write them to 0.001 mm or 0.1 thou"
    ] == mistakes_of(
        "shim-pack",
        {"target": "1 mm", "tolerance": "0 mm", "shims": "0.123456789 mm; 0.1 mm"},
    )


def test_verdict__names_the_nearest_packs_when_the_drawer_has_none() -> None:
    worked = answer_of(
        "shim-pack", {"target": "0.50 mm", "tolerance": "0.01 mm", "shims": "0.10 mm x 2, 0.35 x 2"}
    ).worked
    assert worked.right is False
    assert (
        "No pack from this drawer keeps the tolerance; the nearest are 1 of 0.35 mm and 1 of 0.10 mm "
        "(0.45 mm, 0.05 mm under) and 1 of 0.35 mm and 2 of 0.10 mm (0.55 mm, 0.05 mm over)."
    ) == worked.verdict


def test_drawer__may_be_written_in_three_ways() -> None:
    rest = {"target": "0.40 mm", "tolerance": "0 mm"}
    ways = ("0.10 mm x 2, 0.20 x 1", "0.10 mm x 2; 0.20 x 1", "0.10 mm: 2; 0.20 mm: 1")
    answers = {answer_of("shim-pack", rest | {"shims": way}).worked.verdict for way in ways}
    assert 1 == len(answers)

"""Centring: half the difference of the gaps, which way, and what shims cannot do."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        # A dial swept round a rim: zero at the top, 0.020 in at the foot. "Divide the total indicator
        # reading by two to obtain the exact amount of shaft offset."
        "Carrier 17/19EX manual, page 216, adjustment (manualsdump.com/en/manuals/carrier-17-19ex/75349/216)",
        {"one": "0.020 in", "other": "0 in", "tolerance": "0.001 in"},
        {"offset": "0.010 in"},
    ),
    Example(
        # The same page: parallel alignment within 0.002 full reading is an offset of 0.001.
        "Carrier 17/19EX manual, page 216, tolerance of parallel alignment",
        {"one": "2 thou", "other": "0 thou", "tolerance": "1 thou"},
        {"offset": "1.0 thou"},
    ),
    Example(
        # 70 and 50 thou: half of the 20 between them, and 60 is left on either side.
        "Common practice, no source: half the difference of the two gaps is the shim.",
        {"one": "70 thou", "other": "50 thou", "tolerance": "5 thou"},
        {"offset": "10 thou", "shim": "10 thou", "gap": "60 thou", "scatter": "0 thou"},
    ),
)

WIDE_ON_ONE = {"one": "1.60 mm", "other": "1.10 mm", "tolerance": "0.10 mm"}


def _told(written: dict[str, str]) -> dict[str, str]:
    return {r.name: r.words for r in answer_of("centring", written).worked.results}


def test_caliper__that_is_shimmed_away_from_its_lug_closes_the_gap_there() -> None:
    told = _told(WIDE_ON_ONE | {"mounted": "one"})
    assert ("away from its mounting: add shims", "0.25 mm") == (told["move"], told["shim"])


def test_axle__between_its_arches_moves_the_other_way() -> None:
    told = _told(WIDE_ON_ONE | {"mounted": "one", "moves": "middle"})
    assert ("towards its mounting: no shim can do it alone", "0.25 mm") == (
        told["move"],
        told["metal"],
    )


def test_shims__are_taken_out_before_metal_is_taken_off() -> None:
    told = _told(WIDE_ON_ONE | {"mounted": "other", "fitted": "0.10 mm"})
    assert ("0.10 mm", "0.15 mm") == (told["less"], told["metal"])
    told = _told(WIDE_ON_ONE | {"mounted": "other", "fitted": "0.40 mm"})
    assert "0.25 mm" == told["less"]
    assert "metal" not in told


def test_verdict__says_what_brings_it_central() -> None:
    worked = answer_of("centring", WIDE_ON_ONE).worked
    assert worked.right is False
    assert (
        "Out of centre by more than 0.10 mm: the gap is wider on the first side. "
        "Shims of 0.25 mm under the mounting bring it central." == worked.verdict
    )


def test_readings__that_scatter_more_than_the_tolerance_are_not_averaged_away() -> None:
    worked = answer_of(
        "centring", {"one": "1.0, 1.4 mm", "other": "1.2, 1.0 mm", "tolerance": "0.1 mm"}
    ).worked
    # The centre is 0.1 to one side at the first point and 0.2 to the other at the second.
    assert "0.30 mm" == {r.name: r.words for r in worked.results}["scatter"]
    assert worked.right is False
    assert (
        "The centre differs by 0.30 mm from point to point, more than the tolerance of 0.1 mm: the faces are not "
        "parallel, or something is bent or dirty. A shim of one thickness cannot put that right; find the reason first."
    ) == worked.warnings[0]  # fmt: skip


def test_run_out__eats_into_the_gap_by_half() -> None:
    # (1.6 + 1.1) / 2 = 1.35 is left on either side, less half of 0.30.
    told = _told(WIDE_ON_ONE | {"run-out": "0.30 mm"})
    assert "1.20 mm" == told["gap"]


def test_sides__are_read_at_the_same_points() -> None:
    wrong = {"one": "1.6, 1.5 mm", "other": "1.1 mm", "tolerance": "0.1 mm"}
    assert [
        "other must be read at the same points as one, found 1 and 2; read both sides at every point"
    ] == mistakes_of("centring", wrong)


def test_unit__that_measures_something_else_gives_one_clear_sentence() -> None:
    assert [
        'tolerance must be a length, found "12 psi"; write it in mm, in or thou'
    ] == mistakes_of("centring", WIDE_ON_ONE | {"tolerance": "12 psi"})


hundredths = st.integers(0, 400).map(lambda n: Fraction(n, 100))
points = st.lists(st.tuples(hundredths, hundredths), min_size=1, max_size=6)


@given(points, hundredths)
def test_part__stands_central_once_it_is_moved_as_told(
    gaps: list[tuple[Fraction, Fraction]], shift: Fraction
) -> None:
    """Whoever moves the part around by the offset finds both mean gaps the same."""
    written = {
        "one": ", ".join(f"{float(a):.2f} mm" for a, _ in gaps),
        "other": ", ".join(f"{float(b):.2f} mm" for _, b in gaps),
        "tolerance": "0 mm",
    }
    worked = answer_of("centring", written).worked
    offset = next(r.exact for r in worked.results if r.name == "offset")
    wider_on_one = sum(a for a, _ in gaps) > sum(b for _, b in gaps)
    moved = Fraction(offset or 0) if wider_on_one else -Fraction(offset or 0)
    assert sum(a - moved for a, _ in gaps) == sum(b + moved for _, b in gaps)

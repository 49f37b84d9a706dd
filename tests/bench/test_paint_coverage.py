"""Coverage: what data sheets print, and paint that grows with area, film and loss."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        "28 % solids at 18 micron cover 15.55 m2 for a litre, promain.co.uk, Theoretical coverage rates (15.5556, printed cut)",
        {"area": "10 m2", "solids": "28 %", "dry": "18 micron"},
        {"covers": "15.56 m2"},
    ),
    Example(
        "65 % solids at 125 micron cover 5.2 m2 for a litre, scribd.com/document/343849341, Theoretical spreading rate",
        {"area": "10 m2", "solids": "65 %", "dry": "125 micron"},
        {"covers": "5.2 m2"},
    ),
    Example(
        # 50 / 1.1 = 45.45 %; 45.45 x 10 / 60 = 7.57 (7.576, printed cut); 7.57 less 30 % = 5.299.
        "50 % solids thinned by 10 %, 60 micron, a loss of 30 %, sorwarchem.blogspot.com 2022-04",
        {"area": "10 m2", "solids": "50 %", "dry": "60 micron", "thinner": "10 %", "lands": "70 %"},
        {"covers": "7.58 m2", "really": "5.30 m2"},
    ),
    Example(
        # 100 / 0.65 = 153.8.
        "100 micron dry at 65 % solids, what wet film?, leighspaints.com, estimation of paint coverage",
        {"area": "10 m2", "solids": "65 %", "dry": "100 micron"},
        {"wet": "154 micron"},
    ),
)

CAR = {"area": "6 m2", "solids": "40 %", "dry": "25 micron", "lands": "60 %", "spare": "10 %"}


def _exact(written: dict[str, str], name: str) -> Fraction:
    results = {r.name: r.exact for r in answer_of("paint-coverage", written).worked.results}
    return Fraction(results[name] or 0)


def test_panels__are_added_with_all_their_faces() -> None:
    # 1.2 x 1.1 + 2 x 1.1 x 0.7 = 1.32 + 1.54.
    worked = answer_of(
        "paint-coverage",
        {"panels": "bonnet: 1.2 m, 1.1 m; door: 1.1 m, 0.7 m, 2", "tin": "10 m2", "spare": "0 %", "lands": "50 %", "coats": "3"},
    ).worked  # fmt: skip
    assert "2.86 m2 (30.8 sq ft)" == f"{worked.results[0].words} ({worked.results[0].other})"
    # 2.86 / (10 x 0.5) x 3 = 1.716 l.
    assert (
        ("bonnet", "1.32 m2", "0.264 l", "0.792 l"),
        ("door", "1.54 m2", "0.308 l", "0.924 l"),
    ) == worked.grids[0].rows
    assert (
        "1.716 l ready to spray for 3 coats on 2.86 m2, with what misses the panel and 0 % to spare."
        == worked.verdict
    )


def test_thinner__is_told_apart_from_paint() -> None:
    # Of 1.2 parts, one is paint.
    thinned = CAR | {"thinner": "20 %"}
    assert _exact(thinned, "unthinned") == 5 * _exact(thinned, "thinner")
    # It changes neither the solids that are needed nor, therefore, the paint to buy.
    assert _exact(thinned, "unthinned") == _exact(CAR, "ready")


def test_film__that_runs_is_told() -> None:
    worked = answer_of("paint-coverage", CAR | {"dry": "80 micron"}).worked
    assert (
        "More than 150 micron wet in a coat runs on an upright panel: plan more and thinner coats.",
    ) == worked.warnings


@pytest.mark.parametrize(
    ("wrong", "mistake"),
    [
        ({"tin": "10 m2"}, "panels are missing; write them like bonnet: 1.2 m, 1.1 m; door: 1.1 m, 0.7 m, 2, or give the area of all"),
        ({"area": "6 m2", "dry": "25 micron"}, "solids is missing; give film and solids from the data sheet, or as tin what a litre covers"),
        (CAR | {"tin": "10 m2"}, "tin is one figure too many beside dry and solids; give what the tin covers, or film and solids"),
        (CAR | {"solids": "0.4"}, 'solids must be a share with its unit, found "0.4"; write 40 % or 0.4 %'),
    ],
)  # fmt: skip
def test_mistake__is_one_sentence(wrong: dict[str, str], mistake: str) -> None:
    assert [mistake] == mistakes_of("paint-coverage", wrong)


@given(st.integers(1, 40), st.integers(1, 5), st.integers(5, 90), st.integers(1, 9))
def test_paint__grows_with_area_and_coats_and_shrinks_with_what_lands(
    area: int, coats: int, lands: int, more: int
) -> None:
    def ready(m2: int, layers: int, share: int) -> Fraction:
        return _exact(CAR | {"area": f"{m2} m2", "coats": f"{layers}", "lands": f"{share} %"}, "ready")  # fmt: skip

    once = ready(area, coats, lands)
    assert ready(area, coats, lands + more) < once
    assert ready(area + more, coats, lands) == once * (area + more) / area
    assert ready(area, coats + more, lands) == once * (coats + more) / coats

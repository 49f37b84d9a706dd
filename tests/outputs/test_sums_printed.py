"""Bench sums on paper: in the dossier's settings and on a printed sheet, curves too."""

from fractions import Fraction
from pathlib import Path

import pytest
from msgspec.structs import replace

from journal.bench import SUM_NAMED
from journal.bench.base.given import Given
from journal.bench.base.worked import Curve, CurveLine, Worked
from journal.outputs.dossier import sheet
from tests.digests.test_sums import SHIMS
from tests.printing import small_dossier, small_view, text_in
from tests.writing import a_car, a_sheet

VERDICT = "2 of 0.15 mm and 1 of 0.12 mm come to 0.42 mm, just right."
CAR = a_car(
    {"gearbox/laygear": "first-fit"}, [a_sheet("2024-03-05", sums={"laygear-shims": SHIMS})]
)


def test_dossier__tells_what_was_worked_out_with_its_working(tmp_path: Path) -> None:
    text = text_in(small_dossier(CAR, tmp_path))
    assert "Worked out at the bench" in text
    assert VERDICT in text
    assert "fewest: 2 × 0.15 + 1 × 0.12 = 0.42 mm" in text
    assert "Caution: End float and preload" in text


def test_sheet__prints_a_curve_that_is_described(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    plain = SUM_NAMED["shim-pack"]

    def with_curve(given: Given) -> Worked:
        points = tuple((Fraction(n, 10), Fraction(n * n, 100)) for n in range(11))
        lines = tuple(CurveLine(label, points) for label in ("before", "after", "wanted", "by law"))
        return replace(plain.work(given), curves=(Curve("Share", "g", "%", lines),))

    monkeypatch.setitem(SUM_NAMED, "shim-pack", replace(plain, work=with_curve))
    # A figure without a description is refused by the standard that the file claims (PDF/UA-1).
    text = text_in(sheet(small_view(CAR), CAR.sheets[0].name).pdf(tmp_path))
    assert VERDICT in text
    assert all(label in text for label in ("before", "after", "wanted", "by law"))

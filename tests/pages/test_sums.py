"""Bench sums on pages: on the sheet with their working, by job on their own page, in print, in search."""

from fractions import Fraction
from html import unescape
from typing import Any

import html5lib
import pytest

from journal.bench.base.worked import Curve, CurveLine, Grid
from journal.outputs.theme import environment, theme_folder
from journal.pages.component import page_component
from journal.pages.dossier.book import Book
from journal.pages.dossier.plain import plain
from journal.pages.dossier.settings import settings
from journal.pages.searchdocs import documents
from journal.pages.sheet import page_sheet
from journal.pages.sumcurves import HEIGHT, drawn
from journal.pages.sums import page_sums
from journal.pages.sumwords import bound, table
from journal.pages.view import CarView, view_of
from journal.readers import car_for
from journal.words.vocabulary import Reader
from tests.digests.test_sums import SHIMS
from tests.writing import a_car, a_sheet

TEMPLATES = environment(theme_folder())
VERDICT = "2 of 0.15 mm and 1 of 0.12 mm come to 0.42 mm, just right."
LATER = {**SHIMS, "target": "0.30 mm", "note": "after the second strip"}


def _view(reader: Reader = Reader.WORKSHOP, sums: Any = None) -> CarView:
    first = a_sheet("2024-03-05", title="Shims", sums=sums or {"laygear-shims": SHIMS})
    again = a_sheet("2024-03-06", name="again", title="Again", sums={"laygear-shims": LATER})
    car = a_car({"gearbox/laygear": "first-fit"}, [first] if sums else [first, again])
    return view_of(car_for(reader, car), reader, pictures={})


def _shown(make: Any, view: CarView, which: int = 0) -> str:
    page = make(view)[which]
    printed = TEMPLATES.get_template(page.template).render(page.values)
    html5lib.HTMLParser(strict=True).parse(printed)
    return unescape(printed).replace("\N{NO-BREAK SPACE}", " ")


def test_sheet__shows_the_answer_with_its_working_and_what_stands_beside_it() -> None:
    shown = _shown(page_sheet, _view())
    for text in (
        VERDICT, "<li>fewest: 2 × 0.15 + 1 × 0.12 = 0.42 mm</li>", "<b>Limits.</b>", "<b>Caution.</b>",
        "<b>Source.</b>", "<dd>0.420 mm <small>16.5 thou</small></dd>", 'id="sum-laygear-shims"',
        "<dd><span>0.10 mm × 3</span><span>0.15 mm × 2</span><span>0.12 mm × 1</span></dd>",
    ):  # fmt: skip
        assert text in shown


def test_component__lists_its_sums_and_leads_to_their_working() -> None:
    shown = _shown(page_component, _view())
    assert 'href="../../sheets/2024-03-05-day.html#sum-laygear-shims"' in shown
    assert VERDICT in shown


def test_page__has_the_kept_sums_by_job_and_for_the_workshop_those_there_are() -> None:
    shown = _shown(page_sums, _view())
    assert (
        "Two sums worked out at the bench and kept with the day; figures and working stand there."
        in shown
    )
    assert "Fitting and shimming</h2>" in shown
    assert "What can be worked out" in shown
    assert "What can be worked out" not in _shown(page_sums, _view(Reader.OWNER))


def test_page__tells_of_an_answer_when_it_was_worked_out_again() -> None:
    shown = _shown(page_sums, _view())
    assert 1 == shown.count("worked out again on")
    assert (
        'again on <a href="sheets/2024-03-06-again.html#sum-laygear-shims">6 March 2024</a>'
        in shown
    )


@pytest.mark.parametrize(
    ("cells", "narrow"),
    [
        # 6 + 2, 6 + 2, 6 + 2 and 4 + 2 letters, heads broken between their words: 30.
        (("100 mm", "1554 N", "1554 N", "-2 N"), True),
        # The first column two letters wider: 32.
        (("1000 mm2", "1554 N", "1554 N", "-2 N"), False),
    ],
)
def test_table__that_a_telephone_has_room_for_stays_a_table(
    cells: tuple[str, ...], narrow: bool
) -> None:
    heads = ("Length", "Load", "By the line", "Off it by")
    assert narrow is table(Grid("Readings", heads, (cells,))).narrow


def test_page__says_when_nothing_is_kept() -> None:
    car = a_car({"gearbox/laygear": "first-fit"}, [a_sheet("2024-03-05")])
    shown = _shown(page_sums, view_of(car, Reader.OWNER, pictures={}))
    assert "Nothing is kept yet." in shown


def test_choice__is_told_by_its_meaning() -> None:
    centring = {
        "sum": "centring", "one": "62 thou", "other": "44 thou", "tolerance": "4 thou", "mounted": "other",
    }  # fmt: skip
    shown = _shown(page_sheet, _view(sums={"caliper": centring}))
    assert "<dd><span>on the other side</span></dd>" in shown
    assert 'class="sum-verdict hold"' in shown


def test_dossier__has_each_sum_as_it_was_worked_out_last() -> None:
    told = plain(settings(Book(_view())).values)
    (last,) = told["sums"]
    assert "After the second strip" == last["words"]["note"]
    assert ["thickness wanted", ["0.30\N{NO-BREAK SPACE}mm"]] == list(
        last["words"]["given"][0].values()
    )


def test_search__finds_a_sum_by_what_it_came_to() -> None:
    (found,) = [d for d in documents(_view()) if d.kind.one == "Bench sum"]
    assert ("Laygear shims", "sheets/2024-03-06-again.html#sum-laygear-shims") == (
        found.title,
        found.href,
    )
    assert "Shims of the best pack: 2 of 0.15 mm" in found.sentences


def test_figure__does_not_part_from_its_unit() -> None:
    assert "28\N{NO-BREAK SPACE}lbf ft, 1 of 0.18\N{NO-BREAK SPACE}mm, 3 minutes".replace(
        "3 min", "3\N{NO-BREAK SPACE}min"
    ) == bound("28 lbf ft, 1 of 0.18 mm, 3 minutes")
    assert "1 inlet: 4 of 6" == bound("1 inlet: 4 of 6")


def _curve(*points: tuple[Any, Any]) -> Curve:
    return Curve("Share", "g", "%", (CurveLine("before", points),))


def test_curve__lies_where_its_figures_say() -> None:
    # From 40 to 90 over 0 to 1: steps of 10 and of 0.2; the middle lies in the middle.
    shown = drawn(_curve((0, 40), (0.5, 65.0), (1, 90)))
    assert ["40", "50", "60", "70", "80", "90"] == [level.label for level in shown.levels]
    assert ["0", "0.2", "0.4", "0.6", "0.8", "1"] == [mark.label for mark in shown.axis]
    (line,) = shown.lines
    assert [("0", str(HEIGHT)), ("50", str(HEIGHT // 2))] == [(s.x1, s.y1) for s in line.strokes]
    assert ("100", "0") == (line.strokes[-1].x2, line.strokes[-1].y2)


@pytest.mark.parametrize(
    ("values", "levels"),
    [
        ((Fraction(1, 1000), Fraction(4, 1000)), ["0.001", "0.002", "0.003", "0.004"]),
        ((5, 5), ["5", "6"]),
        ((-3, 12_000), ["-5000", "0", "5000", "10000", "15000"]),
    ],
)
def test_curve__has_round_levels_whatever_its_size(values: Any, levels: list[str]) -> None:
    low, high = values
    assert levels == [level.label for level in drawn(_curve((0, low), (1, high))).levels]

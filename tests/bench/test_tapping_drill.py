"""Tapping drills: those of the charts, and the percentage that a drill leaves."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        # "#7 0.2010 in, 75 %", "#8 0.1990 in, 79 %", "13/64 0.2031 in, 72 %", "5.1 mm 76 %".
        "Tap drill size calculator for 1/4-20 UNC, zerosignuptools.com: theoretical hole 0.2013 in at 75 %",
        {"thread": "1/4 UNC", "drills": "inch", "drill": "0.1990 in"},
        {"hole": "0.2013 in", "drill": "no. 7", "depth": "75 %", "in-hand": "79 %"},
    ),
    Example(
        "The same page, 13/64 in in a 1/4-20 hole: 72 % of thread",
        {"thread": "1/4 UNC", "drills": "inch", "drill": "13/64 in"},
        {"in-hand": "72 %"},
    ),
    Example(
        # H = D - 1.08253 P q: 8 - 1.08253 x 1.25 x 1 = 6.647 is a full thread to bear on.
        "Tap drill size as percentage of engagement, ASME B1.1 constant 1.08253, engineersedge.com tap_drill_size_as_percentage_16207",
        {"thread": "M8", "percentage": "83.333333 %"},
        {"hole": "6.65 mm", "drill": "6.6 mm", "bears": "100 %"},
    ),
    Example(
        "Tapping drills for BSF and BSW, about 75 % in steel, ministeam.net/page30.htm: 5/16 BSF 6.9, of which this is 70 %",
        {"thread": "5/16 BSF", "drill": "6.9 mm"},
        {"in-hand": "70 %"},
    ),
)  # fmt: skip

# Drill charts for 75 %: torquetoolbox.com/tap-drill-chart.html, the same on swarf.shop and socket-savvy.
INCH_CHART = {
    "4-40 UNC": "no. 43", "6-32 UNC": "no. 36", "8-32 UNC": "no. 29", "10-24 UNC": "no. 25", "1/4 UNC": "no. 7", "5/16 UNC": "F",
    "3/8 UNC": "5/16 in", "7/16 UNC": "U", "1/2 UNC": "27/64 in", "9/16 UNC": "31/64 in", "5/8 UNC": "17/32 in", "3/4 UNC": "21/32 in",
    "7/8 UNC": "49/64 in", "1 UNC": "7/8 in",
    "10-32 UNF": "no. 21", "1/4 UNF": "no. 3", "5/16 UNF": "I", "3/8 UNF": "Q", "7/16 UNF": "25/64 in", "1/2 UNF": "29/64 in",
    "9/16 UNF": "33/64 in", "5/8 UNF": "37/64 in", "3/4 UNF": "11/16 in", "7/8 UNF": "13/16 in", "1 UNF": "59/64 in",
}  # fmt: skip
METRIC_CHART = {
    "M2": "1.6 mm", "M2.5": "2.05 mm", "M3": "2.5 mm", "M3.5": "2.9 mm", "M4": "3.3 mm", "M5": "4.2 mm", "M6": "5.0 mm",
    "M8": "6.8 mm", "M10": "8.5 mm", "M16": "14.0 mm", "M20": "17.5 mm", "M24": "21.0 mm", "M8 x 1": "7.0 mm", "M10 x 1.25": "8.8 mm",
}  # fmt: skip
# mm: BSF and BSW about 75 % in steel and BA (ministeam.net/page30.htm), BSP parallel
# (0685.com/continuing-education/other-continuing-education/71475.html).
BRITISH = {
    "1/4 BSF": 5.4, "5/16 BSF": 6.9, "3/8 BSF": 8.3, "7/16 BSF": 9.8, "1/2 BSF": 11.1, "1/4 BSW": 5.2, "5/16 BSW": 6.6, "3/8 BSW": 8.0,
    "7/16 BSW": 9.3, "1/2 BSW": 10.7, "0 BA": 5.1, "1 BA": 4.5, "2 BA": 4.0, "1/8 BSP": 8.8, "1/4 BSP": 11.8, "3/8 BSP": 15.25,
    "1/2 BSP": 19, "5/8 BSP": 21, "3/4 BSP": 24.5,
}  # fmt: skip


def _told(written: dict[str, str]) -> dict[str, str]:
    return {r.name: r.words for r in answer_of("tapping-drill", written).worked.results}


@pytest.mark.parametrize(("thread", "drill"), INCH_CHART.items())
def test_inch_drill__is_that_of_the_chart(thread: str, drill: str) -> None:
    assert drill == _told({"thread": thread, "drills": "inch"})["drill"]


@pytest.mark.parametrize(("thread", "drill"), METRIC_CHART.items())
def test_metric_drill__is_that_of_the_chart(thread: str, drill: str) -> None:
    assert drill == _told({"thread": thread})["drill"]


@pytest.mark.parametrize(("thread", "drill"), BRITISH.items())
def test_british_charts__leave_what_they_say(thread: str, drill: float) -> None:
    left = _told({"thread": thread, "drill": f"{drill} mm"})["in-hand"]
    assert 64 <= int(left.removesuffix(" %")) <= 85


def test_drill__in_hand_is_judged() -> None:
    told = {
        drill: answer_of("tapping-drill", {"thread": "2 BA", "drill": drill}).worked
        for drill in ("3.8 mm", "4.0 mm", "4.4 mm", "3/16 in")
    }
    # (4.7 - h) / (1.2 x 0.81): 93, 72, 31 and nothing.
    assert [
        "A drill of 3.8 mm leaves 93 % of thread: too little room, the tap is likely to break. 2 BA is drilled 4.0 mm for 72 % of thread.",
        "A drill of 4.0 mm leaves 72 % of thread, which will do.",
        "A drill of 4.4 mm leaves 31 % of thread: too little to hold. 2 BA is drilled 4.0 mm for 72 % of thread.",
        "A drill of 3/16 in leaves no thread at all. 2 BA is drilled 4.0 mm for 72 % of thread.",
    ] == [worked.verdict for worked in told.values()]
    assert [False, True, False, False] == [worked.right for worked in told.values()]


def test_percentage__that_breaks_taps_is_told() -> None:
    worked = answer_of("tapping-drill", {"thread": "M8", "percentage": "95 %"}).worked
    assert (
        "The percentage wanted is above 85 %: taps break, and the thread holds little better than with 75 %.",
    ) == worked.warnings


def test_thread__that_is_not_known_is_refused_with_what_is() -> None:
    assert [
        'thread is none that is known here, found "3/8 UNX"; known of that size: 3/8 BSW, 3/8 BSF, 3/8 UNC, '
        "3/8 UNF, 3/8 cycle, 3/8 brass and 3/8 BSP"
    ] == mistakes_of("tapping-drill", {"thread": "3/8 UNX"})
    assert ['percentage must be a share with its unit, found "75"; write 75 %'] == mistakes_of(
        "tapping-drill", {"thread": "M8", "percentage": "75"}
    )


@given(st.integers(30, 99))
def test_hole__is_smaller_for_more_thread(percent: int) -> None:
    holes = [
        next(r.exact for r in answer_of("tapping-drill", {"thread": "3/8 BSF", "percentage": f"{p} %"}).worked.results if r.name == "hole")
        for p in (percent, percent + 1)
    ]  # fmt: skip
    assert holes[0] is not None
    assert holes[1] is not None
    assert holes[0] > holes[1]

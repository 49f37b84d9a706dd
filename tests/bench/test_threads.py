"""The thread series and what happens between two of them, held against tables and what has been seen."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.bench.base.drills import drills_of
from journal.bench.base.thread_fit import Outcome, fit_of, nut_turns, tempting
from journal.bench.base.thread_series import NoThread, thread_named
from journal.bench.base.thread_series import threads as all_threads
from journal.bench.base.threads import INCH, Thread

# Size, threads per inch, effective and minor diameter in inches: TR Fastenings, thread geometry of BSW
# (trfastenings.com/knowledge-base/thread-geometries/british-standard-whitworth).
BSW_TABLE = """
1/16 60 0.0518 0.0413; 1/8 40 0.1090 0.0930; 5/32 32 0.1362 0.1162; 3/16 24 0.1608 0.1341; 1/4 20 0.2180 0.1860;
5/16 18 0.2769 0.2414; 3/8 16 0.3350 0.2950; 7/16 14 0.3918 0.3460; 1/2 12 0.4467 0.3933; 5/8 11 0.5668 0.5086;
3/4 10 0.6860 0.6220; 7/8 9 0.8039 0.7327; 1 8 0.9200 0.8400; 1 1/8 7 1.0336 0.9421; 1 1/2 6 1.3933 1.2866
"""
# The same for BSF, from the project's reference values (ministeam.net/page30.htm).
BSF_TABLE = """
1/4 26 0.2254 0.2007; 5/16 22 0.2834 0.2543; 3/8 20 0.3430 0.3110; 7/16 18 0.4019 0.3664; 1/2 16 0.4600 0.4200
"""
# Size, outside and root diameter in inches: British Standard Cycle threads
# (engineeringtoolbox.com/amp/british-standard-cycle-thread-d_2041.html).
CYCLE_TABLE = "1/4 0.209; 5/16 0.272; 3/8 0.334; 7/16 0.397; 1/2 0.459; 9/16 0.522; 5/8 0.584; 3/4 0.709; 1 0.959"
# Size, basic effective and minor diameter in mm: limits of taps, Yamawa catalogue 2016, page 795
# (docs.steelcam.org/yamawa/obshij-katalog-2016-2017-page799).
METRIC_TABLE = """
M5 x 0.8 4.480 4.134; M6 x 1 5.350 4.917; M7 x 1 6.350 5.917; M8 x 1.25 7.188 6.647; M8 x 1 7.350 6.917;
M10 x 1.5 9.026 8.376; M10 x 1.25 9.188 8.647; M10 x 1 9.350 8.917
"""
# Size, threads per inch and outside diameter in mm of the parallel pipe thread, ISO 228-1
# (shop.hoseandfittings.com/docs/departments/BSPP.html).
PIPE_TABLE = "1/8 28 9.728; 1/4 19 13.157; 3/8 19 16.662; 1/2 14 20.955; 5/8 14 22.911; 3/4 14 26.441; 7/8 14 30.201; 1 11 33.249; 1 1/4 11 41.910"
# Number, pitch and diameter in mm of BA: p = 0.9^n, D = 6 p^1.2, both to two figures (BS 93).
BA_TABLE = "0 1.00 6.0; 1 .90 5.3; 2 .81 4.7; 3 .73 4.1; 4 .66 3.6; 5 .59 3.2; 6 .53 2.8; 7 .48 2.5; 8 .43 2.2; 9 .39 1.9; 10 .35 1.7"


def _rows(table: str, numbers: int) -> list[tuple[str, list[float]]]:
    cells = [row.split() for row in table.split(";")]
    return [
        (" ".join(row[:-numbers]), [float(number) for number in row[-numbers:]]) for row in cells
    ]


def _inch(value: Fraction) -> float:
    return float(value / INCH)


@pytest.mark.parametrize(("series", "table"), [("BSW", BSW_TABLE), ("BSF", BSF_TABLE)])
def test_whitworth_form__has_the_diameters_of_the_tables(series: str, table: str) -> None:
    for size, (tpi, effective, minor) in _rows(table, 3):
        thread = thread_named(f"{size} {series}")
        assert Fraction(tpi) == thread.tpi
        assert pytest.approx(effective, abs=1.5e-4) == _inch(thread.effective)
        assert pytest.approx(minor, abs=1.5e-4) == _inch(thread.minor)


def test_cycle_form__has_the_root_of_the_table() -> None:
    for size, (root,) in _rows(CYCLE_TABLE, 1):
        assert pytest.approx(root, abs=6e-4) == _inch(thread_named(f"{size} cycle").minor)


def test_metric_form__has_the_diameters_of_the_table() -> None:
    for size, (effective, minor) in _rows(METRIC_TABLE, 2):
        thread = thread_named(size)
        assert pytest.approx(effective, abs=6e-4) == float(thread.effective)
        assert pytest.approx(minor, abs=6e-4) == float(thread.minor)


def test_pipe_threads__have_the_diameters_of_the_table() -> None:
    for size, (tpi, outside) in _rows(PIPE_TABLE, 2):
        thread = thread_named(f"G {size}")
        assert (Fraction(tpi), pytest.approx(outside)) == (thread.tpi, float(thread.diameter))


def test_ba__follows_its_two_rules() -> None:
    for number, (pitch, diameter) in _rows(BA_TABLE, 2):
        thread = thread_named(f"{number} BA")
        assert pytest.approx(pitch) == float(thread.pitch) == pytest.approx(round(0.9 ** int(number), 2))  # fmt: skip
        assert pytest.approx(diameter) == float(thread.diameter)
        assert float(thread.diameter) == pytest.approx(round(6 * pitch**1.2, 1), abs=0.051)


def test_play__is_that_of_the_medium_fit() -> None:
    """Tolerance of 6H and deviation of 6G in micrometres, Yamawa catalogue 2021, page 646.

    The standard takes the mean of a range of diameters and rounds to preferred numbers, so that its
    values lie within some 6 % of the formula.
    """
    for size, tolerance, deviation in (
        ("M3", 100, 20), ("M4", 118, 22), ("M5", 125, 24), ("M6", 150, 26), ("M8", 160, 28),
    ):  # fmt: skip
        thread = thread_named(size)
        assert pytest.approx(tolerance, rel=0.06) == 1000 * thread.hole_tolerance
        assert pytest.approx(deviation, abs=1.0) == 1000 * thread.allowance


def test_crests__are_those_of_the_medium_fit() -> None:
    """Largest and smallest outside diameter of 6g, amesweb.info/screws/metric-thread-chart.aspx."""
    for size, most, least in (("M3", 2.980, 2.874), ("M4", 3.978, 3.838), ("M5", 4.976, 4.826), ("M6", 5.974, 5.794)):  # fmt: skip
        thread = thread_named(size)
        outside = float(thread.diameter) - thread.allowance
        assert pytest.approx(most, abs=0.002) == outside
        assert pytest.approx(least, abs=0.004) == outside - thread.crest_tolerance


def test_spread__is_that_of_screw_gauges() -> None:
    """Error of pitch times 1.92 for Whitworth form (lecture, scribd.com/document/333659626); times 1.732
    at 60 degrees (from memory)."""
    assert pytest.approx(1.92, abs=0.005) == thread_named("1/4 BSF").form.spread
    assert pytest.approx(1.732, abs=0.0005) == thread_named("M8").form.spread


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("5/16 BSF", "5/16 BSF"), ('5/16" bsf', "5/16 BSF"), ("5/16 in. x 22 BSF", "5/16 BSF"), ("2BA", "2 BA"),
        ("no. 2 BA", "2 BA"), ("10-32", "10-32 UNF"), ("10 UNF", "10-32 UNF"), ("3/8-24", "3/8 UNF"), ("M8", "M8 × 1.25"),
        ("m8x1.0", "M8 × 1"), ("G 1/8", "1/8 BSP"), ("1 1/8 BSF", "1 1/8 BSF"), ("1/4 x 20 UNC", "1/4 UNC"),
        ("3/8 CEI", "3/8 cycle"), ("1/4 Whitworth", "1/4 BSW"), ("9/16-20 cycle", "9/16-20 cycle"),
    ],
)  # fmt: skip
def test_thread__is_known_however_it_is_written(written: str, name: str) -> None:
    assert name == thread_named(written).name


@pytest.mark.parametrize(
    ("written", "way"),
    [
        ("1/4-20", "say which: 1/4 BSW or 1/4 UNC"),
        ("M8 x 1.3", "known of that size: M8 × 1.25, M8 × 1 and M8 × 0.75"),
        ("9/32 UNF", "known of that size: 9/32 BSF"),
        ("left-hand", "write it like 5/16 BSF, 2 BA, 10-32 UNF or M8 x 1.25"),
    ],
)
def test_thread__that_is_not_known_has_a_way_out(written: str, way: str) -> None:
    with pytest.raises(NoThread) as caught:
        thread_named(written)
    assert way == caught.value.help


def test_every_thread__is_found_by_its_own_name() -> None:
    assert list(all_threads()) == [thread_named(thread.name) for thread in all_threads()]


threads = st.sampled_from(all_threads())


@given(threads)
def test_screw__belongs_in_a_hole_of_its_own_thread(thread: Thread) -> None:
    fit = fit_of(thread, thread)
    assert Outcome.BELONGS is fit.outcome(nut_turns(thread))
    assert 0 < fit.tight < fit.slack
    assert fit.turns is None


@given(threads, threads, st.floats(0.5, 20), st.floats(0.5, 20))
def test_screw__that_jams_jams_in_a_longer_hole_too(
    screw: Thread, hole: Thread, turns: float, more: float
) -> None:
    fit = fit_of(screw, hole)
    if fit.outcome(turns) is Outcome.JAMS:
        assert fit.outcome(turns + more) is Outcome.JAMS


@given(threads, threads)
def test_play__one_way_is_lack_of_play_the_other_way(screw: Thread, hole: Thread) -> None:
    """What a screw has too much in a hole, it lacks the other way round, but for ordinary play."""
    one, other = fit_of(screw, hole), fit_of(hole, screw)
    ordinary = [t.allowance + t.screw_tolerance + t.hole_tolerance for t in (screw, hole)]
    assert one.slack + other.slack <= sum(ordinary) + 1e-9


def test_tempting__tells_of_the_brake_union_that_strips() -> None:
    """`A 3/8 x 24 tpi nut will go into a 10mm x 1.0 threaded hole, but will strip the threads when you
    tighten it`: notes on brake line nuts, fedhillusa.com/?page=AmericanThread."""
    union = thread_named("3/8 UNF")
    traps = [(f.screw.name, f.hole.name, f.outcome(nut_turns(f.hole))) for f in tempting(union, all_threads())]  # fmt: skip
    assert ("3/8 UNF", "M10 × 1", Outcome.STRIPS) == traps[0]


def test_drills__are_those_of_the_tables() -> None:
    """Number and letter drills, unitcheatsheet.com and swarf.shop tap drill charts; inches."""
    inch = {drill.name: float(drill.diameter / INCH) for drill in drills_of("inch")}
    told = {
        "no. 53": 0.0595, "no. 50": 0.0700, "no. 47": 0.0785, "no. 43": 0.0890, "no. 42": 0.0935, "no. 38": 0.1015,
        "no. 36": 0.1065, "no. 33": 0.1130, "no. 31": 0.1200, "no. 29": 0.1360, "no. 28": 0.1405, "no. 26": 0.1470,
        "no. 25": 0.1495, "no. 21": 0.1590, "no. 16": 0.1770, "no. 14": 0.1820, "no. 10": 0.1935, "no. 7": 0.2010,
        "no. 4": 0.2090, "no. 3": 0.2130, "F": 0.2570, "G": 0.2610, "H": 0.2660, "I": 0.2720, "Q": 0.3320, "R": 0.3390,
        "U": 0.3680, "X": 0.3970, "27/64 in": 0.4219, "29/64 in": 0.4531, "1 in": 1.0, "1 1/64 in": 1.0156,
    }  # fmt: skip
    assert {name: pytest.approx(size, abs=6e-5) for name, size in told.items()} == {name: inch[name] for name in told}  # fmt: skip
    assert 60 + 26 + 96 == len(inch)
    sizes = [drill.diameter for drill in drills_of("metric")]
    assert sizes == sorted(set(sizes))

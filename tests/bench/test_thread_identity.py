"""Which thread is it: tables of what is measured, and every thread known by its own sizes."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.bench.base.thread_series import threads
from journal.bench.base.threads import Thread
from journal.bench.thread_identity import candidates
from tests.bench.worked_examples import Example, answer_of, mistakes_of

# Outside diameter, bore and pitch as measured: pneumatig.eu/en/inch-metric-thread-table.
_TABLE = "Thread table, what is measured and which thread it is, pneumatig.eu/en/inch-metric-thread-table"
EXAMPLES = (
    Example(_TABLE, {"diameter": "13.0 mm", "tpi": "19"}, {"thread": "1/4 BSP"}),
    Example(_TABLE, {"diameter": "11.65 mm", "part": "hole", "tpi": "19"}, {"thread": "1/4 BSP"}),
    Example(_TABLE, {"diameter": "9.8 mm", "pitch": "1 mm"}, {"thread": "M10 × 1"}),
    Example(_TABLE, {"diameter": "9.8 mm", "pitch": "1.5 mm"}, {"thread": "M10 × 1.5"}),
    Example(_TABLE, {"diameter": "11.0 mm", "tpi": "20"}, {"thread": "7/16 UNF"}),
    Example(_TABLE, {"diameter": "12.55 mm", "tpi": "20"}, {"thread": "1/2 UNF"}),
    Example(_TABLE, {"diameter": "13.75 mm", "pitch": "1.5 mm"}, {"thread": "M14 × 1.5"}),
    Example(_TABLE, {"diameter": "20.8 mm", "tpi": "14"}, {"thread": "1/2 BSP"}),
    Example(_TABLE, {"diameter": "8.7 mm", "part": "hole", "tpi": "28"}, {"thread": "1/8 BSP"}),
    Example(
        "10-32 and M5 `so close that I cannot always tell them apart with a caliper and a thread gauge`, hobby-machinist.com, 2021-02-01",
        {"diameter": "0.189 in", "tpi": "32", "angle": "60"},
        {"thread": "10-32 UNF or M5 × 0.8"},
    ),
)


def test_thread__of_one_kind_is_named_with_what_goes_wrong_with_it() -> None:
    answer = answer_of("thread-identity", {"diameter": "9.45 mm", "tpi": "24"}).worked
    assert "It is 3/8 UNF." == answer.verdict
    assert "What starts and is wrong" == answer.grids[1].title
    assert ("3/8 UNF in M10 × 1", "goes in and strips", "8 turns", "56 %") == answer.grids[1].rows[0]  # fmt: skip


def test_threads__that_a_caliper_cannot_tell_apart_are_told_by_the_angle() -> None:
    worked = answer_of("thread-identity", {"diameter": "5.92 mm", "pitch": "1.0 mm"}).worked
    assert (
        "Both readings fit 0 BA or M6 × 1. The angle of the flanks decides: 47.5 degrees 0 BA and 60 degrees M6 × 1."
        == worked.verdict
    )
    by_angle = answer_of(
        "thread-identity", {"diameter": "5.92 mm", "pitch": "1.0 mm", "angle": "47.5"}
    ).worked
    assert "It is 0 BA." == by_angle.verdict


def test_thread__that_has_two_names_has_both() -> None:
    worked = answer_of(
        "thread-identity", {"diameter": "0.247 in", "tpi": "26", "angle": "55"}
    ).worked
    assert "It is 1/4 BSF (the same as 1/4 brass)." == worked.verdict


def test_pitch__is_measured_over_several_threads() -> None:
    """26 to the inch over ten threads is 9.77 mm, 1 mm pitch is 10.00 mm."""
    fine = answer_of("thread-identity", {"diameter": "7.85 mm", "over": "9.77 mm", "threads": "10"})
    coarse = answer_of("thread-identity", {"diameter": "7.85 mm", "over": "10.0 mm", "threads": "10"})  # fmt: skip
    assert "M8 × 1" not in fine.worked.results[0].words
    assert "M8 × 1" == coarse.worked.results[0].words


def test_reading__that_no_thread_has_is_not_forced_on_one() -> None:
    worked = answer_of("thread-identity", {"diameter": "8.0 mm", "pitch": "1.3 mm"}).worked
    assert "none that is known here" == worked.results[0].words
    assert (
        "No thread that is known here has both readings; the nearest: M8 × 1.25. Measure again where it is not worn, or ask the maker."
        == worked.verdict
    )


@pytest.mark.parametrize(
    ("more", "mistake"),
    [
        ({}, "pitch is missing; read it with a thread gauge, as pitch or as tpi, or measure over ten threads"),
        ({"pitch": "1 mm", "tpi": "26"}, "tpi is one reading too many beside pitch; give one of them"),
        ({"over": "10 mm"}, "threads is missing; it is how many pitches the length over spans, one less than the crests"),
        ({"pitch": "26"}, 'pitch must be a length with its unit, found "26"; write 26 mm, 26 in or 26 thou'),
    ],
)  # fmt: skip
def test_pitch__is_asked_for_in_one_way(more: dict[str, str], mistake: str) -> None:
    assert [mistake] == mistakes_of("thread-identity", {"diameter": "6.3 mm", **more})


@given(st.sampled_from(threads()), st.floats(0, 1), st.booleans())
def test_every_thread__is_found_from_what_it_may_measure(
    thread: Thread, worn: float, hole: bool
) -> None:
    """Whatever the tolerance leaves it, a thread is among those that fit."""
    from fractions import Fraction

    reading = (
        float(thread.minor) + worn * thread.bore_tolerance
        if hole
        else float(thread.diameter) - thread.allowance - worn * thread.crest_tolerance
    )
    found = candidates(Fraction(reading), thread.pitch, hole=hole)
    assert thread in [each.thread for each in found if each.fits]

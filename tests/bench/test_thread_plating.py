"""Plating of threads: by the angle, before and after, room in the fit, and the note for the plater."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

ISO = "ISO 4042:1999 annex, fundamental deviation for a coating of 8 micron (boltport.com): "

EXAMPLES = (
    Example(
        # .0002 to .0003 in for each side, times 4: .0008 and .0012; minor .2103 - .0012 / 2 = .2097.
        "Before-plate gauges, pdgage.com/plating.htm: .0002 to .0003 in, .0012 and .2097 in",
        {"thickness": "0.2..0.3 thou", "form": "unified", "crests": "0.2000..0.2103 in"},
        {"growth-least": "0.8 thou", "growth-most": "1.2 thou", "over-most": "0.6 thou", "crest-most": "0.2097 in"},
    ),
    Example(ISO + "32 micron locally", {"thickness": "5..8 micron", "form": "metric"}, {"growth-most": "32 micron"}),
    Example(ISO + "40 micron for batches above 5 to 10 diameters long", {"thickness": "5..8 micron", "form": "metric", "long": "8"}, {"growth-most": "40 micron"}),
    Example(ISO + "48 micron above 10 to 15", {"thickness": "5..8 micron", "form": "metric", "long": "12"}, {"growth-most": "48 micron"}),
    Example(
        # Position g at a pitch of 1.5 mm leaves 32 micron: 8 micron.
        "ISO 4042 table of the thickest coating (fasteners.eu): M10, position g, 32 micron of deviation, 8 micron",
        {"thickness": "5..8 micron", "form": "metric", "room": "32 micron"}, {"thickest": "8.0 micron"},
    ),
    Example(
        # 2 / sin 27.5 = 4.3314, 2 / sin 23.75 = 4.9659, worked by hand from tables of sines.
        "Flank geometry, 55 degrees: sin 27.5 = 0.46175 (table of sines)",
        {"thickness": "5..10 micron", "form": "whitworth"}, {"growth-least": "21.7 micron", "growth-most": "43.3 micron"},
    ),
    Example(
        "Flank geometry, 47.5 degrees: sin 23.75 = 0.40275 (table of sines)",
        {"thickness": "5..10 micron", "form": "ba"}, {"growth-most": "49.7 micron"},
    ),
    Example(
        # One figure: the most is half as much again, .0003 for .0002 in.
        "ASME B1.1-2003, 7.4.2, as pdgage.com quotes it: nominal plus 50 %",
        {"thickness": "0.2 thou", "form": "unified"}, {"growth-least": "0.8 thou", "growth-most": "1.2 thou"},
    ),
)  # fmt: skip

BOLTS = {"thickness": "5..8 micron", "form": "unified", "steel": "ordinary"}


def test_note__tells_the_plater_all_of_it() -> None:
    written = {**BOLTS, "pieces": "214", "what": "chassis bolts 3/8 UNF", "finish": "bright zinc"}
    note = next(r for r in answer_of("thread-plating", written).worked.results if r.name == "note")
    assert (
        "214 pieces, chassis bolts 3/8 UNF; bright zinc, 5 to 8 micron on the flanks, never above 8 micron; counted out 214, "
        "to be counted back; steel up to class 8.8, no baking asked for"
    ) == note.words


def test_bolt__is_cut_smaller_and_nut_larger_before() -> None:
    # 8.66 - 0.020 = 8.640 and 8.75 - 0.032 = 8.718; the nut the other way round.
    bolt = answer_of("thread-plating", {**BOLTS, "finished": "8.66..8.75 mm"}).worked
    assert (
        "The effective diameter grows by 20 to 32 micron: cut it to 8.640 to 8.718 mm before."
        == bolt.verdict
    )
    nut = answer_of(
        "thread-plating", {**BOLTS, "finished": "8.66..8.75 mm", "thread": "nut"}
    ).worked
    assert (
        "The effective diameter closes by 20 to 32 micron: cut it to 8.692 to 8.770 mm before."
        == nut.verdict
    )


def test_limits__too_close_for_the_plating_are_said_so() -> None:
    worked = answer_of(
        "thread-plating", {**BOLTS, "thickness": "5..25 micron", "finished": "8.66..8.70 mm"}
    ).worked
    assert worked.right is False
    assert (
        "The effective diameter grows by 20 to 100 micron. Not as it is: the limits of finished are too close for plating that "
        "differs so much."
    ) == worked.verdict
    assert "before-least" not in {r.name for r in worked.results}


def test_room__that_is_not_there_is_said_with_the_thickest_that_fits() -> None:
    worked = answer_of("thread-plating", {**BOLTS, "room": "28 micron"}).worked
    assert worked.verdict.endswith("Not as it is: there is no room for it in the thread.")
    assert "7.0 micron" == next(r.words for r in worked.results if r.name == "thickest")


@pytest.mark.parametrize(
    ("now", "thread", "verdict"),
    [
        # 8.66 + 0.020 = 8.680 and 8.71 + 0.032 = 8.742, within 8.66 to 8.75.
        ("8.66..8.71 mm", "bolt", "The effective diameter grows by 20 to 32 micron; these are right for it as they are."),
        ("8.63..8.74 mm", "bolt", "The effective diameter grows by 20 to 32 micron. Not as it is: these become too large; these stay too small."),
        ("8.67..8.71 mm", "nut", "The effective diameter closes by 20 to 32 micron. Not as it is: these become too small."),
    ],
)  # fmt: skip
def test_threads__that_there_are_are_held_against_the_limits_after_plating(
    now: str, thread: str, verdict: str
) -> None:
    written = {**BOLTS, "finished": "8.66..8.75 mm", "now": now, "thread": thread}
    assert verdict == answer_of("thread-plating", written).worked.verdict


@pytest.mark.parametrize(
    ("steel", "warned"),
    [
        ("", "Say what steel it is: high-tensile parts can turn brittle in the bath and break days later, without warning."),
        ("high", "High-tensile parts are baked after plating, at once and long enough; what comes back without its slip is not used."),
    ],
)  # fmt: skip
def test_steel__decides_what_is_warned_of(steel: str, warned: str) -> None:
    written = {name: text for name, text in {**BOLTS, "steel": steel}.items() if text}
    assert [warned] == list(answer_of("thread-plating", written).worked.warnings)


def test_hardened_steel__is_not_plated() -> None:
    worked = answer_of("thread-plating", {**BOLTS, "steel": "highest"}).worked
    assert worked.right is False
    assert worked.verdict.endswith("Not as it is: steel as hard as this is not electroplated.")


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"thickness": "8..5 micron"}, 'thickness must have its smaller end first, found "8..5 micron"; write 5..8 micron'),
        ({"thickness": "8 Nm"}, 'thickness must be a length, found "8 Nm"; write it in mm, in or thou'),
        ({"form": "whit"}, 'form cannot be "whit"; write whitworth'),
        ({"long": "20"}, 'long must be between 0.1 and 15, found "20"; read it again'),
        ({"thickness": "0.5..1 mm", "finished": "1..1.5 mm"}, "thickness is more than finished can hold; read both again"),
    ],
)  # fmt: skip
def test_what_cannot_be__is_refused(changed: dict[str, str], said: str) -> None:
    assert [said] == mistakes_of("thread-plating", {**BOLTS, **changed})


@given(
    st.integers(1, 50),
    st.integers(0, 50),
    st.sampled_from([("unified", 60), ("whitworth", 55), ("ba", 47.5)]),
)
def test_thread__cut_to_the_limits_before_is_within_them_after(
    least: int, more: int, form: tuple[str, float]
) -> None:
    # After plating: the flanks move out by t / sin(half the angle) on each side of the thread.
    name, angle = form
    written = {
        "thickness": f"{least}..{least + more + 1} micron",
        "form": name,
        "finished": "9..10 mm",
    }
    found = {r.name: r.exact for r in answer_of("thread-plating", written).worked.results}
    for before in (found["before-least"], found["before-most"]):
        assert before is not None
        for t in (least, least + more + 1):
            after = float(before) + 2 * (t / 1000) / math.sin(math.radians(angle / 2))
            assert 9 - 1e-9 <= after <= 10 + 1e-9

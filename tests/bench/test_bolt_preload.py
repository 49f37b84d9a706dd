"""Preload: a range by friction, a share of the proof load, and a torque that does not pass it."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        # 70,000 x 0.7 x 0.02 = 980 lbf; 980 x 0.2 x 0.19 = 37.24, printed 37.
        "Fastener torques, problem 112, engineeringprep.com: 0.190-32, K 0.2, 980 lbf",
        {"diameter": "0.190 in", "torque": "37.24 lbf in", "factor": "0.2"},
        {"least": "980 lbf", "most": "980 lbf"},
    ),
    Example(
        # T = K D P: 0.3 gives 72.7 and 0.1 gives 24.2 for 1275 lb; so 48.45 gives 850 and 2550 between them.
        "Mechanical Fastening, Joining and Assembly, page 85 (fliphtml5.com): 0.190 in, 1275 lb at K 0.2 by 48.5 lbf in",
        {"diameter": "0.190 in", "torque": "48.45 lbf in", "factor": "0.1..0.3"},
        {"least": "850 lbf", "most": "2550 lbf"},
    ),
    Example(
        # 84.3 mm2 x 580 x 70 % = 34.2 kN, x 0.2 x 12 mm = 82 Nm.
        "Bolt torque, aionlinecalculator.com: M12 of class 8.8, 70 % of proof, K 0.2",
        {"diameter": "12 mm", "factor": "0.2", "pitch": "1.75 mm", "grade": "8.8", "aim": "70 %"},
        {"area": "84.3 mm2", "aim-torque": "82 Nm", "aim-most": "34 kN"},
    ),
    Example(
        # A 0.373 in2, 25 kip, 67.02 of 85 kpsi: 78.8 %; the torque by eq. 8-27 is 0.2 x 25,000 x 0.75 = 3750 lbf in.
        "Shigley's Mechanical Engineering Design, example 8-3: 3/4-16 UNF, grade 5, 25 kip",
        {"diameter": "3/4 in", "torque": "3750 lbf in", "factor": "0.2", "threads": "16", "grade": "sae-5"},
        {"area": "0.373 sq in", "most": "25000 lbf", "share-most": "79 %"},
    ),
    Example(
        # 0.0878 in2, 75 % of 92,000 psi is 69,000: 38 lbf ft at K 0.2, 42 at 0.22.
        "General bolt tightening torque, conveyor maker's safety guide (martin-sprocket, page 14): 3/8-24, grade 5, plain",
        {"diameter": "3/8 in", "factor": "0.20", "threads": "24", "proof": "92000 psi", "aim": "75 %"},
        {"area": "0.0878 sq in", "aim-torque": "38 lbf ft"},
    ),
    Example(
        "The same table, zinc plated (K 0.22)",
        {"diameter": "3/8 in", "factor": "0.22", "threads": "24", "proof": "92000 psi", "aim": "75 %"},
        {"aim-torque": "42 lbf ft"},
    ),
    Example(
        # BSF 3/8-20: effective 0.3430, core 0.3110 (ministeam.net); pi / 4 x 0.3270 squared = 0.08398.
        "Effective and core diameter of 3/8 BSF, ministeam.net table; the mean and its area worked by hand",
        {"diameter": "3/8 in", "torque": "20 lbf ft", "threads-are": "dry", "form": "whitworth", "threads": "20"},
        {"area": "0.0840 sq in"},
    ),
)  # fmt: skip

PLAIN = {
    "diameter": "3/8 in", "torque": "24..28 lbf ft", "threads-are": "dry", "threads": "24", "grade": "sae-5",
}  # fmt: skip


def _exact(written: dict[str, str]) -> dict[str, Fraction]:
    results = answer_of("bolt-preload", written).worked.results
    return {r.name: Fraction(r.exact) for r in results if r.exact is not None}


def test_preload__is_a_range_with_its_share_of_the_proof_load() -> None:
    worked = answer_of("bolt-preload", PLAIN).worked
    # 24 x 12 / (0.30 x 0.375) = 2560; 28 x 12 / (0.18 x 0.375) = 4978; proof load 0.0878 x 85,000 = 7464.
    assert (
        "24 to 28 lbf ft pulls each bolt to somewhere between 2560 and 4978 lbf, 34 to 67 % of its proof load. "
        "An estimate: the maker's torque goes before it."
    ) == worked.verdict
    assert worked.right


def test_torque__for_a_share_never_passes_it_and_says_what_it_may_leave() -> None:
    written = {name: text for name, text in PLAIN.items() if name != "torque"}
    worked = answer_of("bolt-preload", written).worked
    # 75 % of 7464 is 5598; x 0.18 x 0.375 / 12 = 31.5; at 0.30 that leaves 3359.
    assert (
        "About 31.5 lbf ft keeps the preload at or below 75 % of the proof load, and may leave as little as 3359 lbf. "
        "An estimate: the maker's torque goes before it."
    ) == worked.verdict
    assert worked.right is None
    found = _exact({**written, "torque": "31.4 lbf ft"})
    assert found["share-most"] < 75


def test_bolt__that_may_be_stretched_is_warned_of() -> None:
    worked = answer_of("bolt-preload", {**PLAIN, "torque": "45 lbf ft"}).worked
    assert worked.right is False
    assert [
        "Where friction is low this torque stretches the bolt for good: use less, or know the friction better."
    ] == list(worked.warnings)


def test_clamp__is_that_of_all_bolts() -> None:
    found = _exact({**PLAIN, "bolts": "4"})
    assert (4 * found["least"], 4 * found["most"]) == (found["clamp-least"], found["clamp-most"])


@pytest.mark.parametrize(
    ("written", "said"),
    [
        (
            {"diameter": "3/8 in", "threads-are": "dry"},
            "torque is missing, and so is what it could be reckoned from; give torque; or grade or proof, with pitch or threads",
        ),
        ({"diameter": "3/8 in", "torque": "28 lbf ft"}, "threads-are is missing, and so is factor; write what the threads are, such as dry or oiled"),
        ({**PLAIN, "pitch": "1 mm"}, "threads and pitch say the same thing; write one of them"),
        ({**PLAIN, "proof": "85000 psi"}, "proof and grade say the same thing; write one of them"),
        ({**PLAIN, "threads": "4"}, "threads is too coarse for a diameter of 3/8 in, found 4; read it again"),
        ({**PLAIN, "threads-are": "oily"}, 'threads-are cannot be "oily"; write oiled'),
        ({**PLAIN, "torque": "28 lb"}, 'torque must be a torque, found "28 lb"; write it in Nm, lbf ft or lbf in'),
    ],
)  # fmt: skip
def test_what_cannot_be__is_refused(written: dict[str, str], said: str) -> None:
    assert [said] == mistakes_of("bolt-preload", written)


@given(st.integers(3, 30), st.integers(3, 30), st.integers(1, 99))
def test_preload__rises_with_torque_and_falls_with_friction(
    diameter: int, torque: int, factor: int
) -> None:
    def preload(d: int, t: int, k: int) -> Fraction:
        return _exact({"diameter": f"{d} mm", "torque": f"{t} Nm", "factor": f"{k}/100"})["least"]

    if factor < 3:
        factor = 3
    assert preload(diameter, torque, factor) < preload(diameter, torque + 1, factor)
    assert preload(diameter, torque, factor) > preload(diameter + 1, torque, factor)
    assert preload(diameter, torque, factor) > preload(diameter, torque, factor + 1)

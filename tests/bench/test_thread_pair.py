"""A screw in a hole: what people have seen happen, told in numbers."""

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        "Brake line nuts, `a 3/8 x 24 tpi nut will go into a 10mm x 1.0 threaded hole, but will strip the threads`, fedhillusa.com/?page=AmericanThread",
        {"screw": "3/8-24 UNF", "hole": "M10 x 1"},
        {"outcome": "goes in and strips"},
    ),
    Example(
        "`All of my 10-32 screws will thread into M5 nuts and don't feel too sloppy`, trial told at hobby-machinist.com, 2021-02-01",
        {"screw": "10-32 UNF", "hole": "M5"},
        {"outcome": "goes in as if it belonged"},
    ),
    Example(
        "British Association screw threads, encyclopaedia article: 0BA and M6 x 1 can be screwed together and do not mate for a load",
        {"screw": "0 BA", "hole": "M6"},
        {"outcome": "goes in as if it belonged", "drift": "0.000 mm"},
    ),
    Example(
        "British Standard Cycle, encyclopaedia article: 1/4 cycle and 1/4 BSF `will fit each other in this diameter only`",
        {"screw": "1/4 cycle", "hole": "1/4 BSF"},
        {"outcome": "goes in as if it belonged"},
    ),
    Example(
        "The same: in no other diameter, such as 5/16",
        {"screw": "5/16 cycle", "hole": "5/16 BSF"},
        {"outcome": "does not start"},
    ),
    Example(
        "M8 x 1.25 against 5/16-18: pitch apart by 0.161 mm in a turn, mmtoinches.im/metric-to-imperial-thread-conversion",
        {"screw": "M8", "hole": "5/16 UNC"},
        {"drift": "0.161 mm"},
    ),
    Example(
        "M8 x 1.0 against 5/16-24: pitch apart by 0.058 mm in a turn, the same page",
        {"screw": "M8 x 1", "hole": "5/16 UNF"},
        {"drift": "0.058 mm", "outcome": "starts and jams"},
    ),
    Example(
        "BSW and UNC of 3/8 have 16 threads per inch both and go together, boltsnutsscrews.com.au/site/listing/3413",
        {"screw": "3/8 BSW", "hole": "3/8 UNC"},
        {"outcome": "goes in as if it belonged", "drift": "0.000 mm"},
    ),
)  # fmt: skip


def _verdict(screw: str, hole: str, **more: str) -> str:
    return answer_of("thread-pair", {"screw": screw, "hole": hole, **more}).worked.verdict


def test_verdict__says_what_happens() -> None:
    assert [
        "M8 × 1.25 belongs in M8 × 1.25.",
        "3/8 UNF goes into M10 × 1 and catches 56 % of the thread: it strips when it is tightened.",
        "5/16 UNF starts in M8 × 1 and binds after about 4 turns: forced further it ruins both.",
        "M10 × 1 does not start fairly in 3/8 UNF: forced, it cuts across the thread and ruins both.",
        "M6 × 1 is too small for 3/8 UNF and catches no thread at all.",
    ] == [
        _verdict("M8", "M8"),
        _verdict("3/8 UNF", "M10 x 1"),
        _verdict("5/16 UNF", "M8 x 1"),
        _verdict("M10 x 1", "3/8 UNF"),
        _verdict("M6", "3/8 UNF"),
    ]


def test_screw__that_goes_in_only_now_and_then_is_told_so() -> None:
    """`Only some of my M5 screws (with smaller ODs) will fit in my 10-32 nuts`, the same trial."""
    worked = answer_of("thread-pair", {"screw": "M5", "hole": "10-32"}).worked
    assert worked.right is False
    assert (
        "Only a screw on the small side, or a hole on the large side, lets it start: another out of the same box may not."
        == worked.warnings[0]
    )


def test_length__decides_whether_it_binds() -> None:
    # 38.6 turns of 0.8 mm are 30.9 mm.
    short = _verdict("10-32", "M5", length="25 mm")
    long = _verdict("10-32", "M5", length="35 mm")
    assert "as if it belonged" in short
    assert "binds after about 39 turns" in long


def test_brass__is_the_same_as_fine_where_it_is_and_says_so() -> None:
    assert "1/4 brass belongs in 1/4 BSF." == _verdict("1/4 brass", "1/4 BSF")


def test_thread__that_may_be_two_is_asked_for() -> None:
    assert [
        'screw is no thread known here, found "1/4-20"; say which: 1/4 BSW or 1/4 UNC'
    ] == mistakes_of("thread-pair", {"screw": "1/4-20", "hole": "M6"})
    assert [
        "hole is missing; it is thread of the nut or the hole"
    ] == mistakes_of("thread-pair", {"screw": "M6"})  # fmt: skip
    assert [
        'length must be a length, found "8 turns"; write it in mm, in or thou'
    ] == mistakes_of("thread-pair", {"screw": "M6", "hole": "M6", "length": "8 turns"})  # fmt: skip

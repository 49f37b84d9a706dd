"""What a speedometer shows after other tyres or another axle, and what its drive must be geared by."""

from collections.abc import Iterator
from fractions import Fraction

from journal.bench.base.definition import WORD, Input, Job, Sum
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.speedlaw import DIAL, LIMIT, SOURCE, Dial, always_kept, error_words
from journal.bench.base.tyres import given_turn, turn_words, tyre_inputs
from journal.bench.base.worked import Output, Teller, Worked, answered
from journal.words.amounts import fixed_number

_SHARE = (("%", 1),)
SHOWS = Output("shows", "it shows of the true speed", _SHARE, "s")
ERROR = Output("error", "it reads fast by, slow with a minus", _SHARE)
CORRECTION = Output("correction", "wanted of the cable, times as fast", (("", 3),), "k")
COUNTED = Output("counted", "it counts for 100 that are driven", (("", 1),))


def _work(given: Given) -> Worked:
    before, after = (_turn(given, suffix) for suffix in ("", "-after"))
    finals = _finals(given)
    was = 1 + given.one("error-before").to("%") / 100
    ratio = was * before / after * (finals[1] / finals[0] if finals else 1)
    dial = Dial(given.word("dial"))
    # The counter is driven by the cable alone; how the needle was off does not touch it.
    counted = 100 * ratio / was
    return Worked(
        (
            answered(SHOWS, 100 * ratio, given),
            answered(ERROR, 100 * (ratio - 1), given),
            answered(CORRECTION, 1 / ratio, given),
            answered(COUNTED, counted, given),
        ),
        tuple(_steps(given, before, after, finals, was, ratio)),
        _verdict(ratio),
        always_kept(ratio),
        tuple(_warnings(given, ratio)),
        (dial.grid((true, ratio * true) for true in dial.told_speeds()),),
    )


def _turn(given: Given, suffix: str) -> Fraction:
    turn = given_turn(given, suffix)
    if turn is not None:
        return turn
    if suffix:
        before = given_turn(given)
        if before is not None:
            return before
    raise NotWorked("tyre", "is not told, and no rolling either", "write tyre, such as 165 R 15, or rolling as measured")  # fmt: skip


def _finals(given: Given) -> tuple[Fraction, Fraction] | None:
    """The final drives before and after, where they count."""
    told = [given.has(name) for name in ("final", "final-after")]
    if given.word("driven") == "wheel":
        return None
    if told[1] and not told[0]:
        raise NotWorked("final", "is not told for before the change", "write final too")
    if not told[0]:
        return None
    before = given.number("final")
    return before, given.number("final-after") if told[1] else before


def _steps(given: Given, before: Fraction, after: Fraction, finals: tuple[Fraction, Fraction] | None, was: Fraction, ratio: Fraction) -> Iterator[str]:  # fmt: skip
    mm = Teller((("mm", 0, 0), ("in", 2, 2)), given)
    yield f"one turn before: {mm(before)}, {turn_words(given)}"
    source = turn_words(given, "-after") if given_turn(given, "-after") is not None else "as before"
    yield f"one turn after: {mm(after)}, {source}"
    parts = [] if was == 1 else [fixed_number(was, 3)]
    parts.append(f"{mm.number(before)} / {mm.number(after)}")
    if finals:
        parts.append(" / ".join(fixed_number(final, 3) for final in reversed(finals)))
    times = " \N{MULTIPLICATION SIGN} "
    yield f"shown / true: {times.join(parts)} = {fixed_number(ratio, 4)}"
    yield f"correction: 1 / {fixed_number(ratio, 4)} = {fixed_number(1 / ratio, 3)}"


def _verdict(ratio: Fraction) -> str:
    told = f"After the change the speedometer reads {error_words(ratio)}"
    if ratio < 1:
        return f"{told}: it shows less than is driven, which is not allowed today; its drive must turn the cable {fixed_number(1 / ratio, 3)} times as fast."
    if not always_kept(ratio):
        return f"{told}, which is more than is allowed today; its drive must turn the cable {fixed_number(1 / ratio, 3)} times as fast."
    return f"{told}, which is within what is allowed today."


def _warnings(given: Given, ratio: Fraction) -> Iterator[str]:
    if given.word("driven") == "wheel" and (given.has("final") or given.has("final-after")):
        yield "Driven from a wheel, the speedometer knows nothing of the final drive; that was left out."
    if abs(ratio - 1) > Fraction(1, 5):
        yield "A change by more than a fifth is rare: see that both tyres and both axles are as written."


SPEEDOMETER_CHANGE = Sum(
    name="speedometer-change",
    title="Speedometer after other tyres or another axle",
    job=Job.GEARING,
    asks="What does the speedometer show after the change, is that allowed, and how must its drive be geared?",
    inputs=(
        *tyre_inputs(optional=True, when=" before the change"),
        *tyre_inputs("-after", optional=True, when=" after the change"),
        Input("final", "final drive before the change", "number", symbol="f", optional=True, least="1.5", most="12"),
        Input("final-after", "final drive after the change, where it is another", "number", optional=True, least="1.5", most="12"),
        Input("error-before", "by how much it read fast before; slow with a minus", "share", default="0 %", least="-30 %", most="50 %"),
        Input(
            "driven", "where the cable is driven", WORD, default="gearbox",
            choices=(("gearbox", "from the gearbox, before the final drive"), ("wheel", "from a wheel")),
        ),
        DIAL,
    ),
    outputs=(SHOWS, ERROR, CORRECTION, COUNTED),
    in_words=(
        "The cable turns with the propeller shaft: more for a wheel that goes less far in one turn, and more for a final drive with a higher number. "
        "What is shown of the true speed is the old turn over the new one, times the new final drive over the old one."
    ),
    formula=(
        "s = U before / U after \N{MULTIPLICATION SIGN} f after / f before",
        "k = 1 / s",
    ),
    limits=(
        "The instrument itself is taken to be as it was; only what drives it has changed.",
        LIMIT,
        "Tyres by their designation are known to a hundredth or so; a turn measured on the floor is better.",
    ),
    caution=(
        "With a speedometer that shows less than is driven, nobody aboard knows how fast the car goes. Prove it against a measured distance or a calibrated instrument "
        "before the car is handed over; the maker's manual and local rules have the last word."
    ),
    sources=(SOURCE, "Elementary: turns of the cable for a distance. The ratio of diameters is that of the tyre makers' tables."),
    example=(
        ("tyre", "165 R 15"), ("tyre-after", "185/65 R 15"), ("final", "4.1"), ("final-after", "3.9"), ("error-before", "2 %"),
    ),
    work=_work,
)  # fmt: skip

"""The drill for a thread that is to be tapped, by the percentage of thread that is to be left standing."""

from collections.abc import Iterator
from fractions import Fraction

from journal.bench.base.definition import TEXT, WORD, Input, Job, Sum
from journal.bench.base.drills import Drill, drills_of
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.thread_series import NoThread, thread_named
from journal.bench.base.threads import Thread
from journal.bench.base.worked import Grid, Output, Teller, Worked, answered, said
from journal.words.amounts import fixed_number

_LENGTHS = (("mm", 2), ("in", 4))
THREAD = Output("thread", "thread")
HOLE = Output("hole", "hole for what is wanted", _LENGTHS, "h")
DRILL = Output("drill", "nearest drill")
DEPTH = Output("depth", "thread that it leaves", (("%", 0),))
BEARS = Output("bears", "of what a screw bears on", (("%", 0),))
IN_HAND = Output("in-hand", "thread with the drill in hand", (("%", 0),))

# Below it a thread is weak, above it taps break: what handbooks of tapping advise (common practice).
WEAK, BREAKS = 50, 85
# How many drills are shown on either side of the nearest.
_BESIDE = 2


def _work(given: Given) -> Worked:
    thread = _thread(given)
    wanted = given.one("percentage").to("%")
    charted = thread.form.charted * thread.pitch
    hole = thread.diameter - charted * wanted / 100
    drills = drills_of(given.word("drills"))
    if hole < drills[0].diameter or hole > drills[-1].diameter:
        raise NotWorked("thread", f"is beyond the drills known here, {thread.name} needs {fixed_number(hole, 2)} mm", "bore it to size")  # fmt: skip
    at = min(range(len(drills)), key=lambda n: abs(_percent(thread, drills[n].diameter) - wanted))
    best = drills[at]
    depth = _percent(thread, best.diameter)
    tell = Teller((("mm", 2, 3), ("in", 3, 4)), given)
    hand = given.one("drill").to("mm") if given.has("drill") else None
    results = [
        said(THREAD, f"{thread.name}, {thread.pitch_words}"),
        answered(HOLE, hole, given),
        said(DRILL, best.name),
        answered(DEPTH, depth, given),
        answered(BEARS, _bears(thread, best.diameter), given),
    ]
    if hand is not None:
        results.append(answered(IN_HAND, max(_percent(thread, hand), Fraction(0)), given))
    return Worked(
        tuple(results),
        tuple(_steps(thread, wanted, hole, best, hand, tell)),
        _verdict(given, thread, best, depth),
        None if hand is None else WEAK <= _percent(thread, hand) <= BREAKS,
        tuple(_warnings(wanted, depth)),
        (_grid(thread, drills, at, tell),),
    )  # fmt: skip


def _thread(given: Given) -> Thread:
    try:
        return thread_named(given.word("thread"))
    except NoThread as fault:
        raise NotWorked(
            "thread", f'is none that is known here, found "{given.word("thread")}"', fault.help
        ) from None


def _percent(thread: Thread, hole: Fraction) -> Fraction:
    """Percentage of thread as drill charts count it."""
    return 100 * (thread.diameter - hole) / (thread.form.charted * thread.pitch)


def _bears(thread: Thread, hole: Fraction) -> Fraction:
    """Share of the depth that a full screw of the basic form can bear on; no more than all of it."""
    return min(100 * (thread.diameter - hole) / (thread.form.minor * thread.pitch), Fraction(100))


def _steps(
    thread: Thread, wanted: Fraction, hole: Fraction, best: Drill, hand: Fraction | None, tell: Teller
) -> Iterator[str]:  # fmt: skip
    full = thread.form.charted
    pitch = tell.number(thread.pitch)
    if thread.tpi is not None:
        yield f"pitch: {tell.number(Fraction('25.4'))} / {int(thread.tpi)} = {tell(thread.pitch)}"
    yield f"full depth on the diameter: {fixed_number(full, 4)} \N{MULTIPLICATION SIGN} {pitch} = {tell(full * thread.pitch)}"
    yield (
        f"hole: {tell.number(thread.diameter)} \N{MINUS SIGN} {float(wanted) / 100:g} \N{MULTIPLICATION SIGN} "
        f"{tell.number(full * thread.pitch)} = {tell(hole)}"
    )
    for name, size in ((best.name, best.diameter), *(() if hand is None else (("drill in hand", hand),))):  # fmt: skip
        yield (
            f"{name}: ({tell.number(thread.diameter)} \N{MINUS SIGN} {tell.number(size)}) / "
            f"{tell.number(full * thread.pitch)} = {fixed_number(_percent(thread, size), 0)} %"
        )


def _verdict(given: Given, thread: Thread, best: Drill, depth: Fraction) -> str:
    drill = f"{thread.name} is drilled {best.name} for {fixed_number(depth, 0)} % of thread."
    if not given.has("drill"):
        return drill
    hand = given.one("drill")
    percent = _percent(thread, hand.to("mm"))
    told = f"A drill of {hand.words} leaves {fixed_number(percent, 0)} % of thread"
    if percent <= 0:
        return f"A drill of {hand.words} leaves no thread at all. {drill}"
    if percent > BREAKS:
        return f"{told}: too little room, the tap is likely to break. {drill}"
    if percent < WEAK:
        return f"{told}: too little to hold. {drill}"
    return f"{told}, which will do."


def _warnings(wanted: Fraction, depth: Fraction) -> Iterator[str]:
    for percent, what in ((wanted, "The percentage wanted"), (depth, "The nearest drill")):
        if percent > BREAKS:
            yield f"{what} is above {BREAKS} %: taps break, and the thread holds little better than with 75 %."
            return
        if percent < WEAK:
            yield f"{what} is below {WEAK} %: such a thread strips before the screw breaks."
            return


def _grid(thread: Thread, drills: tuple[Drill, ...], at: int, tell: Teller) -> Grid:
    shown = drills[max(at - _BESIDE, 0) : at + _BESIDE + 1]
    rows = tuple(
        (
            drill.name,
            tell(drill.diameter),
            f"{fixed_number(_percent(thread, drill.diameter), 0)} %",
            f"{fixed_number(_bears(thread, drill.diameter), 0)} %",
        )
        for drill in shown
    )
    return Grid(
        "Drills on either side", ("Drill", "Diameter", "Thread", "Of what a screw bears on"), rows
    )


TAPPING_DRILL = Sum(
    name="tapping-drill",
    title="Tapping drill by percentage of thread",
    job=Job.FASTENERS,
    asks="Which drill goes before the tap, and how much thread does it leave?",
    inputs=(
        Input("thread", "thread that is to be tapped, such as 5/16 BSF, 2 BA, 10-32 UNF or M8 x 1.25", TEXT),
        Input(
            "percentage", "percentage of thread wanted", "share",
            symbol="q", default="75 %", least="30 %", most="100 %",
        ),
        Input(
            "drills", "which drills are in the drawer", WORD, default="metric",
            choices=(("metric", "millimetre drills"), ("inch", "inch drills by fraction, number and letter")),
        ),
        Input("drill", "drill that is in hand, to see what thread it leaves", "length", optional=True, least="0.5 mm", most="60 mm"),
    ),
    outputs=(THREAD, HOLE, DRILL, DEPTH, BEARS, IN_HAND),
    in_words=(
        "From the nominal diameter as much of the full depth of thread is taken, on the diameter, as is to be left standing. Drill charts "
        "count as full depth 1.299 pitches for metric and unified threads, 1.2807 for Whitworth form, 1.2 for BA and 1.0654 for cycle threads."
    ),
    formula=(
        "h = d \N{MINUS SIGN} q k p",
        "q = (d \N{MINUS SIGN} h) / (k p)",
        "k = 1.2990 metric and unified, 1.2807 Whitworth form, 1.2 BA, 1.0654 cycle; d nominal diameter; p pitch",
    ),
    limits=(
        "A drill cuts a little over its size: by 0.05 to 0.1 mm up to 10 mm, more when it is badly ground. Try it on scrap of the same metal.",
        "Metric and unified charts count the depth of the screw as 100 %; what a screw can bear on is 5/6 of it, so 83 % there is a full thread. The last column tells that share.",
        "75 % is usual in cast iron and soft metal, 60 to 65 % in tough steel and deep holes (common practice).",
        "For taps that cut; a forming tap needs a larger hole, which its maker gives.",
        "Where screw and hole are thin or short, a deeper thread does not help; a longer one does.",
    ),
    caution=(
        "A hole for a brake, steering, suspension, seat-belt or lifting fastener is tapped or repaired only where the maker's manual allows it, by "
        "someone qualified, and with the insert and the depth that it names. Eye protection: taps and drills are hard and fly in splinters."
    ),
    sources=(
        "BS 84 (Whitworth form), BS 93 (BA), BS 811 (cycle), ISO 68-1 and ASME B1.1: depth of thread.",
        "Drill charts for 75 % of thread count 1.299 pitches; ASME B1.1 counts 1.08253, the depth that a screw bears on. Both are told.",
        "ISO 235 and ASME B94.11M, sizes of drills, from memory.",
    ),
    example=(("thread", "5/16 BSF"), ("percentage", "75 %"), ("drills", "metric"), ("drill", "6.8 mm")),
    work=_work,
)  # fmt: skip

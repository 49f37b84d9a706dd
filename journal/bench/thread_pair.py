"""A screw of one thread in a hole of another: whether it belongs there, or only seems to."""

from collections.abc import Iterator

from journal.bench.base.definition import TEXT, Input, Job, Sum
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.thread_fit import LEAST_HOLD, WRONG, Fit, Outcome, fit_of, nut_turns
from journal.bench.base.thread_series import NoThread, thread_named
from journal.bench.base.threads import Thread
from journal.bench.base.worked import Output, Result, Teller, Worked, answered, said
from journal.words.amounts import fixed_number

_FINE = (("mm", 3), ("thou", 1))
OUTCOME = Output("outcome", "what happens")
OVERLAP = Output("overlap", "thread that is caught", (("%", 0),), "o")
SLACK = Output("slack", "play of a loose pair", _FINE, "s")  # fmt: skip
DRIFT = Output("drift", "pitches part in a turn by", _FINE, "f")
TURNS = Output("turns", "turns before it binds", (("", 1),), "n")
WANTED = Output("wanted", "turns to go in", (("", 1),))


def _work(given: Given) -> Worked:
    screw, hole = (_thread(given, name) for name in ("screw", "hole"))
    fit = fit_of(screw, hole)
    turns = (
        float(given.one("length").to("mm") / hole.pitch) if given.has("length") else nut_turns(hole)
    )
    outcome = fit.outcome(turns)
    tell = Teller((("mm", 2, 3), ("in", 3, 4)), given)
    return Worked(
        tuple(_results(given, fit, outcome, turns)),
        tuple(_steps(fit, turns, tell)),
        _verdict(fit, outcome),
        outcome is Outcome.BELONGS,
        tuple(_warnings(fit, outcome)),
    )


def _thread(given: Given, name: str) -> Thread:
    try:
        return thread_named(given.word(name))
    except NoThread as fault:
        raise NotWorked(
            name, f'is no thread known here, found "{given.word(name)}"', fault.help
        ) from None


def _results(given: Given, fit: Fit, outcome: Outcome, turns: float) -> Iterator[Result]:
    yield said(OUTCOME, outcome.value)
    yield answered(OVERLAP, 100 * max(fit.overlap, 0.0), given)
    yield answered(SLACK, fit.slack, given)
    yield answered(DRIFT, abs(fit.screw.pitch - fit.hole.pitch), given)
    if fit.turns is not None:
        yield answered(TURNS, fit.turns, given)
    yield answered(WANTED, turns, given)


def _steps(fit: Fit, turns: float, tell: Teller) -> Iterator[str]:
    screw, hole = fit.screw, fit.hole
    for which, thread in (("screw", screw), ("hole", hole)):
        yield (
            f"{which}, {thread.name}: nominal {tell(thread.diameter)}, {thread.pitch_words}, "
            f"{float(thread.form.angle):g} degrees; effective diameter {tell(thread.effective)}"
        )
    depth = hole.form.minor * hole.pitch
    yield (
        f"caught: ({tell.number(screw.diameter)} \N{MINUS SIGN} {tell.number(hole.minor)}) / {tell.number(depth)} = "
        f"{fixed_number(100 * float((screw.diameter - hole.minor) / depth), 0)} % of the depth of thread in the hole"
    )
    apart = hole.effective - screw.effective
    yield (
        f"play: {tell.number(hole.effective)} \N{MINUS SIGN} {tell.number(screw.effective)} = {tell(apart)} between basic sizes; with the "
        f"play of ordinary fits and what the flanks take up, {_signed(fit.tight)} to {_signed(fit.slack)} mm"
    )
    if fit.turns is not None:
        spread = (screw.form.spread + hole.form.spread) / 2
        yield (
            f"turns before it binds: {fixed_number(max(fit.slack, 0), 3)} / ({fixed_number(fit.drift, 4)} \N{MULTIPLICATION SIGN} {fixed_number(spread, 3)}) = {fixed_number(fit.turns, 1)}, "
            f"of {fixed_number(turns, 1)} to go in"
        )


def _signed(value: float) -> str:
    return fixed_number(value, 3)


def _verdict(fit: Fit, outcome: Outcome) -> str:
    screw, hole = fit.screw.name, fit.hole.name
    caught = f"{fixed_number(100 * fit.overlap, 0)} %"
    turns = fixed_number(fit.turns or 0, 0)
    return {
        Outcome.BELONGS: f"{screw} belongs in {hole}.",
        Outcome.PASSES: f"{screw} goes into {hole} as if it belonged there, and does not: it bears on part of the thread only. Find the right one.",
        Outcome.STRIPS: f"{screw} goes into {hole} and catches {caught} of the thread: it strips when it is tightened.",
        Outcome.JAMS: f"{screw} starts in {hole} and binds after about {turns} turn{'' if turns == '1' else 's'}: forced further it ruins both.",
        Outcome.BLOCKED: f"{screw} does not start fairly in {hole}: forced, it cuts across the thread and ruins both.",
        Outcome.FALLS: f"{screw} is too small for {hole} and catches no thread at all.",
    }[outcome]


def _warnings(fit: Fit, outcome: Outcome) -> Iterator[str]:
    if outcome in WRONG and fit.tight < 0:
        yield "Only a screw on the small side, or a hole on the large side, lets it start: another out of the same box may not."
    if outcome is Outcome.PASSES and fit.overlap < 1:
        yield f"It feels right by hand. Only {fixed_number(100 * fit.overlap, 0)} % of the thread is caught, so it strips before the right screw would."
    elif outcome is Outcome.PASSES and fit.screw.form.angle != fit.hole.form.angle:
        angles = f"{float(fit.screw.form.angle):g} and {float(fit.hole.form.angle):g} degrees"
        yield (
            f"It feels right by hand. The flanks lean at {angles} and touch along a line: it wears and works loose. Where nothing hangs on it "
            "workshops have mixed such threads (common practice); where something does, never."
        )
    elif outcome is Outcome.PASSES:
        yield "It feels right by hand, since the pitches part so slowly that the length is not enough to bind."


THREAD_PAIR = Sum(
    name="thread-pair",
    title="Does this screw belong in this hole?",
    job=Job.FASTENERS,
    asks="Does a screw of one thread belong in a hole of another, or does it only start, and then jam or strip?",
    inputs=(
        Input("screw", "thread of the screw, such as 3/8 UNF, 2 BA or M10 x 1", TEXT),
        Input("hole", "thread of the nut or the hole", TEXT),
        Input("length", "length of thread that is to be engaged; without it that of a full nut, 0.8 of the diameter", "length", optional=True, least="0.5 mm", most="200 mm"),
    ),
    outputs=(OUTCOME, OVERLAP, SLACK, DRIFT, TURNS, WANTED),
    in_words=(
        "The screw must reach deep enough into the thread of the hole to hold, and its effective diameter, made larger by what the pitches "
        "part over the length and by flanks that lean differently, must stay within that of the hole. Where the play is used up it binds."
    ),
    formula=(
        "o = (outside diameter of the screw \N{MINUS SIGN} minor diameter of the hole) / depth of thread in the hole",
        "s = effective diameter of the hole \N{MINUS SIGN} that of the screw \N{MINUS SIGN} 0.011 p (difference of angles) + play of ordinary fits",
        "n = s / (f cot(angle / 2)), f the difference of the pitches",
    ),
    limits=(
        "For new threads of ordinary make. Worn, plated, painted or stretched ones, and taps and dies that cut over or under size, change the turns.",
        f"Below {fixed_number(100 * LEAST_HOLD, 0)} % of the depth of thread it is taken to strip (common practice).",
        "What happens is told for turning by hand; a spanner forces what the hand would refuse.",
        "Parallel threads only; a taper pipe thread seals by jamming.",
    ),
    caution=(
        "Brake pipes, unions and calipers, steering, suspension and wheels: a wrong thread that feels right lets go without warning. Fit only "
        "what the maker's manual names, and have it checked by a qualified person. Never force a thread that stiffens."
    ),
    sources=(
        "Error of pitch and of flank angle as a change of effective diameter: National Physical Laboratory, Notes on Screw Gauges, from memory.",
        "ISO 965-1: play of the medium fit, 6g in 6H, taken for all forms.",
        "Common practice, no source: 60 % of the depth of thread to hold, a nut as high as 0.8 of the diameter.",
    ),
    example=(("screw", "3/8 UNF"), ("hole", "M10 x 1"), ("length", "8 mm")),
    work=_work,
)  # fmt: skip

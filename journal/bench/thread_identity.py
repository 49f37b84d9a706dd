"""Which thread is it? Told from a diameter and a pitch, with all that could be taken for it.

A screw is measured over its crests, which lie below the nominal diameter; a hole in its bore, which lies
above the minor diameter.
"""

from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from journal.bench.base.definition import WORD, Input, Job, Sum, Takes
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.thread_fit import Fit, Outcome, nut_turns, tempting
from journal.bench.base.thread_series import threads
from journal.bench.base.threads import INCH, Thread, plain
from journal.bench.base.worked import Grid, Output, Teller, Worked, answered, said
from journal.words.amounts import fixed_number
from journal.words.text import counted, listed

THREAD = Output("thread", "thread")
NOMINAL = Output("nominal", "nominal diameter", (("mm", 3), ("in", 4)))
PITCH = Output("pitch", "pitch measured", (("mm", 3), ("in", 4)))
TPI = Output("tpi", "threads per inch measured", (("", 1),))

# What a worn or plated screw may lack besides its tolerance, what a burr adds, what a bore may be drilled
# over its tolerance: mm, common practice.
_WORN, _BURR, _OVER = 0.10, 0.05, 0.15
# How far a pitch as read may be out, and how far it may be for the thread to be named as near: shares.
_PITCH_OUT, _PITCH_NEAR = 0.013, 0.05
_NEAR = 0.35
# How many of each are shown.
_SHOWN = 8


class Candidate(Struct, frozen=True):
    """A thread held against the readings.

    `beyond` is how far the diameter lies outside what that thread may measure, in mm, below nothing
    where it is too small; `out` by which share the pitch is out.
    """

    thread: Thread
    beyond: float
    out: float

    @property
    def fits(self) -> bool:
        """Whether both readings are those of such a thread."""
        return not self.beyond and abs(self.out) <= _PITCH_OUT

    @property
    def near(self) -> bool:
        """Whether it is worth naming where none fits."""
        return abs(self.beyond) <= _NEAR and abs(self.out) <= _PITCH_NEAR

    @property
    def distance(self) -> float:
        """How far it is from the readings, in no unit: for putting the nearest first."""
        return abs(self.out) / _PITCH_OUT + abs(self.beyond) / _WORN


def candidates(diameter: Fraction, pitch: Fraction, *, hole: bool) -> tuple[Candidate, ...]:
    """All threads known, held against a diameter and a pitch in mm, nearest first."""
    found = []
    for thread in threads():
        low, high = _limits(thread, hole=hole)
        read = float(diameter)
        beyond = min(read - low, 0.0) + max(read - high, 0.0)
        found.append(Candidate(thread, beyond, float(pitch / thread.pitch) - 1))
    return tuple(sorted(found, key=lambda each: each.distance))


def _limits(thread: Thread, *, hole: bool) -> tuple[float, float]:
    """The smallest and the largest that such a thread may measure, in mm."""
    if hole:
        minor = float(thread.minor)
        return minor - _BURR, minor + thread.bore_tolerance + _OVER
    outside = float(thread.diameter)
    return outside - thread.allowance - thread.crest_tolerance - _WORN, outside + _BURR


def _work(given: Given) -> Worked:
    hole = given.word("part") == "hole"
    readings = [reading.to("mm") for reading in given.readings("diameter")]
    diameter, pitch = sum(readings, Fraction(0)) / len(readings), _pitch(given)
    every = [each for each in candidates(diameter, pitch, hole=hole) if _leans(given, each.thread)]
    fitting = _without_twins([each for each in every if each.fits])
    shown = fitting or _without_twins([each for each in every if each.near])[:4]
    tell = Teller((("mm", 2, 3), ("in", 3, 4)), given)
    best = fitting[0].thread if fitting else None
    traps = _traps(best) if best else ()
    results = [said(THREAD, _names(fitting) or "none that is known here")]
    if len(fitting) == 1:
        results.append(answered(NOMINAL, fitting[0].thread.diameter, given))
    results += [answered(PITCH, pitch, given), answered(TPI, INCH / pitch, given)]
    return Worked(
        tuple(results),
        tuple(_steps(given, tell, readings, diameter, pitch, shown)),
        _verdict(fitting, shown),
        None,
        tuple(_warnings(fitting, traps)),
        tuple(_grids(shown, traps, tell)),
    )


def _pitch(given: Given) -> Fraction:
    """The pitch in mm, from the one way in which it was read."""
    ways = [name for name in ("pitch", "tpi", "over") if given.has(name)]
    if not ways:
        raise NotWorked(
            "pitch",
            "is missing",
            "read it with a thread gauge, as pitch or as tpi, or measure over ten threads",
        )
    if len(ways) > 1:
        raise NotWorked(ways[1], f"is one reading too many beside {ways[0]}", "give one of them")
    if ways == ["tpi"]:
        return INCH / given.number("tpi")
    if ways == ["pitch"]:
        readings = [reading.to("mm") for reading in given.readings("pitch")]
        return sum(readings, Fraction(0)) / len(readings)
    if not given.has("threads"):
        raise NotWorked(
            "threads", "is missing", "it is how many pitches the length over spans, one less than the crests"
        )  # fmt: skip
    return given.one("over").to("mm") / given.number("threads")


def _leans(given: Given, thread: Thread) -> bool:
    return not given.has("angle") or Fraction(given.word("angle")) == thread.form.angle


def _without_twins(found: list[Candidate]) -> list[Candidate]:
    """Candidates without those that are the same thread under another name."""
    kept: list[Candidate] = []
    for each in found:
        if not any(each.thread.same_as(one.thread) for one in kept):
            kept.append(each)
    return kept


def _twins(thread: Thread) -> str:
    """A thread with its other names: `1/4 BSF, the same as 1/4 brass`."""
    others = [other.name for other in threads() if other is not thread and other.same_as(thread)]
    return f"{thread.name} (the same as {listed(others)})" if others else thread.name


def _names(found: list[Candidate]) -> str:
    return listed([_twins(each.thread) for each in found], "or")


def _traps(thread: Thread) -> tuple[Fit, ...]:
    return tempting(thread, threads())[:_SHOWN]


def _steps(
    given: Given,
    tell: Teller,
    readings: list[Fraction],
    diameter: Fraction,
    pitch: Fraction,
    shown: list[Candidate],
) -> Iterator[str]:
    what = "bore of the hole" if given.word("part") == "hole" else "diameter over the crests"
    other = f"{fixed_number(diameter / INCH, 4)} in" if tell(diameter).endswith("mm") else f"{fixed_number(diameter, 2)} mm"  # fmt: skip
    mean = f"mean of {len(readings)}, " if len(readings) > 1 else ""
    yield f"{what}: {mean}{tell(diameter)} ({other})"
    over = ""
    if given.has("over"):
        over = f"{given.one('over').words} / {given.one('threads').words} = "
    yield f"pitch: {over}{fixed_number(pitch, 3)} mm, {fixed_number(INCH / pitch, 1)} threads per inch"
    for each in shown:
        yield f"{each.thread.name}: {_against(each, hole=given.word('part') == 'hole')}"


def _against(each: Candidate, *, hole: bool) -> str:
    low, high = _limits(each.thread, hole=hole)
    beyond = f", {fixed_number(abs(each.beyond), 2)} mm too {'small' if each.beyond < 0 else 'large'}" if each.beyond else ""  # fmt: skip
    return f"measures {fixed_number(low, 2)} to {fixed_number(high, 2)} mm{beyond}; {each.thread.pitch_words}, {_out(each)}"


def _out(each: Candidate) -> str:
    percent = f"{fixed_number(100 * abs(each.out), 1)} %"
    if percent == "0.0 %":
        return "as read"
    return f"the reading is {percent} {'more' if each.out > 0 else 'less'}"


def _verdict(fitting: list[Candidate], shown: list[Candidate]) -> str:
    if len(fitting) == 1:
        return f"It is {_names(fitting)}."
    if not fitting:
        near = f"; the nearest: {_names(shown)}" if shown else ""
        return f"No thread that is known here has both readings{near}. Measure again where it is not worn, or ask the maker."
    angles = {each.thread.form.angle for each in fitting}
    if len(angles) == len(fitting):
        tell = listed(
            [f"{float(each.thread.form.angle):g} degrees {each.thread.name}" for each in fitting]
        )
        return f"Both readings fit {_names(fitting)}. The angle of the flanks decides: {tell}."
    return (
        f"Both readings fit {_names(fitting)}. Count over a longer piece, look at the angle of the flanks, and try the screw by hand in a "
        "nut of which you are sure."
    )


def _warnings(fitting: list[Candidate], traps: tuple[Fit, ...]) -> Iterator[str]:
    passing = [
        f"{fit.screw.name} in {fit.hole.name}"
        for fit in traps
        if fit.outcome(nut_turns(fit.hole)) is Outcome.PASSES
    ]
    if passing:
        yield f"By hand these feel right and are not: {listed(passing[:4])}."
    if len(fitting) > 1:
        yield f"{counted(len(fitting), 'thread')} fit what was read: buy or cut nothing before it is settled which."


def _grids(shown: list[Candidate], traps: tuple[Fit, ...], tell: Teller) -> Iterator[Grid]:
    if shown:
        yield Grid(
            "Threads that fit what was read" if shown[0].fits else "Nearest threads",
            ("Thread", "Diameter", "Pitch", "Angle", "Pitch as read"),
            tuple(
                (
                    _twins(each.thread),
                    tell(each.thread.diameter),
                    each.thread.pitch_words,
                    f"{plain(each.thread.form.angle, 1)} degrees",
                    _out(each),
                )
                for each in shown
            ),
        )
    if traps:
        yield Grid(
            "What starts and is wrong",
            ("Screw and hole", "What happens", "Binds after", "Caught"),
            tuple(
                (
                    f"{fit.screw.name} in {fit.hole.name}",
                    fit.outcome(nut_turns(fit.hole)).value,
                    _binds(fit),
                    f"{fixed_number(100 * fit.overlap, 0)} %",
                )
                for fit in traps
            ),
        )  # fmt: skip


def _binds(fit: Fit) -> str:
    if fit.turns is None or fit.turns > nut_turns(fit.hole):
        return "never in a nut"
    turns = fixed_number(fit.turns, 0)
    return f"{turns} turn" if turns == "1" else f"{turns} turns"


THREAD_IDENTITY = Sum(
    name="thread-identity",
    title="Which thread is it?",
    job=Job.FASTENERS,
    asks="Which thread has this diameter and this pitch, and what starts in it and is wrong?",
    inputs=(
        Input("diameter", "outside diameter of the screw, or bore of the threaded hole, measured at a few places", "length", Takes.READINGS, "d", least="1 mm", most="60 mm"),
        Input(
            "part", "what was measured", WORD, default="screw",
            choices=(("screw", "a screw, bolt or stud, over its crests"), ("hole", "a nut or hole, across the bore")),
        ),
        Input("pitch", "pitch from a thread gauge in millimetres", "length", Takes.READINGS, "p", optional=True, least="0.2 mm", most="7 mm"),
        Input("tpi", "threads per inch from a thread gauge", "number", symbol="N", optional=True, least="3", most="100"),
        Input("over", "length over several threads, crest to crest", "length", symbol="l", optional=True, least="1 mm", most="200 mm"),
        Input("threads", "how many pitches that length spans, one less than the crests", "count", symbol="n", optional=True, least="1", most="100"),
        Input(
            "angle", "angle between the flanks, if a gauge or a glass tells it", WORD, optional=True,
            choices=(("55", "55 degrees, Whitworth form: BSW, BSF, BSP, brass"), ("60", "60 degrees: metric, unified and cycle"), ("47.5", "47.5 degrees: BA")),
        ),
    ),
    outputs=(THREAD, NOMINAL, PITCH, TPI),
    in_words=(
        "A screw measures a little less over its crests than its nominal diameter, a hole a little more in its bore than its minor diameter. Every "
        "thread known here for which both diameter and pitch may be what was read is named. Then each is tried, in numbers, against all the others."
    ),
    formula=("p = l / n", "N = 25.4 mm / p", "screw: d from nominal \N{MINUS SIGN} allowance \N{MINUS SIGN} tolerance \N{MINUS SIGN} wear to nominal", "hole: d from minor diameter to minor diameter + tolerance"),
    limits=(
        f"A pitch counts as read when it is out by no more than {fixed_number(100 * _PITCH_OUT, 1)} %: measure over ten threads or more to tell 26 to the inch from 1 mm.",
        f"A screw may be worn or plated by up to {fixed_number(_WORN, 2)} mm. One that is stretched at the neck reads a longer pitch there.",
        "BSW, BSF, BA 0 to 10, UNC, UNF, metric coarse and usual fine, BSP parallel, cycle, and brass of 26 to the inch. Makers' own threads, taper pipe threads, left-hand ones and oversize studs are not told apart.",
    ),
    caution=(
        "Never settle a brake, steering, suspension or wheel thread by a caliper alone: compare it with the maker's parts list, try it by hand with a "
        "known good part, and have it checked by a qualified person. A thread that stiffens is the wrong one."
    ),
    sources=(
        "BS 84, BS 93, BS 811, ASME B1.1, ISO 261 and ISO 228-1: sizes and pitches of the series.",
        "ISO 965-1: tolerances of the medium fit, 6g in 6H, taken for all series.",
        "Common practice, no source: wear, and what counts as the same pitch.",
    ),
    example=(("diameter", "7.86, 7.88 mm"), ("part", "screw"), ("over", "11.5 mm"), ("threads", "10"), ("angle", "55")),
    work=_work,
)  # fmt: skip

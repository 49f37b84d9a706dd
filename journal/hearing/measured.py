"""Lines on what was measured: readings with their limits, each on the component that it was taken of."""

from collections.abc import Iterator

from journal.hearing.heard import Kind, Line
from journal.hearing.listening import Listening
from journal.hearing.numbers import numbers_in
from journal.hearing.quantities import Reading, readings_in
from journal.reading.yamltext import Plain

# What is measured, by the words that say so, the longer ones first.
_DIMENSIONS = (
    "end float", "ring gap", "oil pressure", "compression ratio", "compression", "run out",
    "runout", "free length", "fitted length", "bore", "taper", "ovality", "clearance", "backlash",
    "back lash", "preload", "thickness", "depth", "diameter", "free play", "play", "gap",
    "pressure", "voltage", "current", "resistance", "tension", "toe", "camber", "castor", "timing",
    "temperature", "weight", "height", "length", "width", "lift", "lash", "tread", "torque",
    "float", "charge", "draw", "travel", "step", "level",
)  # fmt: skip
_BY_UNIT = {
    "psi": "pressure", "bar": "pressure", "V": "voltage", "A": "current", "ohm": "resistance",
    "kohm": "resistance", "C": "temperature", "F": "temperature", "lbf ft": "torque", "Nm":
    "torque", "lbf in": "torque", "kg": "weight", "lb": "weight", "g": "weight", "oz": "weight",
    "deg": "angle", "rpm": "speed", "mph": "speed",
}  # fmt: skip
_REACH = 14
# So many words before a reading, and after it, its component may be named.
_BACK, _ON = 40, 8
_LEADS = frozenset("on of in across between for".split())
_ENDS = frozenset(
    "and but so then which is was it its it's they theyre they're i we because with when".split()
)


def measured_lines(here: Listening) -> Iterator[Line]:
    """A line for each reading; a size of a tool and a price are none. What a fastener was tightened to
    is one, as the setting that it was left at."""
    taken: set[str] = set()
    for reading in readings_in(here.tokens, numbers_in(here.tokens)):
        if reading.how in ("reading", "torque") and reading.amounts:
            yield _line(here, reading, taken)


def _line(here: Listening, reading: Reading, taken: set[str]) -> Line:
    low, high = here.flat.clause(reading.first, reading.last)
    keys = _of_what(here, reading)[:1]
    entry: dict[str, Plain] = {"on": keys[0]} if keys else {}
    entry["read"] = list(reading.amounts) if len(reading.amounts) > 1 else reading.amounts[0]
    entry["unit"] = reading.unit
    limit = _limit(reading)
    if limit:
        entry["limit"] = limit
    if reading.about:
        entry["note"] = "told as about that"
    ask = "" if keys else "What was this measured on?"
    name = _name(here, reading, keys, taken)
    return here.line(Kind.MEASURED, low, high, {"measured": {name: entry}}, ask, keys)


def _of_what(here: Listening, reading: Reading) -> tuple[str, ...]:
    """The component that a reading was taken of: the one it is told `on`, else the one spoken of last before
    it, else the next one in its sentence. The maker's book is none."""
    named = [m for m in here.mentions if m.keys and not m.keys[0].startswith("papers/")]
    before = [m for m in named if reading.first - _BACK <= m.first < reading.first]
    after = [m for m in named if reading.last <= m.first < reading.last + _ON]
    told = after[:1] if after and _leads_on(here, reading.last, after[0].first) else []
    end = here.clauses.sentence_of(reading.first)[1]
    last = max(before, key=lambda m: m.first, default=None)
    found = told or ([last] if last else []) or [m for m in named if reading.last <= m.first < end]
    return found[0].keys if found else ()


def _leads_on(here: Listening, first: int, last: int) -> bool:
    """Whether the words [first, last) lead from a reading to what it is of: end float on the laygear."""
    tokens = here.tokens[first : last + 1]
    words = {token.text for token in tokens[:-1]}
    return (
        not _LEADS.isdisjoint(words)
        and _ENDS.isdisjoint(words)
        and not any(token.breaks for token in tokens)
    )


def _limit(reading: Reading) -> Plain | None:
    if reading.limit is None:
        return None
    least, most = reading.limit
    if least is not None and most is not None:
        return [least, most]
    return {name: end for name, end in (("least", least), ("most", most)) if end is not None}


def _name(here: Listening, reading: Reading, keys: tuple[str, ...], taken: set[str]) -> str:
    """What was measured, as a sheet names it: `laygear end float`."""
    slug = keys[0].split("/")[1].replace("-", " ") if keys else ""
    base = f"{slug} {_dimension(here, reading)}".strip()
    name, count = base, 2
    while name in taken:
        name, count = f"{base} {count}", count + 1
    taken.add(name)
    return name


def _dimension(here: Listening, reading: Reading) -> str:
    first, last = max(0, reading.first - _REACH), min(len(here.tokens), reading.last + 6)
    words = f" {' '.join(token.text for token in here.tokens[first:last])} "
    ends = {
        name: words.rfind(f" {name} ") + len(name) for name in _DIMENSIONS if f" {name} " in words
    }
    if not ends:
        return _BY_UNIT.get(reading.unit, "reading")
    return max(ends, key=lambda name: (ends[name], len(name)))

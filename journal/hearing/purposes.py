"""What a quantity was said for: read, set by a wrench, the size of a tool or of stock, or a price.

Common practice of the trade, no source.
"""

from typing import Literal

from journal.hearing.groups import Group
from journal.hearing.numberwords import number_at
from journal.hearing.strand import Strand
from journal.hearing.unitwords import DEGREES, POUNDS
from journal.words.units import UNITS

Purpose = Literal["reading", "limit", "size", "torque", "money"]

# Things that are called by a size.
_THINGS = frozenset({
    "shell", "shells", "liner", "liners", "thrusts", "patch", "patches", "strip", "strips", "piece",
    "pieces", "length", "lengths", "drill", "drills", "bit", "bits", "spanner", "spanners", "socket",
    "sockets", "wrench", "bolt", "bolts", "stud", "studs", "nut", "nuts", "washer", "washers", "rivet",
    "rivets", "tap", "taps", "die", "dies", "reamer", "reamers", "shim", "shims", "plate", "plates",
    "sheet", "sheets", "sheeting", "box", "section", "hose", "hoses", "bar", "tube", "tubes", "tubing",
    "pipe", "pipes", "thread", "threads", "screw", "screws", "setscrew", "pin", "pins", "pop", "angle",
    "allen", "key", "keys", "drive", "ratchet", "unf", "unc", "bsf", "bsw", "bsp", "af", "whitworth",
    "whit", "metric", "butterfly", "carb", "carbs", "carburettor", "carburettors", "cable", "cables",
    "wire", "wires", "copper", "steel", "aluminium", "ally", "ply", "plywood", "feeler", "feelers", "blade",
    "file", "punch", "drift", "chisel", "hole", "holes", "wheel", "wheels", "rim", "rims", "tyre", "tyres",
    "rod", "rods", "dowel", "dowels", "clip", "clips", "grommet", "bearing", "ball", "balls", "countersunk",
    "hexagon", "union", "unions", "fitting", "fittings", "flare", "olive", "gasket", "brush", "tape",
    "masking", "foam", "webbing", "felt", "battery", "bulb", "bulbs", "fuse", "fuses", "coil", "supply",
    "system", "charger", "lead", "lamp", "feed", "regulator", "relay", "engine", "motor", "chamfer",
    "cutter", "elbow", "bend", "jack", "hammer", "mallet", "press", "crane", "hoist", "tank", "can", "cans",
    "tin", "tins", "drum", "jar", "pot", "grit", "disc", "discs", "spacer", "spacers", "packer", "packers",
    "sleeve", "sleeves", "insert", "inserts", "helicoil", "helicoils", "mandrel", "bush", "oversize",
    "undersize", "oversized", "bolster", "collet", "jets", "jet", "circlip", "chain", "springs", "leaf",
    "brake", "main",
})  # fmt: skip
# What may stand between a size and the thing.
_SUCH = frozenset({
    "stainless", "steel", "high", "tensile", "copper", "brass", "ally", "aluminium", "new", "long", "thick",
    "flat", "square", "round", "rubber", "fuel", "ring", "open", "ended", "deep", "hex", "combination",
    "machine", "set", "spring", "thin", "mild", "zinc", "plated", "braided", "left", "hand", "diameter",
    "nylon", "allen", "split", "hollow", "metric", "fine", "coarse", "pop", "by", "bore", "wide", "head",
    "headed", "core", "cartridge", "paper", "heater", "oil", "water", "drive", "the", "jubilee", "hose",
    "piston", "roll", "angle", "letter", "number", "impact", "air", "din",
})  # fmt: skip
# Words after which a length is that of a tool or a hole.
_MADE = frozenset(
    {"drilled", "drill", "tapped", "reamed", "opened", "drilling", "tap", "ream", "punched"}
)
# Verbs of taking metal off.
_CUTTING = frozenset({
    "took", "take", "taken", "taking", "skimmed", "skim", "machined", "cut", "ground", "filed", "removed",
    "shaved", "faced", "turned", "planed", "lapped", "bored", "honed", "milled", "lost",
})  # fmt: skip
# A sign of what was measured, though a thing follows.
_MEASURED = frozenset({
    "gap", "clearance", "float", "play", "lift", "backlash", "runout", "run", "wear", "end", "step",
    "difference", "movement", "stroke", "ovality", "taper", "protrusion", "out", "deep", "proud", "low",
})  # fmt: skip
_OVERSIZE = frozenset({"over", "oversize", "under", "undersize", "oversized", "o", "plus"})
_POURED = frozenset({
    "oil", "fluid", "petrol", "water", "coolant", "antifreeze", "thinner", "thinners", "hardener", "paint",
    "primer", "grease", "filler", "diesel", "fuel", "cleaner", "acid", "lacquer", "meths", "solvent",
    "paraffin", "degreaser", "resin", "wax", "mix", "ep", "gear", "engine", "brake", "it", "clean", "fresh",
    "new", "old", "straight",
})  # fmt: skip
_STOCK = _POURED | {
    "hose",
    "wire",
    "cable",
    "pipe",
    "tube",
    "tubing",
    "copper",
    "steel",
    "trim",
    "leather",
    "vinyl",
    "cloth",
    "carpet",
    "braid",
    "sleeving",
    "rope",
    "weld",
    "filler",
    "tape",
    "timber",
    "ash",
    "material",
    "felt",
    "sheet",
    "bar",
    "ally",
    "aluminium",
    "brass",
    "rod",
    "scrap",
}
_POURING = frozenset({
    "put", "poured", "filled", "topped", "took", "takes", "add", "added", "drained", "used", "mixed",
    "bought", "ordered", "got", "refilled", "fill", "holds", "needs", "lost", "drank", "drinks",
})  # fmt: skip
_TIGHT = frozenset({
    "torqued", "torque", "torqued-up", "tightened", "tighten", "tightening", "done", "did", "pulled",
    "nipped", "torquing", "wrench", "cranked", "wound", "doing", "pull", "do", "clicked", "torqed",
})  # fmt: skip
_TURNING = frozenset({
    "turn", "turning", "undo", "break", "breakaway", "crack", "shift", "preload", "drag", "undone", "move",
})  # fmt: skip
_WEIGHING = frozenset({
    "weigh", "weighs", "weighed", "weighing", "weight", "heavy", "scales", "scale", "balance", "lift",
    "lifting", "spring", "springs", "heavier", "lighter", "rate", "load", "pull", "stone",
})  # fmt: skip
_PRESSURE = frozenset({
    "pressure", "pressures", "psi", "tyre", "tyres", "compression", "compressions", "gauge", "pump",
    "pumped", "boost", "blow", "blew", "blown", "vacuum", "leak", "held", "holding", "holds", "air",
    "inflated", "cap",
})  # fmt: skip
_WARM = frozenset({
    "water", "thermostat", "temperature", "temp", "coolant", "hot", "oven", "warm", "boil", "boiled",
    "boiling", "heat", "heated", "opens", "opened", "radiator", "celsius", "cold", "warmed", "bake",
    "baked",
})  # fmt: skip
_TURNED = frozenset({
    "timing", "advance", "btdc", "atdc", "before", "camber", "caster", "castor", "toe", "dwell", "angle",
    "crank", "crankshaft", "flywheel", "rotate", "rotated", "turn", "lock", "degree", "retard", "retarded",
    "advanced", "top", "static", "cam", "distributor", "seat", "rake",
})  # fmt: skip
_WITHIN = 9


def unit_said(strand: Strand, group: Group) -> str:
    """The unit that a group was meant in: pounds and degrees are told by what they are said of."""
    around = strand.words_before(group.start, _WITHIN) + strand.words_after(group.end, _WITHIN)
    if group.unit == POUNDS:
        return _pounds(strand, group, set(around))
    if group.unit == DEGREES:
        warm = not _WARM.isdisjoint(around) and _TURNED.isdisjoint(around)
        return "C" if warm else "deg"
    if group.unit == "lb" and not _PRESSURE.isdisjoint(around):
        return "psi"
    after = strand.words_after(group.end, 3)
    if group.unit == "mm" and after[:1] == ("of",) and not _POURED.isdisjoint(after[1:]):
        return "ml" if _pours(after[1:]) else "mm"
    return group.unit


def _pounds(strand: Strand, group: Group, around: set[str]) -> str:
    if strand.on(group.end) in ("hammer", "mallet", "spring", "springs") or around & _WEIGHING:
        return "lb"
    return "psi" if around & _PRESSURE else "GBP"


def _pours(words: tuple[str, ...]) -> bool:
    return not {"filler", "wax", "grease", "weld"} & set(words[:2])


def purpose_of(strand: Strand, group: Group, unit: str) -> Purpose | None:
    """What a group was said for; None where it says nothing of the car: a hundred percent sure."""
    if unit in ("GBP", "USD", "EUR"):
        return "money"
    kind = next((kind for kind, units in UNITS.items() if unit in units), "")
    if _is_idle(strand, group, unit):
        return None
    if kind == "torque":
        return "torque" if _tightened(strand, group) else "reading"
    return "size" if _is_size(strand, group, unit, kind) else "reading"


def _is_idle(strand: Strand, group: Group, unit: str) -> bool:
    after = strand.words_after(group.end, 2)
    if unit == "%":
        done = {
            "done",
            "finished",
            "sure",
            "certain",
            "there",
            "happy",
            "of",
            "off",
            "better",
            "right",
        }
        return bool(done & set(after[:1])) or group.measures[0].value == 100
    if unit in ("mile", "km"):
        return bool({"away", "drive", "round", "trip", "from", "down", "up"} & set(after[:1]))
    return (
        unit == "bar"
        and not _PRESSURE
        & set(strand.words_before(group.start, _WITHIN) + strand.words_after(group.end, _WITHIN))
        and bool(_STOCK & set(after))
    )


def _tightened(strand: Strand, group: Group) -> bool:
    before, after = strand.words_before(group.start, 14), strand.words_after(group.end, 4)
    if not _TURNING.isdisjoint(before[-4:] + after):
        return False
    return not _TIGHT.isdisjoint(before + after)


def _is_size(strand: Strand, group: Group, unit: str, kind: str) -> bool:
    if unit in ("gauge", "ft", "m") or _is_thing(strand, group.end):
        return True
    if strand.on(group.end) in ("by", "x") and number_at(strand, group.end + 1) is not None:
        return kind == "length"
    after, before = strand.words_after(group.end, 3), strand.words_before(group.start, 5)
    if after[:1] == ("of",) and kind in ("volume", "length", "mass"):
        return not _STOCK.isdisjoint(after[1:]) and not (unit == "mm" and "filler" not in after)
    if kind == "volume":
        return unit not in ("cc", "ml") and not _POURING.isdisjoint(before)
    if kind == "length" and after[:1] == ("off",):
        return not _CUTTING.isdisjoint(before)
    if kind == "length":
        return _is_over(strand, group, unit) or not _MADE.isdisjoint(before[-4:])
    return False


def _is_over(strand: Strand, group: Group, unit: str) -> bool:
    """Whether it is an oversize: forty thou over; but not over ten, and not two thou over."""
    word = strand.on(group.end)
    if word not in _OVERSIZE or number_at(strand, group.end + 1) is not None:
        return False
    return word.startswith(("overs", "unders")) or unit != "thou" or group.measures[0].value >= 10


def _is_thing(strand: Strand, n: int) -> bool:
    """Whether what was measured is what a tool or stock is called: ten mil stainless bolt."""
    for k in range(n, n + 4):
        word = strand.on(k)
        if word in _MEASURED:
            return False
        if word in _THINGS:
            return word != "bearing" or strand.on(k + 1) not in _MEASURED
        if word not in _SUCH:
            return False
    return False

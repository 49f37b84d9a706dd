"""What a quantity was said for: read, set by a wrench, the size of a tool or of stock, or a price.

Common practice of the trade, no source.
"""

from typing import Literal

from journal.hearing.groups import Group
from journal.hearing.idle import is_change, is_idle
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
    "stainless", "steel", "high", "tensile", "copper", "brass", "ally", "aluminium", "new", "long",
    "thick", "flat", "square", "round", "rubber", "fuel", "ring", "open", "ended", "deep", "hex",
    "combination", "machine", "set", "spring", "thin", "mild", "zinc", "plated", "braided", "left",
    "hand", "diameter", "nylon", "allen", "split", "hollow", "metric", "fine", "coarse", "pop", "by",
    "bore", "wide", "head", "headed", "core", "cartridge", "paper", "heater", "oil", "water", "drive",
    "the", "jubilee", "hose", "piston", "roll", "angle", "letter", "number", "impact", "air", "din",
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
    "reading", "drop", "lip", "ridge", "bow", "twist", "sag", "dip", "spread", "loss",
    "difference", "movement", "stroke", "ovality", "taper", "protrusion", "out", "deep", "proud", "low",
})  # fmt: skip
_OVERSIZE = frozenset({"over", "oversize", "under", "undersize", "oversized", "o", "plus"})
_FOUND = frozenset(
    {"is", "it's", "are", "they're", "measures", "measured", "reads", "was", "that's"}
)
# Signs that a length was taken, and that a volume is what something holds.
_TAPED = frozenset({"measured", "measures", "tape", "taped", "measure"})
_HELD = frozenset(
    {"measured", "measures", "holds", "capacity", "displaced", "displaces", "level", "burette"}
)
_GIVES = frozenset({"draws", "drawing", "puts", "gives", "measured", "reads", "output", "pulls"})
_ORDERED = frozenset({"ordered", "order", "ordering", "bought", "buy", "asked"})
# What follows where no thing is named.
_NO_NOUN = frozenset({
    "", "in", "on", "and", "from", "for", "with", "so", "to", "at", "where", "then", "which", "off", "or",
    "but", "instead", "because", "i", "we", "it", "that", "there", "again",
})  # fmt: skip
_POURED = frozenset({
    "oil", "fluid", "petrol", "water", "coolant", "antifreeze", "thinner", "thinners", "hardener",
    "paint", "primer", "grease", "filler", "diesel", "fuel", "cleaner", "acid", "lacquer", "meths",
    "solvent", "paraffin", "degreaser", "resin", "wax", "mix", "ep", "gear", "engine", "brake", "it",
    "clean", "fresh", "new", "old", "straight",
})  # fmt: skip
_STOCK = _POURED | {
    "hose", "wire", "cable", "pipe", "tube", "tubing", "copper", "steel", "trim", "leather", "vinyl",
    "cloth", "carpet", "braid", "sleeving", "rope", "weld", "filler", "tape", "timber", "ash",
    "material", "felt", "sheet", "bar", "ally", "aluminium", "brass", "rod", "scrap",
}  # fmt: skip
_TIGHT = frozenset({
    "torqued", "torque", "torqued-up", "tightened", "tighten", "tightening", "done", "did", "pulled",
    "nipped", "torquing", "wrench", "cranked", "wound", "doing", "pull", "do", "clicked", "torqed",
})  # fmt: skip
_TURNING = frozenset({
    "turn", "turning", "undo", "break", "breakaway", "crack", "shift", "preload", "drag", "undone",
    "move",
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
_READS = frozenset(
    {"reads", "read", "reading", "shows", "showed", "pulls", "pulled", "took", "measured"}
)
_PAID = frozenset({
    "cost", "costs", "paid", "pay", "price", "priced", "bill", "quid", "charge", "charged", "charges",
    "each", "worth", "money", "vat", "for", "quote", "quoted", "cheaper", "dear", "bought", "postage",
    "sold",
})  # fmt: skip
_WARM = frozenset({
    "water", "thermostat", "temperature", "temp", "coolant", "hot", "oven", "warm", "boil", "boiled",
    "boiling", "heat", "heated", "opens", "opened", "radiator", "celsius", "cold", "warmed", "bake",
    "baked",
})  # fmt: skip
_TURNED = frozenset({
    "timing", "advance", "btdc", "atdc", "before", "camber", "caster", "castor", "toe", "dwell", "angle",
    "crank", "crankshaft", "flywheel", "rotate", "rotated", "turn", "lock", "degree", "retard",
    "retarded", "advanced", "top", "static", "cam", "distributor", "seat", "rake",
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
    if around & _PRESSURE:
        return "psi"
    if around & _PAID or _READS.isdisjoint(strand.words_before(group.start, 5)):
        return "GBP"
    earlier = set(strand.words_before(group.start, 20))
    return "psi" if earlier & _PRESSURE and not earlier & _WEIGHING else "lb"


def _pours(words: tuple[str, ...]) -> bool:
    return not {"filler", "wax", "grease", "weld"} & set(words[:2])


def purpose_of(strand: Strand, group: Group, unit: str) -> Purpose | None:
    """What a group was said for; None where it says nothing of the car: a hundred percent sure."""
    if unit in ("GBP", "USD", "EUR"):
        return "money"
    kind = next((kind for kind, units in UNITS.items() if unit in units), "")
    if is_idle(strand, group, unit) or _is_stock_bar(strand, group, unit):
        return None
    if kind == "torque":
        return "torque" if _tightened(strand, group) else "reading"
    size = is_change(strand, group) or _is_size(strand, group, unit, kind)
    return "size" if size or _is_rating(strand, group, unit) else "reading"


def _is_stock_bar(strand: Strand, group: Group, unit: str) -> bool:
    """Whether a bar is a length of metal and no pressure."""
    around = strand.words_before(group.start, _WITHIN) + strand.words_after(group.end, _WITHIN)
    after = strand.words_after(group.end, 2)
    return unit == "bar" and _PRESSURE.isdisjoint(around) and not _STOCK.isdisjoint(after)


def _tightened(strand: Strand, group: Group) -> bool:
    before, after = strand.words_before(group.start, 14), strand.words_after(group.end, 4)
    if not _TURNING.isdisjoint(before[-4:] + after):
        return False
    return not _TIGHT.isdisjoint(before + after)


def _is_size(strand: Strand, group: Group, unit: str, kind: str) -> bool:
    before = strand.words_before(group.start, 10)
    if unit == "gauge" or (unit in ("ft", "m") and _TAPED.isdisjoint(before)):
        return True
    if _is_thing(strand, group.end) or _is_ordered(strand, group):
        return True
    if strand.on(group.end) in ("by", "x") and number_at(strand, group.end + 1) is not None:
        return kind == "length"
    after = strand.words_after(group.end, 3)
    if kind == "volume" and unit not in ("cc", "ml"):
        return _HELD.isdisjoint(before + after)
    if after[:1] == ("of",) and kind in ("volume", "length", "mass"):
        return not _STOCK.isdisjoint(after[1:]) and not (unit == "mm" and "filler" not in after)
    if kind == "length" and after[:1] == ("off",):
        return not _CUTTING.isdisjoint(before[-5:])
    if kind == "length":
        return _is_over(strand, group, unit) or not _MADE.isdisjoint(before[-6:])
    return False


def _is_rating(strand: Strand, group: Group, unit: str) -> bool:
    """Whether a thing is called by its size, and by nothing else: put a five watt in, with a two mil."""
    if unit == "W":
        return _GIVES.isdisjoint(strand.words_before(group.start, 6))
    if group.shape != "list" or len(group.measures) > 1 or strand.at(group.start - 1) != "a":
        return False
    return group.measures[0].value > 1 and strand.on(group.end) in _NO_NOUN


def _is_ordered(strand: Strand, group: Group) -> bool:
    """Whether a size is that of something ordered: ordered a clutch, eight inch, number so and so."""
    after = strand.words_after(group.end, 4)
    if after[:1] in (("number",), ("part",)):
        return True
    return not _ORDERED.isdisjoint(strand.words_before(group.start, 6))


def _is_over(strand: Strand, group: Group, unit: str) -> bool:
    """Whether it is an oversize: bored forty thou over; but not over ten, not two thou over, and not what
    is found to be sixteen thou over."""
    word = strand.on(group.end)
    if word not in _OVERSIZE or number_at(strand, group.end + 1) is not None:
        return False
    if not _FOUND.isdisjoint(strand.words_before(group.start, 3)) and word in ("over", "under"):
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

"""Proving: what has to be recorded before a safety-critical subsystem is handed over.

The lists are common practice, no source. They are what a workshop is usually asked for, and no
more: the maker's manual, local rules and a qualified person go before them. A workshop adds its own
in `workshop.yaml`; a proof that a car does not need is recorded as such with the reason, so that
none is dropped without a word.
"""

from typing import NamedTuple

from journal.words.vocabulary import Act


class Asked(NamedTuple):
    """A proof that is asked for. `reads` marks those whose result is a figure with its unit."""

    name: str
    label: str
    reads: bool = False


LOCKED = "fasteners-locked"
_LOCKED = Asked(LOCKED, "Locking of every fastener recorded")
_ROAD = "road-test"

# Common practice, no source; each list in the order in which it is gone through.
PROVING: dict[str, tuple[Asked, ...]] = {
    "chassis": (
        Asked("frame-square", "Frame measured across its diagonals", reads=True),
        Asked("welds", "Every weld on the frame looked at, both sides where they can be seen"),
        Asked("mounts-tight", "Body mounts and frame fasteners tightened and locked"),
        Asked("jacking-points", "Jacking points carry the car, stands under it"),
        Asked("anchorages", "Anchorages of seats and belts sound and tight"),
    ),
    "rear-axle": (
        _LOCKED,
        Asked("hub-nuts", "Hub nuts tightened to the maker's figure and locked"),
        Asked("oil", "Oil named and up to the level, breather open"),
        Asked("no-leak", "Dry at every seal after the road test, no oil on the linings"),
        Asked(_ROAD, "Road test: no knock, no growl, hubs cool"),
    ),
    "front-suspension": (
        _LOCKED,
        Asked("weight-on", "Bushes pulled up with the car's weight on its wheels"),
        Asked("clear", "Clear of body, pipes and hoses from bump to droop"),
        Asked("hub-float", "Hub bearings set to the maker's figure and locked", reads=True),
        Asked("ride-height", "Ride height, side against side", reads=True),
        Asked(_ROAD, "Road test: no knock, no wander, dampers dry"),
    ),
    "rear-suspension": (
        _LOCKED,
        Asked("weight-on", "Bushes and spring bolts pulled up with the weight on the wheels"),
        Asked("clear", "Clear of body, pipes and exhaust from bump to droop"),
        Asked("ride-height", "Ride height, side against side", reads=True),
        Asked(_ROAD, "Road test: no knock, axle square, dampers dry"),
    ),
    "steering": (
        Asked("lock-to-lock", "Free and clear from lock to lock, on the ground and off it"),
        _LOCKED,
        Asked("wheel-tight", "Steering wheel, column and couplings tight and locked"),
        Asked("free-play", "Free play at the rim, straight ahead", reads=True),
        Asked("tracking", "Tracking set to the maker's figure", reads=True),
        Asked(_ROAD, "Road test: returns by itself, no pull, no shake"),
    ),
    "brakes": (
        Asked("fluid-named", "Fluid named, of the kind the maker asks for, from a sealed tin"),
        Asked("pressure-held", "Pressure held: the pedal does not sink under a steady hard foot"),
        Asked("no-weep", "No weep at any union, hose or cylinder under sustained pedal"),
        Asked("hoses-clear", "Hoses clear of wheel and suspension, lock to lock and bump to droop"),
        _LOCKED,
        Asked("wheels-free", "Every wheel runs free once the pedal is let go"),
        Asked("parking-brake", "Parking brake holds on a slope, nose up and nose down"),
        Asked(_ROAD, "Road test: pulls up straight, pedal the same at the end"),
    ),
    "wheels-and-tyres": (
        Asked("tightened", "Wheels tightened to the maker's figure or method"),
        Asked("tightened-again", "Tightened again after the first miles"),
        Asked("tyre-age", "Age read off every tyre, the spare too"),
        Asked("tyre-pressures", "Tyre pressures set", reads=True),
        Asked("run-true", "Wheels run true and foul nothing, lock to lock and on full bump"),
    ),
    "fuel": (
        Asked("pressure-test", "Lines and joints tested under pressure", reads=True),
        Asked("hoses-clipped", "Every hose of fuel grade, clipped, clear of heat and edges"),
        Asked("tank-secure", "Tank held down, vent open, filler sealing"),
        Asked("throttle-shuts", "Throttle shuts by itself from every opening"),
        Asked("no-smell", "No smell of petrol after standing closed up overnight"),
    ),
    "electrical": (
        Asked("fuses", "A fuse for every added circuit, its rating written down"),
        Asked("insulation", "Insulation to earth, battery off", reads=True),
        Asked("battery-secure", "Battery held down, terminals covered, leads clear of edges"),
        Asked("loom-clear", "Loom clipped, a grommet at every hole, clear of heat and what moves"),
        Asked("lamps", "Every lamp, stop lamp and indicator, and the horn"),
        Asked("charging", "Charging voltage, engine running and everything lit", reads=True),
    ),
}

# What is asked of a safety-critical subsystem that the trade has no list for.
OTHERWISE: tuple[Asked, ...] = (
    Asked("looked-over", "Gone over from end to end, every fastener tried"),
)

# Acts after which a proof does not hold any more, and which the record must tell in full. Looking,
# measuring, cleaning, coating, trimming and storing leave a thing and its fastenings as they were;
# plating is here because acid and hydrogen can crack a hard fastener.
CHANGES: frozenset[Act] = frozenset(
    {
        Act.REMOVED, Act.STRIPPED, Act.REPAIRED, Act.WELDED, Act.MACHINED, Act.MADE, Act.PLATED,
        Act.RELINED, Act.RECORED, Act.REBUILT, Act.ADJUSTED, Act.TRIAL_FITTED, Act.FITTED,
    }
)  # fmt: skip

# Taking off and apart leaves nothing to be checked: what came off is checked when it goes back.
TAKES_APART: frozenset[Act] = frozenset({Act.REMOVED, Act.STRIPPED})

# Acts that look at what was done and so may be the check of it.
LOOKS: frozenset[Act] = frozenset({Act.INSPECTED, Act.MEASURED, Act.PROVED})

"""Bench sums: the small calculations of the workshop, a file each. `SUMS` is the list of them.

A sum is pure: what is written for its inputs goes in as texts, and comes out as an answer with its
working, or as all that is wrong. `base/` holds what every one of them is made of.
"""

from journal.bench.base.definition import Sum
from journal.bench.cable_size import CABLE_SIZE
from journal.bench.centring import CENTRING
from journal.bench.charge_balance import CHARGE_BALANCE
from journal.bench.coolant_strength import COOLANT_STRENGTH
from journal.bench.earth_polarity import EARTH_POLARITY
from journal.bench.fuel_storage import FUEL_STORAGE
from journal.bench.fuse_rating import FUSE_RATING
from journal.bench.hours_quote import HOURS_QUOTE
from journal.bench.paint_coverage import PAINT_COVERAGE
from journal.bench.paint_mix import PAINT_MIX
from journal.bench.shim_pack import SHIM_PACK
from journal.bench.tapping_drill import TAPPING_DRILL
from journal.bench.thread_identity import THREAD_IDENTITY
from journal.bench.thread_pair import THREAD_PAIR
from journal.bench.valve_shims import VALVE_SHIMS

SUMS: tuple[Sum, ...] = (
    CENTRING,
    SHIM_PACK,
    VALVE_SHIMS,
    THREAD_IDENTITY,
    THREAD_PAIR,
    TAPPING_DRILL,
    CABLE_SIZE,
    FUSE_RATING,
    CHARGE_BALANCE,
    EARTH_POLARITY,
    PAINT_MIX,
    PAINT_COVERAGE,
    COOLANT_STRENGTH,
    FUEL_STORAGE,
    HOURS_QUOTE,
)

SUM_NAMED: dict[str, Sum] = {each.name: each for each in SUMS}

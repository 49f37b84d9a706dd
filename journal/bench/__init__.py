"""Bench sums: the small calculations of the workshop, a file each. `SUMS` is the list of them.

A sum is pure: what is written for its inputs goes in as texts, and comes out as an answer with its
working, or as all that is wrong. `base/` holds what every one of them is made of.
"""

from journal.bench.base.definition import Sum
from journal.bench.batch_count import BATCH_COUNT
from journal.bench.bearing_clearance import BEARING_CLEARANCE
from journal.bench.bolt_preload import BOLT_PRELOAD
from journal.bench.centring import CENTRING
from journal.bench.compression_ratio import COMPRESSION_RATIO
from journal.bench.end_float import END_FLOAT
from journal.bench.piston_speed import PISTON_SPEED
from journal.bench.ring_gap import RING_GAP
from journal.bench.shaft_plating import SHAFT_PLATING
from journal.bench.shim_pack import SHIM_PACK
from journal.bench.thread_plating import THREAD_PLATING
from journal.bench.torque_adapter import TORQUE_ADAPTER
from journal.bench.valve_shims import VALVE_SHIMS

SUMS: tuple[Sum, ...] = (
    CENTRING,
    SHIM_PACK,
    VALVE_SHIMS,
    BEARING_CLEARANCE,
    RING_GAP,
    END_FLOAT,
    COMPRESSION_RATIO,
    PISTON_SPEED,
    TORQUE_ADAPTER,
    BOLT_PRELOAD,
    THREAD_PLATING,
    SHAFT_PLATING,
    BATCH_COUNT,
)

SUM_NAMED: dict[str, Sum] = {each.name: each for each in SUMS}

"""Bench sums: the small calculations of the workshop, a file each. `SUMS` is the list of them.

A sum is pure: what is written for its inputs goes in as texts, and comes out as an answer with its
working, or as all that is wrong. `base/` holds what every one of them is made of.
"""

from journal.bench.axle_weights import AXLE_WEIGHTS
from journal.bench.base.definition import Sum
from journal.bench.batch_count import BATCH_COUNT
from journal.bench.bearing_clearance import BEARING_CLEARANCE
from journal.bench.bolt_preload import BOLT_PRELOAD
from journal.bench.brake_balance import BRAKE_BALANCE
from journal.bench.cable_size import CABLE_SIZE
from journal.bench.centre_of_gravity import CENTRE_OF_GRAVITY
from journal.bench.centring import CENTRING
from journal.bench.charge_balance import CHARGE_BALANCE
from journal.bench.coil_spring import COIL_SPRING
from journal.bench.compression_ratio import COMPRESSION_RATIO
from journal.bench.coolant_strength import COOLANT_STRENGTH
from journal.bench.earth_polarity import EARTH_POLARITY
from journal.bench.end_float import END_FLOAT
from journal.bench.fuel_storage import FUEL_STORAGE
from journal.bench.fuse_rating import FUSE_RATING
from journal.bench.gearing import GEARING
from journal.bench.hours_quote import HOURS_QUOTE
from journal.bench.leaf_spring import LEAF_SPRING
from journal.bench.paint_coverage import PAINT_COVERAGE
from journal.bench.paint_mix import PAINT_MIX
from journal.bench.piston_speed import PISTON_SPEED
from journal.bench.ride_height import RIDE_HEIGHT
from journal.bench.ring_gap import RING_GAP
from journal.bench.shaft_plating import SHAFT_PLATING
from journal.bench.shim_pack import SHIM_PACK
from journal.bench.speedometer_change import SPEEDOMETER_CHANGE
from journal.bench.speedometer_check import SPEEDOMETER_CHECK
from journal.bench.speedometer_drive import SPEEDOMETER_DRIVE
from journal.bench.spring_test import SPRING_TEST
from journal.bench.tapping_drill import TAPPING_DRILL
from journal.bench.thread_identity import THREAD_IDENTITY
from journal.bench.thread_pair import THREAD_PAIR
from journal.bench.thread_plating import THREAD_PLATING
from journal.bench.torque_adapter import TORQUE_ADAPTER
from journal.bench.tyre_size import TYRE_SIZE
from journal.bench.valve_shims import VALVE_SHIMS
from journal.bench.weight_change import WEIGHT_CHANGE

SUMS: tuple[Sum, ...] = (
    CENTRING,
    SHIM_PACK,
    VALVE_SHIMS,
    BEARING_CLEARANCE,
    RING_GAP,
    END_FLOAT,
    COMPRESSION_RATIO,
    PISTON_SPEED,
    BRAKE_BALANCE,
    TORQUE_ADAPTER,
    BOLT_PRELOAD,
    THREAD_PLATING,
    SHAFT_PLATING,
    BATCH_COUNT,
    THREAD_IDENTITY,
    THREAD_PAIR,
    TAPPING_DRILL,
    TYRE_SIZE,
    GEARING,
    SPEEDOMETER_CHANGE,
    SPEEDOMETER_DRIVE,
    SPEEDOMETER_CHECK,
    CABLE_SIZE,
    FUSE_RATING,
    CHARGE_BALANCE,
    EARTH_POLARITY,
    COIL_SPRING,
    SPRING_TEST,
    LEAF_SPRING,
    RIDE_HEIGHT,
    AXLE_WEIGHTS,
    CENTRE_OF_GRAVITY,
    WEIGHT_CHANGE,
    PAINT_MIX,
    PAINT_COVERAGE,
    COOLANT_STRENGTH,
    FUEL_STORAGE,
    HOURS_QUOTE,
)

SUM_NAMED: dict[str, Sum] = {each.name: each for each in SUMS}

"""The closed vocabularies of the journal.

Each word is one that the trade or an open standard uses, or our own, and means one thing in files,
code, pages and messages. The value of a member is what a person writes in a sheet.
"""

from enum import StrEnum
from fractions import Fraction
from typing import NamedTuple


class Origin(StrEnum):
    """Where the item in a place on the car comes from."""

    FIRST_FIT = "first-fit"
    PERIOD_USED = "period-used"
    OLD_STOCK = "old-stock"
    PATTERN = "pattern"
    MADE = "made"
    SERVICE = "service"
    UPGRADE = "upgrade"
    ABSENT = "absent"
    UNKNOWN = "unknown"


ORIGIN_MEANING: dict[Origin, str] = {
    Origin.FIRST_FIT: "the very item that the works fitted",
    Origin.PERIOD_USED: "the right genuine item, from another car",
    Origin.OLD_STOCK: "genuine, made in period, never used before",
    Origin.PATTERN: "a new copy of the original item",
    Origin.MADE: "made in the workshop to the original sample or drawing",
    Origin.SERVICE: "a modern service part: same job, other look or material",
    Origin.UPGRADE: "departs from the works specification on purpose",
    Origin.ABSENT: "nothing is there",
    Origin.UNKNOWN: "nobody can tell yet",
}

# Conformity to the works specification by origin, unless a sheet says otherwise with its reason.
# Unknown has none: it counts 0 in the lower bound and 1 in the upper.
CONFORMITY: dict[Origin, Fraction | None] = {
    Origin.FIRST_FIT: Fraction(1),
    Origin.PERIOD_USED: Fraction(1),
    Origin.OLD_STOCK: Fraction(1),
    Origin.PATTERN: Fraction(1),
    Origin.MADE: Fraction(1),
    Origin.SERVICE: Fraction(1, 2),
    Origin.UPGRADE: Fraction(0),
    Origin.ABSENT: Fraction(0),
    Origin.UNKNOWN: None,
}


class Treatment(StrEnum):
    """What has been done to the item itself."""

    UNTOUCHED = "untouched"
    CLEANED = "cleaned"
    CONSERVED = "conserved"
    REPAIRED = "repaired"
    REFINISHED = "refinished"
    REBUILT = "rebuilt"
    MACHINED = "machined"


class Position(StrEnum):
    """Where the item is in the course of the work."""

    ON = "on the car"
    OFF = "off"
    OUT = "out for work"
    TRIAL = "trial-fitted"
    FITTED = "fitted"
    PROVED = "proved"


class Act(StrEnum):
    """What a day's work did to a component (`did:` in a sheet)."""

    REMOVED = "removed"
    STRIPPED = "stripped"
    INSPECTED = "inspected"
    MEASURED = "measured"
    CLEANED = "cleaned"
    CONSERVED = "conserved"
    REPAIRED = "repaired"
    WELDED = "welded"
    MACHINED = "machined"
    MADE = "made"
    REFINISHED = "refinished"
    PAINTED = "painted"
    PLATED = "plated"
    RETRIMMED = "retrimmed"
    RELINED = "relined"
    RECORED = "recored"
    REBUILT = "rebuilt"
    ADJUSTED = "adjusted"
    STORED = "stored"
    TRIAL_FITTED = "trial-fitted"
    FITTED = "fitted"
    PROVED = "proved"


class Effect(NamedTuple):
    """What an act leaves behind on the item: a treatment, a position, either or neither."""

    treatment: Treatment | None = None
    position: Position | None = None


EFFECT: dict[Act, Effect] = {
    Act.REMOVED: Effect(position=Position.OFF),
    Act.STRIPPED: Effect(position=Position.OFF),
    Act.INSPECTED: Effect(),
    Act.MEASURED: Effect(),
    Act.CLEANED: Effect(Treatment.CLEANED),
    Act.CONSERVED: Effect(Treatment.CONSERVED),
    Act.REPAIRED: Effect(Treatment.REPAIRED),
    Act.WELDED: Effect(Treatment.REPAIRED),
    Act.MACHINED: Effect(Treatment.MACHINED),
    Act.MADE: Effect(),
    Act.REFINISHED: Effect(Treatment.REFINISHED),
    Act.PAINTED: Effect(Treatment.REFINISHED),
    Act.PLATED: Effect(Treatment.REFINISHED),
    Act.RETRIMMED: Effect(Treatment.REFINISHED),
    Act.RELINED: Effect(Treatment.REBUILT),
    Act.RECORED: Effect(Treatment.REBUILT),
    Act.REBUILT: Effect(Treatment.REBUILT),
    Act.ADJUSTED: Effect(),
    Act.STORED: Effect(),
    Act.TRIAL_FITTED: Effect(position=Position.TRIAL),
    Act.FITTED: Effect(position=Position.FITTED),
    Act.PROVED: Effect(position=Position.PROVED),
}


class Verdict(StrEnum):
    """What an inspection decided (`verdict:`)."""

    REUSE = "reuse"
    REPAIR = "repair"
    REPLACE = "replace"
    WATCH = "watch"
    ASK = "ask"


class Fate(StrEnum):
    """What became of an item that came off and was not kept."""

    SCRAPPED = "scrapped"
    EXCHANGED = "exchanged"
    LOST = "lost"


class Evidence(StrEnum):
    """How well a line of the ledger is known."""

    PROVEN = "proven"
    SHOWN = "shown"
    STATED = "stated"
    DISPUTED = "disputed"


EVIDENCE_MEANING: dict[Evidence, str] = {
    Evidence.PROVEN: "a number or a paper, and a photograph",
    Evidence.SHOWN: "a photograph",
    Evidence.STATED: "words alone",
    Evidence.DISPUTED: "there is evidence against it",
}


class Stage(StrEnum):
    """The stage of the work that a photograph shows."""

    AS_FOUND = "as-found"
    STRIPPED = "stripped"
    DURING = "during"
    EVIDENCE = "evidence"
    AS_FINISHED = "as-finished"


class Reader(StrEnum):
    """Who reads an archive, from the widest view to the narrowest.

    The keeper is the next one, to whom the car is handed on with all that proves what it is.
    """

    WORKSHOP = "workshop"
    OWNER = "owner"
    KEEPER = "keeper"
    PUBLIC = "public"


# A thing marked `for: keeper` is seen by the next keeper and by all who see more.
READER_RANK: dict[Reader, int] = {
    Reader.WORKSHOP: 0, Reader.OWNER: 1, Reader.KEEPER: 2, Reader.PUBLIC: 3,
}  # fmt: skip


class GoodsIn(StrEnum):
    """What the inspection of a part on arrival decided (`outcome:`)."""

    ACCEPTED = "accepted"
    REWORKED = "reworked"
    REJECTED = "rejected"


class HourKind(StrEnum):
    """How hours are reckoned: charged; spent because a thing did not fit; given by the workshop.

    Rework and goodwill are told and not charged.
    """

    BILLABLE = "billable"
    REWORK = "rework"
    GOODWILL = "goodwill"


class LockedBy(StrEnum):
    """How a fastener is kept from turning (`locking:` in work)."""

    COMPOUND = "compound"
    SPLIT_PIN = "split-pin"
    TAB_WASHER = "tab-washer"
    LOCKING_NUT = "locking-nut"
    LOCK_WASHER = "lock-washer"
    WIRE = "wire"
    PEENED = "peened"


class Weekday(StrEnum):
    """A day of the week, Monday first (ISO 8601)."""

    MONDAY = "monday"
    TUESDAY = "tuesday"
    WEDNESDAY = "wednesday"
    THURSDAY = "thursday"
    FRIDAY = "friday"
    SATURDAY = "saturday"
    SUNDAY = "sunday"


class OdometerUnit(StrEnum):
    """What an odometer counts."""

    MILE = "mile"
    KM = "km"


class TaxBy(StrEnum):
    """Where tax is rounded to the smallest coin: on every line, or once on the total."""

    LINE = "line"
    TOTAL = "total"


class TaxRounding(StrEnum):
    """How tax is rounded to the smallest coin: half a coin up, or always down."""

    NEAREST = "nearest"
    DOWN = "down"


class Drive(StrEnum):
    """The side that the steering wheel is on."""

    RIGHT = "right"
    LEFT = "left"


class Subsystem(NamedTuple):
    """A branch of the car.

    `safety` marks the branches whose failure can hurt someone; `caution` names the texts in
    `cautions` that are shown with work on it.
    """

    label: str
    safety: bool = False
    cautions: tuple[str, ...] = ()


SUBSYSTEMS: dict[str, Subsystem] = {
    "chassis": Subsystem("Chassis", True, ("lifting", "welding")),
    "engine": Subsystem("Engine", False, ("oil",)),
    "gearbox": Subsystem("Gearbox", False, ("oil", "clutch-dust")),
    "rear-axle": Subsystem("Rear axle", True, ("lifting", "oil")),
    "front-suspension": Subsystem("Front suspension", True, ("lifting", "springs")),
    "rear-suspension": Subsystem("Rear suspension", True, ("lifting", "springs")),
    "steering": Subsystem("Steering", True, ("steering",)),
    "brakes": Subsystem("Brakes", True, ("asbestos", "brakes")),
    "wheels-and-tyres": Subsystem("Wheels and tyres", True, ("wheels",)),
    "fuel": Subsystem("Fuel", True, ("petrol",)),
    "cooling": Subsystem("Cooling", False, ("scald",)),
    "exhaust": Subsystem("Exhaust", False, ()),
    "electrical": Subsystem("Electrical", True, ("battery",)),
    "instruments": Subsystem("Instruments"),
    "body": Subsystem("Body", False, ("welding", "lifting")),
    "paint": Subsystem("Paint", False, ("paint",)),
    "brightwork": Subsystem("Brightwork"),
    "glass": Subsystem("Glass"),
    "trim": Subsystem("Trim"),
    "hood": Subsystem("Hood"),
    "papers": Subsystem("Papers"),
}

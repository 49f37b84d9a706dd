"""Which fields of each record the owner and the public see. A field not listed is the workshop's.

The workshop sees everything; the next keeper reads the dossier. Whole sheets, blocks, photographs,
parts, outwork, snags and papers carry `for:` besides, and both must allow it.
"""

from pydantic import BaseModel

from journal.records.car import Car, Owner, StampedNumber
from journal.records.papers import Paper
from journal.records.register import RegisterLine
from journal.records.sheet import (
    Correction,
    Decided,
    Limit,
    Measured,
    OutworkLine,
    PartLine,
    Photo,
    SheetFront,
    SnagLine,
    Was,
    Work,
)
from journal.records.workshop import Hand, OwnSubsystem, Supplier, Workshop
from journal.words.vocabulary import READER_RANK, Reader

_SHEET = "date subsystem title hours work parts outwork measured snags photos papers corrects for_"
_WORK = (
    "did found verdict now retained conforms original came_off usable reversible undo why decided was "
    "since stand_in number paper part"
)
_REGISTER = "name as_found retained conforms condition works paper weight safety identity"
_CAR = "name year body marque colour engine drive booked_in target delivered cover public"

# For each record: what the owner sees, then what the public sees.
_LISTED: tuple[tuple[type[BaseModel], str, str], ...] = (
    (Workshop, "name address hands suppliers currency tax sides subsystems", "name sides subsystems"),
    (Hand, "name", ""),
    (Supplier, "name does shown", ""),
    (OwnSubsystem, "label safety", "label safety"),
    (
        Car,
        _CAR + " plate mileage brief condition owner numbers estimate",
        _CAR + " condition numbers mileage",
    ),
    (Owner, "name", ""),
    (StampedNumber, "found on note", "found on"),
    (RegisterLine, _REGISTER, _REGISTER),
    (
        Paper,
        "title kind date dated source file says numbers for_",
        "title kind date dated file says numbers for_",
    ),
    (SheetFront, _SHEET, _SHEET),
    (Work, _WORK + " checked note", _WORK),
    (Decided, "by on", "by on"),
    (Was, "origin retained conforms", "origin retained conforms"),
    (
        PartLine,
        "what number from_ of qty price ordered promised received outcome returned credited fitted for_",
        "what of qty ordered received outcome returned fitted for_",
    ),
    (OutworkLine, "what to of sent back due cost for_", "what of sent back due for_"),
    (Measured, "on read unit limit with_ note", "on read unit limit with_"),
    (Limit, "least most", "least most"),
    (SnagLine, "raise_ hold on ask defer clear by for_", "raise_ hold on defer clear for_"),
    (Photo, "file of stage caption alt for_", "file of stage caption alt for_"),
    (Correction, "sheet what", "sheet what"),
)  # fmt: skip

SEEN: dict[Reader, dict[type[BaseModel], frozenset[str]]] = {
    Reader.OWNER: {record: frozenset(owner.split()) for record, owner, _ in _LISTED},
    Reader.PUBLIC: {record: frozenset(public.split()) for record, _, public in _LISTED},
}


def may_see(reader: Reader, widest: Reader) -> bool:
    """Whether a reader may see a thing that is for `widest` and all who see more."""
    return READER_RANK[reader] <= READER_RANK[widest]

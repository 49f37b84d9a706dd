"""Which fields of each record the owner, the next keeper and the public see. A field not listed is the
workshop's.

The workshop sees everything. Whole sheets, blocks, photographs, parts, outwork, snags and papers carry
`for:` besides, and both must allow it.
"""

from collections.abc import Mapping
from typing import NamedTuple

from pydantic import BaseModel

from journal.records.address import Addresses
from journal.records.car import Car, Owner, Payment, StampedNumber
from journal.records.goods import Extra, OutworkLine, PartLine
from journal.records.hours import HoursLine
from journal.records.limit import Limit
from journal.records.papers import Keeper, Paper
from journal.records.recheck import RecheckLine, Wanted
from journal.records.register import RegisterLine
from journal.records.sections import Measured, Proof, SnagLine
from journal.records.sheet import Correction, Photo, SheetFront
from journal.records.statement import StatedLine, StatedPayment, StatementFile
from journal.records.sum import SumLine
from journal.records.work import Decided, Locking, Was, Work
from journal.records.workshop import Hand, Holiday, OwnProof, OwnSubsystem, Supplier, Workshop
from journal.words.vocabulary import READER_RANK, Reader

_SHEET = (
    "date subsystem title hours work parts outwork measured sums proving odometer snags rechecks "
    "photos papers corrects for_"
)
_WORK = (
    "did found verdict now retained conforms original came_off usable reversible undo why decided was "
    "since stand_in number paper part locking dated"
)
_REGISTER = "name as_found retained conforms condition works paper weight life safety identity"
_CAR = (
    "name year body marque colour engine drive booked_in target delivered cover public odometer "
    "plate plate_shown"
)

# For each record: what the owner sees, then the next keeper, then the public. The keeper sees what was
# done, who decided it and how anyone knows, and nothing of what was agreed and paid.
_LISTED: tuple[tuple[type[BaseModel], str, str, str], ...] = (
    (
        Workshop,
        "name address hands suppliers currency tax tax_by tax_rounding subsystems proving "
        "working_days holidays",
        "name address hands suppliers subsystems proving working_days holidays",
        "name subsystems proving working_days holidays",
    ),
    (Hand, "name rate", "name", ""),
    (Supplier, "name does shown", "name does shown", ""),
    (Holiday, "from_ to what", "from_ to", "from_ to"),
    (OwnProof, "label", "label", "label"),
    (OwnSubsystem, "label safety", "label safety", "label safety"),
    (
        Car,
        _CAR + " prices_shown mileage brief condition owner numbers estimate payments address",
        _CAR + " prices_shown mileage condition owner numbers",
        _CAR + " condition numbers mileage address",
    ),
    (Addresses, "owner public", "", "public"),
    (Owner, "name", "name", ""),
    (Payment, "on amount what", "", ""),
    (StampedNumber, "found on note", "found on note", "found on"),
    (RegisterLine, _REGISTER, _REGISTER, _REGISTER),
    (
        Paper,
        "title kind date dated source file alt says numbers keepers registration odometer for_",
        "title kind date dated source file alt says numbers keepers registration odometer for_",
        "title kind date dated file alt says numbers odometer for_",
    ),
    (Keeper, "name from_ to place", "name from_ to place", ""),
    (SheetFront, _SHEET + " extras", _SHEET + " extras", _SHEET),
    (HoursLine, "hours kind", "hours", "hours"),
    (
        Proof,
        "found does_not_apply read unit passed by checked note",
        "found does_not_apply read unit passed by checked note",
        "found does_not_apply read unit passed",
    ),
    (Extra, "what of price hours decided for_", "what of decided for_", ""),
    (StatementFile, "from_ to issued sheets adjusted adjustments tax total payments note", "", ""),
    (StatedLine, "on hours uncharged labour parts outwork extras", "", ""),
    (StatedPayment, "on amount what", "", ""),
    (Locking, "by degreased new", "by degreased new", "by degreased new"),
    (Work, _WORK + " by checked note", _WORK + " by checked note", _WORK),
    (Decided, "by on advice", "by on advice", "by on"),
    (
        Was,
        "origin retained conforms",
        "origin retained conforms",
        "origin retained conforms",
    ),
    (
        PartLine,
        "what number from_ of qty price carriage currency rate ordered promised received got outcome "
        "returned sent_back credited fitted for_",
        "what number from_ of qty ordered promised received got outcome returned sent_back fitted for_",
        "what of qty ordered received got outcome returned sent_back fitted for_",
    ),
    (
        OutworkLine,
        "what to of sent back due cost finish certificate for_",
        "what to of sent back due finish certificate for_",
        "what of sent back due finish for_",
    ),
    (
        Measured,
        "on read unit limit with_ note",
        "on read unit limit with_ note",
        "on read unit limit with_",
    ),
    (Limit, "least most", "least most", "least most"),
    (SumLine, "sum_ of note inputs for_", "sum_ of note inputs for_", "sum_ of inputs for_"),
    (
        SnagLine,
        "raise_ hold on ask defer clear by for_",
        "raise_ hold on ask defer clear by for_",
        "raise_ hold on defer clear for_",
    ),
    (
        RecheckLine,
        "what on after value done by for_",
        "what on after value done by for_",
        "what on after value done for_",
    ),
    (Wanted, "says limit unit", "says limit unit", "says limit unit"),
    (
        Photo,
        "file of stage caption alt for_",
        "file of stage caption alt for_",
        "file of stage caption alt for_",
    ),
    (Correction, "sheet what", "sheet what", "sheet what"),
)  # fmt: skip

# What the next keeper sees besides where the owner wants it (`prices-shown` in `car.yaml`): what things
# and outwork cost. What an hour costs, the estimate, payments and statements stay with the owner.
_PRICES: tuple[tuple[type[BaseModel], str], ...] = (
    (Workshop, "currency"),
    (PartLine, "price carriage currency rate credited"),
    (OutworkLine, "cost"),
    (Extra, "price"),
)

Fields = Mapping[type[BaseModel], frozenset[str]]

SEEN: dict[Reader, Fields] = {
    Reader.OWNER: {record: frozenset(owner.split()) for record, owner, _, _ in _LISTED},
    Reader.KEEPER: {record: frozenset(keeper.split()) for record, _, keeper, _ in _LISTED},
    Reader.PUBLIC: {record: frozenset(public.split()) for record, _, _, public in _LISTED},
}
_PRICED: Fields = {
    **SEEN[Reader.KEEPER],
    **{record: SEEN[Reader.KEEPER][record] | {*prices.split()} for record, prices in _PRICES},
}


class Sight(NamedTuple):
    """What one reader sees of one car: `prices` says that the next keeper sees those too."""

    reader: Reader
    prices: bool = False

    @property
    def fields(self) -> Fields:
        """The fields of each record that are seen; there is none for the workshop, who sees all."""
        return _PRICED if self.prices else SEEN[self.reader]

    def may_see(self, widest: Reader) -> bool:
        """Whether a thing that is for `widest`, and for all who see more, is seen."""
        return may_see(self.reader, widest)


def sight_of(reader: Reader, car: Car) -> Sight:
    """What a reader sees of a car. Only the next keeper is shown prices by leave."""
    return Sight(reader, prices=reader is Reader.KEEPER and car.prices_shown)


# The same for the facts of a photograph's file; what names the bytes and measures them is needed by
# all who look at it as evidence.
_FACTS = "sha256 size width height form taken_on"
SEEN_FACTS: dict[Reader, frozenset[str]] = {
    Reader.OWNER: frozenset(f"{_FACTS} taken_at".split()),
    Reader.KEEPER: frozenset(f"{_FACTS} taken_at".split()),
    Reader.PUBLIC: frozenset(_FACTS.split()),
}


def may_see(reader: Reader, widest: Reader) -> bool:
    """Whether a reader may see a thing that is for `widest` and all who see more."""
    return READER_RANK[reader] <= READER_RANK[widest]

"""The ledger of parts: `part` says what is known of one, `told` gathers what sheets tell, `goods`
reconciles quantities, `money` the cost, and `fold` puts them together."""

from journal.ledgers.parts.fold import fold_parts
from journal.ledgers.parts.part import (
    Arrival,
    Charge,
    ChargeKind,
    GoodsBack,
    Part,
    Parts,
    PartState,
)

__all__ = [
    "Arrival",
    "Charge",
    "ChargeKind",
    "GoodsBack",
    "Part",
    "PartState",
    "Parts",
    "fold_parts",
]

"""The table of what stands between the car and its handover."""

from journal.digests.gate import Gate, digest_gate
from journal.ledgers.decisions import fold_decisions
from journal.ledgers.numbers import fold_numbers
from journal.ledgers.originality.fold import fold_originality
from journal.ledgers.outwork import fold_outwork
from journal.ledgers.proving import fold_proving
from journal.ledgers.seals import Seals
from journal.ledgers.snags import fold_snags
from journal.outputs.table import Table
from journal.records.carfile import CarFile
from journal.words.text import counted


def gate_of(car: CarFile, seals: Seals) -> Gate:
    """The gate of a whole car file and its seals."""
    numbers = fold_numbers(car)
    return digest_gate(
        car, snags=fold_snags(car),
        originality=fold_originality(car, disputed=numbers.disputed_components),
        proving=fold_proving(car), decisions=fold_decisions(car), outwork=fold_outwork(car),
        numbers=numbers, seals=seals,
    )  # fmt: skip


def table_gate(car: CarFile, seals: Seals) -> Table:
    """One row a reason, with the sheet that it comes from."""
    gate = gate_of(car, seals)
    rows = tuple((r.bar.value, r.told(), r.subsystem, r.sheet) for r in gate.reasons)
    stands = counted(len(rows), "reason stands", "reasons stand")
    total = (
        "Nothing stands against the handover." if gate.open else f"{stands} against the handover."
    )
    return Table(("kind", "reason", "subsystem", "sheet"), rows, total)

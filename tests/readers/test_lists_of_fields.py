"""The lists of what each reader sees, whatever pages make of them."""

from journal.readers.rules import SEEN, Sight
from journal.records.car import Owner, Payment
from journal.records.goods import Extra, OutworkLine, PartLine
from journal.records.hours import HoursLine
from journal.records.papers import Keeper
from journal.records.statement import StatedLine, StatementFile
from journal.records.workshop import Hand, Supplier
from journal.words.vocabulary import Reader


def test_owner__sees_nothing_of_the_grumble() -> None:
    """Why a part was sent back, and whose fault an hour was, stay in the workshop."""
    grumbles = {PartLine: {"why", "note"}, OutworkLine: {"note"}, HoursLine: {"because", "note"}}
    for record, fields_ in grumbles.items():
        assert set() == SEEN[Reader.OWNER][record] & fields_


def test_next_keeper__sees_no_field_that_the_owner_does_not() -> None:
    for prices in (False, True):
        for record, seen in Sight(Reader.KEEPER, prices=prices).fields.items():
            assert set() == seen - SEEN[Reader.OWNER][record], record.__name__


def test_prices__add_what_things_cost_to_the_next_keepers_list_and_nothing_else() -> None:
    closed, opened = Sight(Reader.KEEPER).fields, Sight(Reader.KEEPER, prices=True).fields
    added = {(r.__name__, f) for r in opened for f in opened[r] - closed[r]}
    assert added == {
        ("Workshop", "currency"), ("PartLine", "price"), ("PartLine", "carriage"),
        ("PartLine", "currency"), ("PartLine", "rate"), ("PartLine", "credited"),
        ("OutworkLine", "cost"), ("Extra", "price"),
    }  # fmt: skip


def _money(reader: Reader) -> set[tuple[str, str]]:
    money = {
        "price", "carriage", "currency", "rate", "credited", "cost", "amount", "labour", "parts_net",
        "tax", "tax_by", "tax_rounding", "total", "adjustments", "estimate", "payments",
    }  # fmt: skip
    return {(r.__name__, f) for r, seen in SEEN[reader].items() for f in seen if f in money}


def test_next_keeper__sees_no_money_in_any_record_without_leave() -> None:
    assert set() == _money(Reader.KEEPER)
    for record in (Payment, StatementFile, StatedLine):
        assert frozenset() == SEEN[Reader.KEEPER].get(record, frozenset())


def test_public__sees_no_money_in_any_record() -> None:
    assert set() == _money(Reader.PUBLIC)
    for record in (Payment, Extra, StatementFile, StatedLine, Hand, Supplier, Owner, Keeper):
        assert frozenset() == SEEN[Reader.PUBLIC].get(record, frozenset())

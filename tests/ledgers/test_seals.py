"""Seals held against files: what is honest and what is not."""

from datetime import date
from typing import Any

import pytest
from msgspec.structs import replace

from journal.ledgers.seals import Fault, Seals, Standing, fold_seals, shown_seals
from journal.records.seal import Entry, Seal, Statement, entries_in, statement_in
from journal.words.merkle import EMPTY, root_of

A, B, C = "a" * 64, "b" * 64, "c" * 64
MARCH, APRIL, MAY = date(2024, 3, 31), date(2024, 4, 30), date(2024, 5, 31)
DAYS = {"sheets/march.md": date(2024, 3, 5), "sheets/april.md": date(2024, 4, 9)}


def _chain(*periods: tuple[date, dict[str, str]]) -> tuple[Seal, ...]:
    """Good seals over periods, each with the files that it adds."""
    seals: list[Seal] = []
    entries: tuple[Entry, ...] = ()
    for number, (up_to, added) in enumerate(periods, 1):
        new = tuple(Entry.of(path, sha) for path, sha in added.items())
        before = seals[-1].statement if seals else None
        root = root_of([e.leaf for e in (*entries, *new)]).hex()
        stated = Statement(
            "tern", "Saltmarsh Lane Workshop", number, up_to, up_to, len(entries) + len(new), root,
            len(entries), before.root if before else EMPTY.hex(), "f" * 64,
        )  # fmt: skip
        seals.append(Seal(f"{number:04}", stated, new, signed=True))
        entries += new
    return tuple(seals)


ONE = _chain((MARCH, {"sheets/march.md": A}))
TWO = _chain((MARCH, {"sheets/march.md": A}), (APRIL, {"sheets/april.md": B}))


def _standings(seals: Seals) -> dict[str, Standing]:
    return {file.path: file.standing for file in seals.files}


@pytest.mark.parametrize(
    ("present", "standing", "intact"),
    [
        ({"sheets/march.md": A}, Standing.SEALED, True),
        ({"sheets/march.md": B}, Standing.CHANGED, False),
        ({}, Standing.REMOVED, False),
    ],
)
def test_sealed_sheet__stands_as_it_is_found(
    present: dict[str, str], standing: Standing, intact: bool
) -> None:
    seals = fold_seals(ONE, present, DAYS)
    assert standing is seals.files[0].standing
    assert intact is seals.intact


def test_sheet_changed_and_sealed_again__is_amended_and_honest() -> None:
    chain = _chain((MARCH, {"sheets/march.md": A}), (APRIL, {"sheets/march.md": B}))
    seals = fold_seals(chain, {"sheets/march.md": B}, DAYS)
    assert {"sheets/march.md": Standing.AMENDED} == _standings(seals)
    assert [(1, A), (2, B)] == [(s.seal, s.sha256) for s in seals.files[0].sealings]
    assert seals.intact


def test_sheet_put_back_to_what_was_sealed_first__is_changed_all_the_same() -> None:
    chain = _chain((MARCH, {"sheets/march.md": A}), (APRIL, {"sheets/march.md": B}))
    seals = fold_seals(chain, {"sheets/march.md": A}, DAYS)
    assert {"sheets/march.md": Standing.CHANGED} == _standings(seals)


def test_sheet_dated_back_into_a_closed_period__is_late_until_it_is_sealed() -> None:
    present = {"sheets/march.md": A, "sheets/forgotten.md": C}
    days = DAYS | {"sheets/forgotten.md": date(2024, 3, 6)}
    seals = fold_seals(ONE, present, days)
    assert Standing.LATE is _standings(seals)["sheets/forgotten.md"]
    assert not seals.intact
    chain = _chain((MARCH, {"sheets/march.md": A}), (APRIL, {"sheets/forgotten.md": C}))
    seals = fold_seals(chain, present, days)
    assert Standing.ADDED is _standings(seals)["sheets/forgotten.md"]
    assert seals.intact


def test_sheet_of_a_day_after_the_last_seal__is_open() -> None:
    seals = fold_seals(ONE, {"sheets/march.md": A, "sheets/april.md": B}, DAYS)
    assert Standing.OPEN is _standings(seals)["sheets/april.md"]
    assert seals.intact


def test_two_sheets_swapped__are_both_changed() -> None:
    seals = fold_seals(TWO, {"sheets/march.md": B, "sheets/april.md": A}, DAYS)
    assert {Standing.CHANGED} == set(_standings(seals).values())


def test_without_seals__nothing_is_said_of_files() -> None:
    assert Seals() == fold_seals((), {"sheets/march.md": A}, DAYS)


def _with(seal: Seal, **changes: Any) -> Seal:
    assert seal.statement is not None
    return replace(seal, statement=replace(seal.statement, **changes))


@pytest.mark.parametrize(
    ("seals", "fault"),
    [
        (
            (Seal("0001", None, (), True),),
            Fault("0001", "the statement is not one of a seal"),
        ),
        (
            (Seal("0001", ONE[0].statement, None, True),),
            Fault("0001", "the list of entries cannot be read"),
        ),
        (
            (Seal("0001", ONE[0].statement, ONE[0].entries, False),),
            Fault("0001", "the signature is not that of the key that it names"),
        ),
        ((TWO[1],), Fault("0002", "it is not the next in the row", "1", "2")),
        (
            (TWO[0], _with(TWO[1], entries_before=0)),
            Fault("0002", "it does not follow the seal before it", "1", "0"),
        ),
        (
            (TWO[0], _with(TWO[1], root_before=C)),
            Fault(
                "0002", "the root of the seal before it is another one",
                ONE[0].statement.root if ONE[0].statement else "", C,
            ),
        ),
        (
            (TWO[0], _with(TWO[1], key=C)),
            Fault("0002", "it is signed with another key", "f" * 64, C),
        ),
        (
            (TWO[0], _with(TWO[1], entries=3)),
            Fault("0002", "it counts other entries than its list", "2", "3"),
        ),
        (
            (_with(ONE[0], root=C),),
            Fault("0001", "its root is not that of its list", Entry.of("sheets/march.md", A).leaf.hex(), C),
        ),
        (
            (TWO[0], _with(TWO[1], up_to=date(2024, 3, 1))),
            Fault(
                "0002", "it closes an earlier day than the seal before it", "2024-03-31 or later",
                "2024-03-01",
            ),
        ),
    ],
    ids=lambda value: value.what if isinstance(value, Fault) else "",
)  # fmt: skip
def test_seal_that_does_not_hold__is_told_with_what_should_be_there(
    seals: tuple[Seal, ...], fault: Fault
) -> None:
    held = fold_seals(seals, {"sheets/march.md": A}, DAYS)
    assert (fault,) == held.faults
    assert not held.intact


def test_seal_taken_out_of_the_row__breaks_those_after_it() -> None:
    chain = _chain((MARCH, {"a": A}), (APRIL, {"b": B}), (MAY, {"c": C}))
    held = fold_seals((chain[0], chain[2]), {"a": A, "b": B, "c": C}, {})
    assert ["it is not the next in the row"] == [fault.what for fault in held.faults]


def test_entry_that_is_not_told__still_counts_for_the_root() -> None:
    chain = _chain((MARCH, {"sheets/march.md": A, "sheets/private.md": B}))
    seal = chain[0]
    assert seal.entries is not None
    told = Seal(seal.name, seal.statement, (seal.entries[0], seal.entries[1].hidden), True)
    held = fold_seals((told,), {"sheets/march.md": A}, DAYS)
    assert held.intact
    assert ["sheets/march.md"] == [file.path for file in held.files]


def test_statement__reads_back_as_it_was_written() -> None:
    stated = TWO[1].statement
    assert stated is not None
    assert stated == statement_in(stated.text())
    assert stated.text().startswith(
        "Seal of a restoration journal, form 1\ncar: tern\nworkshop: Saltmarsh Lane Workshop\nseal: 2\n"
        "up to: 2024-04-30\n"
    )


@pytest.mark.parametrize(
    ("written", "other"),
    [
        ("form 1", "form 2"), ("seal: 2", "seal: 02"), ("seal: 2", "seal: -2"),
        ("up to: 2024-04-30", "up to: 2024-4-30"), ("up to: 2024-04-30", "up to: 20240430"),
        ("entries: 2", "entries:  2"), ("root: ", "Root: "), ("\n", "\r\n"),
    ],
)  # fmt: skip
def test_statement__that_differs_by_a_letter_is_none(written: str, other: str) -> None:
    stated = TWO[1].statement
    assert stated is not None
    assert written in stated.text()
    assert statement_in(stated.text().replace(written, other, 1)) is None
    assert statement_in(stated.text() + "\n") is None


def test_list__is_what_sha256sum_writes_and_nothing_else() -> None:
    text = f"{A}  sheets/march.md\n{B}  photos/a b.jpg\n"
    entries = entries_in(text)
    assert entries is not None
    assert ["sheets/march.md", "photos/a b.jpg"] == [entry.path for entry in entries]
    assert text == "".join(f"{entry.line}\n" for entry in entries)
    assert entries_in(f"{A} sheets/march.md\n") is None
    assert entries_in(f"{A.upper()}  sheets/march.md\n") is None


PRESENT = {"sheets/march.md": A, "sheets/april.md": B}


def test_seals_as_of_a_day__are_those_made_by_then() -> None:
    seals = fold_seals(TWO, PRESENT, DAYS)
    assert (MARCH, 1) == (
        (early := seals.as_of(MARCH)).last and early.last.up_to,
        len(early.statements),
    )
    # The sheet of April was not there yet, and by its day it was there and open.
    assert {"sheets/march.md": Standing.SEALED} == _standings(early)
    by_then = seals.as_of(date(2024, 4, 9))
    assert Standing.OPEN is _standings(by_then)["sheets/april.md"]
    assert seals == seals.as_of(MAY)


def test_seals_before_the_first__are_none() -> None:
    assert Seals() == fold_seals(ONE, {"sheets/march.md": A}, DAYS).as_of(date(2024, 3, 30))


def test_sheet_amended_later__is_no_silent_change_as_of_an_earlier_day() -> None:
    chain = _chain((MARCH, {"sheets/march.md": A}), (MAY, {"sheets/march.md": B}))
    early = fold_seals(chain, {"sheets/march.md": B}, DAYS).as_of(APRIL)
    assert {"sheets/march.md": Standing.AMENDED} == _standings(early)
    assert [1] == [sealing.seal for sealing in early.files[0].sealings]
    assert early.intact


def test_file_that_a_reader_is_not_told_of__is_counted_and_tells_nothing() -> None:
    seals = fold_seals(TWO, {"sheets/march.md": A, "sheets/april.md": C}, DAYS)
    shown = shown_seals(seals, {"sheets/march.md"})
    assert ["sheets/march.md"] == list(shown.by_path)
    assert (1, 1) == (shown.count(Standing.SEALED), shown.count(Standing.CHANGED))
    hidden = next(file for file in shown.files if not file.path)
    assert ((), None, None) == (hidden.sealings, hidden.now, hidden.day)
    # The verdict is that of all files.
    assert not shown.intact


def test_fault__is_told_by_its_number_alone() -> None:
    odd = replace(ONE[0], name="mrs-harrow", signed=False)
    for seal, told in ((odd, ""), (replace(odd, name="0001"), "0001")):
        (fault,) = shown_seals(fold_seals((seal,), {}, {}), ()).faults
        assert Fault(told, "the signature is not that of the key that it names") == fault

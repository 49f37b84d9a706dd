"""Every total on every page of the demonstration is the sum of the lines above it, as printed.

A row of the class `total` sums up the rows since the last such row, or since the head of its table.
In a table of sums (class `sums`) each total carries the one before it on.
"""

import re
from collections.abc import Iterator
from decimal import Decimal
from xml.etree.ElementTree import Element

import pytest

from journal.words.vocabulary import Reader
from tests.parsing import parsed, parsed_pages

# Rates, paces and shares of a line have no sum; the ledger's figures are weighted means.
NOT_ADDED = ("An hour", "Done", "Earned an hour", "Comes to", "Share")
MEANS = ("ledger.html",)
_FIGURE = re.compile(r"(−)?[£€]?(\d{1,3}(?:,\d{3})+|\d+)(\.\d+)?")


def _direct(cell: Element) -> str:
    """The text of a cell without what stands in small beside it."""
    own = [cell.text or ""]
    for child in cell:
        own.append("" if child.tag == "small" else "".join(child.itertext()))
        own.append(child.tail or "")
    return "".join(own).strip()


def _figure(text: str) -> Decimal | None:
    match = _FIGURE.fullmatch(text)
    if match is None:
        return None
    number = Decimal(match[2].replace(",", "") + (match[3] or ""))
    return -number if match[1] else number


def _faults(table: Element) -> Iterator[str]:
    heads = [_direct(th) for th in table.findall("./thead/tr/th")]
    carried = "sums" in (table.get("class") or "")
    reached: dict[int, Decimal] = {}
    for row in table.findall("./tbody/tr"):
        total = row.get("class") == "total"
        for place, cell in enumerate(row):
            told = _figure(_direct(cell))
            head = heads[place] if place < len(heads) else ""
            if cell.get("class") != "n" or told is None or head in NOT_ADDED:
                continue
            before = reached.get(place, Decimal(0))
            # The last line of an account tells what is due or held without a sign.
            if total and told not in (before, abs(before) if carried else before):
                yield f"{head or _direct(row[0])}: {told}, and the lines come to {before}"
            reached[place] = before if total else before + told
        if total and not carried:
            reached = {}


@pytest.mark.parametrize("reader", [Reader.WORKSHOP, Reader.OWNER, Reader.PUBLIC])
def test_totals__are_the_sums_of_their_lines(reader: Reader) -> None:
    wrong, met = [], set()
    for path, page in parsed_pages(reader).items():
        if path.name in MEANS:
            continue
        for table in page.summed:
            met.add(path.name)
            wrong += [f"{path.parent.name}/{path.name}: {fault}" for fault in _faults(table)]
    assert [] == wrong
    if reader is not Reader.PUBLIC:
        assert {"money.html", "running.html"} <= met


def test_totals__a_wrong_one_is_found() -> None:
    page = """<table><thead><tr><th>A</th><th>B</th></tr></thead><tbody>
    <tr><th>x</th><td class="n">£1,200.50<small>3 not charged</small></td></tr>
    <tr><th>y</th><td class="n">−£0.50</td></tr>
    <tr class="total"><th>all</th><td class="n">£1,201.00</td></tr></tbody></table>"""
    (table,) = parsed(f"<!doctype html><title>A page</title>{page}").summed
    assert ["B: 1201.00, and the lines come to 1200.00"] == list(_faults(table))

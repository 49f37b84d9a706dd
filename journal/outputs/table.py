"""A derived table: what every ledger and digest gives to the terminal, to CSV and to JSON."""

from datetime import date
from decimal import Decimal
from fractions import Fraction

from msgspec import Struct

Cell = str | int | date | Decimal | Fraction | bool | None


class Table(Struct, frozen=True):
    """Column names and rows. `total` is a line of words under the table."""

    columns: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    total: str = ""

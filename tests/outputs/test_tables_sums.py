"""The table of bench sums: one row for each line of an answer, exact figures beside those told."""

from datetime import date

from journal.outputs.bag.columns import COLUMNS
from journal.outputs.tables import TABLES, as_csv
from tests.digests.test_sums import SHIMS
from tests.writing import a_car, a_sheet

CAR = a_car({"gearbox/laygear": "first-fit"}, [a_sheet("2024-03-05", sums={"shims": SHIMS})])


def test_sums__have_a_row_for_each_line_of_their_answer() -> None:
    table = TABLES["sums"](CAR, date(2024, 3, 5))
    told = [(row[7], row[10]) for row in table.rows[:3]]
    assert [
        ("shims of the best pack", None), ("number of shims", "3"), ("thickness of the pack", "0.42"),
    ] == told  # fmt: skip
    assert "1 sum kept, to 2024-03-05." == table.total


def test_columns__are_those_that_the_bag_explains() -> None:
    table = TABLES["sums"](CAR, date(2024, 3, 5))
    assert tuple(COLUMNS["sums"]) == table.columns
    assert as_csv(table).startswith("day,name,sum,job,")

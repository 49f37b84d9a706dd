"""The table of the benchmarks: what a goal is about, and when it is met."""

from tests.benchmarks.growing import Grown, rows
from tests.benchmarks.rows import Row, table


def test_goal__is_about_the_ratio_where_there_is_a_floor() -> None:
    assert "met" == Row("publish", 3.0, "s", floor=2.0, goal=1.5).verdict
    assert "MISS" == Row("publish", 3.1, "s", floor=2.0, goal=1.5).verdict


def test_goal__is_about_the_figure_where_there_is_no_floor() -> None:
    assert "met" == Row("memory", 500, "MiB", goal=500).verdict
    assert "MISS" == Row("memory", 501, "MiB", goal=500).verdict


def test_goal__that_is_to_be_reached() -> None:
    assert "met" == Row("two cores", 1.9, "times", goal=1.9, least=True).verdict
    assert "MISS" == Row("two cores", 1.8, "times", goal=1.9, least=True).verdict


def test_goal__there_is_none() -> None:
    assert "" == Row("output", 88, "MB").verdict


def test_table__shows_every_row_with_its_goal_and_verdict() -> None:
    told = table(
        [Row("publish", 3.0, "s", 1.0, 1.5, worked=5.5), Row("memory", 1234, "MiB", goal=500)]
    )
    assert [
        "          measured  processor  floor  ratio        goal",
        "publish        3 s      5.5 s    1 s   3.00      <= 1.5  MISS",
        "memory   1,234 MiB                           <= 500 MiB  MISS",
    ] == told.split("\n")


def test_growth__is_that_of_the_two_largest_sizes() -> None:
    small = Grown(1, 300, 9.0, 9.0, 90.0, 900, 9, "index.html", 50)
    middle = Grown(1, 1000, 10.0, 9.0, 100.0, 1000, 10, "sheets.html", 100)
    large = Grown(1, 4000, 40.0, 9.0, 200.0, 16_000, 40, "sheets.html", 100)
    # Four times the sheets: four times the time, sixteen times the output, twice the memory, the same page.
    assert [1.0, 2.0, 0.5, 0.0, 0.1, 200.0] == [
        round(row.value, 9) for row in rows([small, middle, large])
    ]
    assert ["met", "MISS", "", "", "met", "met"] == [
        row.verdict for row in rows([small, middle, large])
    ]

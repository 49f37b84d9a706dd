"""Names that hours use: the part that made them necessary must be one that a sheet tells of."""

from journal.checks.names import check_names
from tests.writing import a_car, a_sheet

HOURS = {"MT": ["3", {"hours": "0.5", "kind": "rework", "because": "layger"}]}


def test_hours_because_of_a_part__name_one_that_is_known() -> None:
    sheet = a_sheet("2024-03-05", hours=HOURS, parts={"laygear": {"ordered": "today"}})
    (problem,) = check_names(a_car({}, [sheet]))
    assert ("unknown-part", 'there is no part "layger"') == (problem.code, problem.message)
    assert "write laygear, or name it first under parts:" == problem.help


def test_hours_because_of_a_part__may_come_before_the_part_is_told() -> None:
    sheets = [
        a_sheet("2024-03-05", hours=HOURS),
        a_sheet("2024-03-06", parts={"layger": {"received": "today"}}),
    ]
    assert [] == list(check_names(a_car({}, sheets)))


def test_extras__name_components_and_hands_that_are_known() -> None:
    lamps = {"what": "lamps", "of": ["electrical/lamp"], "price": "100", "decided": "ZZ"}
    sheet = a_sheet("2024-03-05", extras={"lamps": lamps})
    told = check_names(a_car({"electrical/lamps": "absent"}, [sheet]))
    messages = ['there is no component "electrical/lamp"', 'there is no hand "ZZ"']
    assert messages == [problem.message for problem in told]

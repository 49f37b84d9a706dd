"""What waits to be confirmed is told, and what is confirmed is not."""

from journal.checks.drafts import check_drafts
from tests.writing import a_car, a_sheet


def _told(*sheets: object) -> list[str]:
    return [p.message for p in check_drafts(a_car({}, sheets))]  # type: ignore[arg-type]


def test_draft__is_told_once_a_sheet_with_its_lines_counted() -> None:
    one = a_sheet("2024-03-05", draft=["it weeps"])
    three = a_sheet("2024-03-06", draft=["it weeps", "so I said", {"ask": "Which pipe?"}])
    assert [
        "1 line that was heard is not confirmed yet",
        "3 lines that were heard are not confirmed yet",
    ] == _told(one, three)


def test_sheet_without_a_draft__is_all_right() -> None:
    assert [] == _told(a_sheet("2024-03-05"))


def test_way_out__names_the_sheet() -> None:
    (problem,) = check_drafts(a_car({}, [a_sheet("2024-03-05", name="said", draft=["x"])]))
    assert (
        "confirm them one by one with: journal write CONTENT --confirm 2024-03-05-said"
        == problem.help
    )

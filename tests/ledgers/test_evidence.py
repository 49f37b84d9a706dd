"""Evidence by its grades, and the words of the trade against the Charter of Turin."""

from typing import Any

from journal.ledgers.originality.fold import fold_originality
from journal.words.vocabulary import Act, Evidence, Origin, Position, Treatment
from tests.ledgers.histories import exactly, fold_one, worked
from tests.writing import a_car, a_sheet

# Evidence: proven is a number or paper and a photograph, shown a photograph, stated words alone.


def _grade(*sheets: Any, line: Any = "first-fit", disputed: bool = False) -> Evidence:
    key = "engine/block"
    photos = ["2024-01-01/a.jpg", "2024-02-01/b.jpg"]
    car = a_car({key: line}, sheets, photos=photos, papers={"record": {"title": "Record"}})
    return fold_originality(car, disputed=frozenset({key} if disputed else ())).lines[0].evidence


def _shot(day: str, file: str) -> Any:
    return a_sheet(day, name="shot", photos=[{"file": file, "of": "engine/block"}])


def test_evidence__words_alone_state() -> None:
    assert Evidence.STATED is _grade(worked("2024-01-01", "engine/block", did="cleaned"))


def test_evidence__a_paper_alone_states() -> None:
    assert Evidence.STATED is _grade(line={"as-found": "first-fit", "paper": "record"})


def test_evidence__a_photograph_shows() -> None:
    assert Evidence.SHOWN is _grade(_shot("2024-01-01", "a.jpg"))


def test_evidence__a_number_and_a_photograph_prove() -> None:
    number = worked("2024-01-01", "engine/block", number="TE 58/0431")
    assert Evidence.PROVEN is _grade(_shot("2024-01-01", "a.jpg"), number)


def test_evidence__a_photograph_that_is_not_there_shows_nothing() -> None:
    assert Evidence.STATED is _grade(_shot("2024-01-01", "lost.jpg"))


def test_evidence__of_the_old_item_proves_nothing_of_the_new_one() -> None:
    new = worked("2024-01-15", "engine/block", did="fitted", now="period-used")
    assert Evidence.STATED is _grade(_shot("2024-01-01", "a.jpg"), new)
    assert Evidence.SHOWN is _grade(_shot("2024-02-01", "b.jpg"), new)


def test_evidence__against_it_disputes_whatever_speaks_for_it() -> None:
    assert Evidence.DISPUTED is _grade(_shot("2024-01-01", "a.jpg"), disputed=True)


# Words of the trade against the Charter of Turin (as summed up in the project's reference values,
# section 16; draft text of the charter of 2012).


def test_charter__conservation_alters_no_historic_substance() -> None:
    """Conservation: securing measures that alter no historic substance; preservation: none at all."""
    for act in (Act.CONSERVED, Act.CLEANED):
        line = fold_one(
            "trim/seat", {"as-found": "first-fit", "retained": "0.9"},
            worked("2024-01-01", "trim/seat", did=act.value),
        )  # fmt: skip
        assert exactly("0.9") == line.now.material
        assert Origin.FIRST_FIT is line.now.origin


def test_charter__original_is_never_a_grade_of_a_restored_item() -> None:
    """Original differs from authentic, and the two vocabularies are never mixed in one field."""
    words = {w.value for v in (Origin, Treatment, Position, Evidence) for w in v}
    assert not words & {"original", "authentic", "restored", "renovated", "preserved"}


def test_charter__later_changes_keep_the_original_part_with_the_vehicle() -> None:
    """Article 10: changes ideally reversible, removed original parts kept with the vehicle."""
    line = fold_one(
        "electrical/dynamo", "first-fit",
        worked("2024-01-01", "electrical/dynamo", did="fitted", now="upgrade", original="crate 1",
               reversible="yes"),
    )  # fmt: skip
    assert [("first-fit", "crate 1")] == [
        (d.item.origin.value, d.item.kept) for d in line.displaced
    ]

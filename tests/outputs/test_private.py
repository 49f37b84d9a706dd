"""What counts as private for a reader, and what does not though it is."""

from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from journal.outputs.leaks import Search
from journal.outputs.leaves import leaves_of
from journal.outputs.own import own_texts, own_words
from journal.outputs.private import private_texts, seen_texts
from journal.outputs.secret import Kind
from journal.readers import car_for
from journal.reading.content import read_content
from journal.records.place import Place, Source
from journal.words.vocabulary import Reader
from tests.published import CONTENT
from tests.writing import WORKSHOP, a_car, a_sheet


def _sought(reader: Reader, note: str, **front: Any) -> list[tuple[Kind, str]]:
    """What is sought for a note that only the workshop reads, once what all may read is left out."""
    parts = {"cylinder": {"what": "Cylinder", "note": note}}
    car = a_car({"brakes/pipes": "first-fit"}, [a_sheet("2024-01-01", parts=parts, **front)])
    seen = car_for(reader, car)
    search = Search(private_texts(car, seen, (), reader), seen_texts(seen))
    return [(p.kind, p.text) for p in search.sought if p.kind is Kind.WORDS and p.text in note]


@pytest.mark.parametrize(
    ("note", "sought"),
    [
        # Five words, four of which say something.
        ("the last bill is open", ["the last bill is open"]),
        ("in on the 11 of September 2023", []),
        # Fewer, when one of them is a stranger to the reader and to the program.
        ("zerbled again badly", ["zerbled again badly"]),
        ("zerbled it", []),
        ("again and again", []),
        # One word, by its length or by its figures.
        ("zerbled", ["zerbled"]),
        ("zerbl", []),
        ("zq-9", []),
        ("QX9417", ["QX9417"]),
        # Never a figure or a date alone.
        ("212.00", []),
        ("2031-04-02", []),
        # Marks of a text end a run, since pages mark them up.
        ("the **last bill** is still open and unpaid", ["is still open and unpaid"]),
    ],
)
def test_words__count_where_they_could_be_nothing_else(note: str, sought: list[str]) -> None:
    found = [text for _, text in _sought(Reader.OWNER, note)]
    assert [text for text in sought if text in found] == sought
    assert (sought == []) == (found == []), found


def test_words__that_the_reader_may_read_elsewhere_do_not_count() -> None:
    note = "the last bill is open"
    assert [(Kind.WORDS, note)] == _sought(Reader.OWNER, note)
    assert [] == _sought(Reader.OWNER, note, title="Why THE LAST bill is open!")


def test_words__that_the_program_says_do_not_count() -> None:
    said = next(text for text in _sentences() if "asbestos" in text)
    assert [] == _sought(Reader.OWNER, said)


def _sentences() -> Iterator[str]:
    for text in own_texts():
        yield from (line for line in text.split("\n") if 40 < len(line) < 300 and "<" not in line)


def test_own_words__are_those_that_pages_may_say_and_not_those_of_our_comments() -> None:
    assert {"asbestos", "originality", "chassis"} <= own_words()
    # It stands in a docstring, as an example.
    assert "harrow" not in own_words()


def test_long_text__is_sought_in_every_part(tmp_path: Any) -> None:
    note = (
        "every stud came out whole but one sheared flush and took an hour to drill away, "
        "which nobody will pay for this side of Easter"
    )
    words = note.split()
    sought = [text for _, text in _sought(Reader.OWNER, note)]
    assert len(sought) > 2
    # Any dozen words of it hold a run that is sought.
    for start in range(len(words) - 11):
        part = " ".join(words[start : start + 12])
        assert [run for run in sought if run in part] != []


@given(
    st.lists(st.sampled_from(["0.12", "of", "gearbox", "drum", "11", "May", "zerbl"]), max_size=300)
)
def test_any_text__is_cut_into_runs_that_stand_in_it(words: list[str]) -> None:
    note = " ".join(words)
    for _, text in _sought(Reader.OWNER, note):
        assert text in note


def test_place__is_the_line_on_which_it_was_written() -> None:
    sheet = a_sheet("2024-01-01", parts={"cylinder": {"note": "zerbled"}})
    marks = {("parts", "cylinder", "note"): 7}
    sheet = replace(sheet, source=Source(sheet.source.path, (), marks))
    car = a_car({"brakes/pipes": "first-fit"}, [sheet])
    private = private_texts(car, car_for(Reader.OWNER, car), (), Reader.OWNER)
    assert [Place("tern/sheets/2024-01-01-day.md", 7)] == [
        p.place for p in private if p.text == "zerbled"
    ]


def test_name_of_another_car__that_pages_of_this_one_make_too_does_not_count() -> None:
    """Pages of components lie at `brakes/wheel-cylinders.html`, which no text of this car holds."""
    work = {"brakes/wheel-cylinders": "removed"}
    other = a_car({}, [a_sheet("2024-01-02", work=work)])
    car = a_car({"brakes/wheel-cylinders": "first-fit"})
    seen = car_for(Reader.OWNER, car)
    search = Search(private_texts(car, seen, (other,), Reader.OWNER), seen_texts(seen))
    assert [] == [p for p in search.sought if "wheel-cylinders" in p.text]


def test_public__persons_count_alone_unless_their_name_is_a_word() -> None:
    hands = {"MT": "Margit Tolland", "JB": "Jonah Brown", "EP": "Edith Asbestos"}
    car = a_car({}, workshop={**WORKSHOP, "hands": hands}, colour="Harrow Green")
    private = private_texts(car, car_for(Reader.PUBLIC, car), (), Reader.PUBLIC)
    assert ["Eleanor Harrow", "Margit Tolland", "Tolland", "Jonah Brown", "Edith Asbestos"] == [
        p.text for p in private if p.kind is Kind.PERSON
    ]


def test_public__numbers_count_unless_they_could_be_any() -> None:
    numbers = {
        n: {"found": v} for n, v in enumerate(("TD 58/0417", "41", "1958", "20417", "204178"))
    }
    car = a_car({}, numbers={f"n{n}": v for n, v in numbers.items()}, plate="SVX 417")
    private = private_texts(car, car_for(Reader.PUBLIC, car), (), Reader.PUBLIC)
    assert ["TD 58/0417", "204178", "SVX 417"] == [p.text for p in private if p.kind is Kind.NUMBER]


def test_workshop__has_nothing_private() -> None:
    car = a_car({}, plate="SVX 417")
    assert () == private_texts(car, car, (), Reader.WORKSHOP)


def test_leaves__hold_every_word_that_was_written_in_the_demonstration() -> None:
    """A value that no leaf holds would be sought nowhere."""
    for car in read_content(CONTENT).cars:
        texts = {leaf.text for leaf in leaves_of(car)}
        assert {sheet.name for sheet in car.sheets} <= texts
        assert {car.car.owner.name, car.car.owner.address, car.car.brief} <= texts
        for leaf in leaves_of(car):
            assert leaf.place.path.startswith((f"{car.name}/", "workshop.yaml"))
            assert leaf.place.line >= 1

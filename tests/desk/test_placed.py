"""Where the words of a line stand in what was said, once that is set into sentences."""

from hypothesis import given
from hypothesis import strategies as st

from journal.desk.placed import Place, carried_to, found_in
from journal.hearing.sentences import narrative
from journal.hearing.tokens import tokens_of
from journal.outputs.sheets.spoken import plainly
from journal.records.talk import Cue, Talk


def test_words__stand_where_the_talk_had_them_though_names_came_between() -> None:
    said = "MT: It's off. So clean.\n\nJB: So clean."
    talk = "it's off so clean so clean"
    assert [Place(4, 12), Place(14, 22), Place(29, 37)] == carried_to(
        said, talk, [Place(0, 8), Place(9, 17), Place(18, 26)]
    )


def test_words__run_on_over_the_name_of_the_next_who_speaks() -> None:
    said = "MT: Three.\n\nJB: Four thou."
    (place,) = carried_to(said, "three four thou", [Place(0, 15)])
    assert "Three.\n\nJB: Four thou" == said[place.start : place.end]


def test_quotes__are_found_in_their_order_and_may_begin_at_one_place() -> None:
    said = "It weeps. Both are off. It weeps."
    assert [Place(0, 8), Place(10, 22), Place(10, 18), Place(24, 32)] == found_in(
        said, ["it weeps", "both are off", "both are", "it weeps"]
    )


def test_quote__that_was_cut_or_is_not_there() -> None:
    said = "Both are off. It weeps."
    assert [None, Place(0, 8), Place(0, 12), None] == found_in(
        said, ["", "both are …", "both are off", "nobody said that"]
    )


_words = st.lists(
    st.sampled_from(["took", "it", "off", "so", "i", "cleaned", "don't", "12", "nought", "right"]),
    min_size=1, max_size=60,
)  # fmt: skip


@given(_words, st.data(), st.booleans())
def test_words__are_the_same_wherever_they_stand(
    words: list[str], data: st.DataObject, voices: bool
) -> None:
    """Whatever the stops and capitals, a stretch of the talk is the same words in what is said of it."""
    text = " ".join(words)
    cut = data.draw(st.integers(0, len(words)))
    half = len(" ".join(words[:cut]))
    cues = (Cue(0, half, voice="Margit"), Cue(min(half + 1, len(text)), len(text), voice="Jonah"))
    talk = Talk(text, cues if voices and 0 < cut < len(words) else ())
    said = plainly(narrative(talk, tokens_of(text)))
    first = data.draw(st.integers(0, len(words) - 1))
    last = data.draw(st.integers(first + 1, len(words)))
    start = len(" ".join([*words[:first], ""])) if first else 0
    end = start + len(" ".join(words[first:last]))
    (place,) = carried_to(said, text, [Place(start, end)])
    found = [word.strip(".,:").casefold() for word in said[place.start : place.end].split()]
    assert words[first:last] == [word for word in found if word not in ("margit", "jonah")]

"""Words of the search: folded, without plurals, and the sentences they stand in."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.pages.searchwords import fold, sentences, stem, term_of, terms


@pytest.mark.parametrize(
    ("folded", "written"),
    [
        # Unicode Standard Annex 15: compatibility decomposition (NFKD); marks are of category Mn.
        ("cafe", "CAFÉ"), ("cafe", "cafe\u0301"), ("uber", "Über"), ("fitting", "ﬁtting"),
        ("1⁄2", "½"), ("no", "№"), ("i", "İ"), ("μm", "µm"), ("brake", "br\u00adake"),
        # Letters that have no decomposition there.
        ("strasse", "Straße"), ("oland", "Øland"), ("σασ", "ΣΑΣ"), ("lodz", "Łódź"),
        ("keepers", "keeper’s"), ("oclock", "o'clock"), ("hubs'", "hubs'"),
    ],
)  # fmt: skip
def test_fold__leaves_small_letters_without_marks(folded: str, written: str) -> None:
    assert folded == fold(written)


@pytest.mark.parametrize(
    ("stemmed", "word"),
    [
        # Harman 1991, the rules of the S stemmer, worked by hand. First: ies, but not eies or aies.
        ("body", "bodies"), ("assembly", "assemblies"), ("eie", "eies"), ("aie", "aies"),
        # Second: es, but not aes, ees or oes; what is kept from it falls to the third.
        ("valve", "valves"), ("boxe", "boxes"), ("brae", "braes"), ("knee", "knees"),
        ("shoe", "shoes"),
        # Third: s, but not us or ss.
        ("brake", "brakes"), ("spring", "springs"), ("ga", "gas"), ("bus", "bus"), ("glass", "glass"),
        ("radius", "radius"), ("compress", "compress"),
        # Words of fewer than three letters stay, and so does all else.
        ("is", "is"), ("s", "s"), ("wa", "was"), ("laygear", "laygear"), ("1950", "1950s"),
    ],
)  # fmt: skip
def test_stem__takes_off_plurals_by_the_three_rules(stemmed: str, word: str) -> None:
    assert stemmed == stem(word)


@pytest.mark.parametrize(
    ("one", "many"),
    [
        ("box", "boxes"), ("brush", "brushes"), ("clutch", "clutches"), ("gasket", "gaskets"),
        ("pass", "passes"), ("axle", "axles"), ("axe", "axes"), ("catch", "catches"),
        ("body", "bodies"), ("shoe", "shoes"), ("hose", "hoses"), ("half", "half"),
    ],
)  # fmt: skip
def test_one_and_many__are_found_together(one: str, many: str) -> None:
    assert term_of(one) == term_of(many)


@pytest.mark.parametrize(
    ("found", "text"),
    [
        (("run", "out", "runout"), "run-out"),
        (("te", "58", "0431", "580431"), "TE 58/0431"),
        (("0", "006", "0006"), "0.006"),
        (("near", "side", "nearside", "sill"), "Near\u2011side sills"),
        (("a", "b"), "a - b"),
        # Too many words to be one name.
        (("a", "b", "c", "d", "e"), "a/b/c/d/e"),
        ((), "… — !"),
    ],
)
def test_terms__are_the_words_and_what_they_make_together(
    found: tuple[str, ...], text: str
) -> None:
    assert found == terms(text)


@given(st.text())
def test_fold__is_done_once(text: str) -> None:
    assert fold(text) == fold(fold(text))


@given(st.text(), st.text())
def test_terms__of_two_texts_are_those_of_both(one: str, other: str) -> None:
    assert terms(one) + terms(other) == terms(f"{one} {other}")


@pytest.mark.parametrize(
    ("found", "text"),
    [
        (("Split without trouble.", "Every stud came out."), "Split without trouble. Every stud came out."),
        (("Is it?", "It is!", "Good."), "Is it? It is! Good."),
        (("It reads 3.5 mm.", "4 would do."), "It reads 3.5 mm. 4 would do."),
        (("“Mind the thread.”", "So I did."), "“Mind the thread.” So I did."),
        (("See no. 4 of the card.",), "See no. 4 of the card."),
        (("Signed by M. T. Tolland.",), "Signed by M. T. Tolland."),
        (("It wept, e.g. Monday.",), "It wept, e.g. Monday."),
        (("one line of it",), "one line\n of  it "),
        ((), "  "),
    ],
)  # fmt: skip
def test_sentences__end_where_a_reader_would_stop(found: tuple[str, ...], text: str) -> None:
    assert found == sentences(text)


@given(st.text())
def test_sentences__lose_nothing(text: str) -> None:
    assert " ".join(text.split()) == " ".join(sentences(text))

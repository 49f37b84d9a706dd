"""Data of the search: every word finds its documents, with the weight the formula gives it."""

import json
import re
from collections import Counter
from collections.abc import Iterable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.pages.searchdata import TERMS_ROOM, TEXTS_ROOM, files_search, search_files
from journal.pages.searchdocs import PART, SHEET, Document, Thumb, documents
from journal.pages.searchwords import terms
from tests.pages.searching import Read, a_view, read_search

LAYGEAR = Document(PART, "Laygear kit", "parts.html#part-kit", "Laygear", ("Needles and thrusts.",))
SHEETS = (
    Document(
        SHEET, "Gearbox apart", "sheets/a.html", "5 March 2024", ("The laygear is pitted.", "Split it.")
    ),
    Document(SHEET, "Brakes bled", "sheets/b.html", "6 March 2024", ("Bled twice, and firm.",)),
)  # fmt: skip
FOUND = (LAYGEAR, *SHEETS)


def _words_of(document: Document) -> tuple[str, ...]:
    texts = (document.title, document.kind.one, document.note, document.also, *document.sentences)
    return tuple(term for text in texts for term in terms(text))


def _bm25(found: tuple[Document, ...], number: int, term: str) -> float:
    """The saturating part of BM25F, straight from Robertson and Zaragoza 2009: the frequency of a
    term is summed over fields, each with its weight over (1 - b) + b length / mean length; then
    tf / (k1 + tf). Title 3, the rest 1; k1 1.2, b 0.75."""
    fields = [
        [terms(d.title), terms(f"{d.kind.one} {d.note} {d.also}"), terms(" ".join(d.sentences))]
        for d in found
    ]
    frequency = 0.0
    for n, weight in enumerate((3, 1, 1)):
        mean = sum(len(of[n]) for of in fields) / len(found)
        here = fields[number][n]
        if here:
            frequency += weight * here.count(term) / (0.25 + 0.75 * len(here) / mean)
    return frequency / (1.2 + frequency)


def test_level__is_the_saturating_part_of_bm25_in_61_steps() -> None:
    read = read_search(search_files(FOUND))
    for number, document in enumerate(FOUND):
        for term in set(_words_of(document)):
            level = read.of(term)[number]
            assert level == max(1, round(61 * _bm25(FOUND, number, term)))


def test_level__worked_by_hand() -> None:
    # "laygear" once in each title and note of the part. Titles have 2, 2 and 2 words, notes 2, 4 and
    # 4 (a kind and a note each): (3 / 1) + 1 / (0.25 + 0.75 * 2 / (10 / 3)) = 3 + 1.4286 = 4.4286;
    # 4.4286 / (1.2 + 4.4286) = 0.7868; of 61 steps 47.99.
    # In the sheet once in a text of 6 words; the texts have 3, 6 and 4: 1 / (0.25 + 0.75 * 6 /
    # (13 / 3)) = 0.7761; 0.7761 / 1.9761 = 0.3927; of 61 steps 23.96.
    assert {0: 48, 1: 24} == read_search(search_files(FOUND)).of("laygear")


def _standing_in(places: Iterable[int], count: int) -> tuple[Document, ...]:
    """So many documents of one word each, which is `laygear` in some of them."""
    named = set(places)
    return tuple(
        Document(SHEET, "Laygear" if n in named else "Brakes", f"sheets/{n}.html")
        for n in range(count)
    )


def test_places__worked_by_hand() -> None:
    # In a title of one word, as all titles are: 3 / (1.2 + 3) = 0.7143, of 61 steps 43.57, so 44: the
    # figures and small letters are 36 signs, and "I" is the ninth after them.
    # 3 is "3". 40 is 37 further, 6 + 1 * 31: the digit 6 with 31 added is 37, "B"; then "1". 1033 is 993
    # further, 1 + 1 * 31 + 1 * 961: 32, 32 and 1, "ww1".
    texts = [file.text for file in search_files(_standing_in((3, 40, 1033), 1034))]
    assert 1 == sum('"laygearQ3IB1Iww1I"' in text for text in texts)


@given(st.sets(st.integers(0, 149), min_size=1))
def test_places__are_those_of_the_documents(places: set[int]) -> None:
    read = read_search(search_files(_standing_in(places, 150)))
    assert places == read.of("laygear").keys()


_TEXT = st.text(max_size=60)
_DOCUMENTS = st.builds(
    Document, st.just(SHEET), _TEXT, _TEXT, _TEXT, st.lists(_TEXT, max_size=3).map(tuple), _TEXT,
    st.none(),
)  # fmt: skip


@given(st.lists(_DOCUMENTS, max_size=6).map(tuple))
def test_every_word__finds_its_document(found: tuple[Document, ...]) -> None:
    read = read_search(search_files(found))
    for number, document in enumerate(found):
        for term in _words_of(document):
            assert number in read.of(term)
    held = {term for words in read.words.values() for term in words}
    assert held == {term for document in found for term in _words_of(document)}


@given(st.lists(_DOCUMENTS, max_size=6).map(tuple))
def test_texts__come_back_as_they_went_in(found: tuple[Document, ...]) -> None:
    told = [[d.title, d.href, d.note, list(d.sentences)] for d in found]
    assert told == read_search(search_files(found)).texts


def _many(words: list[str], times: int) -> tuple[Document, ...]:
    return tuple(
        Document(SHEET, f"Sheet {n}", f"sheets/{n}.html", "", (" ".join(words),))
        for n in range(times)
    )


def test_file_of_words__is_split_by_more_letters_when_it_is_large() -> None:
    words = ["b", "be"] + [f"b{c}{n}" for c in "ery" for n in range(1200)]
    read = read_search(files := search_files(_many(words, 12)))
    names = [name for name in read.start["terms"] if name.startswith("b")]
    # The word `b` has no second letter and keeps a file of its own. `be` and `be0` to `be1199` do not
    # fit one file together either, so `be` is alone and the others lie by their third letter.
    assert names[:3] == ["b", "be", "be0"]
    assert ["b"] == list(read.words["b"])
    assert {"be"} == set(read.words["be"])
    for file in files:
        if "/terms-" in file.path:
            assert len(file.text.encode()) <= TERMS_ROOM + 100, file.path
    assert 12 == len(read.of("br77")) == len(read.of("be"))


def test_file_of_words__holds_one_word_however_often_it_stands() -> None:
    read = read_search(search_files(_many(["brake"], 20_000)))
    assert 20_000 == len(read.of("brake"))
    assert ["b"] == [name for name in read.start["terms"] if name.startswith("b")]


def test_file_of_words__is_not_split_for_ever() -> None:
    words = ["x" * 40 + f"{n:05d}" for n in range(3000)]
    read = read_search(search_files(_many(words, 2)))
    assert ["x" * 12] == [name for name in read.start["terms"] if name.startswith("x")]
    assert {0, 1} == set(read.of(words[17]))


def test_texts__are_split_by_their_size() -> None:
    files = search_files(_many(["brake"] * 300, 100))
    sizes = [len(file.text) for file in files if "/texts-" in file.path]
    assert len(sizes) > 10
    assert max(sizes) <= TEXTS_ROOM + 100


HOSTILE = "</script><!-- & ]]> \u2028 \u2029 ‹'\"\\ journalFind( \x00"


def test_text__cannot_end_the_script_it_stands_in() -> None:
    document = Document(SHEET, HOSTILE, "sheets/a.html", HOSTILE, (HOSTILE,), HOSTILE)
    files = search_files([document])
    assert [] == [f.path for f in files if re.search("[<\u2028\u2029\x00]", f.text)]
    assert [[HOSTILE, "sheets/a.html", HOSTILE, [HOSTILE]]] == read_search(files).texts


def test_stems_and_packing__are_no_words_that_stand_alone() -> None:
    """Whoever looks through the archive for a private word, such as the last look before it is
    published, must not take a stem of another word for it, nor signs that fell together by chance."""
    files = search_files([Document(SHEET, "Grinders run-out", "sheets/a.html")])
    alone = re.findall(r"(?<![^\W_])(?:grinder|runout)(?![^\W_])", "".join(f.text for f in files))
    assert [] == alone
    lines = [
        line
        for f in files
        if "/terms-" in f.path
        for line in re.findall(r'"([^"]+Q[^"]*)"', f.text)
    ]
    assert [] == [line for line in lines if not line.isalnum()]


def test_names_of_files__are_plain_whatever_the_words() -> None:
    document = Document(SHEET, "Ænean øre 部品 naïve", "sheets/a.html")
    paths = [file.path for file in search_files([document])]
    assert [] == [path for path in paths if not re.fullmatch(r"find/[a-z0-9-]+\.js", path)]
    assert "find/terms--90e8-.js" in paths


def test_names_that_every_object_has__are_words_like_others() -> None:
    read = read_search(search_files([Document(SHEET, "Constructor of the prototype", "a.html")]))
    assert {0} == set(read.of("constructor"))


def test_picture__comes_with_its_size() -> None:
    document = Document(SHEET, "Picture 1", "pictures/1.html", picture=Thumb("a.webp", 480, 320))
    ((*_, picture),) = read_search(search_files([document])).texts
    assert ["a.webp", 480, 320] == picture


def test_nothing_to_find__makes_a_start_alone() -> None:
    assert ["find/start.js"] == [file.path for file in search_files([])]
    assert {"kinds": [], "terms": [], "texts": []} == read_search(search_files([])).start


@pytest.mark.parametrize("base", ["", "tern/"])
def test_files__lie_in_the_folder_of_the_car(base: str) -> None:
    view = a_view(base=base)
    read = read_search(files_search(view), base)
    assert len(documents(view)) == len(read.texts)


def test_same_car__gives_the_same_bytes() -> None:
    assert files_search(a_view()) == files_search(a_view())


def test_kinds__stand_together_and_are_counted() -> None:
    found = documents(a_view())
    counts = Counter(document.kind for document in found)
    kinds = read_search(search_files(found)).start["kinds"]
    assert [[kind.one, kind.many, count] for kind, count in counts.items()] == kinds


def test_start__is_small_whatever_is_searched() -> None:
    read: Read = read_search(files := search_files(_many([f"w{n}" for n in range(5000)], 40)))
    assert len(files[0].text) < 40 * len(read.start["terms"]) + 10 * len(read.texts) + 200
    assert json.loads(json.dumps(read.start)) == read.start

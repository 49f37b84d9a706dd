"""The rules of the search in a real browser: words, ranking, and what is loaded for them."""

import math
import unicodedata
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from selenium import webdriver

from journal.pages.searchdata import search_files
from journal.pages.searchdocs import documents
from journal.pages.searchwords import fold, terms
from tests.browser.finding import (
    a_sheet_found,
    loaded,
    look_for,
    open_small,
)
from tests.pages.searching import a_view, read_search


def test_words_written_with_a_hyphen__are_found_without_it(page: webdriver.Chrome) -> None:
    def numbers(words: str) -> set[int]:
        hits = _ranked(page, words)
        return {hit["number"] for hit in hits if hit["answered"] == hits[0]["answered"]}

    assert set() != numbers("runout ") <= numbers("run-out ")


def _ranked(page: webdriver.Chrome, query: str) -> list[dict[str, Any]]:
    told: list[dict[str, Any]] = page.execute_async_script(
        "const [query, done] = arguments; findData.search(query).then(({ hits }) => done(hits));",
        query,
    )
    return told


@pytest.mark.parametrize(
    "query", ["pipes ", "brake pipes ", "nine pipes again ", "the bleed card "]
)
def test_ranking__is_bm25_over_the_levels_that_were_kept(
    stick: webdriver.Chrome, tmp_path: Path, query: str
) -> None:
    """Robertson and Zaragoza 2009, section 3: the weights of the words of a query add up; each is the
    part kept in the data times log(1 + (N - n + 0.5) / (n + 0.5)), for n of N documents."""
    found = documents(a_view())
    read = read_search(search_files(found))
    scores: dict[int, tuple[int, float]] = {}
    for term in dict.fromkeys(terms(query)):
        levels = read.of(term)
        rare = math.log(1 + (len(found) - len(levels) + 0.5) / (len(levels) + 0.5))
        for number, level in levels.items():
            count, score = scores.get(number, (0, 0.0))
            scores[number] = (count + 1, score + rare * level / 61)
    expected = sorted(scores, key=lambda n: (-scores[n][0], -scores[n][1], n))
    hits = _ranked(open_small(stick, tmp_path), query)
    assert expected == [hit["number"] for hit in hits]
    for hit in hits:
        answered, score = scores[hit["number"]]
        assert answered == hit["answered"]
        assert score == pytest.approx(hit["score"])


def test_word_that_is_only_begun__counts_less_than_a_whole_one(
    stick: webdriver.Chrome, tmp_path: Path
) -> None:
    begun, whole = a_sheet_found(1, "Day", "oilfeed"), a_sheet_found(2, "Day", "oil")
    hits = _ranked(open_small(stick, tmp_path, begun, whole), "oil")
    assert [1, 0] == [hit["number"] for hit in hits]
    assert hits[1]["score"] == pytest.approx(0.6 * hits[0]["score"])


def test_words_typed_together__are_best_together(stick: webdriver.Chrome, tmp_path: Path) -> None:
    apart, together = (
        a_sheet_found(1, "Day", "out on a run"),
        a_sheet_found(2, "Day", "a run-out of it"),
    )
    hits = _ranked(open_small(stick, tmp_path, apart, together), "run-out ")
    assert [(1, 2), (0, 2)] == [(hit["number"], hit["answered"]) for hit in hits]


def test_data__is_loaded_only_for_what_is_asked(stick: webdriver.Chrome, tmp_path: Path) -> None:
    page = open_small(stick, tmp_path)
    assert [] == [path for path in loaded(page) if "/find/" in path]
    look_for(page, "unions ")
    names = [Path(path).name for path in loaded(page) if "/find/" in path]
    assert ["start.js", "terms-u.js", "texts-0.js"] == sorted(names)


# What lies beyond the first plane and is met in texts: letters of mathematics, and pictures.
BEYOND = (*range(0x1D400, 0x1D800), *range(0x1F000, 0x1FB00))


def _assigned() -> Iterator[str]:
    """The characters of the first plane, and some beyond, that this Python knows; of the long runs of
    ideographs and syllables one in 97."""
    for code in (*range(0x10000), *BEYOND):
        kind = unicodedata.category(chr(code))
        long_run = 0x3400 <= code < 0xA000 or 0xAC00 <= code < 0xD7A4
        if kind not in ("Cn", "Cs", "Co") and not (long_run and code % 97):
            yield chr(code)


WORDS = (
    "boxes bodies eies shoes glass bus gas was is s lenses chassis axes brushes classes run-out",
    "TE 58/0431 CB-3302 0.006 3/16 10W-40 keeper’s o'clock hubs' a/b/c/d/e near‑side ½ 1½ №",
    "Étriers cafe\u0301 Straße Øre ŁÓDŹ İstanbul ΣΑΣ ﬁtting µm br\u00adake 部品 Ωhm «ça»",
)


def test_words__are_the_same_to_both_languages(page: webdriver.Chrome) -> None:
    characters = [f"a{c}b {c} {c}x'{c}" for c in _assigned()]
    texts = [*WORDS, *characters]
    told = page.execute_script(
        "return arguments[0].map((text) => [findWords.fold(text), findWords.terms(text)])", texts
    )
    wrong = [
        (text, fold(text), theirs)
        for text, theirs in zip(texts, told, strict=True)
        if [fold(text), list(terms(text))] != theirs
    ]
    assert [] == wrong[:20]
    assert len(characters) > 20_000

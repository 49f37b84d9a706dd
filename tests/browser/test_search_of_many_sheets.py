"""Ten years of sheets: what is loaded before the first key, and what a word loads then."""

from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from selenium import webdriver

from journal.pages.searchdata import TERMS_ROOM, TEXTS_ROOM
from journal.records.carfile import CarFile
from journal.words.draws import Lots
from tests.browser.driving import complaints
from tests.browser.finding import loaded, look_for, put_find, shown
from tests.pages.searching import a_view
from tests.writing import a_car, a_sheet

SHEETS, TEXT = 3000, 2000
PARTS = ("bearing", "bush", "casting", "cover", "gasket", "hose", "lever", "pipe", "seal", "spring")
_ONSETS = (
    "b",
    "br",
    "c",
    "ch",
    "d",
    "f",
    "g",
    "gr",
    "h",
    "l",
    "m",
    "n",
    "p",
    "r",
    "s",
    "st",
    "t",
    "w",
)
_RIMES = (
    "ack",
    "and",
    "ear",
    "ell",
    "ent",
    "ig",
    "ile",
    "ing",
    "oat",
    "ock",
    "olt",
    "one",
    "ush",
    "y",
)
_ENDS = ("", "s", "ed", "er", "ing")


def _vocabulary() -> tuple[str, ...]:
    """Some 7,000 made-up words, of which the first are short and common, as in any language."""
    syllables = [onset + rime for onset in _ONSETS for rime in _RIMES]
    lots = Lots(1)
    longer = [lots.draw(syllables) + lots.draw(syllables) + lots.draw(_ENDS) for _ in range(7000)]
    return tuple(dict.fromkeys((*PARTS, *syllables, *longer)))


def _text(lots: Lots, words: tuple[str, ...]) -> str:
    """A text of about `TEXT` signs; the word of rank r is drawn about as often as 1 / r (Zipf's law)."""
    told: list[str] = []
    size = 0
    while size < TEXT:
        share = lots.number() / 2**64
        word = words[int(len(words) ** share) - 1]
        told.append(word if len(told) % 12 else f"{word}.".capitalize())
        size += len(word) + 1
    return " ".join(told)


def _car() -> CarFile:
    words, lots = _vocabulary(), Lots(2)
    register = {f"engine/{a}-{b}": "first-fit" for a in PARTS for b in PARTS if a != b}
    keys = tuple(register)
    sheets = []
    for n in range(SHEETS):
        day = date(2014, 1, 1) + timedelta(days=n)
        key = lots.draw(keys)
        title = f"{lots.draw(words)} {lots.draw(words)} {lots.draw(PARTS)}".capitalize()
        facts: dict[str, Any] = {"work": {key: {"did": "inspected", "found": lots.draw(words)}}}
        if n % 5 == 0:
            facts["parts"] = {f"part-{n}": {"what": f"{title}, new", "of": key}}
            facts["measured"] = {
                f"{lots.draw(words)} float": {"on": key, "read": "1.5", "unit": "mm"}
            }
        body = _text(lots, words)
        sheets.append(a_sheet(day.isoformat(), title=title, subsystem="engine", body=body, **facts))
    return a_car(register, sheets)


@dataclass(frozen=True)
class Archive:
    """The page put down in a folder."""

    folder: Path
    page: Path


def _sizes(stick: webdriver.Chrome) -> dict[str, int]:
    """The bytes of every file that the browser asked for since this was last asked, by name."""
    return {Path(path).name: Path(path).stat().st_size for path in loaded(stick)}


@pytest.fixture(scope="module")
def archive(tmp_path_factory: pytest.TempPathFactory) -> Archive:
    folder = tmp_path_factory.mktemp("many")
    return Archive(folder, put_find(folder, a_view(_car())))


def test_page__loads_less_than_a_megabyte_before_the_first_key(
    archive: Archive, stick: webdriver.Chrome
) -> None:
    complaints(stick)
    stick.get(archive.page.as_uri())
    sizes = _sizes(stick)
    print(f"before the first key: {sum(sizes.values()):,} bytes: {sizes}")
    assert {"find.html", "style.css", "find.js"} <= set(sizes)
    assert sum(sizes.values()) < 1_000_000


def test_word__loads_its_letters_and_the_texts_that_are_shown(
    archive: Archive, stick: webdriver.Chrome
) -> None:
    stick.get(archive.page.as_uri())
    _sizes(stick)
    look_for(stick, "gasket stand ")
    sizes = _sizes(stick)
    words = [name for name in sizes if name.startswith("terms-")]
    texts = [name for name in sizes if name.startswith("texts-")]
    print(f"for two words: {sum(sizes.values()):,} bytes: {sizes}")
    assert all(name[6] in "gs" for name in words)
    assert 0 < len(texts) <= len(shown(stick)) == 12
    assert {"start.js", *words, *texts} == set(sizes)


def test_files__are_as_many_as_their_size_asks_for(archive: Archive) -> None:
    files = {path.name: path.stat().st_size for path in archive.folder.glob("find/*.js")}
    words = {name: size for name, size in files.items() if name.startswith("terms-")}
    texts = {name: size for name, size in files.items() if name.startswith("texts-")}
    print(
        f"words {len(words)} files, {sum(words.values()):,} bytes, largest {max(words.values()):,};"
        f" texts {len(texts)} files, {sum(texts.values()):,} bytes, largest {max(texts.values()):,}"
    )
    assert max(words.values()) <= TERMS_ROOM + 100
    assert max(texts.values()) <= TEXTS_ROOM + 100
    # A file that is split falls into at most as many as there are letters and figures, and one more.
    assert len(words) <= 37 * (1 + sum(words.values()) // TERMS_ROOM)

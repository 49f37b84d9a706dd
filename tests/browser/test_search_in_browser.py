"""What is found and how it is shown, in a real browser, opened from a memory stick."""

from pathlib import Path

import pytest
from selenium import webdriver
from selenium.webdriver.common.by import By
from selenium.webdriver.support.ui import WebDriverWait

from journal.pages.searchdocs import SHEET, Document
from journal.words.vocabulary import Reader
from tests.browser.driving import complaints, let_scripts_run, screen
from tests.browser.finding import (
    HOME,
    a_sheet_found,
    look_for,
    open_small,
    settled,
    shown,
    tally,
)
from tests.browser.rules import violations
from tests.browser.serving import served
from tests.published import archive_for


def test_word__is_found_and_shown_in_its_sentence(page: webdriver.Chrome) -> None:
    assert "“laygear” stands in 11 places." == look_for(page, "laygear")
    found = shown(page)
    assert 11 == len(found)
    assert "Laygear and layshaft" in [row["title"] for row in found[:2]]
    assert all(set(map(str.lower, row["marks"])) == {"laygear"} for row in found)
    assert [] == complaints(page)


def test_words__that_all_stand_there_come_before_those_that_do_not(page: webdriver.Chrome) -> None:
    told = look_for(page, "dynamo case")
    assert told.startswith("Both words stand in 8 places, some of them in ")
    groups = [row["of"] for row in shown(page)]
    assert ["all"] * 8 + ["some"] * (len(groups) - 8) == groups
    heading = page.find_element(By.CSS_SELECTOR, "#found h2").text
    assert "With some of the words" == heading


def test_subsystem__leads_what_is_found_by_its_name(page: webdriver.Chrome) -> None:
    look_for(page, "brakes")
    assert ("Brakes", "subsystems/brakes.html") == (shown(page)[0]["title"], shown(page)[0]["href"])


@pytest.mark.parametrize(
    ("one", "other"),
    [("brake pipe ", "brakes pipes "), ("läygéar", "LAYGEAR"), ("bush ", "bushes ")],
)  # fmt: skip
def test_accents_case_and_plurals__make_no_difference(
    page: webdriver.Chrome, one: str, other: str
) -> None:
    assert _all(page, one) == _all(page, other) != set()


def _all(page: webdriver.Chrome, words: str) -> set[str]:
    look_for(page, words)
    return {row["href"] for row in shown(page) if row["of"] == "all"}


def test_last_word__is_found_by_its_beginning(page: webdriver.Chrome) -> None:
    assert "“layg…” stands in 11 places." == look_for(page, "layg")
    assert look_for(page, "layg ").startswith("Nothing here holds “layg”.")
    look_for(page, "bodie")
    assert "Body" == shown(page)[0]["title"]


def test_word_before_the_last__is_a_whole_word(page: webdriver.Chrome) -> None:
    look_for(page, "layg end")
    assert [] == [row for row in shown(page) if row["of"] == "all"]


def test_nearest_word__is_offered_for_one_that_stands_nowhere(page: webdriver.Chrome) -> None:
    assert "Nothing here holds “laygaer”. The nearest here: laygear." == look_for(page, "laygaer")
    page.find_element(By.CSS_SELECTOR, ".near").click()
    assert "“laygear” stands in 11 places." == settled(page)


def test_picture__is_shown_small_beside_its_caption(page: webdriver.Chrome) -> None:
    look_for(page, "chestnut hide pleats")
    row = page.find_element(By.CSS_SELECTOR, ".finds .pictured")
    assert "Chestnut hide, stone piping" in row.text
    image = row.find_element(By.TAG_NAME, "img")
    WebDriverWait(page, 10).until(lambda _: image.get_property("complete"))
    assert page.execute_script("return arguments[0].naturalWidth", image) > 0


def test_kind__narrows_what_is_shown(page: webdriver.Chrome) -> None:
    look_for(page, "gearbox")
    button = next(
        b for b in page.find_elements(By.CSS_SELECTOR, "#find-only button") if "Sheets" in b.text
    )
    count = int(button.text.split()[-1])
    button.click()
    WebDriverWait(page, 10).until(
        lambda _: all(row["label"].startswith("Sheet ·") for row in shown(page))
    )
    assert "true" == button.get_attribute("aria-pressed")
    assert min(count, 12) == len(shown(page))


def test_kind__that_is_chosen_last_is_the_one_shown(page: webdriver.Chrome) -> None:
    look_for(page, "gearbox")
    page.execute_script(
        "for (const b of [...document.querySelectorAll('#find-only button')].slice(-2)) b.click();"
    )
    last = page.find_elements(By.CSS_SELECTOR, "#find-only button")[-1].text
    WebDriverWait(page, 10).until(lambda _: shown(page))
    settled(page)
    kinds = {row["label"].split(" · ")[0] for row in shown(page)}
    assert {last.split()[0].removesuffix("s")} == kinds


def test_tally__is_told_to_those_who_do_not_see_it(page: webdriver.Chrome) -> None:
    """WCAG 2.2, 4.1.3 Status Messages; WAI-ARIA 1.2: the role status is a polite live region."""
    told = page.find_element(By.ID, "find-tally")
    assert "status" == told.aria_role
    look_for(page, "laygear")
    assert page.execute_script("return arguments[0].isConnected", told)
    assert tally(page) == told.text


@pytest.mark.parametrize("width", [320, 390, 1280])
@pytest.mark.parametrize("dark", [False, True])
def test_what_is_found__fits_every_screen(page: webdriver.Chrome, width: int, dark: bool) -> None:
    screen(page, width, 900, dark=dark)
    look_for(page, "brake")
    assert width >= page.execute_script("return document.documentElement.scrollWidth")
    small = page.execute_script(
        """
        return [...document.querySelectorAll("#find button, #find input, #found a, #found button")]
          .filter((e) => e.checkVisibility())
          .filter((e) => e.getBoundingClientRect().height < 24 && e.id !== "find-keys")
          .map((e) => e.outerHTML);"""
    )
    assert [] == small


@pytest.mark.parametrize("words", ["brake shoes", "laygaer"])
@pytest.mark.parametrize("dark", [False, True])
def test_what_is_found__breaks_no_rule(page: webdriver.Chrome, words: str, dark: bool) -> None:
    """WCAG 2.2, levels A and AA, as far as axe-core sees."""
    screen(page, 390, 900, dark=dark)
    look_for(page, words)
    assert [] == violations(page)


def test_without_scripts__the_index_stands_in(page: webdriver.Chrome) -> None:
    let_scripts_run(page, False)
    page.refresh()
    assert not page.find_element(By.ID, "find").is_displayed()
    names = [a for a in page.find_elements(By.CSS_SELECTOR, ".names a") if a.is_displayed()]
    assert len(names) > 300
    assert [] == complaints(page)
    let_scripts_run(page, True)


def test_web_server__serves_it_as_well(stick: webdriver.Chrome) -> None:
    with served(archive_for(Reader.OWNER)) as address:
        let_scripts_run(stick, True)
        complaints(stick)
        stick.get(address + HOME)
        assert "“laygear” stands in 11 places." == look_for(stick, "laygear")
        assert [] == complaints(stick, address)


def test_every_car__has_a_search_of_its_own(stick: webdriver.Chrome) -> None:
    let_scripts_run(stick, True)
    stick.get((archive_for(Reader.WORKSHOP) / "pellmarsh-lapwing" / HOME).as_uri())
    assert look_for(stick, "laygear").startswith("Nothing here holds")
    look_for(stick, "crossmember")
    folder = archive_for(Reader.WORKSHOP) / "pellmarsh-lapwing"
    pages = [folder / row["href"].split("#")[0] for row in shown(stick)]
    assert [] == [page for page in pages if not page.is_file()]


def test_accents_in_what_was_written__are_marked_as_written(
    stick: webdriver.Chrome, tmp_path: Path
) -> None:
    sheet = a_sheet_found(1, "Étriers", "The cafe\u0301’s “Crème” A-2207 fits.", "Nothing in here.")
    page = open_small(stick, tmp_path, sheet)
    look_for(page, "etrier cafe creme a2207")
    (row,) = shown(page)
    assert ["Étriers", "cafe\u0301’s", "Crème", "A-2207"] == row["marks"]
    assert "The cafe\u0301’s “Crème” A-2207 fits." == row["excerpt"]


def test_long_sentence__is_cut_around_its_word(stick: webdriver.Chrome, tmp_path: Path) -> None:
    page = open_small(
        stick, tmp_path, a_sheet_found(1, "Day", "before " * 90 + "laygear" + " after" * 90)
    )
    look_for(page, "laygear")
    excerpt = shown(page)[0]["excerpt"]
    assert "laygear" in excerpt
    assert excerpt.startswith("… before")
    assert excerpt.endswith("after …")
    assert len(excerpt) < 280


HOSTILE = "<img src=x onerror=alert(1)></script><script>alert(2)</script> laygear \u2028 &amp;"


def test_hostile_text__stays_text(stick: webdriver.Chrome, tmp_path: Path) -> None:
    page = open_small(
        stick, tmp_path, Document(SHEET, HOSTILE, "sheets/1.html", HOSTILE, (HOSTILE,))
    )
    look_for(page, "laygear")
    (row,) = shown(page)
    assert HOSTILE == row["title"] == row["excerpt"] == row["label"].removeprefix("Sheet · ")
    assert 0 == page.execute_script(
        "return document.querySelectorAll('main img, main script').length"
    )
    look_for(page, "<b>nowhere</b>")
    assert 0 == page.execute_script("return document.querySelectorAll('#find-tally b').length")
    assert [] == complaints(page)


def test_file_that_is_gone__is_told_and_the_index_stays(
    stick: webdriver.Chrome, tmp_path: Path
) -> None:
    page = open_small(stick, tmp_path)
    for file in tmp_path.glob("find/texts-*.js"):
        file.unlink()
    told = "Part of what is searched is missing from this archive. The index below is whole."
    assert told == look_for(page, "pipes")
    assert page.find_element(By.ID, "by-name").is_displayed()

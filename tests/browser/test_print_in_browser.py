"""Pages on A4 paper: dark ink on white, no navigation, what belongs together kept together."""

import base64
import re
from typing import Any

import pytest
from selenium import webdriver
from selenium.webdriver.common.by import By

from journal.words.vocabulary import Reader
from tests.browser.driving import screen
from tests.published import archive_for

LEDGER = "ledger.html"
SHEET = "sheets/2023-12-04-sill-in-primer-and-a-correction.html"
# Width of the print area of A4 (ISO 216: 210 mm) within margins of 18 mm, in CSS pixels.
PRINT_WIDTH = round((210 - 2 * 18) / 25.4 * 96)


def _on_paper(browser: webdriver.Chrome, page: str, asked: str = "") -> None:
    """Open a page as it is laid out for printing by a reader who prefers the dark scheme."""
    screen(browser, PRINT_WIDTH, 900, dark=True, paper=True)
    browser.get("about:blank")
    browser.get((archive_for(Reader.OWNER) / page).as_uri() + (f"#{asked}" if asked else ""))


def _styles(browser: webdriver.Chrome, selector: str, name: str) -> set[str]:
    """The values that a property has on all elements of a selector; there must be some."""
    found = browser.execute_script(
        """return [...document.querySelectorAll(arguments[0])]
        .map(e => getComputedStyle(e).getPropertyValue(arguments[1]));""",
        selector, name,
    )  # fmt: skip
    assert found, selector
    return set(found)


def _printed(browser: webdriver.Chrome) -> bytes:
    made: dict[str, Any] = browser.execute_cdp_cmd("Page.printToPDF", {"preferCSSPageSize": True})
    return base64.b64decode(made["data"])


def _light(colour: str) -> float:
    red, green, blue = (int(part) for part in re.findall(r"\d+", colour)[:3])
    return (red + green + blue) / 3


@pytest.mark.parametrize("page", [LEDGER, SHEET])
def test_paper__is_white_with_dark_ink_for_readers_of_the_dark_scheme_too(
    browser: webdriver.Chrome, page: str
) -> None:
    _on_paper(browser, page)
    assert {"rgb(255, 255, 255)"} == _styles(browser, "html", "background-color")
    inks = _styles(browser, "main p, main h1, main h2, main th, main td, main li, main a", "color")
    assert max(map(_light, inks)) < 110


@pytest.mark.parametrize("page", [LEDGER, SHEET])
def test_paper__has_no_navigation(browser: webdriver.Chrome, page: str) -> None:
    _on_paper(browser, page)
    assert {"none"} == _styles(browser, "nav, .skip, .feed", "display")


@pytest.mark.parametrize("page", [LEDGER, SHEET])
def test_headings__stay_with_what_follows(browser: webdriver.Chrome, page: str) -> None:
    _on_paper(browser, page)
    assert {"avoid"} == _styles(browser, "main h1, main h2, main h3", "break-after")


def test_tables__repeat_their_heads_and_keep_their_rows_whole(browser: webdriver.Chrome) -> None:
    _on_paper(browser, LEDGER)
    assert {"table-header-group"} == _styles(browser, "thead", "display")
    assert {"avoid"} == _styles(browser, "tbody tr", "break-inside")
    assert {"avoid"} == _styles(
        browser, "tbody tr:first-child, tbody tr:nth-child(2)", "break-before"
    )
    assert {"table-row"} == _styles(browser, "tbody tr", "display")


def test_figures__are_not_split(browser: webdriver.Chrome) -> None:
    _on_paper(browser, SHEET)
    assert {"avoid"} == _styles(browser, "figure, .caution", "break-inside")


def test_link_that_leads_out__prints_its_address(browser: webdriver.Chrome) -> None:
    _on_paper(browser, SHEET)
    printed = browser.execute_script(
        """const link = document.createElement('a');
        link.href = 'https://archive.example/tern/';
        document.querySelector('.prose p').append(link);
        return getComputedStyle(link, '::after').content;"""
    )
    assert '" (https://archive.example/tern/)"' == printed


def test_heading_of_what_stays_folded_away__is_not_printed(browser: webdriver.Chrome) -> None:
    _on_paper(browser, "hours.html")
    assert {"none"} == _styles(browser, "#tables, #tables ~ details", "display")


@pytest.mark.parametrize("page", [LEDGER, SHEET])
def test_paper__is_a4_and_nothing_is_cut_off_at_its_side(
    browser: webdriver.Chrome, page: str
) -> None:
    _on_paper(browser, page)
    assert PRINT_WIDTH >= browser.execute_script("return document.documentElement.scrollWidth")
    boxes = set(re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", _printed(browser)))
    # ISO 216: A4 is 210 by 297 mm, in points of 1/72 inch.
    assert {(595, 842)} == {(round(float(w)), round(float(h))) for w, h in boxes}


def test_ledger__takes_few_sheets_of_paper(browser: webdriver.Chrome) -> None:
    _on_paper(browser, LEDGER)
    assert 0 < _printed(browser).count(b"/Type /Page\n") <= 15


def test_filtered_ledger__prints_what_is_filtered_and_says_which(browser: webdriver.Chrome) -> None:
    _on_paper(browser, LEDGER, "origin=upgrade")
    rows = browser.find_elements(By.CSS_SELECTOR, "tr[data-origin]")
    assert 3 == sum(row.is_displayed() for row in rows)
    assert "3 of 171 components: now upgrade" == browser.find_element(By.CLASS_NAME, "filter").text


def test_ledger__that_is_not_filtered_prints_no_filter(browser: webdriver.Chrome) -> None:
    _on_paper(browser, LEDGER)
    assert "" == browser.find_element(By.CLASS_NAME, "filter").text

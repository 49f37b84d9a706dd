"""The whole job by keyboard: every kind of page, and a way through the archive without a pointer."""

import pytest
from selenium import webdriver
from selenium.webdriver.support.ui import WebDriverWait

from journal.words.vocabulary import Reader
from tests.browser.driving import ask, press, screen
from tests.browser.kinds import KINDS, example
from tests.published import archive_for

SOME = 8  # stops of the Tab key that are followed one by one within a page


def _focused(browser: webdriver.Chrome, what: str) -> object:
    return browser.execute_script(f"return document.activeElement.{what}")


@pytest.mark.parametrize("kind", KINDS)
def test_tab__goes_through_the_page_in_its_order(browser: webdriver.Chrome, kind: str) -> None:
    """WCAG 2.2: 2.1.1 Keyboard, 2.1.2 No Keyboard Trap, 2.4.1 Bypass Blocks, 2.4.3 Focus Order."""
    screen(browser, 1280, 900)
    browser.get(example(kind))
    count = ask(browser, "stops", "follow")
    press(browser, "Tab")
    assert "#page" == _focused(browser, "hash")
    box = browser.execute_script("return document.activeElement.getBoundingClientRect().toJSON()")
    assert min(box["left"], box["top"]) >= 0, "the skip link comes into sight"
    press(browser, "Tab", "Tab")
    press(browser, "Tab", "Tab", shift=True)
    press(browser, "Enter")
    assert "page" == _focused(browser, "id")
    press(browser, *["Tab"] * SOME)
    seen = [n for n in browser.execute_script("return window.followed") if n >= 0]
    first = browser.execute_script("return window.inMain")
    expected = [0, 1, 2, 1, 0, *range(first, min(first + SOME, count))]
    assert expected == seen[: len(expected)]


def _go(browser: webdriver.Chrome, place: str) -> None:
    """Tab on to the next link whose address contains `place`, and follow it."""
    before = browser.current_url
    for _ in range(150):
        press(browser, "Tab")
        href = str(_focused(browser, "href") or "")
        if place in href and href != before:
            break
    else:
        pytest.fail(f"no link to {place} from {before}")
    press(browser, "Enter")
    WebDriverWait(browser, 10).until(lambda b: b.current_url != before)
    assert place in browser.current_url


def test_archive__is_read_from_end_to_end_by_keyboard(browser: webdriver.Chrome) -> None:
    """From the front page to a day, its pictures, what is in them, and what became of the car."""
    screen(browser, 1280, 900)
    browser.get((archive_for(Reader.OWNER) / "index.html").as_uri())
    _go(browser, "/sheets/index.html")
    press(browser, "Tab", "Enter")
    _go(browser, "/sheets/2")
    press(browser, "Tab", "Enter")
    _go(browser, "/components/")
    for place in ("/ledger.html", "/departures.html", "/papers.html", "/pictures/index.html"):
        _go(browser, place)
    press(browser, "Tab", "Enter")
    _go(browser, "/pictures/")

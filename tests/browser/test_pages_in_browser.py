"""Every kind of page in a real browser: on a phone and at a desk, by day and by night, on paper."""

import base64
from collections.abc import Iterator
from pathlib import Path

import pytest
from selenium import webdriver

from journal.words.vocabulary import Reader
from tests.browser.driving import a_browser, complaints, screen
from tests.published import CAR, archive_for

# One page of every kind, by a pattern in the owner's archive; the first that matches is opened.
KINDS = (
    "index.html", "sheets/index.html", "sheets/2*.html", "subsystems/index.html",
    "subsystems/brakes.html", "components/body/*.html", "ledger.html", "departures.html",
    "parts.html", "snags.html", "hours.html", "measured.html", "pictures/index.html",
    "pictures/1.html", "papers.html",
)  # fmt: skip
WIDTHS = (320, 390, 768, 1280, 2560)


@pytest.fixture(scope="module")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[webdriver.Chrome]:
    with a_browser(tmp_path_factory.mktemp("profile")) as opened:
        yield opened


def _page(kind: str) -> Path:
    found = sorted(archive_for(Reader.OWNER).glob(kind))
    assert found, kind
    return found[len(found) // 2]


def _open(browser: webdriver.Chrome, page: Path) -> None:
    browser.get(page.as_uri())


@pytest.mark.parametrize("kind", KINDS)
def test_page__opens_from_a_memory_stick_without_complaint(
    browser: webdriver.Chrome, kind: str
) -> None:
    screen(browser, 1280, 900)
    complaints(browser)
    _open(browser, _page(kind))
    assert [] == complaints(browser)


@pytest.mark.parametrize("kind", KINDS)
def test_page__never_scrolls_sideways(browser: webdriver.Chrome, kind: str) -> None:
    """WCAG 2.2, 1.4.10 Reflow: content fits 320 CSS pixels without scrolling in two directions."""
    page = _page(kind)
    for width in WIDTHS:
        screen(browser, width, 900)
        _open(browser, page)
        wide = browser.execute_script("return document.documentElement.scrollWidth")
        assert wide <= width, f"{kind} is {wide} px wide at {width}"


@pytest.mark.parametrize("kind", KINDS)
def test_words__can_be_read_on_a_phone(browser: webdriver.Chrome, kind: str) -> None:
    """No text is drawn smaller than 12 px, in charts too (the theme's own floor)."""
    screen(browser, 390, 844)
    _open(browser, _page(kind))
    small = browser.execute_script(
        """
        const small = [];
        for (const text of document.querySelectorAll('svg text')) {
          const box = text.getBoundingClientRect();
          if (!box.width || !text.textContent.trim()) continue;
          const scale = text.getScreenCTM().d;
          const size = parseFloat(getComputedStyle(text).fontSize) * scale;
          if (size < 11.9) small.push(text.textContent + ' ' + size);
        }
        for (const el of document.querySelectorAll('body *')) {
          if (el.closest('svg') || !el.getBoundingClientRect().width) continue;
          const own = [...el.childNodes].some(n => n.nodeType === 3 && n.textContent.trim());
          if (own && parseFloat(getComputedStyle(el).fontSize) < 12) small.push(el.textContent);
        }
        return small;"""
    )
    assert [] == small


@pytest.mark.parametrize("kind", KINDS)
def test_links_that_stand_alone__are_large_enough_to_touch(
    browser: webdriver.Chrome, kind: str
) -> None:
    """WCAG 2.2, 2.5.8 Target Size (Minimum): 24 by 24 CSS pixels; links within a sentence are exempt."""
    screen(browser, 390, 844)
    _open(browser, _page(kind))
    small = browser.execute_script(
        """
        const small = [];
        for (const link of document.querySelectorAll('nav a, summary, button')) {
          const box = link.getBoundingClientRect();
          if (box.width && (box.height < 24 || box.width < 24)) small.push(link.textContent.trim());
        }
        return small;"""
    )
    assert [] == small


@pytest.mark.parametrize("kind", KINDS)
def test_page__is_dark_by_night(browser: webdriver.Chrome, kind: str) -> None:
    def ground(dark: bool) -> str:
        screen(browser, 1280, 900, dark=dark)
        _open(browser, _page(kind))
        return str(
            browser.execute_script(
                "return getComputedStyle(document.documentElement).backgroundColor"
            )
        )

    assert ground(False) != ground(True)


@pytest.mark.parametrize("kind", ["ledger.html", "sheets/2*.html"])
def test_page__prints_on_paper(browser: webdriver.Chrome, kind: str) -> None:
    screen(browser, 1280, 900)
    _open(browser, _page(kind))
    printed = browser.execute_cdp_cmd("Page.printToPDF", {"paperWidth": 8.27, "paperHeight": 11.69})
    assert base64.b64decode(printed["data"]).startswith(b"%PDF-")


def test_workshop__opens_across_its_cars(browser: webdriver.Chrome) -> None:
    screen(browser, 390, 844)
    complaints(browser)
    _open(browser, archive_for(Reader.WORKSHOP) / "index.html")
    assert [] == complaints(browser)
    links = [a.get_attribute("href") or "" for a in browser.find_elements("css selector", "main a")]
    assert any(link.endswith(f"{CAR}/index.html") for link in links)

"""The further pages of long lists: one of each kind, by the same rules as all other pages."""

from pathlib import Path

import pytest
from msgspec.structs import replace
from selenium import webdriver

from journal.outputs.theme import environment, theme_folder
from journal.words.vocabulary import Reader
from tests.browser.driving import ask, screen
from tests.browser.rules import violations
from tests.pages.roomless import all_pages, no_room
from tests.printing import demonstration

KINDS = (
    "sheets/index/2.html", "subsystems/brakes/2.html", "components/brakes/drums-front/2.html",
    "measured/3.html", "proving/6.html", "snags/4.html", "parts/3.html", "outwork/2.html",
    "decisions/2.html", "departures/3.html", "numbers/2.html", "find/4.html", "hours.html",
    "hours/2024.html", "sums/2.html", "seals/2.html", "suppliers/2.html", "rechecks/2.html",
)  # fmt: skip


@pytest.fixture(scope="module")
def short(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The pages of the demonstration, in parts as small as can be; pictures are left out."""
    folder = tmp_path_factory.mktemp("short")
    for pattern in ("*.css", "*.js", "icon.svg"):
        for asset in theme_folder().glob(pattern):
            (folder / asset.name).write_bytes(asset.read_bytes())
    view, _ = demonstration(Reader.WORKSHOP)
    templates = environment(theme_folder())
    with no_room():
        for page in all_pages(replace(view, pictures={}, scans={})):
            if page.path in KINDS:
                file = folder / page.path
                file.parent.mkdir(parents=True, exist_ok=True)
                text = templates.get_template(page.template).render(page.values)
                file.write_text(text, encoding="utf-8")
    return folder


@pytest.mark.parametrize("path", KINDS)
def test_further_page__keeps_the_rules_on_every_screen(
    path: str, short: Path, browser: webdriver.Chrome
) -> None:
    browser.get((short / path).as_uri())
    for width, dark in ((320, False), (390, True), (1280, False)):
        screen(browser, width, 844, dark=dark)
        assert width == browser.execute_script("return document.documentElement.scrollWidth")
        assert [] == ask(browser, "targets")["failures"], width
    assert [] == violations(browser)
    screen(browser, 390, 844)
    assert [] == ask(browser, "small")


def test_numbers__lead_from_page_to_page_by_keyboard_and_say_where_one_is(
    short: Path, browser: webdriver.Chrome
) -> None:
    screen(browser, 1280, 900)
    browser.get((short / "sheets/index/2.html").as_uri())
    here = browser.find_elements("css selector", "nav.pages a[aria-current=page]")
    assert ["Page 2", "Page 2"] == [link.get_attribute("textContent") for link in here]
    later = browser.find_element("css selector", ".neighbours a[rel=next]").get_attribute("href")
    assert later is not None
    assert later.endswith("/sheets/index/3.html")

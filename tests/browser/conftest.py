"""One browser and one web server a reader for all browser tests of a process."""

from collections.abc import Callable, Iterator
from contextlib import ExitStack
from functools import cache
from pathlib import Path

import pytest
from selenium import webdriver

from journal.words.vocabulary import Reader
from tests.browser.driving import a_browser, let_scripts_run, screen
from tests.browser.finding import open_demo
from tests.browser.serving import served
from tests.published import archive_for


@pytest.fixture(scope="session")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Iterator[webdriver.Chrome]:
    with a_browser(tmp_path_factory.mktemp("profile")) as browser:
        browser.set_script_timeout(60)
        yield browser


@pytest.fixture
def browser(opened: webdriver.Chrome) -> Iterator[webdriver.Chrome]:
    """The browser, with scripts running whatever the test before left behind."""
    let_scripts_run(opened, True)
    yield opened
    let_scripts_run(opened, True)


@pytest.fixture(scope="module")
def stick(tmp_path_factory: pytest.TempPathFactory) -> Iterator[webdriver.Chrome]:
    """A browser of one module, for pages that remember what was done in them."""
    with a_browser(tmp_path_factory.mktemp("profile")) as browser:
        browser.set_script_timeout(60)
        screen(browser, 1280, 900)
        yield browser


@pytest.fixture
def page(stick: webdriver.Chrome) -> webdriver.Chrome:
    """The page on which the owner of the demonstration finds things."""
    return open_demo(stick)


@pytest.fixture(scope="session")
def address_of() -> Iterator[Callable[[Reader], str]]:
    """The web address of a reader's archive."""
    with ExitStack() as running:
        yield cache(lambda reader: running.enter_context(served(archive_for(reader))))


@pytest.fixture
def page_with(tmp_path: Path) -> Callable[[str, str], str]:
    """The address of a small page made of markup and style, to see that a fault in it is found."""

    def address(markup: str, style: str) -> str:
        (tmp_path / "style.css").write_text(style, encoding="utf-8")
        page = tmp_path / "page.html"
        page.write_text(
            f"""<!doctype html><html lang="en"><title>A page</title>
            <link rel="stylesheet" href="style.css"><main>{markup}</main>""",
            encoding="utf-8",
        )
        return page.as_uri()

    return address

"""Every kind of page, for every reader: nothing to complain of, and nothing to scroll sideways for.

From a memory stick and from a web server, with scripts and without, on every screen and on paper.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from selenium import webdriver

from journal.words.vocabulary import Reader
from tests.browser.driving import complaints, let_scripts_run, screen
from tests.browser.kinds import KINDS, TEMPLATES, fullest
from tests.published import CAR, archive_for, kinds_for, pages

AddressOf = Callable[[Reader], str]


@dataclass(frozen=True)
class View:
    """A screen, or a sheet of paper, as wide as `width` CSS pixels."""

    width: int
    dark: bool = False
    paper: bool = False


# 320: WCAG 2.2, 1.4.10 Reflow. 658: A4 within the margins of the style, 174 mm at 96 pixels to the inch;
# paper that is narrower is not promised anything. Night changes colours alone, and is looked at below.
A4 = 658
VIEWS = (View(320), View(390), View(A4, paper=True), View(768), View(1280), View(2560))
# A phone, a desk by night, and paper: enough where only the way that the page came differs.
SOME_VIEWS = (View(390), View(1280, dark=True), View(1280, paper=True))
HEIGHT = 400

BROKEN = "return [...document.images].filter(i => !(i.complete && i.naturalWidth)).map(i => i.src)"


def _faults(
    browser: webdriver.Chrome, home: str, path: str, views: tuple[View, ...], scripts: bool
) -> Iterator[str]:
    """Everything that is wrong with a page that is opened once and then looked at in each view."""
    let_scripts_run(browser, scripts)
    screen(browser, views[0].width, HEIGHT)
    complaints(browser)
    browser.get(home + path)
    where = f"{home.split(':')[0]} {path} scripts {'on' if scripts else 'off'}"
    if not scripts:
        # Without scripts a browser loads every picture at once, also those far down.
        yield from (f"{where} no picture: {src}" for src in browser.execute_script(BROKEN))
    for view in views:
        screen(browser, view.width, HEIGHT, dark=view.dark, paper=view.paper)
        wide = browser.execute_script("return document.documentElement.scrollWidth")
        if wide > max(view.width, A4 if view.paper else 0):
            yield f"{where} {view}: {wide} px wide"
    yield from (f"{where} {told}" for told in complaints(browser, home))


def _ways(kind: str, address_of: AddressOf) -> Iterator[tuple[str, str, bool]]:
    """From where a page is opened, which, and whether scripts run: four ways, and every reader's once.

    What differs between readers is what the page says, so it is enough that each is opened in some way.
    """
    having = {reader: path for reader in Reader if (path := fullest(reader, kind))}
    for reader, from_web, scripts in (
        (Reader.OWNER, False, True), (Reader.WORKSHOP, False, False),
        (Reader.PUBLIC, True, True), (Reader.KEEPER, True, False),
    ):  # fmt: skip
        whose = reader if reader in having else next(iter(having))
        stick = archive_for(whose).as_uri() + "/"
        yield address_of(whose) if from_web else stick, having[whose], scripts


@pytest.mark.parametrize("kind", KINDS)
def test_kind__has_no_complaint_and_no_sideways_scroll(
    browser: webdriver.Chrome, address_of: AddressOf, kind: str
) -> None:
    found: list[str] = []
    for n, (home, path, scripts) in enumerate(_ways(kind, address_of)):
        found += _faults(browser, home, path, SOME_VIEWS if n else VIEWS, scripts)
    assert [] == found


def test_workshop__opens_across_its_cars(browser: webdriver.Chrome) -> None:
    browser.get((archive_for(Reader.WORKSHOP) / "index.html").as_uri())
    links = [a.get_attribute("href") or "" for a in browser.find_elements("css selector", "main a")]
    assert any(link.endswith(f"{CAR}/index.html") for link in links)


def test_every_page__is_of_a_kind_that_is_looked_at() -> None:
    for reader in Reader:
        told = {path for paths in kinds_for(reader).values() for path in paths}
        folder = archive_for(reader)
        assert {page.relative_to(folder).as_posix() for page in pages(folder)} == told


def test_every_template__prints_a_page_of_the_demonstration() -> None:
    """A kind that the demonstration has no page of would pass every look unseen."""
    printed = {template for reader in Reader for template in kinds_for(reader)}
    assert set(TEMPLATES) == printed


@pytest.mark.parametrize(
    ("markup", "told"),
    [
        ("<script>1</script>", "Content Security Policy"),
        ('<p style="color: red">', "Content Security Policy"),
        ('<img src="gone.jpg" alt="">', "no picture: "),
        ('<link rel="stylesheet" href="gone.css">', "failed: net::ERR_FILE_NOT_FOUND"),
        ('<iframe src="https://elsewhere.invalid/"></iframe>', "asked: https://elsewhere.invalid/"),
        ('<script src="talks.js"></script>', "said: "),
        ('<svg width="3000" height="9"></svg>', "px wide"),
    ],
)
def test_fault__is_found(browser: webdriver.Chrome, tmp_path: Path, markup: str, told: str) -> None:
    """What the looks above say of a page that deserves it."""
    policy = "default-src 'self'; frame-src https:"
    (tmp_path / "talks.js").write_text("console.debug('here');", encoding="utf-8")
    (tmp_path / "page.html").write_text(
        f"""<!doctype html><title>A page</title><link rel="icon" href="data:,">
        <meta http-equiv="Content-Security-Policy" content="{policy}">{markup}""",
        encoding="utf-8",
    )
    home = tmp_path.as_uri() + "/"
    found = [
        fault
        for scripts in (True, False)
        for fault in _faults(browser, home, "page.html", VIEWS[:1], scripts)
    ]
    assert any(told in fault for fault in found), found

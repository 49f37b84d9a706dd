"""The page at the top of a bag, in the browser of whoever opens it first."""

from pathlib import Path

import pytest
from selenium import webdriver

from tests.browser.driving import ask, complaints, screen
from tests.browser.rules import violations
from tests.browser.test_by_the_rules import LIGHTS
from tests.outputs.packing import pack, put_car


@pytest.fixture(scope="module")
def page(opened: webdriver.Chrome, tmp_path_factory: pytest.TempPathFactory) -> webdriver.Chrome:
    """The page of a small sealed car, with everything on it folded out."""
    folder = tmp_path_factory.mktemp("bag")
    bag: Path = pack(put_car(folder / "content"), folder / "tern")
    screen(opened, 1280, 900)
    complaints(opened)
    opened.get((bag / "READ-ME-FIRST.html").as_uri())
    opened.execute_script("document.querySelectorAll('details').forEach(d => { d.open = true })")
    return opened


def test_page__opens_without_a_complaint_and_in_its_own_style(page: webdriver.Chrome) -> None:
    assert [] == complaints(page)
    ground = page.execute_script(
        "return getComputedStyle(document.documentElement).backgroundColor"
    )
    # The paper of the theme, so that the policy lets the style through.
    assert "rgb(247, 244, 237)" == ground


@pytest.mark.parametrize("width", [320, 390, 768, 1280, 2560])
def test_page__is_never_wider_than_the_screen(page: webdriver.Chrome, width: int) -> None:
    # WCAG 2.2, 1.4.10 Reflow.
    screen(page, width, 900)
    assert width >= page.execute_script("return document.documentElement.scrollWidth")


def test_words__stand_out_from_their_ground(page: webdriver.Chrome) -> None:
    # WCAG 2.2, 1.4.3 Contrast (Minimum).
    for light in LIGHTS:
        screen(page, light.width, 1200, dark=light.dark, paper=light.paper)
        told = ask(page, "colour", "contrast")
        assert told["measured"] > 10
        assert [] == told["failures"], light


def test_axe__finds_no_violation(page: webdriver.Chrome) -> None:
    broken: list[str] = []
    for width, dark in ((390, False), (1280, True)):
        screen(page, width, 844, dark=dark)
        broken += violations(page)
    assert [] == broken


def test_printed_page__shows_what_is_folded_in(page: webdriver.Chrome) -> None:
    page.execute_script("document.querySelectorAll('details').forEach(d => { d.open = false })")
    screen(page, 800, 1100, dark=True, paper=True)
    heights = page.execute_script(
        "return [...document.querySelectorAll('details pre')].map(e => e.getBoundingClientRect().height)"
    )
    page.execute_script("document.querySelectorAll('details').forEach(d => { d.open = true })")
    assert len(heights) > 5
    assert all(height > 10 for height in heights)

"""Every kind of page by the rules of WCAG 2.2, level AA: by axe-core, and measured as it is drawn."""

from dataclasses import dataclass
from typing import Any

import pytest
from selenium import webdriver

from tests.browser.driving import ask, press, screen
from tests.browser.kinds import KINDS, example
from tests.browser.rules import violations


@dataclass(frozen=True)
class Light:
    """A width in CSS pixels, and how the page is seen there."""

    width: int
    dark: bool = False
    paper: bool = False


LIGHTS = (
    Light(1280), Light(1280, dark=True), Light(1280, dark=True, paper=True),
    Light(390), Light(390, dark=True),
)  # fmt: skip


@pytest.fixture(scope="module", params=KINDS)
def page(opened: webdriver.Chrome, request: pytest.FixtureRequest) -> webdriver.Chrome:
    """The browser with the fullest page of a kind, opened once for all that is asked of it."""
    opened.get(example(request.param))
    return opened


def test_axe__finds_no_violation(page: webdriver.Chrome) -> None:
    """Once on a phone by day and once at a desk by night.

    Day and night differ in colours alone. It looks at those of the day; all are measured below, in every
    light at every width.
    """
    broken: list[str] = []
    for width, dark in ((390, False), (1280, True)):
        screen(page, width, 844, dark=dark)
        broken += [f"at {width} px: {told}" for told in violations(page, colours=not dark)]
    assert [] == broken


def test_words__stand_out_from_their_ground(page: webdriver.Chrome) -> None:
    """1.4.3 Contrast (Minimum), on the screen by day and by night, and on paper."""
    told: dict[Light, Any] = {}
    for light in LIGHTS:
        screen(page, light.width, 1200, dark=light.dark, paper=light.paper)
        told[light] = ask(page, "colour", "contrast")
        # Words over a picture or out of sight cannot be measured: hardly any may be.
        seen = told[light]
        assert seen["measured"] > 10 * (seen["unsure"] + seen["unseen"]), (light, seen)
    assert [] == [f"{light}: {fault}" for light in LIGHTS for fault in told[light]["failures"]]
    day, night, paper, *_ = [told[light]["ground"] for light in LIGHTS]
    assert day != night
    assert "rgb(255, 255, 255)" == paper, "paper stays white, whatever the screen prefers"


def test_words__can_be_read_on_a_phone(page: webdriver.Chrome) -> None:
    """No text is drawn smaller than 12 px, in charts too (the theme's own floor)."""
    screen(page, 390, 844)
    assert [] == ask(page, "small")


def test_targets__are_large_enough_to_touch(page: webdriver.Chrome) -> None:
    """2.5.8 Target Size (Minimum) with its exceptions for spacing and sentences; controls without them."""
    failures: list[str] = []
    for width in (390, 1280):
        screen(page, width, 900)
        told = ask(page, "targets")
        assert told["measured"] > 10
        failures += [f"at {width} px: {failure}" for failure in told["failures"]]
    assert [] == failures


def test_focus__is_seen_wherever_it_goes(page: webdriver.Chrome) -> None:
    """2.4.7 Focus Visible, 2.4.11 Focus Not Obscured (Minimum), 1.4.11 Non-text Contrast."""
    screen(page, 1280, 900)
    told = ask(page, "colour", "stops", "focus")
    assert told["measured"] > 10
    assert [] == told["failures"]


def test_what_is_folded__unfolds_by_keyboard(page: webdriver.Chrome) -> None:
    """2.1.1 Keyboard."""
    screen(page, 390, 844)
    for fold in page.find_elements("tag name", "details")[:1]:
        page.execute_script("arguments[0].querySelector('summary').focus()", fold)
        before = fold.get_property("open")
        press(page, "Enter")
        assert before != fold.get_property("open")
        press(page, " ")
        assert before == fold.get_property("open")

"""A day is said by keyboard alone, and the page keeps the rules meanwhile."""

from collections.abc import Callable
from pathlib import Path

import pytest
from selenium import webdriver

from tests.browser.driving import ask, press
from tests.browser.heard.saying import SAID, count, focus, go, heard, line, say, written
from tests.browser.phoning import Phone
from tests.browser.rules import violations
from tests.desk.ready import Ready


def test_day__is_said_confirmed_and_saved_by_keyboard_alone(
    opened: webdriver.Chrome, desk: Ready, root: Path
) -> None:
    """WCAG 2.2: 2.1.1 Keyboard, 2.1.4 Character Key Shortcuts (only where the focus is), 2.4.3, 2.4.7."""
    held = Phone(opened)
    held.held(1280, 900)
    go(held, f"{desk.address}day")

    def on_to(asked: Callable[[], bool]) -> None:
        for _ in range(60):
            if asked():
                return
            press(opened, "Tab")
        pytest.fail(f"never comes to it; the focus is on {focus(held)}")

    on_to(lambda: focus(held) == "Say it instead")
    press(opened, "Enter")
    assert "said-text" == focus(held)
    held.type(SAID)
    on_to(lambda: held.run("return document.activeElement.id") == "said-hand")
    press(opened, "ArrowDown")
    assert "MT" == held.run("return document.activeElement.value")
    on_to(lambda: focus(held) == "Hear it")
    press(opened, "Enter")
    total = heard(held)
    held.until("document.activeElement.className.includes('heard-line')")
    assert "took the laygear out" in focus(held)
    assert "took the laygear out" in held.run(
        "return document.querySelector('.piece.now').textContent"
    )
    outline = held.run("return getComputedStyle(document.activeElement).outlineStyle")
    assert "solid" == outline
    press(opened, "a")
    assert "hours" in focus(held)
    press(opened, "ArrowDown", "ArrowUp", "d")
    assert f"Dropped. {total - 2} of {total} left." == count(held)
    press(opened, "u")
    assert "hours" in focus(held)
    press(opened, "c")
    held.until("document.activeElement.closest('.hours-row') !== null")
    press(opened, "Escape")
    held.until("document.activeElement.className.includes('heard-line')")
    press(opened, "End")
    held.until("document.activeElement.textContent.includes('weeps')")
    press(opened, "Tab")
    assert "Accept" == focus(held)
    press(opened, "Enter")
    on_to(lambda: focus(held) == "Save the day")
    press(opened, "Enter")
    held.in_book()
    (text,) = written(root).values()
    assert "hours: {MT: 3.5}" in text
    assert "  gearbox/laygear: {did: removed}\n" in text
    assert "raise: The union still weeps" in text


def test_letters__do_nothing_where_something_is_typed(phone: Phone) -> None:
    say(phone)
    total = heard(phone)
    phone.tap("#body")
    phone.type("a day")
    press(phone.browser, "a", "d")
    assert total == heard(phone)
    assert "a dayad" == phone.run("return document.querySelector('#body').value")


@pytest.mark.parametrize(
    ("width", "dark"), [(390, False), (390, True), (1280, False), (1280, True)]
)
def test_page__keeps_the_rules_while_lines_are_confirmed(
    waiting: Phone, width: int, dark: bool
) -> None:
    waiting.held(width, 844, dark=dark)
    waiting.run("document.querySelector('#say').click()")
    assert [] == violations(waiting.browser)
    assert [] == ask(waiting.browser, "colour", "contrast")["failures"]
    assert [] == ask(waiting.browser, "targets")["failures"]
    assert waiting.run("return document.documentElement.scrollWidth <= innerWidth")


def test_everything_that_can_be_tapped__is_large_enough_for_a_thumb(waiting: Phone) -> None:
    line(waiting, "the nuts again", "Accept")
    waiting.run("document.querySelector('#say').click()")
    small = waiting.run("""
      const asked = "button, select, textarea, summary, .chip, .camera";
      return [...document.querySelectorAll("#saying, #said, .foot-bar, .title-row")].flatMap((part) => [...part.querySelectorAll(asked)])
        .filter((node) => node.checkVisibility()).map((node) => [node.outerHTML.slice(0, 90), node.getBoundingClientRect()])
        .filter(([, box]) => box.height < 44 || box.width < 44).map(([name, box]) => `${name} ${box.width} x ${box.height}`);
    """)  # noqa: E501 - as it runs in the page
    assert [] == small

"""Finding things by keyboard: to the field, through what is found, and back."""

import pytest
from selenium import webdriver
from selenium.webdriver.common.by import By
from selenium.webdriver.support.ui import WebDriverWait

from tests.browser.driving import press
from tests.browser.finding import (
    HOME,
    focused,
    look_for,
    shown,
    tally,
)


def test_more__are_added_below_and_have_the_focus(page: webdriver.Chrome) -> None:
    look_for(page, "brake")
    assert 12 == len(shown(page))
    page.find_element(By.CSS_SELECTOR, ".further").click()
    WebDriverWait(page, 10).until(lambda _: len(shown(page)) == 24)
    assert shown(page)[12]["href"] == focused(page)


def test_keys__go_to_the_field_and_through_what_is_found(page: webdriver.Chrome) -> None:
    assert "BODY" == focused(page)
    press(page, "/")
    assert "find-words" == focused(page)
    look_for(page, "laygear")
    addresses = [row["href"] for row in shown(page)]
    press(page, "ArrowDown")
    assert addresses[0] == focused(page)
    press(page, "ArrowDown", "ArrowDown")
    assert addresses[2] == focused(page)
    press(page, "ArrowUp", "ArrowUp", "ArrowUp")
    assert "find-words" == focused(page)
    press(page, "Enter")
    assert addresses[0] == focused(page)
    press(page, *["ArrowDown"] * 20)
    assert addresses[-1] == focused(page)


def test_focus__is_seen_on_everything_that_keys_come_to(page: webdriver.Chrome) -> None:
    look_for(page, "brake")
    unseen = page.execute_script(
        """
        return [...document.querySelectorAll("#find input, #find button, #found a, #found button")]
          .filter((element) => element.checkVisibility())
          .filter((element) => {
            element.focus({ focusVisible: true });
            const style = getComputedStyle(element);
            return style.outlineStyle === "none" || parseFloat(style.outlineWidth) < 2;
          })
          .map((element) => element.outerHTML);"""
    )
    assert [] == unseen


def test_enter__opens_and_the_way_back_leads_to_what_was_found(page: webdriver.Chrome) -> None:
    look_for(page, "laygear")
    first = shown(page)[0]
    press(page, "ArrowDown", "Enter")
    WebDriverWait(page, 10).until(lambda _: HOME not in page.current_url)
    assert page.current_url.endswith(first["href"])
    page.back()
    WebDriverWait(page, 10).until(lambda _: len(shown(page)) == 11)
    assert "laygear" == page.find_element(By.ID, "find-words").get_property("value")
    assert first == shown(page)[0]


@pytest.mark.parametrize("where", ["field", "list"])
def test_escape__clears_the_field_and_brings_the_index_back(
    page: webdriver.Chrome, where: str
) -> None:
    look_for(page, "laygear")
    assert not page.find_element(By.ID, "by-name").is_displayed()
    if where == "list":
        press(page, "ArrowDown")
    press(page, "Escape")
    WebDriverWait(page, 10).until(lambda _: page.find_element(By.ID, "by-name").is_displayed())
    assert ("", "find-words", []) == (tally(page), focused(page), shown(page))
    assert "#" not in page.current_url


def test_typing_straight_away__comes_to_the_field(page: webdriver.Chrome) -> None:
    press(page, *"oil")
    assert "oil" == page.find_element(By.ID, "find-words").get_property("value")


def test_keys_that_come_to_the_field__can_be_turned_off(page: webdriver.Chrome) -> None:
    """WCAG 2.2, 2.1.4 Character Key Shortcuts: there is a way to turn them off."""
    page.execute_script("document.querySelector('.keys').open = true")
    page.find_element(By.ID, "find-keys").click()
    page.execute_script("document.activeElement.blur()")
    press(page, "/", "a")
    assert "BODY" == focused(page)
    page.refresh()
    press(page, "/")
    assert "BODY" == focused(page)
    page.execute_script("localStorage.clear()")

"""A page of the desk that is open while somebody writes: it follows, and the reader stays where they are."""

import shutil
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from selenium import webdriver

from tests.browser.driving import complaints, screen
from tests.desk.ready import Ready, a_ready_desk
from tests.published import CAR, CONTENT

SHEET = "2023-09-25-engine-and-gearbox-out"


@pytest.fixture(scope="module")
def root(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("workshop") / "content"
    shutil.copytree(CONTENT, folder)
    return folder


@pytest.fixture(scope="module")
def desk(root: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Ready]:
    with a_ready_desk(root, tmp_path_factory.mktemp("state")) as running:
        yield running


def sheets(root: Path) -> list[Path]:
    return sorted((root / CAR / "sheets").rglob("*.md"))


def until(browser: webdriver.Chrome, script: str, *given: object) -> Any:
    """What a script answers once it answers anything."""
    end = time.monotonic() + 60
    while not (answer := browser.execute_script(f"return ({script})", *given)):
        assert time.monotonic() < end, f"never: {script}"
        time.sleep(0.05)
    return answer


def opened(browser: webdriver.Chrome, address: str) -> None:
    screen(browser, 1280, 800)
    browser.get(address)
    until(browser, "document.getElementById('desk-link').textContent === 'The desk'")
    complaints(browser, address)
    # What stands in the page now is marked, to see that it is not made anew.
    browser.execute_script("for (const node of document.querySelectorAll('*')) node.stays = true")


def test_change__comes_without_moving_the_reader_or_undoing_what_they_did(
    browser: webdriver.Chrome, desk: Ready, root: Path
) -> None:
    sheet = sheets(root)[30]
    address = f"{desk.address}{CAR}/"
    opened(browser, address)
    # Unfolded, scrolled to, focused, and typed into.
    browser.execute_script("""
      const details = document.querySelector("main details");
      details.open = true;
      const field = document.createElement("textarea");
      field.id = "typed";
      details.after(field);
      field.value = "half a sente";
      field.focus();
      field.setSelectionRange(4, 5);
      details.scrollIntoView();
    """)
    place = "document.querySelector('main details').getBoundingClientRect().top"
    before = browser.execute_script(f"return {place}")
    text = sheet.read_text("utf-8")
    later = sheets(root)[-1]
    words = "A title that was written while the page was open"
    original = later.read_text("utf-8")
    lines = [
        f"title: {words}" if line.startswith("title:") else line for line in original.split("\n")
    ]
    later.write_text("\n".join(lines), "utf-8")
    until(browser, "document.querySelector('main').textContent.includes(arguments[0])", words)
    assert before == pytest.approx(browser.execute_script(f"return {place}"), abs=1)
    told = browser.execute_script("""
      const field = document.getElementById("typed");
      return {
        open: document.querySelector("main details").open,
        focus: document.activeElement === field,
        value: field.value,
        at: [field.selectionStart, field.selectionEnd],
        stays: document.querySelector("main details").stays && document.querySelector("h1").stays,
      };
    """)
    assert {
        "open": True, "focus": True, "value": "half a sente", "at": [4, 5], "stays": True
    } == told  # fmt: skip
    later.write_text(original, "utf-8")
    assert text == sheet.read_text("utf-8")
    until(browser, "!document.querySelector('main').textContent.includes(arguments[0])", words)
    assert [] == complaints(browser, desk.address)


def test_page__after_many_changes_is_the_page_that_would_be_opened(
    browser: webdriver.Chrome, desk: Ready, root: Path
) -> None:
    sheet = sheets(root)[12]
    page = f"{desk.address}{CAR}/sheets/{sheet.stem}.html"
    opened(browser, page)
    original = sheet.read_text("utf-8")
    bodies: list[Callable[[str], str]] = [
        lambda t: t + "\nOne more paragraph.\n",
        lambda t: t + "\n- a list\n- of things\n\nOne more paragraph.\n",
        lambda t: t + "\nOne more paragraph, told otherwise.\n\nAnd a last one.\n",
        lambda t: (
            t.replace("---\n", "---\nmeasured:\n  play: {read: 0.2, unit: mm}\n", 1)
            if "measured:" not in t
            else t
        ),
        lambda t: t,
    ]
    for number, body in enumerate(bodies):
        mark = f"Written for the time {number}."
        sheet.write_text(f"{body(original)}\n{mark}\n", "utf-8")
        until(browser, "document.querySelector('main').textContent.includes(arguments[0])", mark)
        time.sleep(0.3)
        now = browser.execute_script("return document.querySelector('main').innerHTML")
        fresh = browser.execute_async_script("""
          const done = arguments[0];
          fetch(location.href).then((answer) => answer.text()).then((text) => {
            done(new DOMParser().parseFromString(text, "text/html").querySelector("main").innerHTML);
          });
        """)
        assert fresh == now
    sheet.write_text(original, "utf-8")
    # What comes after begins with the page as it was.
    until(browser, "!document.querySelector('main').textContent.includes(arguments[0])", mark)


def test_mistake__stands_on_the_page_in_the_words_of_the_terminal_until_it_is_mended(
    browser: webdriver.Chrome, desk: Ready, root: Path
) -> None:
    sheet = sheets(root)[20]
    page = f"{desk.address}{CAR}/sheets/{sheet.stem}.html"
    opened(browser, page)
    before = browser.execute_script("return document.querySelector('main').innerHTML")
    original = sheet.read_text("utf-8")
    lines = original.split("\n")
    at = next(n for n, line in enumerate(lines) if line.startswith("date:"))
    lines.insert(at + 1, "odometer: 12,5x")
    sheet.write_text("\n".join(lines), "utf-8")
    # A file that is looked at while it is half written has another mistake for a moment.
    words = until(
        browser,
        "!document.getElementById('desk-problems').hidden && [document.querySelector('#desk-problems pre')"
        ".textContent].find((text) => text.includes('odometer'))",
    )
    assert words.startswith(
        f"{sheet.relative_to(root).as_posix()}:{at + 2}: error[bad-number]: odometer "
    )
    assert f"{at + 2} | odometer: 12,5x" in words
    assert before == browser.execute_script("return document.querySelector('main').innerHTML")
    sheet.write_text(original, "utf-8")
    until(browser, "document.getElementById('desk-problems').hidden")


def test_desk__that_is_gone_is_told_and_found_again(
    browser: webdriver.Chrome, root: Path, tmp_path: Path
) -> None:
    with a_ready_desk(root, tmp_path) as first:
        opened(browser, f"{first.address}{CAR}/snags.html")
        port = first.address.rstrip("/").rsplit(":", 1)[1]
        first.end()
        until(browser, "document.getElementById('desk-link').classList.contains('gone')")
    with a_ready_desk(root, tmp_path, "--port", port):
        until(browser, "!document.getElementById('desk-link').classList.contains('gone')")

"""The page on which things are found, put down alone with what it loads, and driven as a person does."""

import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

from selenium import webdriver
from selenium.webdriver.common.by import By
from selenium.webdriver.support.ui import WebDriverWait

from journal.outputs.archive import ASSETS
from journal.outputs.theme import environment, theme_folder
from journal.pages.find import page_find
from journal.pages.page import TextFile
from journal.pages.searchdata import files_search, search_files
from journal.pages.searchdocs import SHEET, Document
from journal.pages.view import CarView
from journal.words.vocabulary import Reader
from tests.browser.driving import complaints, let_scripts_run, press, screen
from tests.pages.searching import a_view
from tests.published import archive_for
from tests.tern import put_file

HOME = "find.html"


def open_demo(stick: webdriver.Chrome) -> webdriver.Chrome:
    """The owner's page of the demonstration, freshly opened, with scripts running."""
    let_scripts_run(stick, True)
    screen(stick, 1280, 900)
    stick.get("about:blank")
    stick.get((archive_for(Reader.OWNER) / HOME).as_uri())
    complaints(stick)
    return stick


def open_small(stick: webdriver.Chrome, folder: Path, *found: Document) -> webdriver.Chrome:
    """The page of a small car, put down in a folder, or of some documents when they are given."""
    let_scripts_run(stick, True)
    complaints(stick)
    stick.get(put_find(folder, a_view(), found or None).as_uri())
    return stick


def a_sheet_found(number: int, title: str, *sentences: str) -> Document:
    """A sheet as it is found."""
    return Document(SHEET, title, f"sheets/{number}.html", "5 March 2024", sentences)


def put_find(folder: Path, view: CarView, found: Iterable[Document] | None = None) -> Path:
    """The pages with their search, of some documents when they are given; returns the first page."""
    printing = environment(theme_folder())
    pages = (
        TextFile(page.path, printing.get_template(page.template).render(page.values))
        for page in page_find(view)
    )
    files = files_search(view) if found is None else search_files(tuple(found))
    for file in (*pages, *files):
        put_file(folder, file.path, file.text.encode())
    for pattern in ASSETS:
        for asset in theme_folder().glob(pattern):
            put_file(folder, asset.name, asset.read_bytes())
    return folder / "find.html"


def look_for(browser: webdriver.Chrome, words: str) -> str:
    """Type words into the empty field and wait until what answers them is shown; the tally."""
    browser.execute_script(
        "const field = document.getElementById('find-words'); field.value = ''; field.focus();"
    )
    press(browser, *words)
    return settled(browser)


def settled(browser: webdriver.Chrome) -> str:
    """The tally, as soon as the page says that what was typed last is shown."""
    found = browser.find_element(By.ID, "found")
    WebDriverWait(browser, 10, 0.02).until(lambda _: found.get_attribute("aria-busy") == "false")
    return tally(browser)


def tally(browser: webdriver.Chrome) -> str:
    """What the page says of how much was found."""
    return browser.find_element(By.ID, "find-tally").text


def loaded(browser: Any) -> list[str]:
    """The files that the browser asked for since its performance log was last read."""
    asked = []
    for entry in browser.get_log("performance"):
        message = json.loads(entry["message"])["message"]
        if message["method"] == "Network.requestWillBeSent":
            address = urlsplit(message["params"]["request"]["url"])
            asked += [unquote(address.path)] if address.scheme == "file" else []
    return asked


def shown(browser: webdriver.Chrome) -> list[dict[str, Any]]:
    """What is listed: title, label, excerpt, page, and the words marked anywhere."""
    told: list[dict[str, Any]] = browser.execute_script(
        """
        const text = (row, what) => row.querySelector(what)?.textContent ?? "";
        return [...document.querySelectorAll(".finds > li")].map((row) => ({
          title: text(row, ".entry"), label: text(row, ".label"), excerpt: text(row, ".excerpt"),
          href: row.querySelector("a").getAttribute("href"), of: row.parentElement.dataset.of,
          marks: [...row.querySelectorAll("mark")].map((mark) => mark.textContent),
        }));"""
    )
    return told


def focused(browser: webdriver.Chrome) -> str:
    """Where the focus is: the id of the field, or the address of a link."""
    return str(
        browser.execute_script(
            "const e = document.activeElement; return e.id || e.getAttribute('href') || e.tagName"
        )
    )

"""A small workshop at a desk, and a phone that has the day open."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from selenium import webdriver

from tests.browser.driving import a_browser, complaints
from tests.browser.heard.saying import NEXT, WAITS, go
from tests.browser.phoning import Phone
from tests.desk.ready import Ready, a_ready_desk
from tests.tern import SHEET, put_content, put_file, sheet_text


@pytest.fixture
def root(tmp_path: Path) -> Path:
    folder = put_content(tmp_path / "content", **{SHEET: sheet_text("hours: {MT: 3.5}")})
    put_file(folder, "tern/recordings/talk.mp4", b"film")
    return folder


@pytest.fixture
def desk(root: Path, tmp_path: Path) -> Iterator[Ready]:
    with a_ready_desk(root, tmp_path / "state") as running:
        yield running


@pytest.fixture(scope="package")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Iterator[webdriver.Chrome]:
    with a_browser(tmp_path_factory.mktemp("profile")) as browser:
        browser.set_script_timeout(60)
        yield browser


@pytest.fixture
def phone(opened: webdriver.Chrome, desk: Ready) -> Phone:
    held = Phone(opened)
    go(held, f"{desk.address}day")
    complaints(opened, desk.address)
    return held


@pytest.fixture
def waiting(phone: Phone, desk: Ready, root: Path) -> Phone:
    """A phone that has a sheet open in which lines wait."""
    put_file(root, f"tern/sheets/2024/{NEXT}.md", WAITS.encode())
    phone.browser.get("about:blank")
    phone.until("true")
    go(phone, f"{desk.address}day?car=tern&sheet={NEXT}")
    phone.until("document.querySelectorAll('.heard-line').length === 3")
    return phone

"""A moment of a recording, at the desk: the link goes to the second, and the browser goes on from there."""

import io
import wave
from collections.abc import Iterator

import pytest
from selenium import webdriver

from tests.browser.driving import complaints, screen
from tests.browser.test_desk_in_browser import until
from tests.desk.ready import Ready, a_ready_desk
from tests.tern import SHEET, put_content, put_file, sheet_text

RATE, SECONDS = 8000, 60


def a_sound() -> bytes:
    """A minute of silence."""
    out = io.BytesIO()
    with wave.open(out, "wb") as sound:
        sound.setparams((1, 2, RATE, 0, "NONE", "not compressed"))
        sound.writeframes(bytes(2 * RATE * SECONDS))
    return out.getvalue()


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Ready]:
    front = 'recording: {file: talk.wav, at: "0:31.5", words: the laygear is out}'
    root = put_content(tmp_path_factory.mktemp("content"), **{SHEET: sheet_text(front)})
    put_file(root, "tern/recordings/talk.wav", a_sound())
    with a_ready_desk(root, tmp_path_factory.mktemp("state")) as running:
        yield running


def test_moment__is_played_from_its_second_and_another_can_be_gone_to(
    browser: webdriver.Chrome, desk: Ready
) -> None:
    screen(browser, 390, 800)
    page = f"{desk.address}tern/sheets/2024-03-05-gearbox.html"
    browser.get(page)
    until(browser, "document.querySelector('.moments a.at')")
    complaints(browser, desk.address)
    browser.execute_script("document.querySelector('.moments a.at').click()")
    until(browser, "location.hash === '#t=31.5' && document.querySelector('video')?.readyState > 1")
    assert SECONDS == browser.execute_script("return document.querySelector('video').duration")
    assert 31.5 <= browser.execute_script("return document.querySelector('video').currentTime")
    browser.execute_script("document.querySelector('video').currentTime = 50")
    until(browser, "document.querySelector('video').currentTime >= 50")
    assert [] == complaints(browser, desk.address)

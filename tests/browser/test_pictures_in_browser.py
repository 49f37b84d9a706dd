"""Before and after in a real browser: a slider by keyboard, mouse and finger; two pictures without it."""

from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from selenium import webdriver
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.by import By

from journal.outputs.archive import Order
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from tests.browser.driving import complaints, let_scripts_run, press, screen
from tests.browser.touching import box, drag, into_view
from tests.plainly import publish
from tests.published import archive_for
from tests.tern import put_content, put_file, sheet_text

PAIR = "components/fuel/carburettors.html"
UPRIGHT = "components/trim/drivers-seat.html"
WIDTHS = (320, 390, 768, 1280, 1920)


def _open(browser: webdriver.Chrome, path: str = PAIR, *, width: int = 1280) -> None:
    screen(browser, width, 900)
    browser.get((archive_for(Reader.OWNER) / path).as_uri())


def _slider(browser: webdriver.Chrome) -> dict[str, Any]:
    told: dict[str, Any] = browser.execute_script(
        """
        const slider = document.querySelector('.overlay input');
        return {type: slider.type, value: slider.value, words: slider.ariaValueText
          || slider.getAttribute('aria-valuetext'), label: slider.labels[0].textContent,
          cut: getComputedStyle(document.querySelector('.pair figure .open')).clipPath};"""
    )
    return told


def _words(browser: webdriver.Chrome) -> str:
    return str(_slider(browser)["words"])


def test_pair__becomes_one_frame_with_a_labelled_slider(browser: webdriver.Chrome) -> None:
    complaints(browser)
    _open(browser)
    told = _slider(browser)
    assert ("range", "50", "50 % as found") == (told["type"], told["value"], told["words"])
    assert (
        "Move the line: as found on its left, as finished on its right: Carburettors"
        == told["label"]
    )
    before, after = (box(browser, f".pair figure:nth-of-type({n}) .open") for n in (1, 2))
    assert before == after == box(browser, ".pair .overlay")
    assert [] == complaints(browser)


def test_slider__goes_by_keyboard_and_says_where_it_is(browser: webdriver.Chrome) -> None:
    _open(browser)
    browser.execute_script("document.querySelector('.overlay input').focus()")
    press(browser, "ArrowRight")
    assert "52 % as found" == _words(browser)
    assert "inset(0px 48% 0px 0px)" == _slider(browser)["cut"]
    press(browser, "ArrowLeft", "ArrowLeft")
    assert "48 % as found" == _words(browser)
    press(browser, "Home")
    assert "nothing as found" == _words(browser)
    press(browser, "End")
    assert "all as found" == _words(browser)
    assert browser.execute_script(
        "return getComputedStyle(document.querySelector('.knob')).outlineStyle !== 'none'"
    ), "the focus is seen on the line"


@pytest.mark.parametrize("path", [PAIR, UPRIGHT])
def test_slider__goes_by_mouse(browser: webdriver.Chrome, path: str) -> None:
    _open(browser, path)
    frame = into_view(browser, ".overlay")
    element = browser.find_element(By.CSS_SELECTOR, ".overlay")
    quarter, half = frame["width"] / 4, frame["width"] / 2
    mouse = ActionChains(browser, duration=20)
    mouse.move_to_element_with_offset(element, round(quarter - half), 0).click().perform()
    assert "25 % as found" == _words(browser)
    mouse.click_and_hold().move_by_offset(round(half), 30).release().perform()
    assert "75 % as found" == _words(browser)
    press(browser, "ArrowRight")
    assert _words(browser) in ("76 % as found", "78 % as found")


def test_slider__goes_by_finger_and_lets_the_page_scroll(browser: webdriver.Chrome) -> None:
    _open(browser, width=390)
    frame = into_view(browser, ".overlay")
    left, width = frame["left"], frame["width"]
    middle = frame["top"] + frame["height"] / 2

    drag(browser, (left + width / 2, middle), (left + width * 0.8, middle + 4))
    assert "80 % as found" == _words(browser)
    drag(browser, (left + width * 0.1, middle), (left + width * 0.1, middle))
    assert "10 % as found" == _words(browser), "a tap draws the line to the finger"

    scrolled = browser.execute_script("return scrollY")
    drag(browser, (left + width / 2, middle), (left + width / 2 + 2, middle - 150))
    assert "10 % as found" == _words(browser)
    assert browser.execute_script("return scrollY") > scrolled + 50


def test_pair__can_be_shown_side_by_side(browser: webdriver.Chrome) -> None:
    _open(browser)
    button = browser.find_element(By.CSS_SELECTOR, "button.beside")
    assert "Show them side by side" == button.text
    button.click()
    before, after = (box(browser, f".pair figure:nth-of-type({n}) img") for n in (1, 2))
    assert before["right"] < after["left"]
    assert before["top"] == after["top"]
    assert not browser.find_element(By.CSS_SELECTOR, ".overlay").is_displayed()
    assert "Lay one over the other" == button.text
    button.click()
    assert browser.find_element(By.CSS_SELECTOR, ".overlay").is_displayed()


def test_pair__leads_to_its_large_pictures(browser: webdriver.Chrome) -> None:
    """By keyboard through the captions: what lies under the slider is passed over."""
    _open(browser)
    links = browser.find_elements(By.CSS_SELECTOR, ".pair figcaption a")
    assert ["As found.", "As finished."] == [link.text for link in links]
    under = browser.find_elements(By.CSS_SELECTOR, ".pair a.open")
    assert [link.get_attribute("href") for link in links] == [
        a.get_attribute("href") for a in under
    ]
    assert ["-1", "-1"] == [a.get_attribute("tabindex") for a in under]


@pytest.mark.parametrize("path", [PAIR, UPRIGHT, "subsystems/brakes.html"])
@pytest.mark.parametrize("width", [390, 1280])
def test_pair__is_two_plain_pictures_without_scripts(
    browser: webdriver.Chrome, path: str, width: int
) -> None:
    let_scripts_run(browser, False)
    _open(browser, path, width=width)
    assert [] == browser.find_elements(
        By.CSS_SELECTOR, ".overlay, .drawn, .pair input, .pair button"
    )
    before, after = (box(browser, f".pair figure:nth-of-type({n}) img") for n in (1, 2))
    if width == 390:
        assert before["bottom"] < after["top"]
    else:
        assert before["right"] < after["left"]
        assert before["top"] == after["top"]


@pytest.mark.parametrize("path", [PAIR, UPRIGHT])
def test_pair__is_two_plain_pictures_on_paper(browser: webdriver.Chrome, path: str) -> None:
    # A4 within its margins is 658 CSS pixels wide; the page was opened on a screen.
    _open(browser, path)
    screen(browser, 658, 900, paper=True)
    before, after = (box(browser, f".pair figure:nth-of-type({n}) img") for n in (1, 2))
    assert before["right"] < after["left"]
    assert before["width"] > 150
    clips = browser.execute_script(
        "return [...document.querySelectorAll('.pair a.open')].map(a => getComputedStyle(a).clipPath)"
    )
    assert ["none", "none"] == clips
    for gone in (".overlay", ".drawn"):
        assert not browser.find_element(By.CSS_SELECTOR, gone).is_displayed()


@pytest.fixture(scope="module")
def unlike(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An archive with a pair of a wide picture before and an upright one after."""
    root = put_content(
        tmp_path_factory.mktemp("unlike"),
        **{
            "tern/sheets/2024/2024-03-05-day.md": sheet_text(
                "photos:\n"
                "  - {file: wide.png, of: gearbox/laygear, stage: as-found, caption: Wide, alt: A field}\n"
                "  - {file: tall.png, of: gearbox/laygear, stage: as-finished, caption: Tall, alt: A tree}"
            )
        },
    )
    for name, size in (("wide", (900, 600)), ("tall", (600, 900))):
        file = root / f"{name}.png"
        Image.new("RGB", size, "darkgreen").save(file)
        put_file(root, f"tern/photos/2024-03-05/{name}.png", file.read_bytes())
        file.unlink()
    target = tmp_path_factory.mktemp("archive") / "out"
    publish(read_content(root), Order(root, target, Reader.OWNER, "tern"))
    return target


@pytest.mark.parametrize("width", WIDTHS)
def test_pair__of_unlike_proportions_is_neither_squeezed_nor_cut(
    browser: webdriver.Chrome, unlike: Path, width: int
) -> None:
    """It begins side by side. Laid over, the frame is that of the first picture, and the second
    stands in it whole."""
    screen(browser, width, 900)
    browser.get((unlike / "components/gearbox/laygear.html").as_uri())
    assert not browser.find_element(By.CSS_SELECTOR, ".overlay").is_displayed()
    button = browser.find_element(By.CSS_SELECTOR, "button.beside")
    assert "Lay one over the other" == button.text
    browser.execute_script("arguments[0].click()", button)
    frame = box(browser, ".overlay")
    assert frame["width"] / frame["height"] == pytest.approx(900 / 600, rel=0.01)
    for n in (1, 2):
        image = f".pair figure:nth-of-type({n}) img"
        assert frame == box(browser, image)
        fit = browser.execute_script(
            "return getComputedStyle(document.querySelector(arguments[0])).objectFit", image
        )
        assert "contain" == fit
    assert browser.execute_script("return document.documentElement.scrollWidth") <= width

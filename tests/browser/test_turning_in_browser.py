"""From one large picture to the next: by arrow key and by swipe, and back to all pictures."""

from collections.abc import Callable

import pytest
from selenium import webdriver
from selenium.webdriver.common.by import By
from selenium.webdriver.support.ui import WebDriverWait

from journal.words.vocabulary import Reader
from tests.browser.driving import complaints, let_scripts_run, press, screen
from tests.browser.touching import Point, drag, into_view, pinch
from tests.published import archive_for


def _open(browser: webdriver.Chrome, number: int = 15, *, width: int = 1280) -> None:
    screen(browser, width, 900)
    page = archive_for(Reader.OWNER) / "pictures" / f"{number}.html"
    browser.get("about:blank")
    browser.get(f"{page.as_uri()}#picture")


def _place(browser: webdriver.Chrome) -> str:
    """The page that is open and the place on it, `16.html#picture`."""
    return str(browser.execute_script("return location.href")).rsplit("/", 1)[-1]


def _turns_to(browser: webdriver.Chrome, place: str) -> None:
    WebDriverWait(browser, 5).until(lambda b: _place(b) == place, _place(browser))
    WebDriverWait(browser, 5).until(
        lambda b: b.execute_script("return document.readyState") == "complete"
    )


def _stays(browser: webdriver.Chrome, place: str = "15.html#picture") -> None:
    # A change of page would have begun before the browser answers twice.
    for _ in range(2):
        browser.execute_async_script("const done = arguments[0]; setTimeout(done, 60)")
        assert place == _place(browser)


@pytest.mark.parametrize(
    ("key", "place"),
    [
        ("ArrowRight", "16.html#picture"),
        ("ArrowLeft", "14.html#picture"),
        ("Escape", "index.html#picture-15"),
    ],
)
def test_key__leads_to_the_next_picture_and_back_to_all(
    browser: webdriver.Chrome, key: str, place: str
) -> None:
    complaints(browser)
    _open(browser)
    press(browser, key)
    _turns_to(browser, place)
    assert [] == complaints(browser)


def test_keys__go_through_the_pictures_without_looking_down(browser: webdriver.Chrome) -> None:
    _open(browser)
    for number in (16, 17, 18):
        press(browser, "ArrowRight")
        _turns_to(browser, f"{number}.html#picture")
    assert 0 <= into_view(browser, "#picture img")["top"]


@pytest.mark.parametrize("number", [1, -1])
def test_key__at_either_end_stays(browser: webdriver.Chrome, number: int) -> None:
    last = len(list((archive_for(Reader.OWNER) / "pictures").glob("[0-9]*.html")))
    number = 1 if number == 1 else last
    _open(browser, number)
    press(browser, "ArrowLeft" if number == 1 else "ArrowRight")
    _stays(browser, f"{number}.html#picture")


@pytest.mark.parametrize(
    "field",
    [
        "<input>", "<textarea></textarea>", "<input type=range>", "<select><option>a</select>",
        "<div contenteditable=true>a</div>", "<div role=slider tabindex=0>a</div>",
    ],
)  # fmt: skip
def test_key__in_a_field_belongs_to_the_field(browser: webdriver.Chrome, field: str) -> None:
    _open(browser)
    browser.execute_script(
        """
        const place = document.createElement('div');
        place.innerHTML = arguments[0];
        document.querySelector('main').append(place);
        place.firstElementChild.focus();""",
        field,
    )
    press(browser, "ArrowRight", "ArrowLeft", "Escape")
    _stays(browser)


@pytest.mark.parametrize("with_key", ["altKey", "ctrlKey", "metaKey", "shiftKey"])
def test_key__with_another_belongs_to_the_browser(browser: webdriver.Chrome, with_key: str) -> None:
    _open(browser)
    browser.execute_script(
        """
        document.body.dispatchEvent(new KeyboardEvent('keydown',
          {key: 'ArrowRight', bubbles: true, cancelable: true, [arguments[0]]: true}))""",
        with_key,
    )
    _stays(browser)


def _across(browser: webdriver.Chrome, *moves: Point) -> tuple[Point, ...]:
    """Points on the picture: where a finger is put down, and where it then goes, in pixels from there."""
    frame = into_view(browser, "#picture img")
    x, y = frame["left"] + frame["width"] / 2, frame["top"] + frame["height"] / 2
    return ((x, y), *((x + dx, y + dy) for dx, dy in moves))


@pytest.mark.parametrize(
    ("move", "place"),
    [((-140, 8), "16.html#picture"), ((140, -8), "14.html#picture")],
)
def test_swipe__leads_to_the_next_picture(
    browser: webdriver.Chrome, move: Point, place: str
) -> None:
    complaints(browser)
    _open(browser, width=390)
    drag(browser, *_across(browser, move))
    _turns_to(browser, place)
    assert [] == complaints(browser)


@pytest.mark.parametrize("move", [(0, -160), (-60, -120), (-20, 0), (0, 0)])
def test_finger__that_scrolls_taps_or_hardly_moves_turns_nothing(
    browser: webdriver.Chrome, move: Point
) -> None:
    _open(browser, width=390)
    drag(browser, *_across(browser, move))
    _stays(browser)


def test_finger__going_up_scrolls_the_page(browser: webdriver.Chrome) -> None:
    _open(browser, width=390)
    points = _across(browser, (0, -160))
    before = browser.execute_script("return scrollY")
    drag(browser, *points)
    _stays(browser)
    assert browser.execute_script("return scrollY") > before + 50


def test_pinch__magnifies_and_turns_nothing(browser: webdriver.Chrome) -> None:
    _open(browser, width=390)
    left, right = (-20.0, 0.0), (20.0, 0.0)
    _, *one = _across(browser, left, (-150, 0))
    _, *other = _across(browser, right, (150, 0))
    pinch(browser, one, other)
    _stays(browser)
    assert browser.execute_script("return visualViewport.scale") > 1.5
    # Magnified, one finger moves the picture about.
    assert "auto" == browser.execute_script(
        "return getComputedStyle(document.getElementById('picture')).touchAction"
    )
    drag(browser, *_across(browser, (-100, 0)))
    _stays(browser)


def _names(srcset: str) -> set[str]:
    return {one.strip().split(" ")[0].rsplit("/", 1)[-1] for one in srcset.split(",")}


def _fetched(browser: webdriver.Chrome) -> set[str]:
    """The names of the pictures that the page has asked for."""
    return set(
        browser.execute_script(
            """
            return performance.getEntriesByType('resource').map(e => e.name.split('/').pop())
              .filter(name => name.endsWith('.webp'));"""
        )
    )


def test_neighbours__are_fetched_beforehand(
    browser: webdriver.Chrome, address_of: Callable[[Reader], str]
) -> None:
    """From a web server: a browser keeps no account of what it reads from a memory stick."""
    home = address_of(Reader.OWNER)
    screen(browser, 1280, 900)
    # What the page of the test before still asks for is none of this one's.
    browser.get("about:blank")
    complaints(browser, home)
    browser.get(f"{home}pictures/15.html#picture")
    ahead = [
        _names(srcset)
        for srcset in browser.execute_script(
            "return [...document.querySelectorAll('.neighbours a[rel]')].map(a => a.dataset.srcset)"
        )
    ]
    WebDriverWait(browser, 5).until(lambda b: all(_fetched(b) & names for names in ahead))
    fetched = _fetched(browser)
    press(browser, "ArrowRight")
    _turns_to(browser, "16.html#picture")
    drawn = browser.execute_script("return document.querySelector('#picture img').currentSrc")
    assert drawn.rsplit("/", 1)[-1] in fetched, "what was fetched is what is drawn"
    assert [] == complaints(browser, home)


def test_picture__without_scripts_has_its_links_and_no_word_of_keys(
    browser: webdriver.Chrome,
) -> None:
    let_scripts_run(browser, False)
    _open(browser)
    assert [] == browser.find_elements(By.CSS_SELECTOR, ".keys")
    browser.find_element(By.CSS_SELECTOR, "a[rel=next]").click()
    _turns_to(browser, "16.html#picture")
    browser.find_element(By.CSS_SELECTOR, "a.all").click()
    _turns_to(browser, "index.html#picture-16")

"""Fingers on a screen: drags, swipes and pinches, as a touch screen tells them."""

from collections.abc import Iterable, Sequence
from itertools import pairwise

from selenium import webdriver

Point = tuple[float, float]


def drag(browser: webdriver.Chrome, *path: Point) -> None:
    """Put one finger down at the first point, move it along the others, and lift it."""
    _touch(browser, "touchStart", (path[0],))
    for point in _steps(path):
        _touch(browser, "touchMove", (point,))
    _touch(browser, "touchEnd", ())


def pinch(browser: webdriver.Chrome, one: Sequence[Point], other: Sequence[Point]) -> None:
    """Put two fingers down and move each from its first point to its second."""
    _touch(browser, "touchStart", (one[0], other[0]))
    for pair in zip(_steps(one), _steps(other), strict=True):
        _touch(browser, "touchMove", pair)
    _touch(browser, "touchEnd", ())


def _steps(path: Sequence[Point], each: int = 6) -> Iterable[Point]:
    for (x, y), (to_x, to_y) in pairwise(path):
        for n in range(1, each + 1):
            yield (x + (to_x - x) * n / each, y + (to_y - y) * n / each)


def _touch(browser: webdriver.Chrome, kind: str, points: Sequence[Point]) -> None:
    told = [{"x": x, "y": y, "id": n} for n, (x, y) in enumerate(points)]
    browser.execute_cdp_cmd("Input.dispatchTouchEvent", {"type": kind, "touchPoints": told})


def box(browser: webdriver.Chrome, selector: str) -> dict[str, float]:
    """Where the first element of a selector is drawn on the screen, in CSS pixels."""
    found: dict[str, float] = browser.execute_script(
        "return document.querySelector(arguments[0]).getBoundingClientRect().toJSON()", selector
    )
    return found


def into_view(browser: webdriver.Chrome, selector: str) -> dict[str, float]:
    """The same, with the element brought to the middle of the screen first."""
    browser.execute_script(
        "document.querySelector(arguments[0]).scrollIntoView({block: 'center'})", selector
    )
    return box(browser, selector)

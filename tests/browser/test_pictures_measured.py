"""Pictures as they are drawn: fetched in a fitting width everywhere, and nothing moves when they come."""

from collections.abc import Callable

import pytest
from selenium import webdriver

from journal.words.vocabulary import Reader
from tests.browser.driving import let_scripts_run, screen
from tests.published import archive_for

WIDTHS = ((320, 700), (390, 844), (768, 1024), (1280, 900), (1920, 1080))
PAIR = "components/fuel/carburettors.html"
PAIRS = "subsystems/brakes.html"

# What a picture asks for by its width in the layout; `naturalWidth` of one chosen from `srcset` is
# the width that its `sizes` promise (HTML, 4.8.4.3.8, density-corrected size). A picture that fills
# its box must be as wide as the box, or as its height asks.
MEASURE = """
const [selector, done] = arguments;
for (const i of document.images) i.loading = 'eager';
const images = [...document.querySelectorAll(selector)].filter(i => i.getBoundingClientRect().width);
Promise.all(images.map(i => i.decode().catch(() => {}))).then(() => done(images.map(i => {
  const box = i.getBoundingClientRect();
  const asks = box.height * i.getAttribute('width') / i.getAttribute('height');
  const fit = getComputedStyle(i).objectFit;
  const drawn = fit === 'contain' ? Math.min(box.width, asks) : Math.max(box.width, asks);
  return [i.naturalWidth / drawn, `${i.currentSrc.split('/').pop()}: promised ${i.naturalWidth},`
    + ` drawn ${Math.round(drawn)}`];
})));"""
# A picture is chosen anew with the frame that is drawn after a change of width.
DRAWN = "requestAnimationFrame(() => requestAnimationFrame(arguments[0]))"


@pytest.mark.parametrize(
    ("path", "selector", "least", "most"),
    [
        ("index.html", ".hero img", 0.9, 1.15),
        ("index.html", "img.thumb", 0.65, 1.15),
        ("pictures/4.html", "#picture img", 0.9, 1.1),
        ("pictures/15.html", "#picture img", 0.9, 1.1),
        (PAIR, ".pair img", 0.9, 1.1),
        (PAIRS, ".pair img", 0.9, 1.1),
        ("subsystems/body.html", ".line img", 0.85, 1.25),
        ("subsystems/trim.html", ".line img", 0.85, 1.25),
        ("sheets/2023-09-11-booking-in.html", ".plate img", 0.85, 1.25),
        ("departures.html", ".plate img", 0.85, 1.2),
        ("pictures/contact.html", ".contact img", 0.85, 1.25),
        # What is cut to a common proportion needs more width the longer it is.
        ("sheets/index.html", "img.thumb", 0.65, 1.15),
        ("subsystems/index.html", "img.thumb", 0.65, 1.15),
        ("pictures/evidence.html", "img.thumb", 0.65, 1.15),
        # On a wall the neighbours in a row decide: a row of two is wider than one of three.
        ("pictures/index.html", ".wall img", 0.65, 1.6),
        ("pictures/months.html", ".wall img", 0.65, 1.6),
    ],
)
def test_picture__is_fetched_about_as_wide_as_it_is_drawn(
    browser: webdriver.Chrome, path: str, selector: str, least: float, most: float
) -> None:
    """As the window grows, after which the page is not opened again."""
    off: list[str] = []
    for n, (width, height) in enumerate(WIDTHS):
        screen(browser, width, height)
        if not n:
            browser.get((archive_for(Reader.OWNER) / path).as_uri())
        browser.execute_async_script(DRAWN)
        found = browser.execute_async_script(MEASURE, selector)
        assert found, "there are pictures to be measured"
        off += [f"at {width} {words}" for ratio, words in found if not least <= ratio <= most]
    assert [] == off


@pytest.mark.parametrize("path", [PAIR, PAIRS, "components/trim/drivers-seat.html"])
def test_pair__without_scripts_is_fetched_as_wide_as_it_is_drawn(
    browser: webdriver.Chrome, path: str
) -> None:
    off: list[str] = []
    let_scripts_run(browser, False)
    for width, height in WIDTHS:
        screen(browser, width, height)
        browser.get((archive_for(Reader.OWNER) / path).as_uri())
        for ratio, words in browser.execute_async_script(MEASURE, ".pair img"):
            if not 0.8 <= ratio <= 1.35:
                off.append(f"at {width} {words}")
    assert [] == off


SHIFTS = """
const [done] = arguments;
let sum = 0;
const moved = [];
const watch = new PerformanceObserver(list => list.getEntries().forEach(entry => {
  sum += entry.value;
  moved.push(...entry.sources.map(s => s.node && (s.node.className || s.node.nodeName)));
}));
watch.observe({type: 'layout-shift', buffered: true});
const images = [...document.images].map(i => { i.loading = 'eager'; return i.decode().catch(() => {}); });
Promise.all(images).then(() => setTimeout(() => done([sum, moved]), 150));"""


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize(
    "path",
    [
        "index.html", PAIR, PAIRS, "components/trim/drivers-seat.html", "pictures/4.html",
        "pictures/15.html", "pictures/index.html", "pictures/contact.html", "pictures/evidence.html",
        "sheets/2023-09-11-booking-in.html",
    ],
)  # fmt: skip
def test_nothing__moves_when_pictures_and_scripts_come(
    browser: webdriver.Chrome, address_of: Callable[[Reader], str], path: str, width: int
) -> None:
    """Layout Instability API: the sum of all shifts of the page."""
    screen(browser, width, 900)
    browser.execute_cdp_cmd("Network.enable", {})
    browser.execute_cdp_cmd("Network.setCacheDisabled", {"cacheDisabled": True})
    try:
        browser.get(address_of(Reader.OWNER) + path)
        assert [0, []] == browser.execute_async_script(SHIFTS)
    finally:
        browser.execute_cdp_cmd("Network.setCacheDisabled", {"cacheDisabled": False})

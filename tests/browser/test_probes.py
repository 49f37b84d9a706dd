"""What looks at the pages finds what is wrong with a page, and nothing where nothing is wrong."""

from collections.abc import Callable

import pytest
from selenium import webdriver

from tests.browser.driving import ask, screen
from tests.browser.rules import violations

PageWith = Callable[[str, str], str]


@pytest.mark.parametrize(
    ("markup", "rule"),
    [
        ('<img src="icon.svg">', "image-alt"),
        ("<p class=faint>Gearbox apart on the bench", "color-contrast"),
        ("<input>", "label"),
        ("<p><a href=1 class=tiny>1</a><a href=2 class=tiny>2</a>", "target-size"),
    ],
)
def test_axe__finds_a_fault(
    browser: webdriver.Chrome, page_with: PageWith, markup: str, rule: str
) -> None:
    style = ".faint { color: #888 } .tiny { display: inline-block; width: 9px; height: 9px }"
    screen(browser, 390, 844)
    browser.get(page_with(markup, style))
    assert any(fault.startswith(f"{rule}: ") for fault in violations(browser))


@pytest.mark.parametrize(
    ("colour", "ground", "more", "told"),
    [
        # WCAG 2.2 definitions, worked by hand: #777777 on white has 4.478, #767676 has 4.542.
        ("#777777", "#ffffff", "", ["4.48 for 4.5: Apart"]),
        ("#767676", "#ffffff", "", []),
        ("#777777", "#ffffff", "font-size: 24px;", []),
        ("#777777", "#ffffff", "font-size: 18.7px; font-weight: 700;", []),
        ("#959595", "#ffffff", "font-size: 24px;", ["3.00 for 3: Apart"]),
        # Black at two fifths over white is #999999, which has 2.85 with white and 7.37 with black.
        ("rgb(0 0 0 / .4)", "#ffffff", "", ["2.85 for 4.5: Apart"]),
        ("#000000", "#ffffff", "opacity: .4;", ["2.85 for 4.5: Apart"]),
        ("#000000", "rgb(0 0 0 / .4)", "", []),
        ("#ffffff", "rgb(0 0 0 / .4)", "", ["2.85 for 4.5: Apart"]),
    ],
)
def test_contrast__is_measured(
    browser: webdriver.Chrome,
    page_with: PageWith,
    colour: str,
    ground: str,
    more: str,
    told: list[str],
) -> None:
    screen(browser, 390, 844)
    style = f"html {{ background: #fff }} p {{ color: {colour}; background: {ground}; {more} }}"
    browser.get(page_with("<p>Apart</p>", style))
    asked = ask(browser, "colour", "contrast")
    assert (1, told) == (asked["measured"], asked["failures"])


def test_contrast__is_measured_against_what_lies_under(
    browser: webdriver.Chrome, page_with: PageWith
) -> None:
    """Words in a chart over its bars, words that style adds, words over a picture."""
    screen(browser, 390, 844)
    browser.get(
        page_with(
            """<svg width="200" height="40"><rect class="bar" width="200" height="40"/>
            <text x="10" y="25">In a bar</text></svg>
            <p data-label="read">12</p><p class="over">Over a gradient</p>""",
            """.bar, p::before { fill: #333; color: #ccc } p::before { content: attr(data-label) }
            .over { background: linear-gradient(red, blue) } .over::before { content: none }""",
        )
    )
    told = ask(browser, "colour", "contrast")
    assert ["1.66 for 4.5: In a bar", '1.61 for 4.5: "read"'] == told["failures"]
    assert (3, 1) == (told["measured"], told["unsure"])


@pytest.mark.parametrize(
    ("markup", "told"),
    [
        ("<a class='t t24'></a><a class='t t24'></a>", 0),
        ("<a class='t t20'></a>", 0),
        ("<a class='t t20'></a><a class='t t20'></a>", 2),
        ("<a class='t t20 apart'></a><a class='t t20'></a>", 0),
        ("<a class='t t20'></a><a class='t t24'></a>", 1),
        ("<p>See <a>1</a>, <a>2</a>.</p>", 0),
        ("<p><a>1</a> <a>2</a></p>", 2),
        ("<p><a>1</a>, <a>2</a></p>", 0),
        ("<button class='t20'></button>", 1),
        ("<label><input type='checkbox'> Wide words</label><br><a>1</a>", 0),
    ],
)
def test_target__is_measured(
    browser: webdriver.Chrome, page_with: PageWith, markup: str, told: int
) -> None:
    """Two targets of 20 pixels side by side are too near; 4 pixels of air between them suffice."""
    screen(browser, 390, 844)
    style = """* { padding: 0; border: 0; font-size: 14px; line-height: 1.2 } label { line-height: 24px;
    display: inline-block } .t { float: left } .t24 { width: 24px; height: 24px }
    .t20 { width: 20px; height: 20px } .apart { margin-right: 4px }"""
    browser.get(page_with(markup.replace("<a", "<a href='#'"), style))
    assert told == len(ask(browser, "targets")["failures"])


@pytest.mark.parametrize(
    ("style", "told"),
    [
        (":focus-visible { outline: 2px solid #000 }", None),
        (":focus-visible { outline: none }", "has no outline"),
        (":focus-visible { outline: 1px solid #000 }", "has no outline"),
        (":focus-visible { outline: 2px solid #aaa }", "has an outline of 2.32 to 1"),
        (
            ":focus-visible { outline: 2px solid #000 } p { position: fixed; inset: 0; margin: 0 }",
            "cannot be seen",
        ),
    ],
)
def test_hidden_focus__is_found(
    browser: webdriver.Chrome, page_with: PageWith, style: str, told: str | None
) -> None:
    screen(browser, 390, 844)
    browser.get(page_with('<a href="#">Ledger</a><p></p>', style))
    found = ask(browser, "colour", "stops", "focus")["failures"]
    assert (told is None) == (found == [])
    assert all(str(told) in fault for fault in found)

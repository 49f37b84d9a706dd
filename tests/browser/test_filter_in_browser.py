"""The filter of the ledger in a real browser, against counts taken from the ledger itself."""

from pathlib import Path

import pytest
from selenium import webdriver
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.ui import Select, WebDriverWait

from journal.ledgers.numbers import fold_numbers
from journal.ledgers.originality import Line
from journal.ledgers.originality.fold import fold_originality
from journal.readers import car_for
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from tests.browser.driving import a_browser, complaints, let_scripts_run, screen
from tests.published import CAR, CONTENT, archive_for

LINES = "tr[data-origin]"


@pytest.fixture(scope="module")
def lines() -> tuple[Line, ...]:
    (car,) = [c for c in read_content(CONTENT).cars if c.name == CAR]
    seen = car_for(Reader.OWNER, car)
    return fold_originality(seen, disputed=fold_numbers(seen).disputed_components).lines


def _address(asked: str = "") -> str:
    page = archive_for(Reader.OWNER) / "ledger.html"
    return page.as_uri() + (f"#{asked}" if asked else "")


def _open(browser: webdriver.Chrome, asked: str = "", *, width: int = 1280) -> None:
    screen(browser, width, 900)
    # A change after the # alone would not load the page again.
    browser.get("about:blank")
    browser.get(_address(asked))


def _choose(browser: webdriver.Chrome, name: str, value: str) -> None:
    Select(browser.find_element(By.ID, f"filter-{name}")).select_by_value(value)


def _shown(browser: webdriver.Chrome) -> list[str]:
    """The components whose lines are to be seen, by the end of their links."""
    return [
        str(link)
        for link in browser.execute_script(
            f"""return [...document.querySelectorAll('{LINES}')].filter(r => r.offsetParent !== null)
            .map(r => r.querySelector('th a').getAttribute('href'));"""
        )
    ]


def _expected(lines: tuple[Line, ...], **asked: str) -> list[str]:
    def answers(line: Line) -> dict[str, str]:
        gone = line.now.gone
        return {
            "origin": "absent" if gone else line.now.origin.value,
            "subsystem": line.component.subsystem,
            "evidence": line.evidence.value,
        }

    return [
        f"components/{line.component.key}.html"
        for line in lines
        if all(answers(line)[name] == value for name, value in asked.items())
    ]


def _said(browser: webdriver.Chrome) -> str:
    return browser.find_element(By.CSS_SELECTOR, ".filter [role=status]").text


ASKED: tuple[dict[str, str], ...] = (
    {}, {"origin": "pattern"}, {"origin": "absent"}, {"subsystem": "brakes"}, {"evidence": "proven"},
    {"origin": "pattern", "evidence": "stated"},
    {"origin": "first-fit", "subsystem": "engine", "evidence": "stated"},
    {"origin": "upgrade", "subsystem": "papers"},
)  # fmt: skip


@pytest.mark.parametrize("asked", ASKED, ids=lambda a: "-".join(a.values()) or "all")
def test_filter__shows_the_lines_that_the_ledger_has_and_tells_how_many(
    browser: webdriver.Chrome, lines: tuple[Line, ...], asked: dict[str, str]
) -> None:
    _open(browser)
    for name, value in asked.items():
        _choose(browser, name, value)
    expected = _expected(lines, **asked)
    assert expected == _shown(browser)
    assert 171 == len(lines)
    count = f"{len(expected) or 'None'} of 171 components" if asked else "All 171 components"
    assert count == _said(browser).split(":")[0]


def test_filter__says_in_words_what_was_asked(browser: webdriver.Chrome) -> None:
    _open(browser, "origin=pattern&subsystem=brakes&evidence=stated")
    assert "1 of 171 components: now pattern, in Brakes, evidence stated" == _said(browser)


def test_filtered_ledger__can_be_linked(browser: webdriver.Chrome, lines: tuple[Line, ...]) -> None:
    _open(browser, "evidence=shown&origin=made")
    assert _expected(lines, evidence="shown", origin="made") == _shown(browser)
    chosen = [
        Select(s).first_selected_option.text for s in browser.find_elements(By.TAG_NAME, "select")
    ]
    assert ["made", "any", "shown"] == chosen


def test_answer_that_there_is_not__asks_nothing(browser: webdriver.Chrome) -> None:
    _open(browser, "origin=nonsense&colour=red")
    assert "All 171 components" == _said(browser)


def test_back__takes_back_one_choice_at_a_time(tmp_path: Path) -> None:
    # A browser of its own: what other tests left in the history of theirs is not gone back to.
    with a_browser(tmp_path) as browser:
        _open(browser)
        _choose(browser, "origin", "pattern")
        _choose(browser, "subsystem", "brakes")
        assert "2 of 171 components: now pattern, in Brakes" == _said(browser)
        browser.back()
        _wait_for(browser, "28 of 171 components: now pattern", "origin=pattern")
        browser.back()
        _wait_for(browser, "All 171 components")
        browser.forward()
        _wait_for(browser, "28 of 171 components: now pattern", "origin=pattern")


def _wait_for(browser: webdriver.Chrome, said: str, asked: str = "") -> None:
    """The address changes first, and the page is told of it a moment later."""
    WebDriverWait(browser, 30).until(lambda b: _said(b) == said)
    assert _address(asked) == browser.current_url


def test_place_in_the_page__leaves_the_filter_as_it_is(browser: webdriver.Chrome) -> None:
    _open(browser, "origin=pattern")
    browser.find_element(By.LINK_TEXT, "below the lines").click()
    WebDriverWait(browser, 30).until(lambda b: b.current_url == _address("origins"))
    assert "28 of 171 components: now pattern" == _said(browser)


def test_button__shows_all_lines_again_and_keeps_the_keyboard_in_the_filter(
    browser: webdriver.Chrome,
) -> None:
    _open(browser, "origin=upgrade&subsystem=papers")
    assert [] == _shown(browser)
    browser.find_element(By.CSS_SELECTOR, ".filter button").send_keys(Keys.ENTER)
    assert 171 == len(_shown(browser))
    assert _address() == browser.current_url
    focus = browser.execute_script("return document.activeElement.id")
    assert "filter-origin" == focus


def test_subsystems_without_a_line__go_with_their_headings_and_links(
    browser: webdriver.Chrome,
) -> None:
    _open(browser, "origin=upgrade")
    headings = [h.text for h in browser.find_elements(By.CSS_SELECTOR, "h3.branch") if h.text]
    links = [a.text for a in browser.find_elements(By.CSS_SELECTOR, ".jump-list a") if a.text]
    assert ["Engine", "Electrical"] == headings == links


def test_filter__is_large_enough_to_touch_and_fits_a_phone(browser: webdriver.Chrome) -> None:
    """WCAG 2.2, 2.5.8 and 1.4.10."""
    _open(browser, "origin=pattern&subsystem=brakes", width=320)
    boxes = browser.execute_script(
        """return [...document.querySelectorAll('.filter select, .filter button')]
        .map(e => e.getBoundingClientRect()).map(r => [r.width, r.height, r.right]);"""
    )
    assert 4 == len(boxes)
    assert all(width >= 24 and height >= 24 and right <= 320 for width, height, right in boxes)


def test_filter__complains_of_nothing(browser: webdriver.Chrome) -> None:
    complaints(browser)
    browser.get(_address("origin=pattern"))
    _choose(browser, "evidence", "stated")
    assert [] == complaints(browser)


def test_ledger__has_all_its_lines_and_no_filter_without_scripts(
    browser: webdriver.Chrome,
) -> None:
    let_scripts_run(browser, False)
    _open(browser, "origin=pattern")
    assert not browser.find_element(By.CSS_SELECTOR, "form.filter").is_displayed()
    rows = browser.find_elements(By.CSS_SELECTOR, LINES)
    assert 171 == sum(row.is_displayed() for row in rows)

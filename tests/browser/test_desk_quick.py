"""The quick pages of the phone: goods in with three taps, a snag with two; rules that hold for every page."""

import re
import shutil
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from selenium import webdriver

from tests.browser.driving import a_browser, complaints
from tests.browser.phoning import Phone
from tests.browser.rules import violations
from tests.desk.ready import Ready, a_ready_desk
from tests.pictures.images import encoded, halves
from tests.published import CAR, CONTENT

TODAY = date.today().isoformat()
OTHER = "pellmarsh-lapwing"
PLACES = ("day", f"day?car={CAR}&sheet=2024-01-11-gearbox-measured", "goods-in", "snag")


@pytest.fixture(scope="module")
def root(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("workshop") / "content"
    shutil.copytree(CONTENT, folder)
    return folder


@pytest.fixture(scope="module")
def desk(root: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Ready]:
    with a_ready_desk(root, tmp_path_factory.mktemp("state")) as running:
        yield running


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Iterator[webdriver.Chrome]:
    with a_browser(tmp_path_factory.mktemp("profile")) as browser:
        browser.set_script_timeout(60)
        yield browser


@pytest.fixture
def phone(opened: webdriver.Chrome, desk: Ready) -> Phone:
    held = Phone(opened)
    held.forget(desk.address)
    complaints(opened)
    return held


def written(root: Path, title: str) -> str:
    (file,) = (root / OTHER / "sheets" / TODAY[:4]).glob(f"{TODAY}-{title}*.md")
    return file.read_text("utf-8")


@pytest.mark.parametrize("place", PLACES)
def test_page__breaks_no_rule_of_accessibility_and_is_never_wider_than_the_screen(
    phone: Phone, desk: Ready, place: str
) -> None:
    phone.open(desk.address + place)
    for width, height, dark in (
        (320, 640, False),
        (390, 844, True),
        (844, 390, False),
        (1280, 900, True),
    ):
        phone.held(width, height, dark=dark)
        assert width == phone.run("return document.documentElement.scrollWidth")
        assert [] == violations(phone.browser)
    assert [] == complaints(phone.browser, "http:")


def test_filled_page__breaks_no_rule_either(phone: Phone, desk: Ready, tmp_path: Path) -> None:
    picture = tmp_path / "IMG_1.jpg"
    picture.write_bytes(encoded(halves(400, 300)))
    phone.open(f"{desk.address}day?car={CAR}")
    phone.tap("#subsystem .chip", "Brakes")
    phone.tap("#recent button")
    phone.tap("#work .chip", "upgrade")
    phone.photograph("#camera", picture)
    phone.run("document.querySelector('[data-add=parts]').closest('details').open = true")
    phone.tap("[data-add=parts]")
    phone.run("document.querySelector('[data-add=measured]').closest('details').open = true")
    phone.tap("[data-add=measured]")
    phone.run("document.querySelector('#date').value = '2099-01-01'")
    phone.tap("#save")
    phone.until("document.querySelector('#day .wrong')")
    for dark in (False, True):
        phone.held(dark=dark)
        assert [] == violations(phone.browser)


def test_keyboard__reaches_everything_in_the_order_of_the_page(phone: Phone, desk: Ready) -> None:
    phone.open(f"{desk.address}day?car={CAR}")
    order = phone.run("""
      const asked = "a[href], button, select, textarea, summary, input";
      return [...document.querySelectorAll(asked)].filter((node) => node.checkVisibility() && node.tabIndex >= 0 && !node.disabled)
        .map((node) => node.tabIndex);
    """)  # noqa: E501 - as it runs in the page
    assert {0} == {*order}
    tops = phone.run("""
      const asked = ["#car", "#subsystem", "#hours", "#body", "#pick", "#snags input",
        "#camera", "#parts summary", "#save"];
      return asked.map((one) => document.querySelector(one)).map((node, n, all) => n === 0 ||
          Boolean(all[n - 1].compareDocumentPosition(node) & Node.DOCUMENT_POSITION_FOLLOWING));
    """)
    assert [True] * 9 == tops


def test_component__is_picked_by_keyboard_alone(phone: Phone, desk: Ready) -> None:
    phone.open(f"{desk.address}day?car={CAR}")
    field = phone.one("#pick")
    field.send_keys("lay")
    phone.until("document.querySelectorAll('#found [data-key]').length")
    field.send_keys("\ue015\ue007")  # arrow down, Enter
    assert "gearbox/laygear" == phone.until("document.querySelector('#work .card')?.dataset.name")


def test_part__is_received_with_a_picture_in_three_taps(
    phone: Phone, desk: Ready, root: Path, tmp_path: Path
) -> None:
    picture = tmp_path / "IMG_1.jpg"
    picture.write_bytes(encoded(halves(400, 300)))
    phone.open(f"{desk.address}goods-in")
    phone.tap(".awaited summary", "Master cylinder")
    phone.photograph(".awaited details[open] input[type=file]", picture)
    phone.until("document.querySelector('.awaited .shot')")
    phone.tap(".awaited details[open] [data-outcome=accepted]")
    assert "In the book: Master cylinder" in phone.in_book()
    assert 3 == phone.taps
    text = written(root, "goods-in")
    assert f"  master-cylinder-second: {{received: {TODAY}, outcome: accepted}}" in text
    assert "file: master-cylinder.jpg" in text


def test_part__that_is_rejected_says_why_also_when_the_desk_is_out_of_reach(
    phone: Phone, desk: Ready, root: Path
) -> None:
    phone.open(f"{desk.address}goods-in")
    phone.tap(".awaited summary", "Mounting plate")
    phone.tap(".awaited details[open] [data-why]")
    phone.type("holes drilled 4 mm low")
    with phone.out_of_reach():
        phone.tap(".awaited details[open] [data-outcome=rejected]")
        phone.until(
            "document.querySelector('#outbox').textContent.includes('the desk does not answer')"
        )
    phone.open(f"{desk.address}goods-in")
    phone.in_book()
    assert re.search(r"outcome: rejected,\s+why: holes drilled 4 mm low", _all(root))


def _all(root: Path) -> str:
    files = (root / OTHER / "sheets" / TODAY[:4]).glob(f"{TODAY}-goods-in*.md")
    return "".join(file.read_text("utf-8") for file in files)


def test_snag__is_raised_in_two_taps(phone: Phone, desk: Ready, root: Path) -> None:
    phone.open(f"{desk.address}snag")
    phone.tap("#text")
    phone.type("Rear wing piping proud of the seam")
    phone.tap("#snag .save")
    assert "In the book: Rear wing piping proud of the seam." in phone.in_book()
    assert 2 == phone.taps
    assert "rear-wing-piping-proud: {raise: Rear wing piping proud of the seam}" in written(
        root, "snags"
    )


def test_snag__that_is_half_typed_is_there_when_the_page_is_opened_again(
    phone: Phone, desk: Ready
) -> None:
    phone.open(f"{desk.address}snag")
    phone.tap("#text")
    phone.type("Half a sen")
    phone.browser.get("about:blank")
    phone.open(f"{desk.address}snag")
    assert "Half a sen" == phone.run("return document.querySelector('#text').value")

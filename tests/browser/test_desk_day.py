"""The day, written on a phone: few taps, and nothing is ever lost on its way into the book."""

import re
import shutil
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from selenium import webdriver

from tests.browser.driving import a_browser, complaints
from tests.browser.phoning import Phone
from tests.desk.ready import Ready, a_ready_desk
from tests.pictures.images import encoded, halves
from tests.published import CAR, CONTENT

TODAY = date.today().isoformat()
OPENED = "2024-01-11-gearbox-measured"
LATE = "2025-05"
SPLIT = "Split the casing without trouble. Every stud came out whole."


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """The demonstration, with a few sheets of its larger car: a small book is soon read again."""
    folder = tmp_path / "content"
    shutil.copytree(CONTENT, folder, ignore=shutil.ignore_patterns("photos", "papers", "seals"))
    for sheet in (folder / CAR / "sheets").rglob("*.md"):
        if sheet.stem != OPENED and sheet.stem < LATE:
            sheet.unlink()
    return folder


@pytest.fixture
def desk(root: Path, tmp_path: Path) -> Iterator[Ready]:
    with a_ready_desk(root, tmp_path / "state") as running:
        yield running


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Iterator[webdriver.Chrome]:
    with a_browser(tmp_path_factory.mktemp("profile")) as browser:
        browser.set_script_timeout(60)
        yield browser


@pytest.fixture
def phone(opened: webdriver.Chrome, desk: Ready) -> Phone:
    """A phone that has the day page open. Each desk has another port, and so nothing kept of before."""
    held = Phone(opened)
    held.open(f"{desk.address}day?car={CAR}")
    complaints(opened, desk.address)
    return held


@pytest.fixture
def pictures(tmp_path: Path) -> tuple[Path, Path]:
    files = (tmp_path / "IMG_1.jpg", tmp_path / "IMG_2.jpg")
    for n, file in enumerate(files):
        file.write_bytes(encoded(halves(400, 300 + n)))
    return files


def written(root: Path, car: str = CAR) -> dict[str, str]:
    """The sheets of today by name."""
    files = sorted((root / car / "sheets" / TODAY[:4]).glob(f"{TODAY}*.md"))
    return {file.stem: file.read_text("utf-8") for file in files}


def begin(phone: Phone) -> None:
    """Subsystem, hours and two sentences."""
    phone.tap("#subsystem [data-more]")
    phone.tap("#subsystem .chip", "Gearbox")
    for step in ("1", "1", "1", "0.5"):
        phone.tap(f"[data-step='{step}']")
    phone.tap("#body")
    phone.type(SPLIT)


def test_typical_day__takes_fifteen_taps_besides_typing(
    phone: Phone, root: Path, pictures: tuple[Path, Path]
) -> None:
    begin(phone)
    phone.tap("#pick")
    phone.type("lay")
    phone.tap("#found li", "Laygear")
    phone.tap("#work .chip", "pattern")
    phone.tap("#snags [data-field=raise]")
    phone.type("Old weld beside the filler plug")
    phone.photograph("#camera", *pictures)
    phone.until("document.querySelectorAll('#photos .shot').length === 2")
    phone.tap("#photos .shot:first-child .chip", "stripped")
    phone.tap("#photos .shot:last-child .chip", "stripped")
    phone.tap("#save")
    assert f"{TODAY}-gearbox" in phone.in_book()
    assert phone.taps <= 15
    assert {
        f"{TODAY}-gearbox": f"""\
---
date: {TODAY}
subsystem: gearbox
hours: {{MT: 3.5}}
work:
  gearbox/laygear: {{now: pattern}}
snags:
  old-weld-beside-the: {{raise: Old weld beside the filler plug}}
photos:
  - {{file: laygear-stripped.jpg, of: gearbox/laygear, stage: stripped}}
  - {{file: laygear-stripped-2.jpg, of: gearbox/laygear, stage: stripped}}
---
{SPLIT}
"""
    } == written(root)
    lying = {file.read_bytes() for file in (root / CAR / "photos" / TODAY).iterdir()}
    assert {file.read_bytes() for file in pictures} == lying
    assert [] == complaints(phone.browser, "http:", "blob:")


def test_connection_lost_while_saving__the_day_goes_into_the_book_by_itself(
    phone: Phone, root: Path, pictures: tuple[Path, Path]
) -> None:
    begin(phone)
    with phone.out_of_reach():
        phone.photograph("#camera", pictures[0])
        phone.until("document.querySelectorAll('#photos .shot').length === 1")
        phone.tap("#save")
        phone.until(
            "document.querySelector('#kept').textContent.startsWith('Waiting for a picture')"
        )
        assert {} == written(root)
    phone.in_book()
    (text,) = written(root).values()
    assert "IMG_1.jpg" not in text
    assert "  - img-1.jpg" in text
    assert text.endswith(f"{SPLIT}\n")


def test_tab_that_was_closed__opens_with_everything_that_was_typed(
    phone: Phone, desk: Ready, root: Path, pictures: tuple[Path, Path]
) -> None:
    with phone.out_of_reach():
        begin(phone)
        phone.photograph("#camera", *pictures)
        phone.until("document.querySelectorAll('#photos .shot').length === 2")
        phone.tap("#photos .shot:last-child .chip", "evidence")
        phone.until("document.querySelector('#kept').textContent.includes('not in the book yet')")
    phone.browser.get("about:blank")
    phone.open(f"{desk.address}day")
    phone.until("document.querySelectorAll('#photos .shot').length === 2")
    assert "On this phone, not in the book yet." in phone.kept
    assert SPLIT == phone.run("return document.querySelector('#body').value")
    assert "3.5" == phone.run("return document.querySelector('.hours-row input').value")
    phone.tap("#save")
    phone.in_book()
    (text,) = written(root).values()
    assert "  - {file: img-2.jpg, stage: evidence}" in text
    assert "hours: {MT: 3.5}" in text


def test_desk_that_was_started_again__gets_what_was_typed_meanwhile(
    phone: Phone, desk: Ready, root: Path, tmp_path: Path
) -> None:
    port = re.search(r":(\d+)/", desk.address)
    assert port is not None
    begin(phone)
    desk.end()
    phone.tap("#save")
    phone.until(
        "document.querySelector('#kept').textContent.startsWith('The desk does not answer')"
    )
    with a_ready_desk(root, tmp_path / "state", "--port", port.group(1)):
        phone.in_book()
    (text,) = written(root).values()
    assert text.endswith(f"{SPLIT}\n")


def test_answer_that_never_came__is_not_written_twice(phone: Phone, root: Path) -> None:
    begin(phone)
    phone.run("""
      const real = window.fetch;
      window.fetch = async (...given) => {
        const answer = await real(...given);
        if (!String(given[0]).endsWith("/save")) return answer;
        window.fetch = real;
        throw new TypeError("the connection broke off");
      };
    """)
    phone.tap("#save")
    phone.in_book()
    assert [f"{TODAY}-gearbox"] == [*written(root)]


def test_full_disk__is_said_and_the_text_stays(phone: Phone, root: Path) -> None:
    begin(phone)
    phone.run("""
      const real = window.fetch;
      const said = "The book does not take it: the disk is full. It is kept on this device.";
      const full = { status: 507, headers: { "content-type": "application/json" } };
      window.fetch = async (...given) =>
        String(given[0]).endsWith("/save") ? new Response(JSON.stringify({ said }), full) : real(...given);
      window.roomAgain = () => (window.fetch = real);
    """)
    phone.tap("#save")
    phone.until("document.querySelector('#told .wrong')")
    assert "the disk is full" in phone.told
    assert SPLIT == phone.run("return document.querySelector('#body').value")
    assert SPLIT == phone.run("return JSON.parse(localStorage['journal:day']).form.body")
    phone.run("window.roomAgain()")
    phone.tap("#save")
    phone.in_book()
    assert 1 == len(written(root))


def test_bad_input__is_said_beside_its_field_and_the_rest_is_untouched(
    phone: Phone, root: Path
) -> None:
    begin(phone)
    phone.run("document.querySelector('.hours-row input').value = ''")
    phone.tap(".hours-row input")
    phone.type("3,5")
    phone.run("document.querySelector('#date').value = '2099-01-01'")
    phone.tap("#save")
    phone.until("document.querySelectorAll('.wrong').length > 1")
    beside = {
        field: phone.run(
            "const field = document.querySelector(arguments[0]);"
            "return [document.getElementById(field.getAttribute('aria-describedby'))?.textContent,"
            " field.getAttribute('aria-invalid')]", field,
        )
        for field in (".hours-row input", "#date")
    }  # fmt: skip
    assert {
        ".hours-row input": [
            'Hours of MT must be a number with a decimal point, found "3,5"; write 3.5.', "true"
        ],
        "#date": [f"2099-01-01 lies in the future; at the desk it is {TODAY}.", "true"],
    } == beside  # fmt: skip
    assert "Not in the book: 2 things are to be put right first." in phone.kept
    assert SPLIT == phone.run("return document.querySelector('#body').value")
    assert {} == written(root)


def test_picture_that_cannot_be_read__is_said_on_it(
    phone: Phone, root: Path, tmp_path: Path
) -> None:
    begin(phone)
    broken = tmp_path / "broken.jpg"
    broken.write_bytes(b"no picture at all")
    phone.photograph("#camera", broken)
    phone.until("document.querySelector('#photos .where.wrong')")
    assert "The picture cannot be shown" in phone.one("#photos .where").text
    phone.tap("#save")
    phone.until("document.querySelector('#told .wrong')")
    phone.tap("#photos .away")
    phone.tap("#save")
    phone.in_book()
    (text,) = written(root).values()
    assert "photos:" not in text


def test_typing_on_while_it_is_saved__is_left_to_be_saved(phone: Phone, root: Path) -> None:
    begin(phone)
    phone.run("""
      const real = window.fetch;
      window.fetch = async (...given) => {
        const answer = await real(...given);
        if (String(given[0]).endsWith("/save")) await new Promise((done) => (window.goOn = done));
        return answer;
      };
      window.restore = () => (window.fetch = real);
    """)
    phone.tap("#save")
    phone.until("'goOn' in window")
    phone.tap("#body")
    phone.type(" One is short.")
    phone.run("window.restore(); window.goOn()")
    phone.until("document.querySelector('#kept').textContent.startsWith('On this phone')")
    phone.tap("#save")
    phone.in_book()
    (text,) = written(root).values()
    assert text.count("One is short.") == text.count(SPLIT[:-1]) == 1


def test_sheet_that_was_opened__is_changed_in_its_field_alone(
    phone: Phone, desk: Ready, root: Path
) -> None:
    file = root / CAR / f"sheets/2024/{OPENED}.md"
    before = file.read_text("utf-8")
    phone.open(f"{desk.address}day?car={CAR}&sheet={file.stem}")
    assert "In the book as you see it." == phone.kept
    phone.tap("#work .unfold")
    phone.tap("#work .chip", "pattern")
    phone.tap("#save")
    phone.in_book()
    line = "  gearbox/mainshaft: {did: [cleaned, measured],"
    (old,) = [one for one in before.split("\n") if one.startswith(line)]
    new = old.replace("verdict: reuse", "verdict: reuse, now: pattern")
    assert before.replace(old, new) == file.read_text("utf-8")


def test_sheet_that_was_changed_meanwhile__shows_both_texts_and_takes_both_changes(
    phone: Phone, desk: Ready, root: Path
) -> None:
    file = root / CAR / f"sheets/2024/{OPENED}.md"
    before = file.read_text("utf-8")
    phone.open(f"{desk.address}day?car={CAR}&sheet={file.stem}")
    theirs = before.replace("hours: {MT: 4}", "hours: {MT: 5}")
    file.write_text(theirs)
    phone.run("document.querySelector('#heading').open = true")
    phone.tap("#title")
    phone.type("Anew: ")
    phone.tap("#save")
    phone.until("document.querySelector('.conflict')")
    ours, other = phone.run(
        "return [...document.querySelectorAll('.both pre')].map((pre) => pre.textContent)"
    )
    assert ("hours: {MT: 4}" in ours, "hours: {MT: 5}" in other) == (True, True)
    assert theirs == file.read_text("utf-8")
    phone.tap(".conflict button", "Put my changes")
    phone.until("document.querySelector('#told .notice')")
    phone.tap("#save")
    phone.in_book()
    saved = file.read_text("utf-8")
    assert "hours: {MT: 5}" in saved
    assert "Anew: " in saved


def test_everything_that_can_be_tapped__is_large_enough_for_a_thumb(phone: Phone) -> None:
    begin(phone)
    phone.tap("#pick")
    phone.type("lay")
    phone.tap("#found li", "Laygear")
    phone.run("for (const fold of document.querySelectorAll('details')) fold.open = true")
    small = phone.run("""
      const asked = "button, select, textarea, summary, .chip, .camera, input:not([type=file]), .places a";
      return [...document.querySelectorAll(asked)].filter((node) => node.checkVisibility() && !node.closest(".chip > *, .tick-row"))
        .map((node) => [node.outerHTML.slice(0, 90), node.getBoundingClientRect()])
        .filter(([, box]) => box.height < 44 || box.width < 44).map(([name, box]) => `${name} ${box.width} x ${box.height}`);
    """)  # noqa: E501 - as it runs in the page
    assert [] == small


def test_snags_and_parts__of_the_subsystem_are_ticked_off(
    phone: Phone, desk: Ready, root: Path
) -> None:
    other = "pellmarsh-lapwing"
    phone.open(f"{desk.address}day?car={other}")
    phone.tap("#subsystem .chip", "Brakes")
    phone.tap("#open-snags label", "Brake pipes")
    phone.tap("#open-snags [data-field=clear]")
    phone.type("copper-nickel, he says")
    phone.run("document.querySelector('#parts').open = true")
    phone.tap("#waiting label", "Master cylinder")
    phone.tap("#waiting .chip", "rejected")
    phone.tap("#waiting [data-field=why]")
    phone.type("bore out of round")
    # Another subsystem offers other snags; what is ticked stays.
    phone.tap("#subsystem .chip", "Chassis")
    phone.tap("#save")
    phone.in_book()
    (text,) = written(root, other).values()
    assert f"{{received: {TODAY}, outcome: rejected, why: bore out of round}}" in text
    assert '  pipe-choice: {clear: "copper-nickel, he says"}' in text

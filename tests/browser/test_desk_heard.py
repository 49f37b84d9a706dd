"""A day that is said instead of typed: heard at the desk, confirmed line by line, never lost on the way."""

import json
import re
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from selenium import webdriver
from selenium.webdriver.common.by import By

from journal.outputs.sheets.draft import accept
from journal.outputs.sheets.form import told_of
from journal.outputs.sheets.formline import beside, piece_of, with_lines
from journal.outputs.sheets.print import front_told
from journal.records.sheet import SheetFront
from tests.browser.driving import a_browser, ask, complaints, press
from tests.browser.phoning import Phone
from tests.browser.rules import violations
from tests.desk.ready import Ready, a_ready_desk
from tests.pictures.images import encoded, halves
from tests.tern import SHEET, put_content, put_file, sheet_text

TODAY = date.today().isoformat()
SAID = (
    "right so I took the laygear out. I had three and a half hours on it.\n\n"
    "I fitted the brake pipes. The union still weeps."
)
CAPTIONS = """\
WEBVTT

00:12.000 --> 00:15.000
I took the laygear out.

01:05.000 --> 01:08.000
I took the front bearing off.
"""
WAITS = """\
---
date: 2024-03-06
title: Laygear out
subsystem: gearbox
draft:
  - {words: took the laygear out, at: "0:12", work: {gearbox/laygear: {did: removed}}}
  - {words: it weeps, at: "0:40", ask: "Laygear: where?"}
  - words: the nuts again
    rechecks: {nuts: {after: 500 miles}}
recording: talk.mp4
---
::: workshop
I took the laygear out. Then the nuts again.

It weeps.
:::
"""
NEXT = "2024-03-06-laygear-out"


@pytest.fixture
def root(tmp_path: Path) -> Path:
    folder = put_content(tmp_path / "content", **{SHEET: sheet_text("hours: {MT: 3.5}")})
    put_file(folder, "tern/recordings/talk.mp4", b"film")
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


def go(phone: Phone, address: str) -> None:
    """Open a page of the day, with all that it asks for later, where nothing glides."""
    calm = {"features": [{"name": "prefers-reduced-motion", "value": "reduce"}]}
    phone.browser.execute_cdp_cmd("Emulation.setEmulatedMedia", calm)
    phone.open(address)
    phone.until("'saying' in document.documentElement.dataset")


def say(phone: Phone, words: str = SAID, hand: str = "MT") -> None:
    """Dictate, and have it heard."""
    phone.tap("#say")
    phone.tap("#said-text")
    phone.type(words)
    phone.run("document.querySelector('#said-hand').value = arguments[0]", hand)
    phone.tap("#hear")


def heard(phone: Phone) -> int:
    """How many lines were heard."""
    return int(phone.until("document.querySelectorAll('.heard-line').length"))


def line(phone: Phone, words: str, way: str) -> None:
    """Tap a way of the line that says these words."""
    card = phone.one(".heard-line", words)
    phone.run("arguments[0].dataset.mine = ''", card)
    phone.tap("[data-mine] button", way)
    phone.run("document.querySelector('[data-mine]')?.removeAttribute('data-mine')")


def count(phone: Phone) -> str:
    return str(phone.run("return document.querySelector('.heard-count').textContent"))


def written(root: Path) -> dict[str, str]:
    files = sorted((root / "tern/sheets").rglob("*.md"))
    return {f.stem: f.read_text("utf-8") for f in files if f.stem != "2024-03-05-gearbox"}


def focus(phone: Phone) -> str:
    """What has the focus: its words, or where it is."""
    return str(phone.run("const e = document.activeElement; return e.textContent.trim() || e.id"))


def test_talk__dictated_on_a_phone_is_a_day_in_the_book(phone: Phone, root: Path) -> None:
    say(phone)
    total = heard(phone)
    assert f"{total} of {total} left." == count(phone)
    line(phone, "took the laygear out", "Accept")
    assert f"Accepted. {total - 1} of {total} left." == count(phone)
    line(phone, "three and a half hours", "Accept")
    line(phone, "who checked it", "Answered")
    line(phone, "union still weeps", "Change")
    assert "The union still weeps" == phone.run("return document.activeElement.value")
    phone.type("!")
    phone.tap("#left")
    line(phone, "fitted the brake pipes", "Drop")
    assert "Dropped. All are confirmed: save it." == count(phone)
    phone.tap(".readers .chip", "the owner too")
    phone.tap("#save")
    phone.in_book()
    assert {
        f"{TODAY}-laygear-removed-pipes-fitted": f"""\
---
date: {TODAY}
title: Laygear removed, pipes fitted
subsystem: [brakes, gearbox]
hours: {{MT: 3.5}}
work:
  gearbox/laygear: {{did: removed}}
snags:
  union-still-weeps: {{raise: The union still weeps!, on: brakes/pipes}}
---
::: owner
Right so I took the laygear out. I had three and a half hours on it.

I fitted the brake pipes. The union still weeps.
:::
"""
    } == written(root)
    assert [] == complaints(phone.browser, "http:", "blob:")


def test_lines__that_are_sure_are_accepted_at_once_and_taken_back_at_once(phone: Phone) -> None:
    say(phone)
    total = heard(phone)
    asked = phone.run("return document.querySelectorAll('.heard-line.asking').length")
    assert asked > 0
    phone.tap("#said button", "that are sure")
    assert f"{total - asked} lines accepted. {asked} of {total} left." == count(phone)
    assert "3.5" == phone.run("return document.querySelector('.hours-row input').value")
    assert 2 == phone.run("return document.querySelectorAll('#work .card').length")
    phone.tap("#said button", "Undo")
    assert f"Taken back. {total} of {total} left." == count(phone)
    assert "" == phone.run("return document.querySelector('.hours-row input').value")
    assert 0 == phone.run("return document.querySelectorAll('#work .card').length")


def test_line__that_was_dropped_comes_back_to_its_place_and_what_was_typed_since_stays(
    phone: Phone,
) -> None:
    say(phone)
    heard(phone)
    order = "return [...document.querySelectorAll('.heard-line q')].map((q) => q.textContent)"
    before = phone.run(order)
    line(phone, "three and a half hours", "Drop")
    phone.tap("#body")
    phone.type("Rained all day.")
    phone.tap("#left")
    phone.tap("#said button", "Undo")
    assert before == phone.run(order)
    assert "Rained all day." == phone.run("return document.querySelector('#body').value")


def test_line__shows_its_words_within_what_was_said(phone: Phone) -> None:
    say(phone)
    heard(phone)
    phone.tap(".heard-line .words", "union")
    around = "return document.querySelector('.around')?.textContent"
    assert "I fitted the brake pipes. The union still weeps." == phone.run(around)
    assert "The union still weeps" == phone.run(
        "return document.querySelector('.around mark').textContent"
    )
    phone.tap(".heard-line .words", "union")
    assert None is phone.run(around)
    phone.tap("#said summary")
    waits = (
        "return [...document.querySelectorAll('.piece.waits')].map((piece) => piece.textContent)"
    )
    assert "took the laygear out" in phone.run(waits)
    phone.tap(".piece", "laygear")
    assert "laygear" in focus(phone)
    line(phone, "took the laygear out", "Drop")
    assert "took the laygear out" not in phone.run(waits)


def test_lines__stand_in_groups_by_paragraph_with_their_time(phone: Phone, tmp_path: Path) -> None:
    file = tmp_path / "talk.vtt"
    file.write_text(CAPTIONS)
    phone.tap("#say")
    phone.photograph("#said-file", file)
    phone.until("document.querySelector('#said-text').value.startsWith('WEBVTT')")
    assert "talk.mp4" == phone.run("return document.querySelector('#said-recording').value")
    phone.tap("#hear")
    heard(phone)
    assert ["Paragraph 1, from 0:12"] == phone.run(
        "return [...document.querySelectorAll('.heard-group > .label')].map((one) => one.textContent)"
    )
    assert ["0:12", "1:05"] == phone.run(
        "return [...document.querySelectorAll('.heard-line .at')].map((at) => at.textContent)"
    )
    assert phone.run("return document.querySelector('.at').href").endswith(
        "/tern/recordings/talk.mp4#t=12"
    )


def test_moment__of_a_line_that_is_accepted_stands_in_the_sheet(
    phone: Phone, root: Path, tmp_path: Path
) -> None:
    file = tmp_path / "talk.vtt"
    file.write_text(CAPTIONS)
    phone.tap("#say")
    phone.photograph("#said-file", file)
    phone.until("document.querySelector('#said-text').value.startsWith('WEBVTT')")
    phone.tap("#hear")
    heard(phone)
    line(phone, "front bearing", "Accept")
    phone.tap("#save")
    phone.in_book()
    (text,) = written(root).values()
    assert (
        'recording:\n  - talk.mp4\n  - {file: talk.mp4, at: "1:05", of: gearbox/front-bearing, words: '
    ) in text
    assert "draft:\n  - words: I took the laygear out" in text or "draft:\n  - {words: " in text
    phone.tap("#told a", "not confirmed")
    phone.until("document.querySelectorAll('.heard-line').length === 1")


def test_text__is_kept_from_the_first_key_and_there_when_the_page_is_opened_again(
    phone: Phone, desk: Ready
) -> None:
    phone.tap("#say")
    phone.tap("#said-text")
    with phone.out_of_reach():
        phone.type("took")
        phone.type(" the laygear out")
        assert "took the laygear out" == phone.run(
            "return JSON.parse(localStorage['journal:day']).said.text"
        )
        assert "On this phone, not in the book yet." == phone.kept
    phone.browser.get("about:blank")
    go(phone, f"{desk.address}day")
    assert "took the laygear out" == phone.one("#said-text").get_attribute("value")
    phone.tap("#hear")
    assert 1 == heard(phone)


def test_desk_that_is_away__is_told_calmly_and_hears_it_when_it_is_back(
    phone: Phone, desk: Ready, root: Path, tmp_path: Path
) -> None:
    port = re.search(r":(\d+)/", desk.address)
    assert port is not None
    desk.end()
    say(phone)
    phone.until("document.querySelector('#said-told').textContent.startsWith('The desk does not')")
    assert (
        "The desk does not answer. What you said is kept here, and is heard by itself when the desk is back."
    ) == phone.run("return document.querySelector('#said-told').textContent")
    with a_ready_desk(root, tmp_path / "state", "--port", port.group(1)) as again:
        total = heard(phone)
        line(phone, "took the laygear out", "Accept")
        again.end()
        line(phone, "three and a half hours", "Accept")
        phone.tap("#save")
        phone.until(
            "document.querySelector('#kept').textContent.startsWith('The desk does not answer')"
        )
        assert SAID[-20:] in phone.run(
            "return JSON.parse(localStorage['journal:day']).form.talk.text"
        )
    with a_ready_desk(root, tmp_path / "state", "--port", port.group(1)):
        phone.in_book()
    (text,) = written(root).values()
    assert "hours: {MT: 3.5}" in text
    assert "gearbox/laygear: {did: removed}" in text
    assert total - 2 == text.count("- words:") + text.count("- {words:")


@pytest.mark.parametrize(
    ("name", "data", "words"),
    [
        ("long.txt", b"so " * 3_500_000, "This is more than the desk hears at once"),
        ("film.mp4", b"\0" * 5_000_000, "This is no text, and words are not read out of a recording."),
        ("latin.txt", "fini à midi".encode("latin-1"), "The file is not written in UTF-8"),
        ("bytes.txt", b"a\xff\0", "The file holds bytes that are not text"),
    ],
)  # fmt: skip
def test_file__that_cannot_be_heard_is_refused_in_a_sentence_and_what_was_said_stays(
    phone: Phone, tmp_path: Path, name: str, data: bytes, words: str
) -> None:
    file = tmp_path / name
    file.write_bytes(data)
    phone.tap("#say")
    phone.tap("#said-text")
    phone.type(SAID)
    phone.photograph("#said-file", file)
    phone.until("document.querySelector('#said-told.wrong')?.textContent.length > 20")
    assert phone.run("return document.querySelector('#said-told').textContent").startswith(words)
    assert SAID == phone.one("#said-text").get_attribute("value")


def test_nothing_said__is_told_so(phone: Phone) -> None:
    phone.tap("#say")
    phone.tap("#hear")
    assert "Nothing was said yet" in phone.one("#said-told").text


def test_another_language__is_kept_as_the_text_of_the_day(phone: Phone, root: Path) -> None:
    say(
        phone,
        "ich habe heute die Bremse ausgebaut und dann war das Rad nicht mehr dran und ich bin müde",
    )
    phone.until("!document.querySelector('#said').hidden")
    assert "only English is understood" in phone.one("#said").text
    assert "Nothing was heard in it that could be proposed." in phone.one("#said").text
    phone.tap("#subsystem .chip", "Gearbox")
    phone.tap("#save")
    phone.in_book()
    (text,) = written(root).values()
    assert "::: workshop\nIch habe heute" in text


def test_day__is_not_saved_over_what_was_said_and_not_heard(phone: Phone, root: Path) -> None:
    phone.tap("#say")
    phone.tap("#said-text")
    phone.type("took the laygear out")
    phone.tap("#save")
    assert "What you said is not heard yet." in phone.one("#said-told").text
    assert {} == written(root)


def test_second_talk__stands_behind_the_first(phone: Phone) -> None:
    say(phone, "I took the laygear out.")
    assert 1 == heard(phone)
    say(phone, "And the front bearing is off. I fitted the brake pipes.")
    phone.until("document.querySelectorAll('.heard-line').length > 2")
    told = "return document.querySelector('.talk-text').textContent"
    assert (
        "I took the laygear out.And the front bearing is off. I fitted the brake pipes."
        == phone.run(told)
    )
    phone.tap("#said summary")
    waits = (
        "return [...document.querySelectorAll('.piece.waits')].map((piece) => piece.textContent)"
    )
    assert "fitted the brake pipes" in " ".join(phone.run(waits))
    assert "took the laygear out" in " ".join(phone.run(waits))


def test_lines_of_a_sheet__are_gone_on_with_on_another_device(waiting: Phone, root: Path) -> None:
    assert "3 of 3 left." == count(waiting)
    assert "3 left" == waiting.one("#left").text
    line(waiting, "took the laygear out", "Accept")
    line(waiting, "the nuts again", "Accept")
    assert "Taken over as well, in no card below: the nuts again" in waiting.one(".besides").text
    line(waiting, "it weeps", "Change")
    assert "work" == waiting.run("return document.activeElement.closest('section').id")
    waiting.tap("#save")
    waiting.in_book()
    text = written(root)[NEXT]
    assert "  gearbox/laygear: {did: removed}\n" in text
    assert "  nuts: {after: 500 mile}\n" in text
    assert '  - {words: it weeps, at: "0:40", ask: "Laygear: where?"}\n' in text
    assert text.endswith(WAITS[WAITS.index("::: workshop") :])
    line(waiting, "it weeps", "Answered")
    waiting.tap(".readers .chip", "everyone")
    waiting.tap("#save")
    waiting.until("document.querySelector('#kept').dataset.where === 'book'")
    text = written(root)[NEXT]
    assert "draft:" not in text
    assert text.endswith("---\nI took the laygear out. Then the nuts again.\n\nIt weeps.\n")


def test_talk__is_taken_out_whole_and_brought_back(waiting: Phone) -> None:
    waiting.tap("#said button", "Take out all")
    kept = "return JSON.parse(localStorage[arguments[0]]).form"
    slot = f"journal:sheet:tern/{NEXT}"
    assert (None, []) == (waiting.run(kept, slot)["talk"], waiting.run(kept, slot)["draft"])
    waiting.tap("#said button", "Undo")
    assert 3 == heard(waiting)
    assert "In the book as you see it." == waiting.kept


def test_day__is_said_confirmed_and_saved_by_keyboard_alone(
    opened: webdriver.Chrome, desk: Ready, root: Path
) -> None:
    """WCAG 2.2: 2.1.1 Keyboard, 2.1.4 Character Key Shortcuts (only where the focus is), 2.4.3, 2.4.7."""
    held = Phone(opened)
    held.held(1280, 900)
    go(held, f"{desk.address}day")

    def on_to(asked: Callable[[], bool]) -> None:
        for _ in range(60):
            if asked():
                return
            press(opened, "Tab")
        pytest.fail(f"never comes to it; the focus is on {focus(held)}")

    on_to(lambda: focus(held) == "Say it instead")
    press(opened, "Enter")
    assert "said-text" == focus(held)
    held.type(SAID)
    on_to(lambda: held.run("return document.activeElement.id") == "said-hand")
    press(opened, "ArrowDown")
    assert "MT" == held.run("return document.activeElement.value")
    on_to(lambda: focus(held) == "Hear it")
    press(opened, "Enter")
    total = heard(held)
    held.until("document.activeElement.className.includes('heard-line')")
    assert "took the laygear out" in focus(held)
    assert "took the laygear out" in held.run(
        "return document.querySelector('.piece.now').textContent"
    )
    outline = held.run("return getComputedStyle(document.activeElement).outlineStyle")
    assert "solid" == outline
    press(opened, "a")
    assert "hours" in focus(held)
    press(opened, "ArrowDown", "ArrowUp", "d")
    assert f"Dropped. {total - 2} of {total} left." == count(held)
    press(opened, "u")
    assert "hours" in focus(held)
    press(opened, "c")
    held.until("document.activeElement.closest('.hours-row') !== null")
    press(opened, "Escape")
    held.until("document.activeElement.className.includes('heard-line')")
    press(opened, "End")
    held.until("document.activeElement.textContent.includes('weeps')")
    press(opened, "Tab")
    assert "Accept" == focus(held)
    press(opened, "Enter")
    on_to(lambda: focus(held) == "Save the day")
    press(opened, "Enter")
    held.in_book()
    (text,) = written(root).values()
    assert "hours: {MT: 3.5}" in text
    assert "  gearbox/laygear: {did: removed}\n" in text
    assert "raise: The union still weeps" in text


def test_letters__do_nothing_where_something_is_typed(phone: Phone) -> None:
    say(phone)
    total = heard(phone)
    phone.tap("#body")
    phone.type("a day")
    press(phone.browser, "a", "d")
    assert total == heard(phone)
    assert "a dayad" == phone.run("return document.querySelector('#body').value")


def test_confirming__is_asked_for_when_there_is_something_to_confirm(phone: Phone) -> None:
    asked = (
        "return performance.getEntriesByType('resource').map((one) => one.name)"
        ".filter((name) => /confirming|taking/.test(name)).length"
    )
    assert 0 == phone.run(asked)
    say(phone)
    heard(phone)
    assert 3 == phone.run(asked)


@pytest.mark.parametrize(
    ("width", "dark"), [(390, False), (390, True), (1280, False), (1280, True)]
)
def test_page__keeps_the_rules_while_lines_are_confirmed(
    waiting: Phone, width: int, dark: bool
) -> None:
    waiting.held(width, 844, dark=dark)
    waiting.run("document.querySelector('#say').click()")
    assert [] == violations(waiting.browser)
    assert [] == ask(waiting.browser, "colour", "contrast")["failures"]
    assert [] == ask(waiting.browser, "targets")["failures"]
    assert waiting.run("return document.documentElement.scrollWidth <= innerWidth")


def test_everything_that_can_be_tapped__is_large_enough_for_a_thumb(waiting: Phone) -> None:
    line(waiting, "the nuts again", "Accept")
    waiting.run("document.querySelector('#say').click()")
    small = waiting.run("""
      const asked = "button, select, textarea, summary, .chip, .camera";
      return [...document.querySelectorAll("#saying, #said, .foot-bar, .title-row")].flatMap((part) => [...part.querySelectorAll(asked)])
        .filter((node) => node.checkVisibility()).map((node) => [node.outerHTML.slice(0, 90), node.getBoundingClientRect()])
        .filter(([, box]) => box.height < 44 || box.width < 44).map(([name, box]) => `${name} ${box.width} x ${box.height}`);
    """)  # noqa: E501 - as it runs in the page
    assert [] == small


def test_words__that_were_said_are_text_and_never_markup(phone: Phone) -> None:
    say(phone, "I took the <img src=x onerror=alert(1)> laygear out. *Fitted* the brake pipes.")
    heard(phone)
    assert 0 == phone.run("return document.querySelectorAll('#said img').length")
    assert "<img src=x onerror=alert(1)>" in phone.run(
        "return document.querySelector('.talk-text').textContent"
    )


_FORM: dict[str, Any] = {
    "date": TODAY, "title": "", "subsystem": ["gearbox"], "hours": {}, "body": "", "talk": None, "work": [],
    "parts": [], "measured": [], "snags": [], "photos": [], "recording": [], "draft": [], "beside": [],
}  # fmt: skip


LAYGEAR, PIPES = "gearbox/laygear", "brakes/pipes"


@pytest.mark.parametrize(
    "lines",
    [
        [{"work": {LAYGEAR: {"did": "removed"}}}, {"work": {LAYGEAR: {"did": ["cleaned", "removed"]}}}],
        [{"work": {PIPES: {"found": "worn"}}}, {"work": {PIPES: {"found": "split; worn"}}}],
        [{"work": {PIPES: {"now": "pattern"}}}, {"work": {PIPES: {"now": "made", "decided": "owner"}}}],
        [{"hours": {"MT": "0.1"}}, {"hours": {"MT": "0.2"}}, {"hours": {"JB": "1.25"}}],
        [{"hours": {"MT": "1"}}, {"hours": {"MT": {"hours": "2", "kind": "rework"}}}],
        [{"snags": {"leak": "it weeps"}}, {"snags": {"leak": "it pours"}},
         {"snags": {"leak": {"hold": "yes"}}}],
        [{"parts": {"kit": {"what": "kit", "number": "A"}}},
         {"parts": {"kit": {"what": "kit", "number": "B"}}}],
        [{"parts": {"kit": {"what": "kit"}}}, {"parts": {"kit": {"received": TODAY, "of": [PIPES]}}}],
        [{"measured": {"bore": {"read": "1", "unit": "mm"}}},
         {"measured": {"bore": {"read": "2", "unit": "mm"}}}],
        [{"rechecks": {"nuts": {"after": "500 miles"}}}, {"subsystem": "brakes"}],
    ],
)  # fmt: skip
def test_line__accepted_on_the_page_says_what_it_says_accepted_at_the_terminal(
    phone: Phone, lines: list[dict[str, Any]]
) -> None:
    """`taking.js` says of a form what `outputs/sheets/draft.py` says of a sheet: an outside check."""

    def read(told: dict[str, Any]) -> dict[str, Any]:
        front = SheetFront.model_validate({"date": TODAY, **told}, context=date.today())
        return {**front_told(front), "subsystem": sorted(front.subsystem)}

    told: dict[str, Any] = read({"subsystem": "gearbox"})
    for one in lines:
        told = accept({**told, "draft": [one]}, 0)
    given = [
        {"form": piece_of(one), "beside": beside(one), "line": one, "of": [], "words": ""}
        for one in lines
    ]
    form = phone.browser.execute_async_script(
        "const [form, lines, done] = arguments;"
        "import(document.querySelector('script[src$=\"day.js\"]').src.replace('day.js', 'taking.js'))"
        ".then(({ taken }) => done(lines.reduce((made, line) => taken(made, line).form, form)))",
        _FORM, given,
    )  # fmt: skip
    besides = [{k: v for k, v in one.items() if k != "words"} for one in form["beside"]]
    made = with_lines(told_of({}, {}, json.loads(json.dumps(form))), besides)
    assert read(told) == read(made)


def test_hours__that_cannot_be_added_are_left_to_be_put_right(phone: Phone) -> None:
    say(phone)
    total = heard(phone)
    phone.tap(".hours-row input")
    phone.type("3,5")
    line(phone, "three and a half hours", "Accept")
    assert "The hours stand there as “3,5”, which is no number: put that right first." in count(
        phone
    )
    assert total == heard(phone)
    assert "3,5" == phone.run("return document.activeElement.value")


def test_hours__of_which_nobody_says_whose_they_are_are_asked(phone: Phone, root: Path) -> None:
    say(phone, "I took the laygear out. Three and a half hours on it.", hand="")
    heard(phone)
    assert "Whose hours are these?" in phone.one(".heard-line", "hours").text
    phone.tap("#said .whose button", "Jonah Birkett")
    line(phone, "took the laygear out", "Accept")
    phone.tap("#save")
    phone.in_book()
    (text,) = written(root).values()
    assert "hours: {JB: 3.5}" in text


def test_picture__taken_meanwhile_stays(phone: Phone, tmp_path: Path) -> None:
    file = tmp_path / "IMG_1.jpg"
    file.write_bytes(encoded(halves(400, 300)))
    phone.photograph("#camera", file)
    phone.until("document.querySelectorAll('#photos .shot').length === 1")
    say(phone)
    heard(phone)
    phone.tap("#said button", "that are sure")
    assert 1 == len(phone.browser.find_elements(By.CSS_SELECTOR, "#photos .shot"))

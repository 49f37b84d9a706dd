"""A day that is said instead of typed is heard at the desk and confirmed line by line."""

from pathlib import Path

from selenium.webdriver.common.by import By

from tests.browser.driving import complaints
from tests.browser.heard.saying import NEXT, TODAY, WAITS, count, focus, heard, line, say, written
from tests.browser.phoning import Phone
from tests.pictures.images import encoded, halves

CAPTIONS = """\
WEBVTT

00:12.000 --> 00:15.000
I took the laygear out.

01:05.000 --> 01:08.000
I took the front bearing off.
"""


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


def test_confirming__is_asked_for_when_there_is_something_to_confirm(phone: Phone) -> None:
    asked = (
        "return performance.getEntriesByType('resource').map((one) => one.name)"
        ".filter((name) => /confirming|taking/.test(name)).length"
    )
    assert 0 == phone.run(asked)
    say(phone)
    heard(phone)
    assert 3 == phone.run(asked)


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

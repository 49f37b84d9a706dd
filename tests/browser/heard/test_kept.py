"""What was said is never lost on the way, and what cannot be heard is told in a sentence."""

import re
from pathlib import Path

import pytest

from tests.browser.heard.saying import SAID, go, heard, line, say, written
from tests.browser.phoning import Phone
from tests.desk.ready import Ready, a_ready_desk


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


def test_words__that_were_said_are_text_and_never_markup(phone: Phone) -> None:
    say(phone, "I took the <img src=x onerror=alert(1)> laygear out. *Fitted* the brake pipes.")
    heard(phone)
    assert 0 == phone.run("return document.querySelectorAll('#said img').length")
    assert "<img src=x onerror=alert(1)>" in phone.run(
        "return document.querySelector('.talk-text').textContent"
    )

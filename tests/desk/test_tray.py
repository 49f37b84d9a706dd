"""Pictures that were sent and not saved yet: none is lost, and only pictures are taken."""

import errno
import os
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.desk.asking import API
from journal.desk.tray import Arriving, Tray, disk_words, told_name
from tests.desk.asking import Asked, asking
from tests.tern import SHEET, a_picture, put_content, sheet_text

DRAFT = "7f3a-0b12-draft"


@pytest.fixture
def asked(tmp_path: Path) -> Any:
    root = put_content(tmp_path / "content", **{SHEET: sheet_text()})
    with asking(root, tmp_path / "keep") as made:
        yield made


def send(asked: Asked, data: bytes, name: str = "IMG_0001.jpg", draft: str = DRAFT) -> Any:
    told = {**asked.token(), "x-picture-name": name}
    return asked.browser.post(f"{API}/drafts/{draft}/pictures", content=data, headers=told)


def lying(asked: Asked, draft: str = DRAFT) -> list[dict[str, Any]]:
    return list(asked.browser.get(f"{API}/drafts/{draft}/pictures").json()["pictures"])


def test_picture__is_laid_down_as_it_was_sent_and_shown_small(asked: Asked) -> None:
    picture = a_picture()
    answer = send(asked, picture, "C:\\camera\\laygear%20teeth.jpg")
    assert 200 == answer.status_code
    told = answer.json()
    assert ("laygear teeth.jpg", 8, 6) == (told["name"], told["width"], told["height"])
    assert [told] == lying(asked)
    laid = asked.desk.tray.find(told["id"])
    assert laid is not None
    assert picture == asked.desk.tray.file(laid).read_bytes()
    small = asked.browser.get(told["small"])
    assert ("image/webp", b"RIFF") == (small.headers["content-type"], small.content[:4])


def test_picture__sent_twice_lies_there_once(asked: Asked) -> None:
    first, again = send(asked, a_picture()).json(), send(asked, a_picture()).json()
    assert first == again
    assert [first] == lying(asked)


def test_picture__lies_there_when_the_desk_is_started_again(asked: Asked, tmp_path: Path) -> None:
    told = send(asked, a_picture()).json()
    (tmp_path / "keep" / "tray" / "half.part").write_bytes(b"half")
    with asking(tmp_path / "content", tmp_path / "keep") as again:
        assert [told] == lying(again)
    assert [] == list((tmp_path / "keep" / "tray").glob("*.part"))


def test_picture__nobody_wants_is_taken_away(asked: Asked) -> None:
    told = send(asked, a_picture()).json()
    answer = asked.browser.delete(f"{API}/pictures/{told['id']}", headers=asked.token())
    assert 200 == answer.status_code
    assert [] == lying(asked)
    assert [] == list((asked.desk.tray._folder).iterdir())


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "it is empty"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "it is a drawing or a page, not a photograph"),
        (b"<!doctype html><script>", "it is a drawing or a page, not a photograph"),
        (b"GIF89a" + bytes(50), "it cannot be read as a picture"),
        (a_picture()[:150], "it is cut short"),
        (b"MZ" + bytes(200), "it cannot be read as a picture"),
    ],
)  # fmt: skip
def test_picture__that_is_none_is_refused_in_words(asked: Asked, data: bytes, words: str) -> None:
    answer = send(asked, data, "picture.jpg")
    assert 415 == answer.status_code
    said = f"The picture cannot be shown: {words}; send JPEG, HEIC, PNG, WebP or TIFF."
    assert {"said": said} == answer.json()
    assert [] == list((asked.desk.tray._folder).iterdir())


def test_picture__larger_than_a_photograph_is_refused(
    asked: Asked, monkeypatch: pytest.MonkeyPatch
) -> None:
    told = {**asked.token(), "content-length": str(65 * 1024 * 1024)}
    path = f"{API}/drafts/{DRAFT}/pictures"
    assert 413 == asked.browser.post(path, content=b"x", headers=told).status_code


@pytest.mark.parametrize("draft", ["..", "%2e%2e%2f", "a", "x" * 65, "tern.yaml"])
def test_draft__must_have_a_plain_name(asked: Asked, draft: str) -> None:
    assert send(asked, a_picture(), draft=draft).status_code in (400, 404, 405)
    assert [] == list((asked.desk.tray._folder).iterdir())


def test_disk_full__is_told_and_leaves_nothing_half(
    asked: Asked, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_self: Arriving, _piece: bytes) -> None:
        raise disk_words(OSError(errno.ENOSPC, os.strerror(errno.ENOSPC)))

    monkeypatch.setattr(Arriving, "add", full)
    answer = send(asked, a_picture())
    assert 507 == answer.status_code
    assert {
        "said": "The desk's disk does not take the picture: no space left on device. "
        "It is still on this device."
    } == answer.json()
    assert [] == list((asked.desk.tray._folder).iterdir())


def test_tray__leaves_alone_what_is_not_its_own(asked: Asked) -> None:
    folder = asked.desk.tray._folder
    (folder / "notes.json").write_text('["not a picture"]')
    (folder / "other.json").write_text("{broken")
    again = Tray(folder, asked.desk.tray._darkroom)
    assert () == again.laid(DRAFT)
    assert {"notes.json", "other.json"} == {p.name for p in folder.iterdir()}


@given(st.text(max_size=120))
def test_name__is_a_label_of_one_line_and_no_path(name: str) -> None:
    told = told_name(name)
    assert 0 < len(told) <= 80
    assert told.isprintable()
    assert not set(told) & set("/\\")

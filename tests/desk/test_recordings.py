"""Recordings at the desk: by names that were read, in the pieces that a browser asks for."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.desk.asking import Asked, asking
from tests.tern import SHEET, put_content, put_file, sheet_text

SOUND = bytes(range(256)) * 40
FRONT = """\
recording:
  - talk.mp4
  - {file: talk.mp4, at: "0:12.5", of: gearbox/laygear, words: the laygear is <i>out</i>}
  - {file: gone.mp4, at: "0:30"}
draft:
  - {words: it weeps, at: "0:40", ask: Where?}
"""


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Asked]:
    root = put_content(tmp_path_factory.mktemp("content"), **{SHEET: sheet_text(FRONT)})
    for name in ("talk.mp4", "talk.m4a", "talk.vtt", "page.html", "a b#é.wav"):
        put_file(root, f"tern/recordings/{name}", SOUND)
    put_file(root, "secret.mp4", b"nobody's business")
    with asking(root, tmp_path_factory.mktemp("keep")) as asked:
        yield asked


def test_recording__is_answered_whole_with_its_kind(desk: Asked) -> None:
    answer = desk.browser.get("/tern/recordings/talk.mp4")
    assert (200, SOUND) == (answer.status_code, answer.content)
    assert ("video/mp4", "bytes") == (
        answer.headers["content-type"],
        answer.headers["accept-ranges"],
    )


@pytest.mark.parametrize(
    ("asked", "piece", "told"),
    [
        # RFC 9110, section 14.1.2: the first five hundred, from a place on, the last ones.
        ("bytes=0-499", SOUND[:500], "bytes 0-499/10240"),
        ("bytes=9500-", SOUND[9500:], "bytes 9500-10239/10240"),
        ("bytes=-500", SOUND[-500:], "bytes 9740-10239/10240"),
    ],
)
def test_recording__is_answered_in_pieces(desk: Asked, asked: str, piece: bytes, told: str) -> None:
    answer = desk.browser.get("/tern/recordings/talk.mp4", headers={"range": asked})
    assert (206, piece, told) == (
        answer.status_code,
        answer.content,
        answer.headers["content-range"],
    )


def test_recording__beyond_its_end_has_nothing(desk: Asked) -> None:
    answer = desk.browser.get("/tern/recordings/talk.mp4", headers={"range": "bytes=10240-"})
    assert 416 == answer.status_code


def test_recording__is_asked_about_without_being_sent(desk: Asked) -> None:
    answer = desk.browser.head("/tern/recordings/talk.mp4")
    assert (200, b"", "10240") == (
        answer.status_code,
        answer.content,
        answer.headers["content-length"],
    )


@pytest.mark.parametrize(
    ("name", "kind", "shown"),
    [
        ("talk.m4a", "audio/mp4", "inline"),
        ("talk.vtt", "text/vtt; charset=utf-8", "inline"),
        ("a%20b%23%C3%A9.wav", "audio/wav", "inline"),
        ("page.html", "application/octet-stream", "attachment"),
    ],
)
def test_recording__is_shown_only_where_it_is_one(
    desk: Asked, name: str, kind: str, shown: str
) -> None:
    answer = desk.browser.get(f"/tern/recordings/{name}")
    assert (200, kind) == (answer.status_code, answer.headers["content-type"])
    assert answer.headers["content-disposition"].startswith(shown)
    assert "nosniff" == answer.headers["x-content-type-options"]
    assert "script" not in answer.headers["content-security-policy"]


@pytest.mark.parametrize(
    "path",
    ["tern/recordings/gone.mp4", "tern/recordings/", "tern/recordings/../car.yaml",
     "plover/recordings/talk.mp4", "tern/recordings/..%2fcar.yaml", "tern/recordings/talk.mp4/",
     "tern/recordings/%2e%2e/%2e%2e/secret.mp4", "tern/recordings//talk.mp4",
     "tern/recordings/TALK.MP4", "tern/recordings/talk.mp4%00"],
)  # fmt: skip
def test_recording__of_no_name_that_was_read_is_nothing(desk: Asked, path: str) -> None:
    answer = desk.browser.get(f"/{path}")
    assert 404 == answer.status_code
    assert b"nobody's business" not in answer.content


def test_recording__that_was_changed_for_a_link_is_not_followed(tmp_path: Path) -> None:
    root = put_content(tmp_path / "content")
    put_file(root, "tern/recordings/talk.mp4", SOUND)
    put_file(tmp_path, "secret.mp4", b"nobody's business")
    with asking(root, tmp_path / "keep") as asked:
        file = root / "tern/recordings/talk.mp4"
        file.unlink()
        assert 404 == asked.browser.get("/tern/recordings/talk.mp4").status_code
        file.symlink_to(tmp_path / "secret.mp4")
        assert 404 == asked.browser.get("/tern/recordings/talk.mp4").status_code


def test_recordings__are_those_of_the_cars_that_are_shown(tmp_path: Path) -> None:
    root = put_content(tmp_path / "content")
    put_file(root, "tern/recordings/talk.mp4", SOUND)
    for path in ("car.yaml", "register.yaml"):
        put_file(root, f"plover/{path}", (root / "tern" / path).read_bytes())
    with asking(root, tmp_path / "keep", car="plover") as asked:
        assert 404 == asked.browser.get("/tern/recordings/talk.mp4").status_code


def test_page_of_the_sheet__leads_to_the_moments(desk: Asked) -> None:
    page = desk.browser.get("/tern/sheets/2024-03-05-gearbox.html").text
    assert '<a class="at" href="../recordings/talk.mp4#t=12.5">0:12.5</a>' in page
    assert '<a class="at" href="../recordings/talk.mp4#t=40">0:40</a>' in page
    assert '<span class="at">0:30</span>' in page
    assert "<q>the laygear is &lt;i&gt;out&lt;/i&gt;</q>" in page

"""What was said, heard at the desk: lines to confirm, or a sentence on why not; nothing is written."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import pytest

from journal.desk.asking import API
from journal.reading.talk import TALK_BYTES
from tests.desk.asking import Asked, asking
from tests.tern import SHEET, put_content, sheet_text

DAY = "2024-05-14"
SAID = (
    "right so took the laygear out and it was pitted. i had three and a half hours on it. "
    "fitted the brake pipes and the union still weeps"
)
CAPTIONS = """\
WEBVTT

00:12.000 --> 00:15.000
<v Margit>I took the laygear out.

01:05.500 --> 01:08.000
<v Jonah>And the front bearing is off.
"""


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Asked]:
    root = put_content(tmp_path_factory.mktemp("content"), **{SHEET: sheet_text()})
    with asking(root, tmp_path_factory.mktemp("keep")) as made:
        yield made


def say(asked: Asked, said: str | bytes, car: str = "tern", **about: str) -> Any:
    """What the desk answers to a talk."""
    told = urlencode({"day": DAY, "hand": "MT", **about})
    raw = said.encode() if isinstance(said, str) else said
    return asked.browser.post(f"{API}/heard/{car}?{told}", content=raw, headers=asked.token())


def test_line__has_its_words_their_place_and_what_it_would_put(desk: Asked) -> None:
    told = say(desk, SAID).json()
    line = next(line for line in told["lines"] if line["kind"] == "act")
    said = told["said"][line["start"] : line["end"]]
    assert said.casefold() == line["words"]
    assert {
        "id": line["id"], "kind": "act", "words": line["words"], "start": line["start"], "end": line["end"],
        "at": "", "seconds": "", "ask": "", "of": ["gearbox/laygear"],
        "puts": [{"heading": "Component", "about": "Laygear", "says": "removed"}],
        "form": {"work": [{"name": "gearbox/laygear", "did": ["removed"]}]}, "beside": {},
        "line": {"words": line["words"], "work": {"gearbox/laygear": {"did": "removed"}}},
    } == line  # fmt: skip
    hours = next(line for line in told["lines"] if line["kind"] == "hours")
    assert {"hours": {"MT": "3.5"}} == hours["form"]
    assert [{"heading": "Hours", "about": "Margit Tolland", "says": "3.5 hours"}] == hours["puts"]
    assert ["gearbox", "brakes"] == sorted(told["subsystem"], reverse=True)


def test_lines__stand_in_the_order_of_the_talk_under_names_of_their_own(desk: Asked) -> None:
    lines = say(desk, SAID).json()["lines"]
    starts = [line["start"] for line in lines]
    assert sorted(starts) == starts
    assert len({line["id"] for line in lines}) == len(lines)


def test_captions__tell_minutes_and_seconds_and_who_speaks(desk: Asked) -> None:
    told = say(desk, CAPTIONS, name="bench.vtt").json()
    first, last = (line for line in told["lines"] if line["kind"] == "act")
    assert ("0:12", "12") == (first["at"], first["seconds"])
    assert ("1:05", "65.5") == (last["at"], last["seconds"])
    assert "Margit: I took the laygear out.\n\nJonah: And the front bearing is off." == told["said"]
    assert {"text": told["said"], "for": "workshop"} == told["talk"]


def test_time_that_is_broken__is_told_and_the_words_are_kept(desk: Asked) -> None:
    told = say(desk, CAPTIONS.replace("00:12.000", "00:xx"), name="bench.vtt").json()
    assert "I took the laygear out." in told["said"]
    (note,) = told["notes"]
    assert note.endswith("line 3")


def test_place__counts_as_a_browser_does(desk: Asked) -> None:
    """ECMA-262, section 6.1.4: a text is counted in units of 16 bits, of which an emoji takes two."""
    told = say(desk, "well 🙂 that went fine. I took the laygear out.").json()
    line = next(line for line in told["lines"] if line["kind"] == "act")
    units = told["said"].encode("utf-16-le")[2 * line["start"] : 2 * line["end"]]
    assert line["words"] == units.decode("utf-16-le")


def test_component__that_the_car_has_none_of_is_asked(desk: Asked) -> None:
    told = say(desk, "the radiator is only hung on one bolt").json()
    (line,) = (line for line in told["lines"] if line["form"].get("snags"))
    assert (
        "cooling/radiator is not in the register of this car. Is another component meant?"
        == line["ask"]
    )


def test_another_language__is_said_and_the_talk_is_kept(desk: Asked) -> None:
    said = (
        "ich habe heute die Bremse ausgebaut und dann war das Rad nicht mehr dran und ich bin müde"
    )
    told = say(desk, said).json()
    assert [] == told["lines"]
    assert f"I{said[1:]}." == told["said"]
    assert "only English is understood" in told["notes"][0]


@pytest.mark.parametrize(
    ("said", "name", "words"),
    [
        ("", "", "No words stand in the file; "),
        (" \n\n", "day.txt", "No words stand in the file; "),
        ("WEBVTT\n\n", "bench.vtt", "No words stand in the file; "),
        (b"\x00\x01", "day.txt", "The file holds bytes that are not text; "),
        (b"fini \xe0 midi", "day.txt", "The file is not written in UTF-8; "),
        (b"ftyp", "bench.mp4", "The file is a recording, and words are not read out of it; "),
    ],
)
def test_talk__that_cannot_be_heard_is_refused_in_a_sentence(
    desk: Asked, said: str | bytes, name: str, words: str
) -> None:
    answer = say(desk, said, name=name)
    assert 422 == answer.status_code
    assert answer.json()["said"].startswith(words)


def test_talk__of_ten_megabytes_is_not_taken(desk: Asked) -> None:
    assert 413 == say(desk, b"a " * 5 * 1024 * 1024).status_code
    assert TALK_BYTES < 10 * 1024 * 1024


def test_talk__that_is_more_than_a_sheet_holds_says_what_to_do(desk: Asked) -> None:
    answer = say(desk, "we talked of the weather. " * 8000)
    assert 413 == answer.status_code
    assert (
        "This is more than one sheet holds. Cut it in two, or bring it in at the terminal with journal "
        "write CONTENT --from FILE, which makes as many sheets of it as it needs."
    ) == answer.json()["said"]


def test_talk__of_no_day_or_no_car_is_not_heard(desk: Asked) -> None:
    assert (400, "Say first of which day this tells.") == (
        (answer := say(desk, SAID, day="")).status_code, answer.json()["said"]
    )  # fmt: skip
    assert 404 == say(desk, SAID, car="lapwing").status_code


def test_hand_and_subsystem__that_nobody_knows_are_not_taken(desk: Asked) -> None:
    told = say(desk, "I did three hours", hand="../XX", subsystem="<b>").json()
    assert [] == [line for line in told["lines"] if "XX" in str(line)]
    assert "<b>" not in told["subsystem"]


def test_talk__from_elsewhere_is_not_heard(desk: Asked) -> None:
    path = f"{API}/heard/tern?day={DAY}"
    other = {**desk.token(), "origin": "http://elsewhere.example"}
    assert 403 == desk.browser.post(path, content=b"hello", headers=other).status_code
    without = {"origin": str(desk.browser.base_url).rstrip("/")}
    assert 409 == desk.browser.post(path, content=b"hello", headers=without).status_code


def test_hearing__writes_nothing(desk: Asked) -> None:
    before = {file: file.read_bytes() for file in desk.desk.root.rglob("*") if file.is_file()}
    say(desk, SAID)
    assert before == {f: f.read_bytes() for f in desk.desk.root.rglob("*") if f.is_file()}


def test_words_of_the_workshop__are_known(tmp_path: Path) -> None:
    terms = "things:\n  - {names: [christmas tree], in: gearbox, of: [laygear]}\n"
    root = put_content(tmp_path / "content", **{SHEET: sheet_text(), "terms.yaml": terms})
    with asking(root, tmp_path / "keep") as asked:
        told = say(asked, "I took the christmas tree out").json()
    assert ["gearbox/laygear"] == told["lines"][0]["of"]

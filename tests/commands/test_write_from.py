"""A talk becomes a draft sheet: on the disk at once, with every word, and nothing in it claimed."""

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from journal.commands import fromtalk
from journal.hearing.heard import Heard, Kind, Line
from journal.hearing.known import Known
from journal.outputs.sheets.fromtalk import sheets_from, talk_block, talk_in, talk_shown_to
from journal.outputs.sheets.print import NewSheet, front_told, new_text
from journal.reading.markdown import read_body
from journal.reading.sheet import sheet_of
from journal.reading.text import SHEET_BYTES
from journal.records.carfile import CarFile
from journal.records.sheet import SheetFront
from journal.records.talk import Talk
from journal.words.vocabulary import Reader
from tests.commands.running import files, run
from tests.commands.terminal import Terminal, in_a_terminal
from tests.tern import SHEET, put_content, put_file, sheet_text

ON = ("--date", "2024-03-06", "--hand", "MT")
TALK = "took the laygear out\n\ntwo hours"
VTT = """WEBVTT

00:12.500 --> 00:15.000
took the laygear out

00:31.000 --> 00:33.000
two hours
"""
NEW = "tern/sheets/2024/2024-03-06-laygear-out.md"


@pytest.fixture(autouse=True)
def person(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A person with a folder of their own."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "person"))


@pytest.fixture
def root(tmp_path: Path) -> Path:
    return put_content(tmp_path / "content", **{SHEET: sheet_text()})


def heard_of(talk: Talk) -> Heard:
    """What a simple listener would hear in the talks of this module."""
    out, hours = talk.text.index("took"), talk.text.index("two")
    work = {"work": {"gearbox/laygear": {"did": ["removed"]}}}
    return Heard(
        "Laygear out", ("gearbox",),
        (
            Line(Kind.ACT, out, out + 20, "took the laygear out", talk.at(out), work),
            Line(Kind.HOURS, hours, hours + 9, "two hours", talk.at(hours), {"hours": {"MT": "2"}}),
            Line(Kind.QUESTION, hours, hours + 9, "two hours", None, {}, "Whose?"),
        ),
        talk.text, notes=("One line is a question.",),
    )  # fmt: skip


@pytest.fixture
def listener(monkeypatch: pytest.MonkeyPatch) -> None:
    def hear(
        talk: Talk, _car: CarFile, _day: object, _known: Known, _hand: str, _branch: str
    ) -> Heard:
        return heard_of(talk)

    monkeypatch.setattr(fromtalk, "hear", hear)


@pytest.mark.usefixtures("listener")
def test_talk__is_saved_as_a_draft_with_all_that_was_said(root: Path, tmp_path: Path) -> None:
    put_file(tmp_path, "bench.vtt", VTT.encode())
    put_file(root, "tern/recordings/film.mp4", b"")
    result = run("write", root, "--from", tmp_path / "bench.vtt", "--recording", "film.mp4", *ON)
    assert """\
---
date: 2024-03-06
title: Laygear out
subsystem: gearbox
recording: film.mp4
draft:
  - {words: took the laygear out, at: "0:12.5", work: {gearbox/laygear: {did: removed}}}
  - {words: two hours, at: "0:31", hours: {MT: 2}}
  - {words: two hours, ask: "Whose?"}
---
::: workshop
took the laygear out two hours
:::
""" == (root / NEW).read_text()
    assert (
        f"wrote {root / NEW}, with what was said in it\n"
        "One line is a question.\n"
        "0:12.5  “took the laygear out”\n  Laygear: removed\n"
        "0:31  “two hours”\n  2 hours, MT\n"
        "“two hours”\n  Whose?\n"
        "3 lines to confirm, in a terminal, with: "
        f"journal write {root} --car tern --confirm 2024-03-06-laygear-out\n"
    ) == result.stdout
    assert ("", 0) == (result.stderr, result.exit_code)


@pytest.mark.usefixtures("listener")
def test_talk_of_plain_text__keeps_its_lines(root: Path, tmp_path: Path) -> None:
    put_file(tmp_path, "day.txt", TALK.encode())
    run("write", root, "--from", tmp_path / "day.txt", "--title", "By myself", *ON)
    text = (root / "tern/sheets/2024/2024-03-06-by-myself.md").read_text()
    assert f"::: workshop\n{TALK}\n:::\n" in text
    assert "recording" not in text


@pytest.mark.usefixtures("listener")
def test_talk_saved_twice__is_one_sheet(root: Path, tmp_path: Path) -> None:
    put_file(tmp_path, "day.txt", TALK.encode())
    for _ in range(2):
        run("write", root, "--from", tmp_path / "day.txt", *ON)
    assert 2 == len([*(root / "tern/sheets/2024").iterdir()])


@pytest.mark.usefixtures("listener")
@pytest.mark.parametrize(
    ("option", "there", "kept", "said"),
    [
        (None, ["bench.mp4", "bench.vtt"], "bench.mp4", False),
        (None, ["bench.mp4", "bench.wav"], None, False),
        (None, ["other.mp4"], None, False),
        ("2024/film.mp4", ["2024/film.mp4"], "2024/film.mp4", False),
        ("content/tern/recordings/2024/film.mp4", ["2024/film.mp4"], "2024/film.mp4", False),
        ("elsewhere/film.mp4", ["other.mp4"], "film.mp4", True),
        ("film.mp4", [], "film.mp4", True),
    ],
)
def test_recording__is_the_one_named_or_the_one_of_the_talks_name(
    root: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    option: str | None,
    there: list[str],
    kept: str | None,
    said: bool,
) -> None:
    monkeypatch.chdir(tmp_path)
    put_file(tmp_path, "bench.vtt", VTT.encode())
    for name in there:
        put_file(root, f"tern/recordings/{name}", b"")
    more = ("--recording", option) if option else ()
    result = run("write", root, "--from", "bench.vtt", *more, *ON)
    sheet, _ = sheet_of((root / NEW).read_bytes(), "")
    assert sheet is not None
    assert [kept] * (kept is not None) == [moment.file for moment in sheet.front.recording]
    way = f"put {kept} into {root / 'tern/recordings'} to hear it at the desk\n"
    assert (way if said else "") == result.stderr


# What is no talk


@pytest.mark.parametrize(
    ("name", "raw", "told"),
    [
        ("day.txt", b"", "no words stand in the file"),
        ("day.txt", b"caf\xe9", "the file is not written in UTF-8"),
        ("film.mp4", b"\0", "the file is a recording, and words are not read out of it"),
        ("gone.txt", None, "the file cannot be read: no such file or directory"),
    ],
)
def test_file_that_is_no_talk__leaves_nothing_and_says_why(
    root: Path, tmp_path: Path, name: str, raw: bytes | None, told: str
) -> None:
    if raw is not None:
        put_file(tmp_path, name, raw)
    before = files(root)
    result = run("write", root, "--from", tmp_path / name, *ON)
    assert f"{(tmp_path / name).as_posix()}:1: error" in result.stdout
    assert f": {told}\n" in result.stdout
    assert result.stdout.endswith("Nothing is written.\n")
    assert 1 == result.exit_code
    assert before == files(root)


@pytest.mark.usefixtures("listener")
def test_talk_with_a_broken_time__is_written_and_says_which(root: Path, tmp_path: Path) -> None:
    put_file(tmp_path, "bench.vtt", VTT.replace("00:31.000", "0:31").encode())
    result = run("write", root, "--from", tmp_path / "bench.vtt", *ON)
    assert 'bench.vtt:6: warning[bad-cue-time]: the time "0:31 --> 00:33.000"' in result.stdout
    assert "took the laygear out two hours" in (root / NEW).read_text()
    assert 0 == result.exit_code


def test_talk_on_a_full_disk__is_kept_elsewhere(
    root: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, listener: None
) -> None:
    def full(*_: object) -> bool:
        raise OSError(28, "No space left on device")

    put_file(tmp_path, "day.txt", TALK.encode())
    monkeypatch.setattr("journal.outputs.sheets.store.put_new", full)
    result = run("write", root, "--from", tmp_path / "day.txt", *ON)
    assert f"{NEW} is not saved: the disk is full; the text is kept in " in result.stderr
    (kept,) = (tmp_path / "person").rglob("*.md")
    assert TALK in kept.read_text()
    assert 1 == result.exit_code


# With the program's own ears, in a terminal


def _asked(screen: Terminal) -> str:
    """What is shown up to the next time that a key is asked for."""
    shown = ""
    while not shown.endswith(("q stop: ", "p everyone: ")):
        shown += screen.until(": ")
    return shown


def test_terminal__from_the_talk_to_the_confirmed_sheet(root: Path, tmp_path: Path) -> None:
    put_file(tmp_path, "bench.vtt", VTT.encode())
    with in_a_terminal("write", root, "--from", tmp_path / "bench.vtt", *ON) as screen:
        shown = _asked(screen)
        assert "with what was said in it\n" in shown
        (new,) = (root / "tern/sheets/2024").glob("2024-03-06-*.md")
        assert "draft:" in new.read_text()
        # Whatever is heard, each line is dealt with by one key.
        while "Who may read" not in shown:
            screen.press("a" if "a accept" in shown else "d")
            shown = _asked(screen)
        screen.press("p")
        assert "every line is confirmed" in screen.rest()
    text = new.read_text()
    assert "draft:" not in text
    assert "gearbox/laygear: {did: removed}" in text
    # What was said may have been put into sentences.
    assert ":::" not in text
    assert "took the laygear out two hours" in text.casefold()


# The sheet that is made


def _sheets(heard: Heard) -> tuple[NewSheet, ...]:
    return sheets_from(heard, {"date": "2024-03-06", "title": "Long", "subsystem": "gearbox"})


def test_talk_of_three_hours__is_as_many_sheets_as_can_be_read() -> None:
    """30,000 words and a line for every twentieth of them."""
    words = [f"word{n}" for n in range(30_000)]
    lines = tuple(
        Line(Kind.SNAG, n, n + 9, f"line {n}", Fraction(n), {"snags": {f"snag-{n}": {"raise": f"line {n}"}}})
        for n in range(1500)
    )  # fmt: skip
    sheets = _sheets(Heard("Long", ("gearbox",), lines, " ".join(words)))
    assert ["Long", *(f"Long, part {n}" for n in range(2, len(sheets) + 1))] == [
        sheet.front.title for sheet in sheets
    ]
    said: list[str] = []
    read: list[str] = []
    for new in sheets:
        raw = new_text(new).encode()
        assert len(raw) <= SHEET_BYTES
        sheet, problems = sheet_of(raw, "a.md")
        assert [] == problems
        assert sheet is not None
        read += [line.words or "" for line in sheet.front.draft]
        said += " ".join(block.text for block in sheet.body).split()
    assert [f"line {n}" for n in range(1500)] == read
    assert words == said


def test_talk_in_which_nothing_was_heard__is_a_sheet_with_its_text_alone() -> None:
    (new,) = _sheets(Heard("", ("gearbox",), (), "well it rained"))
    front = "---\ndate: 2024-03-06\ntitle: Long\nsubsystem: gearbox\n---\n"
    assert f"{front}::: workshop\nwell it rained\n:::\n" == new_text(new)


_marks = st.sampled_from(
    [":::", "::: workshop", "::: owner", ":: owner", ": owner", "- : public", "> ::: x", "```", "~~~",
     "    code", "# h", "::", "::::", "<!--", "---", "1. : keeper", ":owner", ": : :", ":\u00a0owner"]
)  # fmt: skip
_said = st.lists(
    _marks | st.text(st.characters(exclude_categories=("Cs", "Cc", "Cf")), max_size=12), max_size=6
).map("\n".join)


@settings(max_examples=200)
@given(_said.filter(str.strip))
def test_any_talk__is_for_the_workshop_alone(said: str) -> None:
    blocks, problems = read_body(talk_block(said), "a.md", 1)
    assert [] == problems
    assert {Reader.WORKSHOP} >= {block.reader for block in blocks}


@settings(max_examples=100)
@given(_said.filter(str.strip), st.sampled_from([Reader.OWNER, Reader.PUBLIC]))
def test_any_talk__shown_to_others_is_the_same_words(said: str, widest: Reader) -> None:
    front = SheetFront.model_validate({"date": "2024-03-06", "subsystem": "gearbox"})
    raw = new_text(NewSheet(front, talk_block(said))).encode()
    words = talk_in(raw)
    shown, problems = sheet_of(talk_shown_to(raw, widest), "a.md")
    assert [] == problems
    assert shown is not None
    assert words is not None
    assert front_told(front) == front_told(shown.front)
    assert words.split() == " ".join(block.text for block in shown.body).split()
    assert {widest} >= {block.reader for block in shown.body}

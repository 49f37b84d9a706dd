"""`journal write`: the day in one line, with its pictures."""

from datetime import date
from pathlib import Path

import pytest

from journal.reading.content import read_content
from tests.commands.editing import NEXT, ON, a_photo, new_files, wrote
from tests.commands.running import DAY, files, run

pytestmark = pytest.mark.usefixtures("person")


# In one line


def test_day_in_one_line__is_a_sheet_as_anybody_would_have_written_it(content: Path) -> None:
    before = files(content)
    result = run(
        "write", content, *ON, "--hand", "MT", "--hours", "3.5", "--hours", "JB=1",
        "--title", "Laygear back", "--note", "Ground and home.", "--did", "gearbox/laygear=inspected,fitted",
        "--work", "gearbox/laygear=found: new needles, locking: {by: tab-washer, new: yes}, checked: JB",
        "--did", "gearbox/front-bearing=removed", "--now", "brakes/pipes=made",
        "--work", "brakes/pipes=why: rotten, decided: workshop, reversible: yes, undo: bend others",
        "--work", "brakes/pipes=original: shelf",
        "--part", "laygear=received: today, outcome: accepted", "--clear", "oil-leak=new seal",
        "--measured", "end float=on: gearbox/laygear, read: [0.08, 0.09], unit: mm, limit: [0.05, 0.15]",
        "--raise", "Bearing noisy when turned by hand", "--hold",
    )  # fmt: skip
    path = "tern/sheets/2024/2024-03-06-laygear-back.md"
    assert (0, wrote(content, path), "") == (result.exit_code, result.stdout, result.stderr)
    assert {
        path: """\
---
date: 2024-03-06
title: Laygear back
subsystem: gearbox
hours: {MT: 3.5, JB: 1}
work:
  gearbox/laygear:
    did: [inspected, fitted]
    found: new needles
    checked: JB
    locking: {by: tab-washer, new: yes}
  gearbox/front-bearing: {did: removed}
  brakes/pipes:
    now: made
    original: shelf
    reversible: yes
    undo: bend others
    why: rotten
    decided: workshop
parts:
  laygear: {received: 2024-03-06, outcome: accepted}
measured:
  end float: {on: gearbox/laygear, read: [0.08, 0.09], unit: mm, limit: [0.05, 0.15]}
snags:
  bearing-noisy-when-turned: {raise: Bearing noisy when turned by hand, hold: yes}
  oil-leak: {clear: new seal}
---
Ground and home.
"""
    } == new_files(content, before)


def test_second_sheet_of_a_day__gets_its_own_name(content: Path) -> None:
    before = files(content)
    for note in ("One.", "Two."):
        assert 0 == run("write", content, *ON, "--note", note).exit_code
    second = NEXT.replace(".md", "-2.md")
    assert {NEXT, second} == set(new_files(content, before))
    (car,) = read_content(content).cars
    assert [DAY, NEXT, second] == [sheet.source.path for sheet in car.sheets], (
        "in the order written"
    )


def test_hand__is_remembered_for_the_person_and_outside_the_content(
    content: Path, person: Path
) -> None:
    refused = run("write", content, *ON, "--hours", "2")
    assert (2, True) == (
        refused.exit_code,
        "say whose hours these are: --hours MT=2, or" in refused.stderr,
    )
    assert 0 == run("write", content, *ON, "--hand", "JB", "--hours", "2").exit_code
    assert 0 == run("write", content, "--date", "2024-03-07", "--hours", "3").exit_code
    assert "hours: {JB: 3}\n" in (content / NEXT.replace("06", "07", 1)).read_text()
    assert "JB\n" == (person / "restoration-journal" / "hand").read_text()


def test_wrong_line__is_told_as_in_the_sheet_and_nothing_is_written(content: Path) -> None:
    before = files(content)
    result = run("write", content, *ON, "--clear", "oil-leek")
    assert (
        1,
        f"""\
{NEXT}:5: error[unknown-snag]: no snag "oil-leek" was raised before this day
    5 |   oil-leek: {{clear: done}}
  help: write oil-leak

1 error in 1 file.
Nothing is written. Say it anew, or write it in your editor with --edit.
""",
    ) == (result.exit_code, result.stdout)
    assert {} == new_files(content, before)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--hand", "XY"], 'there is no hand "XY"; write MT or JB'),
        (["--subsystem", "gearbx"], 'there is no subsystem "gearbx"; write gearbox'),
        (["--did", "gearbox"], '--did "gearbox" has no name and value; write --did name=value'),
        (["--did", "gearbox/laygear=fited"], 'did of gearbox/laygear cannot be "fited"; write fitted'),
        (["--hours", "MT=2,5"], 'hours of MT must be a number with a decimal point, found "2,5"; write 2.5'),
        (["--part", "x=what: [1"], '--part "what: [1": a bracket is opened here'),
        (["--photo", "none.jpg"], 'there is no picture "none.jpg"'),
        (["--photo", "workshop.yaml"],
         '"workshop.yaml" is no picture that can be shown: it has not the ending of a photograph'),
        (["--car", "swan"], 'there is no car "swan"; write tern'),
    ],
)  # fmt: skip
def test_what_no_sheet_can_say__is_a_wrong_call(
    content: Path, monkeypatch: pytest.MonkeyPatch, words: list[str], told: str
) -> None:
    monkeypatch.chdir(content)
    before = files(content)
    result = run("write", content, *ON, "--note", "x", *words)
    assert (2, True) == (result.exit_code, told in result.stderr), result.stderr
    assert {} == new_files(content, before)


def test_day_to_come__is_warned_of_and_written(content: Path) -> None:
    far = date(date.today().year + 1, 6, 1)
    result = run("write", content, "--date", far, "--note", "x")
    assert f"warning: {far} lies in the future\n" == result.stderr
    assert (content / f"tern/sheets/{far.year}/{far}-gearbox.md").is_file()


def test_car_without_a_sheet__must_be_told_the_subsystem(content: Path) -> None:
    (content / DAY).unlink()
    result = run("write", content, *ON, "--note", "x")
    assert (2, True) == (
        result.exit_code,
        "the car has no sheet yet; say --subsystem" in result.stderr,
    )
    assert 0 == run("write", content, *ON, "--note", "x", "--subsystem", "brakes").exit_code


def test_pictures_of_the_day__come_in_from_the_inbox_and_leave_it(content: Path) -> None:
    a_photo(content, "B.JPG", "2024:03:06 09:00:00")
    a_photo(content, "a.jpg")
    a_photo(content, "other.jpg", "2024:03:09 10:00:00")
    result = run(
        "write", content, *ON, "--note", "x", "--photo", "a.jpg=alt: a gear, of: gearbox/laygear"
    )
    assert "left in the inbox: 1 picture of other days\n" == result.stderr
    assert (
        "photos:\n  - b.jpg\n  - {file: a.jpg, of: gearbox/laygear, alt: a gear}\n"
        in (content / NEXT).read_text()
    )
    assert ["other.jpg"] == [p.name for p in (content / "inbox").iterdir()]
    assert ["a.jpg", "b.jpg"] == sorted(
        p.name for p in (content / "tern/photos/2024-03-06").iterdir()
    )


def test_inbox__is_left_alone_when_that_is_said(content: Path) -> None:
    a_photo(content, "a.jpg")
    run("write", content, *ON, "--note", "x", "--no-inbox")
    assert "photos" not in (content / NEXT).read_text()
    assert (content / "inbox/a.jpg").is_file()


def test_wrong_line__leaves_the_pictures_in_the_inbox(content: Path) -> None:
    a_photo(content, "a.jpg")
    before = files(content)
    assert 1 == run("write", content, *ON, "--clear", "oil-leek").exit_code
    assert {} == new_files(content, before)

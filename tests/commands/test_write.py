"""`journal write` and `journal amend`: the day in one line, or ready to fill in the writer's own editor."""

import stat
from datetime import date
from pathlib import Path

import pytest
from click.testing import Result

from journal.reading.content import read_content
from tests.commands.running import DAY, files, run
from tests.pictures.images import camera, corners, encoded
from tests.tern import put_file

ON = ("--date", "2024-03-06")
NEXT = "tern/sheets/2024/2024-03-06-gearbox.md"


@pytest.fixture(autouse=True)
def person(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A person with a folder of their own and no editor."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "person"))
    monkeypatch.delenv("VISUAL", raising=False)
    monkeypatch.setenv("EDITOR", str(tmp_path / "no-such-editor"))
    return tmp_path / "person"


@pytest.fixture
def editor(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> "Editor":
    return Editor(tmp_path, monkeypatch)


class Editor:
    """An editor that runs a script on the file: a turn for each time that it is opened."""

    def __init__(self, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.folder, self.turns = folder, 0
        program = folder / "my editor"
        program.write_text(
            f'#!/bin/sh\ncd "{folder}"\nn=$(ls seen-* 2>/dev/null | wc -l)\n'
            'cp "$2" "seen-$n"\n[ "$1" = -w ] && [ -f "turn-$n" ] && . "./turn-$n"\nexit 0\n'
        )
        program.chmod(program.stat().st_mode | stat.S_IXUSR)
        monkeypatch.setenv("VISUAL", f"'{program}' -w")

    def then(self, *commands: str) -> "Editor":
        """What it does the next time, each with sed on the file."""
        lines = "".join(f"sed -i '{command}' \"$2\"\n" for command in commands)
        (self.folder / f"turn-{self.turns}").write_text(lines)
        self.turns += 1
        return self

    def does(self, script: str) -> "Editor":
        (self.folder / f"turn-{self.turns}").write_text(script)
        self.turns += 1
        return self

    def saw(self, turn: int) -> str:
        return (self.folder / f"seen-{turn}").read_text()


def new_files(content: Path, before: dict[str, bytes]) -> dict[str, str]:
    after = files(content)
    assert before == {name: after[name] for name in before}, "what was there is as it was"
    return {name: data.decode() for name, data in after.items() if name not in before}


def wrote(content: Path, path: str) -> str:
    return f"wrote {content / path}\n"


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


# Pictures


def a_photo(content: Path, name: str, taken: str = "2024:03:06 10:00:00") -> None:
    put_file(content, f"inbox/{name}", encoded(corners(), exif=camera(taken=taken, marker=name)))


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


# In the editor


def test_editor__gets_the_sheet_itself_ready_to_fill(content: Path, editor: Editor) -> None:
    a_photo(content, "a.jpg")
    editor.then(
        "s/^title:$/title: Seal/", "s/{MT: }/{MT: 2}/",
        "s/^#  oil-leak: {clear: }/  oil-leak: {clear: sealed}/", "s/, alt: }/, alt: a seal}/", "$ a Dry.",
    )  # fmt: skip
    before = files(content)
    result = run("write", content, *ON, "--hand", "MT")
    path = "tern/sheets/2024/2024-03-06-seal.md"
    assert (0, wrote(content, path)) == (result.exit_code, result.stdout)
    assert """\
---
date: 2024-03-06
title:
subsystem: gearbox
hours: {MT: }
work:
#  gearbox/laygear: {did: }  # Laygear
parts:
#  laygear: {received: today, outcome: }  # from Northgate Gears, ordered 2024-03-05: =HYPERLINK(1)
snags:
#  oil-leak: {clear: }  # open 1 day, holds the handover: weeps, "badly"
photos:
  - {file: a.jpg, of: gearbox/laygear, caption: , alt: }
---

""" == editor.saw(0)
    assert """\
---
date: 2024-03-06
title: Seal
subsystem: gearbox
hours: {MT: 2}
snags:
  oil-leak: {clear: sealed}
photos:
  - {file: a.jpg, of: gearbox/laygear, alt: a seal}
---

Dry.
""" == (content / path).read_text()
    gone, came = before.keys() - files(content).keys(), files(content).keys() - before.keys()
    assert ({"inbox/a.jpg"}, {path, "tern/photos/2024-03-06/a.jpg"}) == (gone, came)


def test_mistake__is_shown_and_the_writer_goes_back(content: Path, editor: Editor) -> None:
    editor.then("s/{MT: }/{MT: 2,5}/").then("s/2,5/2.5/")
    result = run("write", content, *ON, "--hand", "MT", text="edit\n")
    assert 0 == result.exit_code
    assert f"{NEXT}:4: error[bad-number]: hours of MT must be a number" in result.stdout
    assert "hours: {MT: 2,5}\n" in editor.saw(1)
    assert "hours: {MT: 2.5}\n" in (content / NEXT).read_text()


def test_mistake__may_be_kept_for_another_day(content: Path, editor: Editor) -> None:
    editor.then("s/{MT: }/{MT: 2,5}/")
    result = run("write", content, *ON, "--hand", "MT", text="keep\n")
    assert (1, True) == (result.exit_code, result.stdout.endswith(wrote(content, NEXT)))
    assert "hours: {MT: 2,5}\n" in (content / NEXT).read_text()


def test_sheet_that_is_dropped__leaves_everything_as_it_was(content: Path, editor: Editor) -> None:
    a_photo(content, "a.jpg")
    editor.then("s/{MT: }/{MT: 2,5}/")
    before = files(content)
    result = run("write", content, *ON, "--hand", "MT", text="drop\n")
    assert (1, True) == (
        result.exit_code,
        result.stdout.endswith("its pictures are where they were.\n"),
    )
    assert {} == new_files(content, before)


def test_nobody_there_to_answer__keeps_what_was_written(content: Path, editor: Editor) -> None:
    editor.then("s/{MT: }/{MT: 2,5}/")
    result = run("write", content, *ON, "--hand", "MT", text="")
    assert 1 == result.exit_code
    assert "hours: {MT: 2,5}\n" in (content / NEXT).read_text()


def test_nothing_written__is_asked_about(content: Path, editor: Editor) -> None:
    before = files(content)
    result = run("write", content, *ON, "--hand", "MT", text="\n")
    assert "Nothing was written into the sheet.\n" in result.stdout
    assert {} == new_files(content, before)


def test_options__stand_in_the_sheet_that_is_edited(content: Path, editor: Editor) -> None:
    result = run(
        "write", content, *ON, "--hand", "MT", "--note", "Half a day.", "--edit", text="keep\n"
    )
    assert 0 == result.exit_code
    assert editor.saw(0).endswith("---\nHalf a day.\n")


def test_editor_that_cannot_be_started__leaves_the_sheet_ready_and_says_where(
    content: Path, tmp_path: Path
) -> None:
    result = run("write", content, *ON, "--hand", "MT")
    assert 2 == result.exit_code
    assert (
        f'Error: the editor "{tmp_path / "no-such-editor"}" cannot be started (no such file or directory); '
        f"{content / NEXT} is ready to fill\n"
    ) == result.stderr
    assert "#  oil-leak: {clear: }" in (content / NEXT).read_text()


def test_file_taken_away_in_the_editor__is_told(content: Path, editor: Editor) -> None:
    editor.does('rm "$2"')
    result = run("write", content, *ON, "--hand", "MT")
    assert (1, f"{NEXT} is gone; no sheet is written\n") == (result.exit_code, result.stderr)


# Corrections


def amended(content: Path, *words: object, text: str | None = None) -> Result:
    return run("amend", content, Path(DAY).stem, "--date", "2024-03-08", *words, text=text)


def test_correction__refers_to_the_earlier_sheet_which_stays(content: Path) -> None:
    before = files(content)
    result = amended(
        content, "--what", "Kept in bin G-5", "--work", "gearbox/laygear=original: bin G-5, since: 2024-03-05"
    )  # fmt: skip
    path = "tern/sheets/2024/2024-03-08-1-1-corrected.md"
    assert (0, wrote(content, path)) == (result.exit_code, result.stdout)
    assert {
        path: """\
---
date: 2024-03-08
subsystem: gearbox
work:
  gearbox/laygear: {original: bin G-5, since: 2024-03-05}
corrects: {sheet: 2024-03-05-gearbox, what: Kept in bin G-5}
---
"""
    } == new_files(content, before)


def test_correction__starts_from_what_the_earlier_sheet_says(content: Path, editor: Editor) -> None:
    editor.then("s/^#  laygear: .*/  laygear: {price: 112.00}/", "s/^corrects: .*/&\\n/")
    result = amended(content, "--hand", "MT")
    assert 0 == result.exit_code, result.output
    assert """\
---
date: 2024-03-08
title:
subsystem: gearbox
hours: {MT: }
work:
#  gearbox/laygear: {found: "pitted, scored", original: bin G-4, since: 2024-03-05}
parts:
#  laygear: {what: "=HYPERLINK(1)", number: "-A", from: northgate, price: 212.00, ordered: 2024-03-05}
corrects: 2024-03-05-gearbox
---

""" == editor.saw(0)
    made = (content / "tern/sheets/2024/2024-03-08-1-1-corrected.md").read_text()
    assert "parts:\n  laygear: {price: 112.00}\n" in made
    assert "work:" not in made


def test_correction__of_a_sheet_that_is_not_there_or_comes_later(content: Path) -> None:
    nearly = run("amend", content, "2024-03-05-gearbx.md")
    assert (2, True) == (nearly.exit_code, "write 2024-03-05-gearbox\n" in nearly.stderr)
    early = run("amend", content, Path(DAY).stem, "--date", "2024-03-04", "--what", "x")
    assert (2, True) == (
        early.exit_code,
        "a correction comes after what it corrects" in early.stderr,
    )

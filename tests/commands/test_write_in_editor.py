"""`journal write`: the sheet ready to fill in the writer's own editor."""

from pathlib import Path

import pytest

from tests.commands.editing import NEXT, ON, Editor, a_photo, new_files, wrote
from tests.commands.running import files, run

pytestmark = pytest.mark.usefixtures("person")


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

"""`journal amend`: a later sheet that corrects an earlier one."""

from pathlib import Path

import pytest
from click.testing import Result

from tests.commands.editing import Editor, new_files, wrote
from tests.commands.running import DAY, files, run

pytestmark = pytest.mark.usefixtures("person")


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

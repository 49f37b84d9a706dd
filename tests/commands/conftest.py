"""The small content that commands are tried on, and who tries them."""

from pathlib import Path

import pytest

from tests.commands.editing import Editor
from tests.commands.running import DAY, run
from tests.tern import put_content, sheet_text


@pytest.fixture
def content(tmp_path: Path) -> Path:
    front = """\
title: =1+1
hours: {MT: 3.5, JB: 1}
work:
  gearbox/laygear: {did: removed, found: "pitted, scored", original: bin G-4}
parts:
  laygear: {what: "=HYPERLINK(1)", number: "-A", from: northgate, price: 212.00, ordered: today}
snags:
  oil-leak: {raise: "weeps, \\"badly\\"", hold: yes}
"""
    return put_content(tmp_path / "content", **{DAY: sheet_text(front)})


@pytest.fixture
def key(tmp_path: Path) -> Path:
    file = tmp_path / "workshop.key"
    assert 0 == run("make-key", "--to", file).exit_code
    return file


@pytest.fixture
def person(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A person with a folder of their own and no editor."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "person"))
    monkeypatch.delenv("VISUAL", raising=False)
    monkeypatch.setenv("EDITOR", str(tmp_path / "no-such-editor"))
    return tmp_path / "person"


@pytest.fixture
def editor(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Editor:
    return Editor(tmp_path, monkeypatch)

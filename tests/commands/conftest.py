"""The small content that commands are tried on."""

from pathlib import Path

import pytest

from tests.commands.running import DAY
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

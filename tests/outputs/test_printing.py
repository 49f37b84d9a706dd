"""Printing for a reader: what they may not see is searched for before anything is written."""

from pathlib import Path

import pytest

from journal.outputs.archive import Order
from journal.outputs.dossier import Document
from journal.outputs.printing import print_document
from journal.outputs.withheld import Withheld
from journal.pages.view import CarView
from journal.reading.content import read_content
from journal.records.carfile import CarFile
from journal.words.vocabulary import Reader
from tests.tern import SHEET, put_content, sheet_text

BODY = "Split it.\n\n::: workshop\nThe seller lied about the gearbox, plainly.\n:::\n"


def test_document__that_would_tell_what_is_private_is_withheld(tmp_path: Path) -> None:
    root = put_content(tmp_path / "content", **{SHEET: sheet_text("", BODY)})
    target = tmp_path / "a.pdf"

    def telling(view: CarView, whole: CarFile) -> Document:
        secret = whole.sheets[0].body[1].text
        return Document("sheet.typ", {"sheet": [{"text": secret}]}, view.until)

    with pytest.raises(Withheld) as withheld:
        print_document(read_content(root), Order(root, target, Reader.OWNER), telling)
    (problem,) = withheld.value.problems
    assert "private-in-archive" == problem.code
    assert "in print.txt" in problem.message
    assert not target.exists()

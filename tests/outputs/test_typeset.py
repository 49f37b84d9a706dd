"""Typesetting: the same bytes, the claims of the standards, and text that stays text."""

import io
import json
import re
import subprocess
from datetime import date
from pathlib import Path

import pikepdf
import pytest
import typst

from journal.outputs.glyphs import RANGES, has_glyph, printable
from journal.outputs.setter import STANDARDS
from journal.outputs.theme import theme_folder
from journal.outputs.typeset import typeset
from tests.printing import HOSTILE, text_in
from tests.tern import a_picture

FONTS = typst.Fonts(include_system_fonts=False, font_paths=[theme_folder("dossier") / "fonts"])
HEAD = '#set document(title: "t")\n#set text(lang: "en", font: ("Libertinus Serif", "Lato"))\n'


def _archival(*texts: str) -> bytes:
    body = "\n".join(f"#{json.dumps(text, ensure_ascii=False)}\n" for text in texts)
    return typst.compile(
        (HEAD + body).encode(), font_paths=FONTS, ignore_system_fonts=True,
        pdf_standards=[*STANDARDS], timestamp=0,
    )  # fmt: skip


def test_glyphs__every_character_of_the_table_is_drawn_by_a_font_of_ours() -> None:
    """PDF/A (ISO 19005-2, 6.2.11) forbids text without a glyph, and the compiler refuses it."""
    every = [chr(code) for first, last in RANGES for code in range(first, last + 1)]
    assert 6000 < len(every)
    _archival(*(c for c in every if c not in '"\\'))


@pytest.mark.parametrize("missing", ["中", "日", "😀", "ก", "अ"])
def test_glyphs__what_no_font_draws_stands_as_its_code_point(missing: str) -> None:
    assert not has_glyph(missing)
    assert f"a⟨U+{ord(missing):04X}⟩b" == printable(f"a{missing}b")
    _archival(printable(missing))


def test_glyphs__a_character_that_the_table_leaves_out_is_one_that_the_compiler_refuses() -> None:
    with pytest.raises(typst.TypstError, match="could not be displayed"):
        _archival("中")


def test_glyphs__accents_join_their_letter_and_marks_of_layout_go() -> None:
    assert "é" == printable("e\N{COMBINING ACUTE ACCENT}")
    assert "q⟨U+0335⟩" == printable("q\N{COMBINING SHORT STROKE OVERLAY}")
    assert "ab c\nd" == printable("a\N{RIGHT-TO-LEFT OVERRIDE}b\tc\nd")


def _sheet_like(texts: list[str]) -> dict[str, object]:
    """Values for the layout of a dossier with nothing but a story in it."""
    blocks = [{"kind": "paragraph", "spans": [{"kind": "text", "text": text}]} for text in texts]
    day = {
        "code": {"text": "S 1", "to": None}, "day": "5 March 2024", "title": texts[0], "also": "",
        "corrected": [], "passages": [{"label": "", "blocks": blocks}],
    }  # fmt: skip
    branch = {
        "label": texts[0], "sentences": texts[0], "figures": [], "pairs": [], "photographs": [],
        "days": [day], "elsewhere": [],
    }  # fmt: skip
    return {
        "document": {"paper": "a4", "title": texts[0], "name": "Provenance dossier", "car": texts[0],
                     "workshop": texts[0], "draft": "", "keywords": ""},
        "first": {"car": texts[0], "year": "", "body": "", "number": "", "address": "", "day": "",
                  "cover": [], "reservations": [], "reservations_count": "", "handed_over": True},
        "key": {"origins": [["pattern", texts[0]]], "grades": [], "shares": [], "codes": []},
        "sections": [{"kind": "work", "title": texts[0], "values": {"branches": [branch]}}],
    }  # fmt: skip


def test_text__is_never_read_as_markup() -> None:
    pdf = typeset("dossier.typ", _sheet_like(list(HOSTILE)), {}, day=date(2024, 3, 5))
    shown = re.sub(r"[\s\u200b]", "", text_in(pdf, "-raw"))
    for text in HOSTILE:
        if text.isascii() and text.isprintable():
            assert re.sub(r"\s", "", text) in shown, text


def test_text__a_word_longer_than_a_page_is_wide_is_still_all_there() -> None:
    pdf = typeset("dossier.typ", _sheet_like(["w", "x" * 3000]), {}, day=date(2024, 3, 5))
    with pikepdf.open(io.BytesIO(pdf)) as read:
        assert len(read.pages) >= 3


def test_file__same_values_same_bytes_and_the_day_is_its_date() -> None:
    one, two = (
        typeset("dossier.typ", _sheet_like(["Tern"]), {}, day=date(2024, 3, 5)) for _ in range(2)
    )
    assert one == two
    with pikepdf.open(io.BytesIO(one)) as read:
        assert "D:20240305120000Z" == str(read.docinfo["/CreationDate"])
        assert str(theme_folder().parent) not in one.decode("latin-1")


def test_file_set_by_a_process_of_its_own__has_the_same_bytes() -> None:
    one, two = (
        typeset("dossier.typ", _sheet_like(["Tern"]), {}, day=date(2024, 3, 5), apart=apart)
        for apart in (False, True)
    )
    assert one == two


def test_file_that_cannot_be_set_by_a_process_of_its_own__is_told_and_not_left_out() -> None:
    with pytest.raises(subprocess.CalledProcessError):
        typeset("dossier.typ", {}, {}, day=date(2024, 3, 5), apart=True)


def test_pictures__are_given_as_a_file_or_as_bytes(tmp_path: Path) -> None:
    values = _sheet_like(["Tern"])
    cover = {"file": "pictures/a.jpg", "alt": "a green car", "code": {"text": "", "to": None},
             "stage": "", "day": "", "caption": "", "tall": False}  # fmt: skip
    values["first"]["cover"] = [cover]  # type: ignore[index]
    (tmp_path / "a.jpg").write_bytes(a_picture())
    given = [tmp_path / "a.jpg", a_picture()]
    made = {
        typeset("dossier.typ", values, {"pictures/a.jpg": g}, day=date(2024, 3, 5)) for g in given
    }
    assert 1 == len(made)
    with pikepdf.open(io.BytesIO(made.pop())) as read:
        figures = [o for o in read.objects if isinstance(o, pikepdf.Dictionary) and "/Alt" in o]
        assert ["a green car"] == [str(o["/Alt"]) for o in figures]

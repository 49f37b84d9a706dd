"""What was said, in the text of a sheet and apart from it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from journal.outputs.sheets.fromtalk import talk_block
from journal.outputs.sheets.spoken import SHOWN_TO, Spoken, parted, plainly, together
from journal.reading.markdown import read_body
from journal.words.vocabulary import Reader

SAID = "Took it off.\n\nMT: And cleaned it."
TEXTS = st.text("ab:\n >*1.)#-\\é\xa0", max_size=60) | st.sampled_from(
    [
        ": workshop",
        "\xa0: owner",
        "- :: workshop",
        "1. : owner",
        "::: owner\nx\n:::",
        ":::",
        "a\n:::\nb",
    ]
)


@pytest.mark.parametrize("reader", [Reader.WORKSHOP, Reader.OWNER])
@pytest.mark.parametrize("typed", ["", "Split it.", "Split it.\n\n::: owner\nCosts more.\n:::"])
def test_talk__is_told_apart_from_what_was_typed(typed: str, reader: Reader) -> None:
    assert (typed, Spoken(SAID, reader)) == parted(together(typed, Spoken(SAID, reader)))


def test_talk__for_everyone_is_text_like_any_other() -> None:
    body = together("Split it.", Spoken(SAID, Reader.PUBLIC))
    assert f"Split it.\n\n{SAID}" == body
    assert (body, None) == parted(body)


def test_talk__as_the_terminal_writes_it_is_told_apart() -> None:
    assert ("", Spoken(SAID, Reader.WORKSHOP)) == parted(talk_block(SAID))


@pytest.mark.parametrize(
    "body",
    ["", "Split it.", "::: workshop\nsaid\n:::\nand typed", "::: workshop\nsaid", ":::",
     "Text\n::: owner\nx\n:::",
     "::: public\nx\n:::", "::: workshop\n:::"],
)  # fmt: skip
def test_text__without_a_talk_at_its_end_stays_as_it_is(body: str) -> None:
    assert (body, None) == parted(body)


@given(TEXTS)
def test_parted__never_changes_what_stands_in_the_sheet(body: str) -> None:
    assert body == together(*parted(body))


@given(TEXTS, TEXTS, st.sampled_from(SHOWN_TO))
def test_together__hides_a_talk_whatever_is_said_in_it(
    typed: str, said: str, reader: Reader
) -> None:
    """Once it stands in the sheet, nothing that was said ends its block or opens another one."""
    body = together("typed", Spoken(f"said {said}", reader))
    blocks, problems = read_body(body, "a.md", 1)
    assert [] == problems
    readers = [Reader.PUBLIC] if reader is Reader.PUBLIC else [Reader.PUBLIC, reader]
    assert readers == [block.reader for block in blocks]


@given(st.text(st.characters(codec="ascii", categories=("L", "N", "P", "S")), min_size=1))
def test_plainly__is_what_markdown_shows(words: str) -> None:
    """CommonMark 0.31.2, section 2.4: a backslash before any mark shows the mark."""
    escaped = "".join(f"\\{c}" if not c.isalnum() else c for c in words)
    (token,) = MarkdownIt().parseInline(escaped)
    assert plainly(escaped) == "".join(child.content for child in token.children or ())

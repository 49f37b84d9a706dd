"""The text of a sheet and its blocks for some readers: a slip never publishes what is private."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.reading.markdown import body_parser, read_body
from journal.words.vocabulary import Reader

NOTE = "until this is mended the whole text of the sheet is shown to the workshop alone"


def _blocks(text: str) -> list[tuple[str, str, int]]:
    blocks, problems = read_body(text, "a.md", 10)
    assert [] == problems
    return [(b.reader.value, b.text, b.line) for b in blocks]


def test_text_without_blocks__is_for_the_public() -> None:
    assert [("public", "Two\n\nparagraphs.", 11)] == _blocks("\nTwo\n\nparagraphs.\n\n")


def test_no_text__is_no_block() -> None:
    assert [] == _blocks("\n\n")
    assert [] == _blocks("::: workshop\n\n:::\n")


def test_blocks__keep_their_order_their_readers_and_their_lines() -> None:
    text = "One.\n\n::: workshop\nTwo.\n\nThree.\n:::\n\nFour.\n\n:::: owner\nFive.\n::::\n"
    assert [
        ("public", "One.", 10),
        ("workshop", "Two.\n\nThree.", 13),
        ("public", "Four.", 18),
        ("owner", "Five.", 21),
    ] == _blocks(text)


def test_block__may_follow_text_without_a_blank_line() -> None:
    assert [("public", "One.", 10), ("workshop", "Two.", 12)] == _blocks(
        "One.\n::: workshop\nTwo.\n:::"
    )


@pytest.mark.parametrize(
    "mark", [":::workshop", "::: workshop  ", "  ::: workshop", "::::: workshop"]
)
def test_block__is_known_however_its_mark_is_spaced(mark: str) -> None:
    closing = ":::::" if mark.startswith(":::::") else ":::"
    assert [("workshop", "SECRET", 11)] == _blocks(f"{mark}\nSECRET\n{closing}\n")


UNCLEAR = (
    'the block "workshop" is not closed, or does not start at the margin',
    "start it at the margin and close it with ::: on a line of its own",
)
WRONG: dict[str, tuple[str, int, str, str]] = {
    "misspelt": (
        "::: workshp\nSECRET\n:::",
        10,
        'there are no blocks for "workshp"',
        "write ::: workshop",
    ),
    "capital": (
        "::: Workshop\nSECRET\n:::",
        10,
        'there are no blocks for "Workshop"',
        "write ::: workshop",
    ),
    "no one's": (
        "::: everyone\nSECRET\n:::",
        10,
        'there are no blocks for "everyone"',
        "write one of ::: workshop, ::: owner, ::: keeper, ::: public",
    ),
    "not closed": ("::: workshop\nSECRET", 10, *UNCLEAR),
    "closed with too few": (":::: workshop\nSECRET\n:::", 10, *UNCLEAR),
    "closed with words": ("::: workshop\nSECRET\n::: end", 10, *UNCLEAR),
    "a colon at the end": ("::: workshop\nSECRET\n: end", 10, *UNCLEAR),
    "more words": (
        "::: workshop only\nSECRET\n:::",
        10,
        'the mark of the block "workshop" has more words after it',
        "write ::: workshop on a line of its own",
    ),
    "two colons": (
        ":: workshop\nSECRET\n::",
        10,
        "a block is marked with three colons",
        "write ::: workshop",
    ),
    "one colon": (
        ": Workshop\nSECRET\n:",
        10,
        "a block is marked with three colons",
        "write ::: workshop",
    ),
    "never opened": (
        "SECRET\n:::",
        11,
        "this ::: closes no block",
        "open the block with ::: workshop or ::: owner, or take the line out",
    ),
    "in a list": ("- ::: workshop\n  SECRET\n  :::", 10, *UNCLEAR),
    "in a numbered list": ("1. ::: workshop\n   SECRET", 10, *UNCLEAR),
    "in a quotation": ("> ::: workshop\n> SECRET\n> :::", 10, *UNCLEAR),
    "indented as code": ("    ::: workshop\n    SECRET\n    :::", 10, *UNCLEAR),
    "in a fence": ("~~~\n::: workshop\nSECRET\n:::\n~~~", 11, *UNCLEAR),
    "within a line": ("A word ::: workshop\nSECRET\n:::", 10, *UNCLEAR),
    "nested": ("::: owner\n::: workshop\nSECRET\n:::\n:::", 11, *UNCLEAR),
}


@pytest.mark.parametrize("case", WRONG)
def test_block_that_is_wrong__keeps_the_whole_text_private_and_is_told(case: str) -> None:
    text, line, message, way = WRONG[case]
    blocks, problems = read_body(f"{text}\n\nOpen words.", "a.md", 10)
    assert [(Reader.WORKSHOP, f"{text}\n\nOpen words.")] == [(b.reader, b.text) for b in blocks]
    assert ("bad-block", line, message, way, NOTE) == (
        problems[0].code,
        problems[0].place.line,
        problems[0].message,
        problems[0].help,
        problems[0].note,
    )


def test_closing_mark_left_over_by_a_wrong_opening_one__is_not_told_besides() -> None:
    assert 1 == len(read_body("::: workshp\nx\n:::\n", "a.md", 1)[1])


def test_fence_within_a_block__does_not_hide_the_end_of_the_block() -> None:
    # The first line that can end the block ends it, so that nothing after it is private by accident.
    text = "::: workshop\n~~~\nSECRET\n:::\nOpen.\n"
    assert [("workshop", "~~~\nSECRET", 11), ("public", "Open.", 14)] == _blocks(text)


_LINES = st.sampled_from(
    ["::: workshop", ":::workshop", "::: owner", ":::", "::::", ":: workshop", "::: workshp",
     "  :::", "    ::: workshop", "> ::: workshop", "- ::: workshop", "1. ::: workshop", "~~~", "```",
     "- item", "> quoted", "", "words", "# heading", "---", "<div>", "<!--", "[x]: y", "    code",
     "::: workshop x", ": x"]
)  # fmt: skip


@given(
    st.lists(_LINES, max_size=7),
    st.lists(_LINES, max_size=7),
    st.sampled_from(["", "  ", "> ", "- ", "    "]),
)
def test_words_after_an_open_mark__never_reach_the_public(
    before: list[str], after: list[str], indent: str
) -> None:
    # Whatever stands around: from the line of a mark to the next closing one nothing is public.
    text = "\n".join([*before, f"{indent}::: workshop", f"{indent}SECRET", *after])
    blocks, _ = read_body(text, "a.md", 1)
    assert [] == [b.reader for b in blocks if b.reader is Reader.PUBLIC and "SECRET" in b.text]


@given(
    st.lists(_LINES | st.text(st.characters(codec="utf-8", exclude_characters="\r\0")), max_size=12)
)
def test_any_text__is_read_whole_and_problems_stand_in_it(lines: list[str]) -> None:
    text = "\n".join(lines)
    blocks, problems = read_body(text, "a.md", 1)
    count = text.count("\n") + 1
    assert all(1 <= p.place.line <= count for p in problems)
    assert all(b.text == "\n".join(text.split("\n")[b.line - 1 :])[: len(b.text)] for b in blocks)
    if problems:
        assert {Reader.WORKSHOP} >= {b.reader for b in blocks}


@given(st.text(st.characters(exclude_characters="[<", codec="utf-8")))
def test_text_without_brackets__has_neither_link_nor_picture(text: str) -> None:
    # So that the check of links need not take such a text apart.
    children = [c for t in body_parser(every_link=True).parse(text) for c in t.children or ()]
    assert set() == {child.type for child in children} & {"link_open", "image"}

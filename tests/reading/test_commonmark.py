"""The text of a sheet is CommonMark: the examples of the specification, through our own parser.

Source: CommonMark 0.31.2, 652 examples (tests/data/README.md).
"""

import json
from pathlib import Path
from typing import Any

import pytest

from journal.reading.markdown import body_parser

EXAMPLES = json.loads(
    (Path(__file__).parents[1] / "data" / "commonmark-0.31.2.json").read_text(encoding="utf-8")
)
_PARSER = body_parser(raw_html=True)
_SAFE = body_parser()


def _without_empty_quote_newline(html: str) -> str:
    # The library prints an empty block quote without the line end inside it; nothing else differs.
    return html.replace("<blockquote>\n</blockquote>", "<blockquote></blockquote>")


def test_specification__is_whole() -> None:
    assert 652 == len(EXAMPLES)


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda e: str(e["example"]))
def test_text__is_rendered_as_the_specification_says(example: dict[str, Any]) -> None:
    expected = _without_empty_quote_newline(example["html"])
    assert expected == _without_empty_quote_newline(_PARSER.render(example["markdown"]))


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda e: str(e["example"]))
def test_raw_html__never_reaches_the_page(example: dict[str, Any]) -> None:
    tokens = _SAFE.parse(example["markdown"])
    kinds = {t.type for t in tokens} | {c.type for t in tokens for c in t.children or ()}
    assert not kinds & {"html_block", "html_inline"}

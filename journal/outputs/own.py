"""What the program itself may say in an archive: no finding of it is a leak."""

import re
from collections.abc import Iterable
from functools import cache
from pathlib import Path

import journal
from journal.outputs.themes import theme_folder

_WORD = re.compile(r"[^\W_]+")
# The layers whose texts come to stand on pages, and a folder in them whose texts do not.
_SAYING = ("words", "records", "ledgers", "bench", "digests", "pages", "outputs")
_BAG = Path("outputs/bag")
# What explains lines of code, and the texts in them.
_EXPLAINED = re.compile(r'^\s*"""(?:.|\n)*?"""|^\s*#.*$', re.M)
_TEXT = re.compile(r'"((?:[^"\\\n]|\\.)*)"')
_THEME = (".html", ".css", ".js", ".svg")


@cache
def own_texts() -> tuple[str, ...]:
    """All that the program itself may say: its templates, and the texts in its own lines."""
    root = Path(journal.__file__).parent
    code = [
        file
        for layer in _SAYING
        for file in sorted((root / layer).rglob("*.py"))
        if not file.is_relative_to(root / _BAG)
    ]
    said = (_said(file.read_text(encoding="utf-8")) for file in code)
    theme = sorted(f for f in theme_folder().iterdir() if f.suffix in _THEME)
    return (*said, *(file.read_text(encoding="utf-8") for file in theme))


def _said(code: str) -> str:
    """The texts in lines of code, without what explains them to people."""
    return "\n".join(found[1] for found in _TEXT.finditer(_EXPLAINED.sub("", code)))


@cache
def own_words() -> frozenset[str]:
    """Every word that the program itself may say, and its plural."""
    words = words_of(own_texts())
    return words | {f"{word}s" for word in words}


def words_of(texts: Iterable[str]) -> frozenset[str]:
    """Every word of some texts, in small letters."""
    return frozenset(word for text in texts for word in _WORD.findall(text.casefold()))

"""The kinds of page: one for each template of the theme that prints a page.

What is looked at of a kind is its fullest page in an archive. A template that is added tomorrow is a
kind tomorrow.
"""

from journal.words.vocabulary import Reader
from tests.published import ROOT, archive_for, kinds_for

THEME = ROOT / "themes" / "coachline"
TEMPLATES = tuple(
    path.name
    for path in sorted(THEME.glob("*.html"))
    if "{% extends" in path.read_text(encoding="utf-8")
)

# A sheet is looked at twice: the longest, and the one with most pictures.
PICTURED = "sheet.html with most pictures"
KINDS = (*TEMPLATES, PICTURED)


def fullest(reader: Reader, kind: str) -> str | None:
    """The path of a kind's fullest page in a reader's archive; None where it has no such page."""
    folder = archive_for(reader)

    def much(path: str) -> int:
        text = (folder / path).read_text(encoding="utf-8")
        return text.count("<img ") if kind == PICTURED else len(text)

    return max(kinds_for(reader).get(kind.split()[0], ()), key=much, default=None)


def example(kind: str) -> str:
    """The address of a kind's fullest page, of the first reader who has one."""
    for reader in (Reader.WORKSHOP, Reader.OWNER, Reader.PUBLIC):
        if path := fullest(reader, kind):
            return (archive_for(reader) / path).as_uri()
    raise AssertionError(f"no page of the demonstration is printed by {kind}")

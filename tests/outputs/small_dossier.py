"""A dossier of one line, of the archival form, that names the seal it was made under."""

from datetime import UTC, datetime
from functools import cache
from pathlib import Path

import typst

from journal.ledgers.seals import fold_seals
from journal.reading.seals import read_seals


@cache
def small_dossier(root: str) -> bytes:
    """The file for the root of a seal in hexadecimal; empty for none."""
    keywords = f'("seal root {root}",)' if root else "()"
    text = f'#set document(title: "Tern", keywords: {keywords})\n#set text(lang: "en")\nTern.\n'
    made = typst.compile(
        text.encode(), format="pdf", pdf_standards=["a-2a", "ua-1"], ignore_system_fonts=True,
        timestamp=datetime(2024, 3, 8, 12, tzinfo=UTC),
    )  # fmt: skip
    assert isinstance(made, bytes)
    return made


def root_of_last_seal(folder: Path) -> str:
    """The root of the last seal in a folder of seals, empty when there is none."""
    last = fold_seals(read_seals(folder), {}, {}).last
    return last.root if last else ""

"""Sets what lies ready in a folder; a program too, that needs nothing else of the journal."""

import sys
from datetime import UTC, date, datetime, time
from functools import cache
from pathlib import Path
from typing import Literal

import typst

STANDARDS: list[Literal["a-2a", "ua-1"]] = ["a-2a", "ua-1"]


def set_folder(folder: Path, template: str, fonts: Path, day: date) -> bytes:
    """The PDF that a template makes of the files beside it, with the fonts of another folder alone."""
    return typst.compile(
        folder / template,
        root=folder,
        font_paths=_fonts(fonts),
        ignore_system_fonts=True,
        pdf_standards=[*STANDARDS],
        timestamp=datetime.combine(day, time(12), UTC),
    )


@cache
def _fonts(folder: Path) -> typst.Fonts:
    return typst.Fonts(include_system_fonts=False, font_paths=[folder])


if __name__ == "__main__":
    ready, name, letters, dated = sys.argv[1:]
    sys.stdout.buffer.write(set_folder(Path(ready), name, Path(letters), date.fromisoformat(dated)))

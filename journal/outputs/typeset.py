"""Typesetting: values and pictures through a template into an archival, tagged PDF.

Every document claims PDF/A-2a (ISO 19005-2) and PDF/UA-1 (ISO 14289-1) at once; the compiler refuses
what keeps neither. Values reach the template as JSON and their texts as text alone: nothing that was
written is ever read as markup. The system's fonts are not looked at.
"""

import json
import re
import shutil
import subprocess
import sys
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any, Literal

from journal.outputs import setter
from journal.outputs.glyphs import printable
from journal.outputs.held import held_for_a_while
from journal.outputs.theme import theme_folder

PRINTS = "dossier"
# Names, addresses and drawings: what a template reads and does not show.
_NEVER_SHOWN = frozenset({"kind", "paper", "file", "to", "place", "url", "matrix", "keywords"})
# What somebody will copy and run must hold no character that is not in it.
_COPIED = "command"
_LONG = re.compile(r"\S{25,}")
_PIECE = 12
Paper = Literal["a4", "us-letter"]


def typeset(
    template: str,
    values: Mapping[str, Any],
    pictures: Mapping[str, Path | bytes],
    *,
    day: date,
    apart: bool = False,
) -> bytes:
    """The PDF that a template of the theme for prints makes of values.

    `pictures` are by the name under which the values speak of them, a relative path with `/`. `day` is
    the date that the document bears. The same call gives the same bytes. With `apart` it is set by a
    process of its own: what setting takes of memory goes with it.
    """
    theme = theme_folder(PRINTS)
    with held_for_a_while() as folder:
        for part in sorted(theme.glob("*.typ")):
            shutil.copyfile(part, folder / part.name)
        (folder / "values.json").write_text(
            json.dumps(_printable(values), ensure_ascii=False), encoding="utf-8"
        )
        for name, picture in pictures.items():
            _put(folder / "pictures" / name, picture)
        make = _set_apart if apart else setter.set_folder
        return make(folder, template, theme / "fonts", day)


def _set_apart(folder: Path, template: str, fonts: Path, day: date) -> bytes:
    # -P keeps the modules beside the program from standing in for those of the library.
    call = (sys.executable, "-P", setter.__file__, folder, template, fonts, day.isoformat())
    done = subprocess.run(
        [str(word) for word in call], stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, check=True
    )
    return done.stdout


def _put(file: Path, picture: Path | bytes) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    if isinstance(picture, bytes):
        file.write_bytes(picture)
    else:
        shutil.copyfile(picture, file)


def _printable(value: Any) -> Any:
    """The same values with every text as the fonts and the width of a column can show it."""
    if isinstance(value, str):
        return _LONG.sub(_opened, printable(value))
    if isinstance(value, Mapping):
        return {k: _entry(k, v) for k, v in value.items()}
    if isinstance(value, list | tuple):
        return [_printable(item) for item in value]
    return value


def _entry(key: str, value: Any) -> Any:
    if key in _NEVER_SHOWN:
        return value
    return printable(value) if key == _COPIED else _printable(value)


def _opened(word: re.Match[str]) -> str:
    """A word that no column is wide enough for, with places at which it may be broken."""
    long = word.group()
    return "\N{ZERO WIDTH SPACE}".join(long[n : n + _PIECE] for n in range(0, len(long), _PIECE))

"""Which program this is: every byte of it and of its theme, and the libraries whose words come to stand
in an archive."""

import os
import sys
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

from journal.outputs.themes import theme_folder

_PACKAGE = Path(__file__).resolve().parents[2]
_LIBRARIES = frozenset(
    {
        "babel", "cryptography", "jinja2", "markdown_it_py", "markupsafe", "mdit_py_plugins", "pillow",
        "pillow_heif", "pyahocorasick", "pydantic", "pydantic_core", "pyyaml", "segno",
    }
)  # fmt: skip


def version() -> str:
    """A sum that is another one when anything is that an output could depend on besides the content."""
    held = sha256(sys.version.encode())
    for said in sorted(_libraries()):
        held.update(f"\0{said}".encode())
    for top in (_PACKAGE, theme_folder()):
        for file in _files(top):
            held.update(f"\0{os.path.relpath(file, top)}\0".encode())
            with open(file, "rb") as opened:
                held.update(sha256(opened.read()).digest())
    return held.hexdigest()


def _libraries() -> Iterator[str]:
    """Name and version of each library, as the folders are called in which they are installed."""
    for place in sys.path:
        try:
            names = os.listdir(place or ".")
        except OSError:
            continue
        for name in names:
            stem, ending = os.path.splitext(name)
            if ending == ".dist-info" and stem.rpartition("-")[0].lower() in _LIBRARIES:
                yield stem


def _files(top: Path) -> Iterator[str]:
    waiting = [str(top)]
    while waiting:
        with os.scandir(waiting.pop()) as found:
            entries = sorted(found, key=lambda entry: entry.name)
        for entry in entries:
            if entry.is_dir():
                if entry.name != "__pycache__":
                    waiting.append(entry.path)
            elif not entry.name.endswith(".pyc"):
                yield entry.path

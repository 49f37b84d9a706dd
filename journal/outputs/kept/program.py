"""Which program this is: every byte of it and of its theme, and the libraries whose words come to stand
in an archive."""

import os
import sys
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

from journal.outputs.kept.store import Store
from journal.outputs.themes import theme_folder
from journal.reading.prints import Print, is_fresh

_NAME = "program"
# In place of the version, where that is not known yet.
_LOOKED_AT = "looked at"
_PACKAGE = Path(__file__).resolve().parents[2]
# Where what reads and writes pictures lies when it came along with Pillow.
_CARRIED = ("pillow.libs", "PIL/.dylibs")
_LIBRARIES = frozenset(
    {
        "cryptography", "jinja2", "markdown_it_py", "markupsafe", "mdit_py_plugins", "msgspec",
        "pillow", "pillow_heif", "pyahocorasick", "pydantic", "pydantic_core", "pyyaml", "segno",
    }
)  # fmt: skip


def version() -> str:
    """A sum that is another one when anything is that an output could depend on besides the content."""
    held = sha256(_around())
    for path, file in _files():
        held.update(f"\0{path}\0".encode())
        with open(file, "rb") as opened:
            held.update(sha256(opened.read()).digest())
    return held.hexdigest()


def store_in(folder: Path, now: int) -> Store:
    """What this version of the program keeps in a folder. `now` is the time in ns."""
    looked = Store(folder, _LOOKED_AT)
    store = Store(folder, _known(looked, now))
    store.hear(looked.wrong)
    return store


def _known(looked: Store, now: int) -> str:
    """The version, summed again only when a file of the program was changed since."""
    prints = [(path, Print.of(os.stat(file))) for path, file in _files()]
    seen = sha256(repr((_around(), prints)).encode()).digest()
    kept = looked.get(_NAME)
    if kept is not None and kept.startswith(seen):
        return kept[len(seen) :].decode()
    summed = version()
    if not any(is_fresh(print_.changed, now) for _, print_ in prints):
        looked.put(_NAME, seen + summed.encode())
    return summed


def _around() -> bytes:
    """What an output depends on that is no file of the program."""
    return "\0".join((sys.version, *sorted(_libraries()), *carried())).encode()


def carried() -> tuple[str, ...]:
    """The encoders that came along with Pillow, by their names, which tell their versions; none where it was
    built with those of the system, which may become others while it stays the same."""
    found = (_names_in(os.path.join(place, name)) for place in sys.path for name in _CARRIED)
    return tuple(sorted(name for names in found for name in names))


def _names_in(folder: str) -> list[str]:
    try:
        return os.listdir(folder or ".")
    except OSError:
        return []


def _libraries() -> Iterator[str]:
    """Name and version of each library, as the folders are called in which they are installed."""
    for place in sys.path:
        for name in _names_in(place):
            stem, ending = os.path.splitext(name)
            if ending == ".dist-info" and stem.rpartition("-")[0].lower() in _LIBRARIES:
                yield stem


def _files() -> Iterator[tuple[str, str]]:
    """The files of the program and of its theme, by their path there and where they lie."""
    for top in (str(_PACKAGE), str(theme_folder())):
        waiting = [top]
        while waiting:
            with os.scandir(waiting.pop()) as found:
                entries = sorted(found, key=lambda entry: entry.name)
            for entry in entries:
                if entry.is_dir():
                    if entry.name != "__pycache__":
                        waiting.append(entry.path)
                elif not entry.name.endswith(".pyc"):
                    yield entry.path[len(top) :], entry.path

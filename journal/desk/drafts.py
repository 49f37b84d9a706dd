"""What a page has asked to be written, remembered by the draft it belongs to: asked again, it is not
written twice.

A phone whose connection broke off while it saved does not know whether the sheet is in the book, and
asks again. What was to be written is noted before it is, and that it was, after; so a desk that is
killed between the two knows it as well.
"""

import json
import re
from pathlib import Path
from threading import Lock
from typing import Any

from msgspec import Struct, field
from msgspec.structs import asdict

from journal.outputs.sheets.disk import clear_left, locked, put_new, put_over

# Nobody asks again after this many others.
MOST = 500

_DRAFT = re.compile(r"[0-9A-Za-z-]{8,64}")


class Note(Struct, frozen=True):
    """What a draft became: of which car, as which form, with which hash at which path; `files` are
    the names of its pictures by their ids. It is `done` when the sheet is known to be on the disk."""

    car: str
    form: dict[str, Any]
    hash: str
    path: str = ""
    files: dict[str, str] = field(default_factory=dict)
    done: bool = False


def is_draft(name: object) -> bool:
    """Whether a page may call a draft so."""
    return isinstance(name, str) and bool(_DRAFT.fullmatch(name))


class Drafts:
    """The notes, a file each, in a folder of their own."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._lock = Lock()
        # Who adds to a sheet of the day reads it, changes it and writes it, one after the other.
        self.adding = Lock()
        folder.mkdir(parents=True, exist_ok=True)
        # Another desk may be writing there.
        with locked(folder):
            clear_left(folder)

    def find(self, draft: str) -> Note | None:
        """The note of a draft, or None. One that is damaged is none."""
        try:
            return Note(**json.loads(self._file(draft).read_text(encoding="utf-8")))
        except (OSError, ValueError, TypeError):
            return None

    def put(self, draft: str, note: Note) -> None:
        """Write a note for good. Raises OSError when the disk refuses."""
        data = json.dumps(asdict(note)).encode("utf-8")
        with self._lock, locked(self._folder):
            if not put_new(self._file(draft), data):
                put_over(self._file(draft), data)
            self._forget()

    def _file(self, draft: str) -> Path:
        assert is_draft(draft), draft
        return self._folder / f"{draft}.json"

    def _forget(self) -> None:
        """The oldest notes make room."""
        files = sorted(self._folder.glob("*.json"), key=lambda f: f.stat().st_mtime)
        for file in files[:-MOST]:
            file.unlink(missing_ok=True)

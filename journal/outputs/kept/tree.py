"""All files below a folder as they are known without reading them, and one sum over all of that.

Two looks at a folder give the same sum when no file in it was added, taken away, renamed or changed.
A file that was changed a moment before the look is known by its content as well.
"""

import os
import stat
from array import array
from collections.abc import Callable, Iterator
from hashlib import sha256
from pathlib import Path

from journal.reading.prints import Print, is_fresh

# An inode number may fill 64 bits; a signed number holds one less.
_SIGNED = (1 << 63) - 1
_EACH = len(Print._fields)
_NOTHING = Print(0, 0, 0, 0, 0)
# No folder is called that.
_UNSEEN = ("/",)
Sha = Callable[[str], str]


class Tree:
    """What lies below `top`, in order of path. `paths` are relative to it; those of folders end in `/`.

    What is hidden counts, since reading may meet it. A link is known by where it leads and by what
    lies there, and what cannot be looked at by the reason, in notes behind a `//`; folders behind links
    are not entered.
    """

    def __init__(self, top: Path, *, but: tuple[str, ...] = ()) -> None:
        self.top = top
        self.paths: list[str] = []
        self.numbers = array("q")
        self._newest = 0
        self._read: dict[str, str] = {}
        if but != _UNSEEN:
            self._walk("", but)

    @classmethod
    def of(cls, top: Path, paths: list[str], numbers: "array[int]") -> "Tree":
        """A tree as it was seen at another time."""
        tree = cls(top, but=_UNSEEN)
        tree.paths, tree.numbers = paths, numbers
        return tree

    def _walk(self, below: str, but: tuple[str, ...]) -> None:
        try:
            with os.scandir(self.top / below) as found:
                entries = sorted(found, key=lambda entry: entry.name)
        except OSError as fault:
            self._note(f"{below}//?{fault.errno}", _NOTHING)
            return
        folders = []
        paths, numbers, newest = self.paths, self.numbers, self._newest
        for entry in entries:
            path = below + entry.name
            if entry.is_dir(follow_symlinks=False):
                if path not in but:
                    folders.append(f"{path}/")
                continue
            try:
                found_ = entry.stat(follow_symlinks=False)
            except OSError as fault:
                self._note(f"{path}//?{fault.errno}", _NOTHING)
                continue
            if stat.S_ISLNK(found_.st_mode):
                self._link(path)
            changed = found_.st_mtime_ns
            newest = changed if changed > newest else newest
            paths.append(path)
            numbers.extend((
                changed, found_.st_size, found_.st_ino & _SIGNED, found_.st_ctime_ns, found_.st_mode,
            ))  # fmt: skip
        self._newest = max(newest, self._newest)
        for folder in folders:
            self._note(folder, _NOTHING)
            self._walk(folder, but)

    def _link(self, path: str) -> None:
        """Where a link leads, as one more name, with the print of what lies there."""
        file = self.top / path
        try:
            behind = Print.of(file.stat())
        except OSError:
            behind = _NOTHING
        self._newest = max(self._newest, behind.changed)
        self._note(f"{path}//>{os.path.realpath(file)}", behind)

    def _note(self, path: str, numbers: tuple[int, ...]) -> None:
        self.paths.append(path)
        self.numbers.extend(number & _SIGNED for number in numbers)

    def prints(self) -> Iterator[tuple[str, Print]]:
        """Every path with its print, notes among them."""
        numbers = self.numbers
        for place, path in enumerate(self.paths):
            yield path, Print(*numbers[place * _EACH : (place + 1) * _EACH])

    def files(self) -> list[str]:
        """The paths of files and folders, without the notes."""
        return [path for path in self.paths if "//" not in path]

    def sum(self, since: int, sha: Sha | None = None) -> str:
        """One sum over all of it, for a look that is to be believed from `since` on.

        `sha` tells the hash of a file whose bytes are known; otherwise it is read.
        """
        held = sha256("\0".join(self.paths).encode("utf-8", "surrogateescape"))
        held.update(self.numbers.tobytes())
        if self.is_fresh(since):
            for path, told in self.prints():
                if is_fresh(told.changed, since):
                    held.update((sha or self._sha)(path).encode())
        return held.hexdigest()

    def is_fresh(self, since: int) -> bool:
        """Whether any file was changed a moment before."""
        return is_fresh(self._newest, since)

    def _sha(self, path: str) -> str:
        if path not in self._read:
            self._read[path] = sha_of(self.top / path)
        return self._read[path]


def sha_of(file: Path) -> str:
    """The hash of what a plain file holds; none of anything else, or when it cannot be read."""
    try:
        plain = stat.S_ISREG(file.lstat().st_mode)
        return sha256(file.read_bytes()).hexdigest() if plain else ""
    except (OSError, ValueError):
        return ""

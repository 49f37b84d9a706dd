"""All files below a folder as they are known without reading them, and one sum over all of that.

Two looks at a folder give the same sum when no file in it was added, taken away, renamed or changed.
A file that was changed a moment before the look is known by its content as well.
"""

import errno
import os
import pickle
import stat
from array import array
from collections.abc import Callable, Iterable, Iterator
from copy import copy
from functools import cached_property
from hashlib import sha256
from itertools import chain
from operator import attrgetter
from pathlib import Path

from journal.reading.prints import Print, is_fresh

# An inode number may fill 64 bits; a signed number holds one less.
_SIGNED = (1 << 63) - 1
_EACH = len(Print._fields)
_NOTHING = Print(0, 0, 0, 0, 0)
# The note of a folder that is not there.
_NOT_THERE = f"//?{errno.ENOENT}"
# No folder is called that.
_UNSEEN = ("/",)
_NAME = attrgetter("name")
# The fields of a print, in its order.
_PRINT = attrgetter("st_mtime_ns", "st_size", "st_ino", "st_ctime_ns", "st_mode")
# What is wanted of every tree.
_RECKONED = ("_seen", "_newest", "pages")
Sha = Callable[[str], str]
Lists = tuple[list[str], "array[int]"]


class Tree:
    """What lies below `top`, in order of path. `paths` are relative to it; those of folders end in `/`.

    What is hidden counts, since reading may meet it. A link is known by where it leads and by what
    lies there, and what cannot be looked at by the reason, in notes behind a `//`; folders behind links
    are not entered, not even when `top` is one.
    """

    def __init__(self, top: Path, *, but: tuple[str, ...] = ()) -> None:
        self.top, self.but = top, but
        self._lists: Lists | bytes | None = ([], array("q"))
        self._read: dict[str, str] = {}
        if but != _UNSEEN:
            self._walk("")

    @classmethod
    def of(
        cls, top: Path, paths: list[str], numbers: "array[int]", *, but: tuple[str, ...] = ()
    ) -> "Tree":
        """A tree as it was seen at another time."""
        tree = cls(top, but=_UNSEEN)
        tree.but, tree._lists = but, (paths, numbers)
        return tree

    @property
    def paths(self) -> list[str]:
        """Every path, notes among them."""
        return self._unpacked()[0]

    @property
    def numbers(self) -> "array[int]":
        """The prints of all paths, one after the other."""
        return self._unpacked()[1]

    @property
    def changed(self) -> "array[int]":
        """When what lies at each path was changed, in ns."""
        return self.numbers[::_EACH]

    def in_short(self) -> "Tree":
        """The same without its lists, for those who most often want no more than its sum; when they are
        wanted after all, it is looked at anew."""
        short = copy(self)
        short.__dict__ |= self._reckoned()
        short._lists = None
        return short

    def again(self, touched: Iterable[str], since: int) -> "Tree | None":
        """A look after all that was `touched` was written or taken away; this one is to be believed from
        `since` on. None when something else was changed meanwhile.

        Where the same files lie here as before, only those are looked at, and those that may have been
        changed again within one tick; what else is changed is told by its old print.
        """
        touched = {*touched}
        if self._lists is None and not touched:
            now = Tree(self.top, but=self.but)
            return now if now._seen == self._seen else None
        times = zip(self.paths, self.changed, strict=True)
        fresh = {path for path, at in times if is_fresh(at, since)} - touched
        prints = self._prints_of(touched | fresh)
        if prints is None:
            now = Tree(self.top, but=self.but)
            return (
                now
                if untouched(now.prints(), touched) == untouched(self.prints(), touched)
                else None
            )
        numbers = self.numbers[:]
        for place, path in enumerate(self.paths):
            if path in prints:
                each, seen = slice(place * _EACH, (place + 1) * _EACH), array("q", prints[path])
                if path in fresh and numbers[each] != seen:
                    return None
                numbers[each] = seen
        return Tree.of(self.top, self.paths, numbers, but=self.but)

    def _prints_of(self, paths: set[str]) -> dict[str, Print] | None:
        """The prints of these files as they are now; None unless each of them lay here before, and
        nothing did but files."""
        if not paths <= {*self.paths} or any("//" in path for path in self.paths):
            return None
        try:
            found = {path: os.lstat(self.top / path) for path in paths}
        except OSError:
            return None
        if not all(stat.S_ISREG(one.st_mode) for one in found.values()):
            return None
        return {path: _signed(Print.of(one)) for path, one in found.items()}

    def unfold(self) -> None:
        """Have the lists of a tree in short now."""
        self._unpacked()

    def _reckoned(self) -> dict[str, object]:
        return {name: getattr(self, name) for name in _RECKONED}

    def _unpacked(self) -> "Lists":
        if self._lists is None:
            self._lists = ([], array("q"))
            self._walk("")
        elif isinstance(self._lists, bytes):
            lists: Lists = pickle.loads(self._lists)
            self._lists = lists
        return self._lists

    def __getstate__(self) -> dict[str, object]:
        """To be sent: the lists are packed until somebody wants them."""
        lists = None if self._lists is None else pickle.dumps(self._unpacked(), 5)
        return {**self.__dict__, **self._reckoned(), "_lists": lists}

    def _walk(self, below: str) -> None:
        if not below and os.path.islink(self.top):
            self._link("")
            return
        try:
            within = self._within(below)
        except OSError as fault:
            self._note(f"{below}//?{fault.errno}", _NOTHING)
            return
        for name in within:
            if (folder := below + name) not in self.but:
                self.paths.append(f"{folder}/")
                self.numbers.extend(_NOTHING)
                self._walk(f"{folder}/")

    def _within(self, below: str) -> list[str]:
        """Look at the files of a folder: the folders in it, by name."""
        opened = _opened(f"{self.top}/{below}")
        try:
            with os.scandir(opened) as found:
                entries = sorted(found, key=_NAME)
            folders = [entry for entry in entries if entry.is_dir(follow_symlinks=False)]
            if folders:
                entries = [e for e in entries if not e.is_dir(follow_symlinks=False)]
            self._look_at(below, entries)
        finally:
            if isinstance(opened, int):
                os.close(opened)
        return [folder.name for folder in folders]

    def _look_at(self, below: str, entries: "list[os.DirEntry[str]]") -> None:
        """All of them in one go, and one by one where that fails."""
        try:
            seen = array("q", chain.from_iterable(
                map(_PRINT, [entry.stat(follow_symlinks=False) for entry in entries])
            ))  # fmt: skip
        except (OSError, OverflowError):
            self._look_at_each(below, entries)
            return
        self.paths.extend([below + entry.name for entry in entries])
        self.numbers.extend(seen)
        for entry in entries:
            if entry.is_symlink():
                self._link(below + entry.name)

    def _look_at_each(self, below: str, entries: "list[os.DirEntry[str]]") -> None:
        for entry in entries:
            path = below + entry.name
            try:
                found = entry.stat(follow_symlinks=False)
            except OSError as fault:
                self._note(f"{path}//?{fault.errno}", _NOTHING)
                continue
            self._note(path, Print.of(found))
            if stat.S_ISLNK(found.st_mode):
                self._link(path)

    def _link(self, path: str) -> None:
        """Where a link leads, as one more name, with the print of what lies there."""
        file = self.top / path
        try:
            behind = Print.of(file.stat())
        except OSError:
            behind = _NOTHING
        self._note(f"{path}//>{os.path.realpath(file)}", behind)

    def _note(self, path: str, told: Print) -> None:
        self.paths.append(path)
        self.numbers.extend(_signed(told))

    def prints(self) -> Iterator[tuple[str, Print]]:
        """Every path with its print, notes among them."""
        numbers = self.numbers
        for place, path in enumerate(self.paths):
            yield path, Print(*numbers[place * _EACH : (place + 1) * _EACH])

    def files(self) -> list[str]:
        """The paths of files and folders, without the notes."""
        return [path for path in self.paths if "//" not in path]

    @cached_property
    def pages(self) -> int:
        """How many of them are pages."""
        return "\0".join((*self.files(), "")).count(".html\0")

    def sum(self, since: int, sha: Sha | None = None) -> str:
        """One sum over all of it, for a look that is to be believed from `since` on.

        `sha` tells the hash of a file whose bytes are known; otherwise it is read.
        """
        held = sha256(self._seen)
        if self.is_fresh(since):
            for path, changed in zip(self.paths, self.changed, strict=True):
                if is_fresh(changed, since):
                    held.update((sha or self._sha)(path).encode())
        return held.hexdigest()

    @cached_property
    def _seen(self) -> bytes:
        held = sha256("\0".join(self.paths).encode("utf-8", "surrogateescape"))
        held.update(self.numbers.tobytes())
        return held.digest()

    def is_fresh(self, since: int) -> bool:
        """Whether any file was changed a moment before."""
        return is_fresh(self._newest, since)

    @cached_property
    def _newest(self) -> int:
        return max(self.changed, default=0)

    def _sha(self, path: str) -> str:
        if path not in self._read:
            self._read[path] = sha_of(self.top / path)
        return self._read[path]


def untouched(prints: Iterable[tuple[str, Print]], touched: set[str]) -> dict[str, Print]:
    """The prints of all but some paths, with the notes of each, and the folders that they lie in."""
    above = {path[: end + 1] for path in touched for end, sign in enumerate(path) if sign == "/"}
    return {
        path: print_
        for path, print_ in prints
        if path not in above and path.partition("//")[0] not in touched and path != _NOT_THERE
    }


def _signed(told: Print) -> Print:
    return told._replace(node=told.node & _SIGNED)


def _opened(folder: str) -> int | str:
    """A folder that is open: its files are looked at from there, which spares the way to each of them.
    Where a system has no such look, its path."""
    if os.scandir not in os.supports_fd:
        return folder
    return os.open(folder, os.O_RDONLY | os.O_DIRECTORY)


def sha_of(file: Path) -> str:
    """The hash of what a plain file holds; none of anything else, or when it cannot be read."""
    try:
        plain = stat.S_ISREG(file.lstat().st_mode)
        return sha256(file.read_bytes()).hexdigest() if plain else ""
    except (OSError, ValueError):
        return ""

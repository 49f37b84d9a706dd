"""A look at all that an archive is made from and at the archive itself, file by file, without reading."""

import os
import stat
from collections.abc import Callable, Container, Iterable, Iterator, Mapping
from datetime import date
from functools import cached_property
from hashlib import sha256
from pathlib import Path

from msgspec import Struct

from journal.outputs.hands import shared
from journal.outputs.kept.tree import Tree, sha_of, untouched
from journal.reading.prints import Print, is_fresh
from journal.words.vocabulary import Reader

Trees = Mapping[Path, Tree]
# The folder of a car's photographs.
PHOTOS = "photos"
# The note of a folder that is a car's.
_CAR = "//car.yaml"
# In so many turns all folders are looked at, by whoever is free.
_TURNS = 32


class Asked(Struct, frozen=True):
    """What is to be published: from where, to where, for whom, which car, as of which day."""

    root: Path
    target: Path
    reader: Reader
    car: str | None = None
    as_of: date | None = None

    @property
    def name(self) -> str:
        """A short name of its own for each archive."""
        told = (self.root.resolve(), self.target.resolve(), self.reader, self.car, self.as_of)
        return _short(map(str, told))

    @property
    def content(self) -> str:
        """A short name of its own for each content folder."""
        return f"reads-{_short([str(self.root.resolve())])}"


def trees_of_texts(root: Path) -> Trees:
    """The trees of the cars of a content folder, without their photographs."""
    return _trees([(top, (PHOTOS,)) for top in _cars(root)], 1)


def trees_of_photos(root: Path, hands: int = 1) -> Trees:
    """The trees of the photographs of its cars, looked at by so many hands."""
    tops = [top / PHOTOS for top in _cars(root)]
    # A link is a name among the texts of its car, and is not entered.
    return _trees([(top, ()) for top in tops if top.is_dir() and not top.is_symlink()], hands)


def trees_of_archive(
    target: Path,
    bases: Iterable[str],
    hands: int = 1,
    *,
    only: Container[Path] | None = None,
    but: Container[Path] = (),
) -> Trees:
    """The trees of an archive in which `bases` are the folders of cars: `only` some, or all `but` some."""
    here = tuple(base.rstrip("/") for base in bases if base)
    tops = [(target, here), *((target / base, ()) for base in here)]
    wanted = [(t, w) for t, w in tops if t not in but and (only is None or t in only)]
    return _trees(wanted, hands)


def in_short(trees: Trees, but: Container[Path] = ()) -> Trees:
    """Trees without their lists, `but` some."""
    return {top: tree if top in but else tree.in_short() for top, tree in trees.items()}


def _trees(tops: list[tuple[Path, tuple[str, ...]]], hands: int) -> Trees:
    def seen(numbers: Iterator[int]) -> Trees:
        return {top: Tree(top, but=but) for n in numbers for top, but in tops[n::_TURNS]}

    return {top: tree for some in shared(seen, _TURNS, hands) for top, tree in some.items()}


class Content:
    """A content folder: for each car a tree of its texts, from which whoever writes makes a change most
    often, and one of its photographs, `seen` when the first of them is asked for; and what else lies in it
    beside the cars."""

    def __init__(self, root: Path, texts: Trees, seen: Callable[[], Trees]) -> None:
        self._root, self._seen = root, seen
        self._names: list[str] = []
        self._beside: dict[str, Print] = {}
        self._read: dict[str, str] = {}
        self._texts = {top.name: tree for top, tree in texts.items()}
        for entry in _entries(root):
            self._add(entry)

    @cached_property
    def _photos(self) -> Mapping[str, Tree]:
        return {top.parent.name: tree for top, tree in self._seen().items()}

    def _add(self, entry: "os.DirEntry[str]") -> None:
        told = f"{entry.name}//{entry.is_dir(follow_symlinks=False)}"
        if entry.is_symlink():
            told += os.path.realpath(entry.path)
        told += (car := _car_in(self._root, entry.name))
        if car != _CAR and (print_ := _print_of(entry)):
            self._beside[entry.name] = print_
        self._names.append(told)

    def shared(self, since: int) -> str:
        """A sum over what is the same for all cars, as in `Tree.sum`."""
        held = sha256("\0".join(self._names).encode("utf-8", "surrogateescape"))
        held.update(repr(sorted(self._beside.items())).encode("utf-8", "surrogateescape"))
        for name, print_ in sorted(self._beside.items()):
            if is_fresh(print_.changed, since):
                held.update(self._sha(name).encode())
        return held.hexdigest()

    def _sha(self, name: str) -> str:
        if name not in self._read:
            self._read[name] = sha_of(self._root / name)
        return self._read[name]

    def sum(self, name: str, since: int) -> str:
        """A sum over one car."""
        trees = (of[name] for of in (self._texts, self._photos) if name in of)
        return "".join(tree.sum(since) for tree in trees)

    def texts(self, name: str) -> int:
        """How many bytes of text there are in one car."""
        tree = self._texts.get(name)
        prints = tree.prints() if tree else ()
        return sum(print_.size for path, print_ in prints if path.endswith((".md", ".yaml")))

    def is_fresh(self, since: int) -> bool:
        """Whether any file was changed a moment before."""
        shared = any(is_fresh(print_.changed, since) for print_ in self._beside.values())
        trees = (*self._texts.values(), *self._photos.values())
        return shared or any(tree.is_fresh(since) for tree in trees)

    def read_fresh(self, since: int) -> None:
        """Read what was changed a moment before. Whatever becomes of it later, the sums tell of it as it
        is now: to be asked before anything is made of it."""
        self.sums_of_texts(since)
        self.sums_of_photos(since)

    def sums_of_texts(self, since: int) -> dict[str, str]:
        """All sums but those of photographs, that of what is shared under no name."""
        texts = {name: tree.sum(since) for name, tree in self._texts.items()}
        return {"": self.shared(since), **texts}

    def sums_of_photos(self, since: int) -> dict[str, str]:
        """The sums of photographs by the names of their cars."""
        return {name: tree.sum(since) for name, tree in self._photos.items()}


def _none() -> Trees:
    return {}


class Lying:
    """An archive: a tree for each of the folders in it that are a car's, and one for the rest, `seen` when
    the first of them is asked for; but for some, that are seen `first`."""

    def __init__(
        self,
        target: Path,
        bases: Iterable[str],
        seen: Callable[[], Trees],
        first: Callable[[], Trees] = _none,
    ) -> None:
        self._target, self._bases, self._seen, self._see_first = target, tuple(bases), seen, first

    @cached_property
    def _first(self) -> Trees:
        return self._see_first()

    def part(self, base: str) -> Tree | None:
        """The tree of one folder, if there is one."""
        return self._first.get(self._target / base) or self.parts.get(base)

    @cached_property
    def parts(self) -> Mapping[str, Tree]:
        """Each tree by its folder, empty or ending in `/`."""
        trees = {**self._first, **self._seen()}
        return {part: trees[self._target / part] for part in ("", *filter(None, self._bases))}

    def again(
        self, bases: Iterable[str], but: Container[str], touched: Iterable[str], since: int
    ) -> dict[str, Tree | None]:
        """Each part after these paths were written or taken away; `but` are parts in which none of them
        lies. None where something else was changed meanwhile. This look is to be believed from `since` on."""
        bases = tuple(filter(None, bases))
        here = tuple(base.rstrip("/") for base in bases)
        paths: dict[str, set[str]] = {part: set() for part in ("", *bases)}
        for path in touched:
            paths[_part_of(path, bases)].add(path)

        def look_at(part: str) -> Tree | None:
            tree, without = self.parts.get(part), () if part else here
            if tree is not None and tree.but == without:
                if part in but and not tree.is_fresh(since):
                    return tree
                return tree.again((path.removeprefix(part) for path in paths[part]), since)
            tree = Tree(self._target / part, but=without)
            there = ((part + path, told) for path, told in tree.prints())
            before = ((p, t) for p, t in self._prints if p != part and _part_of(p, bases) == part)
            same = untouched(there, paths[part]) == untouched(before, paths[part])
            return tree if same else None

        return {part: look_at(part) for part in paths}

    @property
    def _prints(self) -> Iterator[tuple[str, Print]]:
        """The print of every path of all parts."""
        return ((part + p, told) for part, tree in self.parts.items() for p, told in tree.prints())

    def sums(self, since: int, sha: "Callable[[str, str], str] | None" = None) -> dict[str, str]:
        """The sum of each part; `sha` tells the hash of a file by part and path."""

        def of(part: str) -> "Callable[[str], str] | None":
            return None if sha is None else lambda path: sha(part, path)

        return {part: tree.sum(since, of(part)) for part, tree in self.parts.items()}

    def is_fresh(self, since: int) -> bool:
        """Whether any file was changed a moment before."""
        return any(tree.is_fresh(since) for tree in self.parts.values())


def _part_of(path: str, bases: Container[str]) -> str:
    """In which part of an archive a path lies."""
    top = path[: path.find("/") + 1]
    return top if top in bases else ""


def _cars(root: Path) -> list[Path]:
    return [root / entry.name for entry in _entries(root) if _car_in(root, entry.name) == _CAR]


def _car_in(root: Path, name: str) -> str:
    """Whether a folder is a car's, as a note; where nobody may look into it, why not."""
    try:
        os.lstat(root / name / "car.yaml")
    except (FileNotFoundError, NotADirectoryError):
        return ""
    except OSError as fault:
        return f"//?{fault.errno}"
    return _CAR


def _entries(root: Path) -> "list[os.DirEntry[str]]":
    with os.scandir(root) as found:
        return sorted((e for e in found if e.name[0] != "."), key=lambda entry: entry.name)


def _print_of(entry: "os.DirEntry[str]") -> Print | None:
    """The print of a file, or of what a link leads to; a folder has none."""
    try:
        print_ = Print.of(entry.stat())
    except OSError:
        return None
    return print_ if stat.S_ISREG(print_.mode) else None


def _short(told: Iterable[str]) -> str:
    return sha256("\0".join(told).encode("utf-8", "surrogateescape")).hexdigest()[:24]

"""The files an archive is made of, each with what tells whether it has changed, made when it is needed."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import partial
from hashlib import sha256
from os.path import islink
from pathlib import Path
from typing import NamedTuple

from jinja2 import Environment

from journal.outputs.kept.pack import printed
from journal.outputs.kept.tree import sha_of
from journal.outputs.staging import put
from journal.pages.page import Page, TextFile


class Set(NamedTuple):
    """A file as it stands in an archive: the print of what it was made from, and the hash of its bytes."""

    print: str
    sha: str


class Piece(NamedTuple):
    """One file of an archive by its path there.

    Two pieces with the same `print` have the same bytes. `sha` is the hash of those where they need not
    be made for it.
    """

    path: str
    print: str
    make: Callable[[], bytes]
    sha: str = ""


def page_pieces(templates: Environment, pages: Iterable[Page]) -> Iterator[Piece]:
    """Pages: what one shows is its values, and they are its print."""
    for page in pages:
        values = page.ready
        made_from = sha256(printed((page.template, values))).hexdigest()
        yield Piece(page.path, made_from, partial(_rendered, templates, page.template, values))


def text_pieces(files: Iterable[TextFile]) -> Iterator[Piece]:
    """Files that are no pages: they are their own print."""
    for file in files:
        yield bytes_piece(file.path, file.text.encode("utf-8"))


def bytes_piece(path: str, data: bytes) -> Piece:
    """A file whose bytes are there already."""
    sha = sha256(data).hexdigest()
    return Piece(path, sha, lambda: data, sha)


def _rendered(templates: Environment, template: str, values: Mapping[str, object]) -> bytes:
    return templates.get_template(template).render(values).encode("utf-8")


@dataclass
class Setter:
    """Lays those pieces into a folder that do not stand in the archive as they should.

    `before` are pieces as they were set the last time; `there` the hashes of files that are known to lie
    in `target`. A file of which nothing is known is read.
    """

    target: Path
    folder: Path
    before: Mapping[str, Set] = field(default_factory=dict)
    there: Mapping[str, str] = field(default_factory=dict)
    done: dict[str, Set] = field(default_factory=dict)
    laid: dict[str, None] = field(default_factory=dict)
    _linked: dict[str, bool] = field(default_factory=dict)

    def set(self, pieces: Iterable[Piece]) -> None:
        """Set them all; of two with one path the later one stands."""
        for piece in pieces:
            if piece.path in self.laid:
                del self.laid[piece.path]
                (self.folder / piece.path).unlink()
            sha = piece.sha or self._known(piece)
            if not sha or not self._stands(piece.path, sha):
                sha = self._lay(piece)
            self.done[piece.path] = Set(piece.print, sha)

    def beside(self) -> "Setter":
        """Another one that knows the same and has set nothing, for a share of the work."""
        return Setter(self.target, self.folder, self.before, self.there)

    def take_over(self, done: Mapping[str, Set], laid: Mapping[str, None]) -> None:
        """Count as set and laid what another one has set and laid of the same work."""
        twice = self.done.keys() & done.keys()
        assert not twice, f"two makers for {sorted(twice)}"
        self.done |= done
        self.laid |= laid

    def lies(self, path: str) -> Path:
        """Where a file of the archive lies before it is swapped in."""
        return (self.folder if path in self.laid else self.target) / path

    def _known(self, piece: Piece) -> str:
        before = self.before.get(piece.path)
        return before.sha if before is not None and before.print == piece.print else ""

    def _stands(self, path: str, sha: str) -> bool:
        return (self.there.get(path) or self._read(path)) == sha

    def _read(self, path: str) -> str:
        """The hash of a file; none of what lies behind a link, which is not in the archive."""
        return "" if self._is_linked(path.rpartition("/")[0]) else sha_of(self.target / path)

    def _is_linked(self, folder: str) -> bool:
        if not folder:
            return False
        if folder not in self._linked:
            here = islink(self.target / folder)
            self._linked[folder] = here or self._is_linked(folder.rpartition("/")[0])
        return self._linked[folder]

    def _lay(self, piece: Piece) -> str:
        data = piece.make()
        sha = sha256(data).hexdigest()
        if not self._stands(piece.path, sha):
            put(self.folder, piece.path, data)
            self.laid[piece.path] = None
        return sha

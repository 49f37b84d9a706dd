"""An archive brought up to date in its place: what has not changed is not touched.

Everything new is first written to a folder beside the archive. Then the list of what is to be done is
written, in one step; from that moment on it will be done. The files are moved to their places one by one,
and what is gone is taken away. A run that is killed before that moment leaves the archive as it was; one
that is killed later has left its list, and the next run does the rest of it before anything else.
An archive that was not there before appears in one step.

Of a run that is killed while it moves files, old files and new ones stand side by side, each whole, until
the next run. The moves come in an order in which no link that a reader can come to leads nowhere; they take
a moment, since what takes time is done ahead or afterwards (`ahead.py`); and nothing but a kill breaks into
them (`undisturbed.py`).

One folder in the place of the other would leave not even that. A second folder can be made of other names
for the files that stay, and systems can exchange two folders in one step. Three things stand against it. It
makes and unmakes a name for every file for every comma: of 80,000 files, those of 20,000 pictures, 1.9
seconds of a core (28 November 2026). It marks every file as touched, so that what copies or guards the
archive reads all of it again. And the folder is another one each time: who serves it, watches it, or has it
open keeps the old one, which is empty a moment later. Memory sticks have neither names nor exchange.

Nothing is brought to the disk by force: what a power cut leaves behind is found by the next run, which
compares every file, and made good from the content.
"""

import json
import os
import shutil
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager, suppress
from hashlib import sha256
from os.path import samestat
from pathlib import Path
from unicodedata import normalize

from journal.outputs.ahead import hold_back, send_to_disk
from journal.outputs.alone import alone
from journal.outputs.refused import reading, writing
from journal.outputs.staging import MARK, refuse_target, standing
from journal.outputs.turns import is_page, turn
from journal.outputs.undisturbed import undisturbed
from journal.words.wrong import WrongCall

_LIST = "swap.json"
_NEW = "new"
_OLD = "old"


class Swap:
    """One archive that is being brought up to date. `new` is where its new files are laid."""

    def __init__(self, target: Path) -> None:
        self.target = target
        self.staging = staging_of(target)
        self.new = self.staging / _NEW

    def commit(self, put: Iterable[str], gone: Iterable[str]) -> None:
        """Move these new files to their places and take those away that are gone.

        Raises WrongCall when the archive is not there any more for which they were made.
        """
        listed, leaving = [*put], [*gone]
        self.new.mkdir(parents=True, exist_ok=True)
        if not self.target.exists():
            if MARK not in listed:
                raise WrongCall(
                    f"{self.target.name} was taken away while it was brought up to date; publish again"
                )
            self.new.rename(self.target)
        else:
            self._do_ahead(listed, leaving)
            told = json.dumps([listed, leaving])
            part = self.staging / f"{_LIST}.part"
            part.write_text(f"{sha256(told.encode()).hexdigest()}\n{told}", encoding="utf-8")
            part.rename(self.staging / _LIST)
            _carry_out(self.target, self.staging)
        shutil.rmtree(self.staging, ignore_errors=True)

    def _do_ahead(self, put: Iterable[str], gone: Iterable[str]) -> None:
        old = self.staging / _OLD
        old.mkdir(exist_ok=True)
        for number, path in enumerate((*put, *gone)):
            hold_back(self.target / path, old / str(number))
        for path in put:
            send_to_disk(self.new / path)


@contextmanager
def swapping(target: Path, *, keep_out_of: Path, notice: Callable[[str], None]) -> Iterator[Swap]:
    """An archive to bring up to date, by nobody else meanwhile.

    Raises WrongCall when the target lies inside `keep_out_of` or around it, is a file, or holds
    things that this program did not write, when something of `keep_out_of` cannot be read, and when the
    disk refuses what is written.
    """
    target, source = target.resolve(), keep_out_of.resolve()
    refuse_target(target, source)
    with writing(target.name, lambda: _standing(target)), reading(source):
        target.parent.mkdir(parents=True, exist_ok=True)
        with alone(target, notice):
            _take_up(target)
            refuse_target(target, source)
            swap = Swap(target)
            try:
                yield swap
            finally:
                if not (swap.staging / _LIST).exists():
                    shutil.rmtree(swap.staging, ignore_errors=True)


def _standing(target: Path) -> str:
    if (staging_of(target) / _LIST).exists():
        return "a part of it is new, and the next run does the rest"
    return standing(target)


def staging_of(target: Path) -> Path:
    """The folder beside an archive where its new files lie; it is there while work is under way, or
    when it was killed."""
    return target.with_name(f".{target.name}.staging")


def _take_up(target: Path) -> None:
    """Do the rest of what a killed run left to be done, or clear away what it had only begun."""
    staging, previous = staging_of(target), target.with_name(f".{target.name}.previous")
    if previous.exists() and not target.exists():
        previous.rename(target)
    shutil.rmtree(previous, ignore_errors=True)
    if (target / MARK).is_file() and (staging / _LIST).exists():
        _carry_out(target, staging)
    shutil.rmtree(staging, ignore_errors=True)


def _carry_out(target: Path, staging: Path) -> None:
    """Do what the list says; what of it is done already is passed over."""
    sum_, _, told = (staging / _LIST).read_text(encoding="utf-8").partition("\n")
    if sha256(told.encode()).hexdigest() != sum_:
        # A disk that lost the list of a run lost nothing else: the archive is compared file by file.
        return
    put, gone = json.loads(told)
    with undisturbed():
        _Moving(target, staging / _NEW, put).all(gone)


class _Moving:
    """The moves of one list, in an order in which no link that a reader can come to leads nowhere.

    By the mark a folder that was empty is known for ours. Then come the files that are new: no page leads
    to them yet. Those that change come next, since all that old and new pages lead to is there. Those that
    are gone go last, when no page leads to them any more.
    """

    def __init__(self, target: Path, new: Path, put: Sequence[str]) -> None:
        self._target, self._new, self._put = target, new, put
        self._names = {_folded(one): one for path in put for one in (*_above(path), path)}
        self._ready: set[str] = set()

    def all(self, gone: Sequence[str]) -> None:
        """Put what is to be put, and take away what is gone."""
        instead: dict[str, list[str]] = {}
        for path in gone:
            instead.setdefault(self._names.get(_folded(path), path), []).append(path)
        for path in sorted(self._put, key=self._turn):
            self._move(path, instead.get(path, ()))
        for path in sorted(gone, key=lambda path: (path.endswith("/"), not is_page(path))):
            if not self._is_new(path):
                _take_away(self._target, path)

    def _turn(self, path: str) -> tuple[object, ...]:
        return (path != MARK, (self._target / path).exists(), *turn(path))

    def _move(self, path: str, instead_of: Iterable[str]) -> None:
        new, file = self._new / path, self._target / path
        if not new.exists():
            return
        self._make_way(path)
        for gone in instead_of:
            # Some systems take its name for the new one, which would then keep the old spelling.
            if self._is_new(gone):
                (self._target / gone).unlink()
        if file.is_dir() and not file.is_symlink():
            shutil.rmtree(file)
        os.replace(new, file)

    def _make_way(self, path: str) -> None:
        for one in reversed([one for one in _above(path) if one not in self._ready]):
            above = self._target / one
            if above.is_symlink() or (above.exists() and not above.is_dir()):
                above.unlink()
            above.mkdir(exist_ok=True)
            self._ready.add(one)

    def _is_new(self, gone: str) -> bool:
        """Whether something new has the place of what is gone, by its own name or one that the system
        takes for the same."""
        name = self._names.get(_folded(gone.rstrip("/")))
        if name is None:
            return False
        with suppress(FileNotFoundError, NotADirectoryError):
            return samestat(
                os.lstat(self._target / gone.rstrip("/")), os.lstat(self._target / name)
            )
        return False


def _folded(path: str) -> str:
    return normalize("NFC", path).casefold()


def _above(path: str) -> Iterator[str]:
    while "/" in path:
        path = path.rpartition("/")[0]
        yield path


def _take_away(target: Path, path: str) -> None:
    """Take a file away, and the folders that are empty without it. A path that ends in `/` is a folder."""
    file = target / path
    if file.is_symlink() or not file.is_dir():
        with suppress(FileNotFoundError, NotADirectoryError):
            file.unlink()
    for folder in (file, *file.parents) if path.endswith("/") else file.parents:
        if folder == target:
            return
        try:
            folder.rmdir()
        except OSError:
            # Something else lies in it, or it is gone.
            if folder.exists():
                return

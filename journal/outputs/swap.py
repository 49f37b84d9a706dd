"""An archive brought up to date in its place: what has not changed is not touched.

Everything new is first written to a folder beside the archive. Then the list of what is to be done is
written, in one step; from that moment on it will be done. The files are moved to their places one by one,
and what is gone is taken away. A run that is killed before that moment leaves the archive as it was; one
that is killed later has left its list, and the next run does the rest of it before anything else.
An archive that was not there before appears in one step.

Whole folders cannot be put in each other's place without touching every file in them, or taking the
archive away for a moment; of twenty thousand pictures that is a second and more for every comma. Nothing
is brought to the disk by force: what a power cut leaves behind is found by the next run, which compares
every file, and made good from the content.
"""

import json
import os
import shutil
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager, suppress
from hashlib import sha256
from pathlib import Path
from unicodedata import normalize

from journal.outputs.alone import alone
from journal.outputs.refused import reading, writing
from journal.outputs.staging import MARK, refuse_target, standing

_LIST = "swap.json"
_NEW = "new"


class Swap:
    """One archive that is being brought up to date. `new` is where its new files are laid."""

    def __init__(self, target: Path) -> None:
        self.target = target
        self.staging = staging_of(target)
        self.new = self.staging / _NEW

    def commit(self, put: Iterable[str], gone: Iterable[str]) -> None:
        """Move these new files to their places and take those away that are gone."""
        self.new.mkdir(parents=True, exist_ok=True)
        if not self.target.exists():
            self.new.rename(self.target)
        else:
            told = json.dumps([list(put), list(gone)])
            part = self.staging / f"{_LIST}.part"
            part.write_text(f"{sha256(told.encode()).hexdigest()}\n{told}", encoding="utf-8")
            part.rename(self.staging / _LIST)
            _carry_out(self.target, self.staging)
        shutil.rmtree(self.staging, ignore_errors=True)


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
    if (target / MARK).exists() and (staging / _LIST).exists():
        _carry_out(target, staging)
    shutil.rmtree(staging, ignore_errors=True)


def _carry_out(target: Path, staging: Path) -> None:
    """Do what the list says; what of it is done already is passed over."""
    sum_, _, told = (staging / _LIST).read_text(encoding="utf-8").partition("\n")
    if sha256(told.encode()).hexdigest() != sum_:
        # A disk that lost the list of a run lost nothing else: the archive is compared file by file.
        return
    put, gone = json.loads(told)
    first, last = _apart(put, gone)
    for path, instead in first.items():
        # Where its name is that of something new which is there already, it went in an earlier run.
        if (staging / _NEW / instead).exists():
            _take_away(target, path)
    # By the mark a folder that was empty is known for ours. What is new comes before the pages that lead
    # to it.
    for path in sorted(put, key=lambda path: (path != MARK, (target / path).exists())):
        _move(staging / _NEW / path, target, path)
    for path in last:
        _take_away(target, path)


def _apart(put: Sequence[str], gone: Sequence[str]) -> tuple[dict[str, str], list[str]]:
    """What is gone and must go first, with what comes instead: some systems take its name for that of
    something new, or it lies where a folder must be. And the rest."""
    names = {_folded(one): path for path in put for one in (*_above(path), path)}
    first = {p: names[told] for p in gone if (told := _folded(p.rstrip("/"))) in names}
    return first, [path for path in gone if path not in first]


def _folded(path: str) -> str:
    return normalize("NFC", path).casefold()


def _above(path: str) -> Iterator[str]:
    while "/" in path:
        path = path.rpartition("/")[0]
        yield path


def _move(new: Path, target: Path, path: str) -> None:
    if not new.exists():
        return
    file = target / path
    for above in reversed([target / one for one in _above(path)]):
        if above.is_symlink() or (above.exists() and not above.is_dir()):
            above.unlink()
        above.mkdir(exist_ok=True)
    if file.is_dir() and not file.is_symlink():
        shutil.rmtree(file)
    os.replace(new, file)


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

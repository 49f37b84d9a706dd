"""Whatever is done to a workshop, its archive brought up to date is what one from nothing would be.

    python -m tests.benchmarks.edits --sequences 200

Each sequence is a few edits by chance on a small workshop (`tests/editing.py`), with a publishing after
each of them and a comparison, byte for byte and file for file, after the last one. In between somebody
changes the archive itself, deletes what was kept, or spoils it. The suite runs the first of them.
"""

import argparse
import random
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import cycle
from pathlib import Path
from tempfile import TemporaryDirectory
from unittest.mock import patch

from journal.outputs import own, publishing, themes
from journal.outputs.archive import Order
from journal.outputs.problems import problems_text
from journal.outputs.withheld import Withheld
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall
from tests.editing import EDITS, Chance, put_small, spoil_archive
from tests.plainly import publish
from tests.publishing import a_publishing, published_again
from tests.swapping import state_of

# Sequences that begin where the one before ended, before all begins anew.
_CHAIN = 8
_MOST = 4
_HANDS = cycle((1, 2))


def run(sequences: int, seed: int = 1) -> Iterator[str]:
    """Run so many sequences; what went wrong, in words."""
    for chain in range(0, sequences, _CHAIN):
        with TemporaryDirectory() as made, _a_theme(Path(made)):
            yield from _chain(Path(made), seed + chain, min(_CHAIN, sequences - chain))


def _chain(folder: Path, seed: int, sequences: int) -> Iterator[str]:
    chance = random.Random(seed)
    root = put_small(folder / "content")
    reader = (Reader.WORKSHOP, Reader.OWNER, Reader.PUBLIC)[seed // _CHAIN % 3]
    for number in range(sequences):
        done: list[str] = []
        for _ in range(chance.randint(1, _MOST)):
            done.append(_disturbed(folder, root, chance))
            told = _again(folder, root, reader)
        wanted = _plain(folder, root, reader)
        if wanted is not None and (told, state_of(folder / "archive")) != wanted:
            yield f"seed {seed}, sequence {number}, {reader}: {done}"
            shutil.rmtree(folder / "archive")


def _disturbed(folder: Path, root: Path, chance: Chance) -> str:
    """Something happens; its name."""
    dice = chance.random()
    if dice < 0.08:
        spoil_archive(folder / "archive", chance)
        return "spoil the archive"
    if dice < 0.12:
        shutil.rmtree(folder / "kept", ignore_errors=True)
        return "delete what was kept"
    if dice < 0.16:
        kept = sorted(f for f in (folder / "kept").rglob("*") if f.is_file())
        if kept:
            file = chance.choice(kept)
            file.write_bytes(file.read_bytes()[: chance.randrange(200)])
        return "spoil what was kept"
    if dice < 0.20:
        style = themes.theme_folder() / "sheet.html"
        style.write_text(style.read_text(encoding="utf-8") + "<!-- changed -->\n", encoding="utf-8")
        _forget_own_texts()
        return "change the theme"
    edit = chance.choice(EDITS)
    edit(root, chance)
    return edit.__name__


def _again(folder: Path, root: Path, reader: Reader) -> str | None:
    """Publish with what was kept: all that is told; None when there is no archive to be had."""
    # Every other time by two hands, however little there is to do.
    hands = patch.object(publishing.Cars, "_hands", lambda *_: next(_HANDS))
    car = None if reader is Reader.WORKSHOP else "tern"
    try:
        with hands:
            return published_again(a_publishing(folder, root, reader, car)).problems
    except (WrongCall, Withheld):
        return None


def _plain(
    folder: Path, root: Path, reader: Reader
) -> tuple[str | None, dict[str, bytes | None]] | None:
    """The same from nothing; None when there is no archive to be had."""
    target = folder / "plain"
    shutil.rmtree(target, ignore_errors=True)
    car = None if reader is Reader.WORKSHOP else "tern"
    try:
        problems = publish(read_content(root), Order(root, target, reader, car))
    except (WrongCall, Withheld):
        return None
    return problems_text(problems) if problems else "", state_of(target)


@contextmanager
def _a_theme(folder: Path) -> Iterator[None]:
    """The theme as a copy that may be changed."""
    package = folder / "package"
    shutil.copytree(themes.theme_folder(), package / "themes" / themes.DEFAULT)
    with patch.object(themes, "_PACKAGE", package):
        _forget_own_texts()
        yield
    _forget_own_texts()


def _forget_own_texts() -> None:
    """A process never sees its own texts change; this one plays many processes."""
    own.own_texts.cache_clear()
    own.own_words.cache_clear()


def main() -> None:
    """Run them and say what came of it."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--sequences", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    told = parser.parse_args()
    wrong = list(run(told.sequences, told.seed))
    print("\n".join([*wrong, f"{told.sequences} sequences, {len(wrong)} not as from nothing"]))
    raise SystemExit(bool(wrong))


if __name__ == "__main__":
    main()

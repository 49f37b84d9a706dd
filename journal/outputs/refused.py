"""What a disk refuses, told as one sentence: what is not written, why, and how it stands now."""

import errno
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from journal.outputs.sheets.disk import REASONS, refusal
from journal.words.wrong import WrongCall


@contextmanager
def writing(what: str, stands: Callable[[], str]) -> Iterator[None]:
    """Raises WrongCall where a disk refuses what is written in the block. `stands` says how what was to
    be written stands then, as the end of the sentence."""
    try:
        yield
    except OSError as fault:
        if fault.errno not in REASONS:
            raise
        raise WrongCall(f"{what} is not written: {refusal(fault)}; {stands()}") from fault
    except sqlite3.OperationalError as fault:
        if fault.sqlite_errorcode != sqlite3.SQLITE_FULL:
            raise
        full = REASONS[errno.ENOSPC]
        raise WrongCall(f"{what} is not written: {full}; {stands()}") from fault


@contextmanager
def reading(content: Path) -> Iterator[None]:
    """Raises WrongCall where a file of the content cannot be read in the block, in which nothing is
    written to the content."""
    root = content.resolve()
    try:
        yield
    except OSError as fault:
        file = Path(str(fault.filename)).resolve() if fault.filename else root
        if file == root or not file.is_relative_to(root):
            raise
        reason = (fault.strerror or "the disk does not give it").lower()
        told = file.relative_to(root).as_posix()
        raise WrongCall(f"{told} cannot be read: {reason}; nothing is written") from fault

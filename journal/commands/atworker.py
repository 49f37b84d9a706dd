"""What a worker of a cluster does first with anything it is handed; nothing of a cluster's own is loaded."""

from collections.abc import Callable, Sequence
from functools import lru_cache
from hashlib import sha256
from pathlib import Path
from threading import Lock
from typing import Any

from journal.outputs.kept.program import version

# A worker with several threads still does one thing at a time: what is kept is written by one process once.
_ONE = Lock()


class OtherVersion(Exception):
    """The worker has another version of this program, or of what it is made with."""


@lru_cache(maxsize=1)
def own_version() -> str:
    """The version that this worker has, as it was when it was first asked."""
    return version()


def at_worker(asked: str, do: Callable[..., Any], *given: Any) -> Any:
    """Do a piece of work, if the version is the one that is `asked` for."""
    if own_version() != asked:
        raise OtherVersion
    with _ONE:
        return do(*given)


def unseen(marks: Sequence[tuple[str, str]]) -> tuple[str, list[str]]:
    """The worker's version, and those of some files, each with its hash, that it does not see as they are."""
    return own_version(), [file for file, told in marks if not _holds(Path(file), told)]


def _holds(file: Path, told: str) -> bool:
    try:
        return sha256(file.read_bytes()).hexdigest() == told
    except OSError:
        return False

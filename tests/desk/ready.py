"""A desk in a process of its own that has loaded all it needs when it begins: for tests with many desks.

Its pictures are looked at in that process. How a person starts one, with processes for its pictures, is
tried where a desk starts and ends (`tests/desk/running.py`).
"""

import os
import re
from collections.abc import Iterator
from contextlib import closing, contextmanager
from multiprocessing import get_context
from multiprocessing.connection import Connection
from multiprocessing.context import ForkServerProcess
from pathlib import Path
from typing import NamedTuple

from journal.commands import main
from tests.desk.asking import pictures_looked_at_here
from tests.published import MEANS

_BEGINNING = 60


class Ready(NamedTuple):
    """A desk that runs: its process, and its address with a slash at the end."""

    process: ForkServerProcess
    address: str

    def end(self) -> None:
        """End it as a power cut does."""
        self.process.kill()
        self.process.join()


@contextmanager
def a_ready_desk(root: Path, keep: Path, *options: str) -> Iterator[Ready]:
    """A desk for a content folder on any port that is free; what it keeps lies below `keep`."""
    forks = get_context("forkserver")
    forks.set_forkserver_preload(["pytest", "tests.desk.warm", "journal.commands.desk"])
    heard, said = forks.Pipe(duplex=False)
    words = ("desk", str(root), "--port", "0", "--cache", str(MEANS.cache), *options)
    process = forks.Process(target=_be_a_desk, args=(words, str(keep), said))
    process.start()
    said.close()
    try:
        with closing(heard):
            yield Ready(process, _address(heard))
    finally:
        process.kill()
        process.join()
        process.close()


def _be_a_desk(words: tuple[str, ...], keep: str, said: Connection) -> None:
    os.environ["XDG_STATE_HOME"] = keep
    os.dup2(said.fileno(), 1)
    with pictures_looked_at_here():
        main(words)


def _address(heard: Connection) -> str:
    told = b""
    while not (found := re.search(rb"http://\S+/(?=\s)", told)):
        assert heard.poll(_BEGINNING), "the desk does not begin"
        more = os.read(heard.fileno(), 4096)
        assert more, "the desk ended before it began"
        told += more
    return found.group().decode()

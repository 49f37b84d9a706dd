"""A desk in a process of its own, as a person starts it."""

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

from tests.published import MEANS


class Running(NamedTuple):
    """A desk that runs: its process, and its address with a slash at the end."""

    process: "subprocess.Popen[str]"
    address: str


@contextmanager
def a_desk(root: Path, keep: Path, *options: str) -> Iterator[Running]:
    """A desk for a content folder on any port that is free; what it keeps lies below `keep`."""
    words = ("desk", str(root), "--port", "0", "--cache", str(MEANS.cache), *options)
    process = subprocess.Popen(
        [sys.executable, "-m", "journal", *words], stdout=subprocess.PIPE, stderr=subprocess.PIPE,
        stdin=subprocess.DEVNULL, text=True, env={**os.environ, "XDG_STATE_HOME": str(keep)},
    )  # fmt: skip
    assert process.stdout
    assert process.stderr
    try:
        told = re.search(r"http://\S+", process.stdout.readline())
        assert told, process.stderr.read()
        yield Running(process, told.group())
    finally:
        process.kill()
        process.communicate()

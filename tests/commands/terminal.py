"""A command in a terminal of its own, with somebody at its keys."""

import os
import pty
import re
import select
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager

_PATIENCE = 60.0
# How a terminal is told of colours, and of where the cursor goes.
_MARKS = re.compile(r"\x1b\[[0-9;?]*[A-Za-z]|\x1b[=>]|\a|\r")


class Terminal:
    """What a command shows since it was last looked at, and keys for it."""

    def __init__(self, number: int, process: "subprocess.Popen[bytes]") -> None:
        self._number, self.process = number, process
        self._seen = ""

    def until(self, words: str) -> str:
        """What is shown up to some words, which must come."""
        end = time.monotonic() + _PATIENCE
        while words not in self._seen:
            assert self._more(end), f"never shown: {words!r}, but {self._seen!r}"
        at = self._seen.index(words) + len(words)
        shown, self._seen = self._seen[:at], self._seen[at:]
        return shown

    def press(self, keys: str) -> None:
        """Press keys, without Enter unless it is one of them."""
        os.write(self._number, keys.encode())

    def rest(self) -> str:
        """What is shown until the command ends."""
        end = time.monotonic() + _PATIENCE
        while self._more(end):
            pass
        self.process.wait(timeout=_PATIENCE)
        shown, self._seen = self._seen, ""
        return shown

    def kill(self) -> None:
        """End the command as a power cut would."""
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()

    def _more(self, end: float) -> bool:
        """Take in what is shown next; whether anything was before the end."""
        ready, _, _ = select.select([self._number], [], [], max(0.0, end - time.monotonic()))
        try:
            raw = os.read(self._number, 65_536) if ready else b""
        except OSError:  # a terminal whose other side is gone
            raw = b""
        self._seen += _MARKS.sub("", raw.decode("utf-8", "replace"))
        return bool(raw)


@contextmanager
def in_a_terminal(*words: object, term: str = "xterm") -> Iterator[Terminal]:
    """The command `journal` with some words, in a terminal."""
    ours, theirs = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-m", "journal", *map(str, words)], stdin=theirs, stdout=theirs,
        stderr=theirs, start_new_session=True, env={**os.environ, "TERM": term, "COLUMNS": "300"},
    )  # fmt: skip
    os.close(theirs)
    try:
        yield Terminal(ours, process)
    finally:
        if process.poll() is None:
            process.kill()
            process.wait()
        os.close(ours)

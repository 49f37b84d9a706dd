"""Commands of the journal in forked processes of their own, which can be killed."""

import os
import signal
import sys
import tempfile
import time
import traceback
from contextlib import suppress
from pathlib import Path

from journal.commands import main as journal

ENOUGH = 120.0
_BROKEN = 70


class Found(Exception):
    """Something is not as it must be."""


def need(right: bool, what: str) -> None:
    """Raise Found unless it is right."""
    if not right:
        raise Found(what)


# What has been started and has not ended.
ALIVE: set[int] = set()


class Running:
    """A command in a process group of its own; what it says goes to a file."""

    def __init__(self, pid: int, said: Path) -> None:
        self.pid, self.said = pid, said
        ALIVE.add(pid)

    def ended(self) -> int:
        """Its exit code, once it has ended."""
        until = time.monotonic() + ENOUGH
        while time.monotonic() < until:
            pid, status = os.waitpid(self.pid, os.WNOHANG)
            if pid:
                ALIVE.discard(pid)
                return os.waitstatus_to_exitcode(status)
            time.sleep(0.002)
        self.kill()
        raise Found("it did not come to its end")

    def kill(self) -> bool:
        """Kill its whole group; whether it was still at work."""
        with suppress(ProcessLookupError):
            os.killpg(self.pid, signal.SIGKILL)
        _, status = os.waitpid(self.pid, 0)
        ALIVE.discard(self.pid)
        return os.waitstatus_to_exitcode(status) == -signal.SIGKILL


def started(folder: Path, *words: object) -> Running:
    """Begin a command of the journal; all that it keeps and all its folders lie below one folder."""
    said = folder / "said.txt"
    said.unlink(missing_ok=True)
    (folder / "tmp").mkdir(exist_ok=True)
    pid = os.fork()
    if not pid:
        os.setpgid(0, 0)
        signal.signal(signal.SIGTERM, signal.SIG_DFL)
        _run(folder, said, [str(word) for word in words])
    # Both do it, so that it is done whichever comes first.
    with suppress(OSError):
        os.setpgid(pid, pid)
    return Running(pid, said)


def _run(folder: Path, said: Path, words: list[str]) -> None:
    """The life of the forked process."""
    places = {"XDG_CACHE_HOME": "cache", "XDG_STATE_HOME": "state", "TMPDIR": "tmp"}
    os.environ.update({name: str(folder / place) for name, place in places.items()})
    out = os.open(said, os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
    os.dup2(out, 1)
    os.dup2(out, 2)
    tempfile.tempdir = None
    # Processes for pictures begin by loading all there is, which takes longer than all the work here.
    os.cpu_count = lambda: 1
    # The desk always has one; it is not to load this module.
    main_module = sys.modules["__main__"]
    main_module.__spec__ = None
    vars(main_module).pop("__file__", None)
    code = _BROKEN
    try:
        journal(words)
    except SystemExit as ended:
        code = ended.code if isinstance(ended.code, int) else 0
    except BaseException:
        traceback.print_exc()
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(code)

"""One profile for every property test: the same examples on every machine, no clock.

And one folder for all processes of a run: what one of them makes there, no other makes again.
"""

import gc
import os
import shutil
import tempfile
from pathlib import Path
from tempfile import mkdtemp

import pytest
from hypothesis import settings

settings.register_profile("journal", derandomize=True, deadline=None, max_examples=120)
settings.load_profile("journal")

# What tests write is small, short-lived and much: where memory can hold it, no disk has to.
_MEMORY, _ROOM = Path("/dev/shm"), 4 * 1024**3
if "TMPDIR" not in os.environ and _MEMORY.is_dir() and os.access(_MEMORY, os.W_OK):
    room = os.statvfs(_MEMORY)
    if room.f_bavail * room.f_frsize >= _ROOM:
        os.environ["TMPDIR"] = tempfile.tempdir = str(_MEMORY)

# Whoever is first makes the folder, and takes it away; the processes it starts find its name.
_SHARED = "JOURNAL_TESTS_SHARED"
FIRST = _SHARED not in os.environ
SHARED = Path(os.environ.setdefault(_SHARED, mkdtemp(prefix="journal-tests-") if FIRST else ""))
# The cache of pictures is not that of the person who runs the tests.
os.environ["XDG_CACHE_HOME"] = str(SHARED)
# Commands that tests start keep what Python compiled of them, as they do for anybody else.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)


def pytest_collection_finish(session: pytest.Session) -> None:
    """Thousands of tests and all that they import stay to the end: the collector need not look again."""
    gc.collect()
    gc.freeze()


def pytest_unconfigure(config: pytest.Config) -> None:
    if FIRST:
        shutil.rmtree(SHARED, ignore_errors=True)

"""Memory that is kept from one picture to the next."""

import os
import platform
import subprocess
import sys
from pathlib import Path

import pytest

from tests.pictures.images import encoded, halves

_SCRIPT = """
import resource, sys
from journal.pictures.derive import derive
from journal.pictures.freed import keep_freed

def faults():
    return resource.getrusage(resource.RUSAGE_SELF).ru_minflt

raw = open(sys.argv[2], "rb").read()
if sys.argv[1] == "kept":
    keep_freed()
for _ in range(3):
    derive(raw)
before = faults()
derive(raw)
print(faults() - before)
"""


def _asked_for_again(how: str, picture: Path) -> int:
    """How many pieces of memory a process that has made a picture asks for to make it once more."""
    command = [sys.executable, "-c", _SCRIPT, how, str(picture)]
    told = subprocess.run(command, capture_output=True, text=True, check=True, env=os.environ)
    return int(told.stdout)


@pytest.mark.skipif(platform.libc_ver()[0] != "glibc", reason="another C library is not asked")
def test_memory_of_a_picture__is_not_asked_for_again_when_it_is_kept(tmp_path: Path) -> None:
    picture = tmp_path / "a.jpg"
    picture.write_bytes(encoded(halves(2400, 1800)))
    assert 4 * _asked_for_again("kept", picture) < _asked_for_again("given back", picture)

"""What is dear to make and the same for every test: made once a run, whichever process is first."""

import os
import pickle
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from journal.outputs.sheets.disk import locked

FOLDER = Path(os.environ["XDG_CACHE_HOME"]) / "shared"
T = TypeVar("T")


def made_once(name: str, make: Callable[[Path], object]) -> Path:
    """A folder of this name, that `make` has filled; every test leaves it as it is.

    What fails is not kept: the next one to ask for it makes it anew.
    """
    folder = FOLDER / name / "made"
    folder.parent.mkdir(parents=True, exist_ok=True)
    with locked(folder.parent):
        if not folder.exists():
            making = folder.with_name("making")
            shutil.rmtree(making, ignore_errors=True)
            making.mkdir()
            make(making)
            making.rename(folder)
    return folder


def worked_out_once(name: str, work_out: Callable[[], T]) -> T:
    """What `work_out` returns, kept under this name."""

    def keep(folder: Path) -> None:
        (folder / "value").write_bytes(pickle.dumps(work_out()))

    value: T = pickle.loads((made_once(name, keep) / "value").read_bytes())
    return value

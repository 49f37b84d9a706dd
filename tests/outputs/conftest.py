"""The bag of a small car, packed once a run and laid before each test anew."""

import shutil
from pathlib import Path

import pytest

from tests.outputs.packing import pack, put_car
from tests.shared import made_once


@pytest.fixture
def bag(tmp_path: Path) -> Path:
    """The bag; the content that it was packed of lies beside it."""
    made = made_once("small-bag", lambda folder: pack(put_car(folder / "content"), folder / "tern"))
    for name in ("content", "tern"):
        shutil.copytree(made / name, tmp_path / name)
    return tmp_path / "tern"

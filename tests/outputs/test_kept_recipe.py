"""How pictures are made is known without loading what makes them."""

import subprocess
import sys
from pathlib import Path
from unittest.mock import patch

from journal.outputs.kept.recipe import kept_recipe
from journal.outputs.kept.store import Store
from journal.pictures.derive import recipe


def test_recipe__is_that_of_the_encoders_whether_it_is_kept_or_not(tmp_path: Path) -> None:
    assert recipe() == kept_recipe(Store(None, "this one"))
    for _ in range(2):
        assert recipe() == kept_recipe(Store(tmp_path, "this one"))


def test_recipe__of_encoders_of_the_system_is_asked_each_time(tmp_path: Path) -> None:
    """They may become others while Pillow stays the same."""
    kept_recipe(Store(tmp_path, "this one"))
    with (
        patch("journal.outputs.kept.recipe.carried", tuple),
        patch("journal.pictures.derive.features.version", lambda _: "a later one"),
    ):
        assert recipe() == kept_recipe(Store(tmp_path, "this one"))


def test_publishing__loads_no_encoders_before_a_picture_is_made() -> None:
    told = subprocess.run(
        [
            sys.executable, "-c",
            "import sys, journal.commands.publishing;"
            "print(sorted({'PIL', 'pillow_heif'} & {*sys.modules}))",
        ],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert "[]\n" == told.stdout

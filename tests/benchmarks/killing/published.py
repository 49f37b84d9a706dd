"""Publishing that is killed."""

import random
import shutil
from pathlib import Path

from tests import editing
from tests.benchmarks.killing.lying import State, dead_links, differing, state_in
from tests.benchmarks.killing.running import Running, need, started
from tests.editing import put_small

# Edits after which there is always an archive to be had.
_EDITS = (
    editing.add_sheet, editing.edit_text, editing.edit_hours, editing.break_sheet,
    editing.rename_sheet, editing.delete_sheet, editing.add_photo, editing.edit_photo,
    editing.rename_photo, editing.delete_photo, editing.add_paper, editing.edit_workshop,
)  # fmt: skip


def publishing(place: Path) -> Running:
    """The workshop's archive."""
    words = ("publish", place / "content", "--for", "workshop", "--to", place / "out")
    return started(place, *words)


def put_first(place: Path, number: int) -> None:
    """Nothing is published yet."""
    shutil.rmtree(place, ignore_errors=True)
    root = put_small(place / "content")
    for sheet in root.glob("*/sheets/*/2024-03-0[567]*.md"):
        photos = sheet.parents[2] / "photos"
        shutil.copytree(photos / "2024-03-04", photos / sheet.name[:10], dirs_exist_ok=True)


def put_changed(place: Path, number: int) -> None:
    """An archive stands there, and then something is written."""
    chance = random.Random(number)
    if not (place / "out").exists() or number % 10 == 0:
        put_first(place, number)
        publishing(place).ended()
    for _ in range(chance.randint(1, 3)):
        chance.choice(_EDITS)(place / "content", chance)


def whole_archive(place: Path, before: State, wanted: State) -> None:
    """Every file is the old or the new one; all links lead somewhere; a list that is begun is whole."""
    now = state_in(place)
    for path, data in now.items():
        right = path == "out/.journal-archive" or data in (before.get(path), wanted.get(path))
        need(right, f"{path} is neither the old nor the new one")
    committed = (place / ".out.staging" / "swap.json").exists()
    need(
        committed or now in (before, wanted),
        f"it is neither old nor new: {differing(now, before)}",
    )
    need(not dead_links(place / "out"), f"links lead nowhere: {dead_links(place / 'out')[:4]}")

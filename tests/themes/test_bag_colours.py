"""The page of a bag stands alone, and has the colours of the archive all the same."""

import re
from pathlib import Path

THEMES = Path(__file__).parents[2] / "themes"


def schemes(style: Path) -> list[dict[str, str]]:
    """Colours by name, the light ones and the dark ones."""
    blocks = re.findall(r":root\s*\{([^}]*)\}", style.read_text(encoding="utf-8"))
    found = [dict(re.findall(r"--([\w-]+):\s*(#[0-9a-f]{6})", block)) for block in blocks]
    return [colours for colours in found if colours]


def test_colours__are_those_of_the_archive() -> None:
    ours, theirs = (
        schemes(THEMES / name) for name in ("bag/read-me-first.css", "coachline/style.css")
    )
    assert 2 == len(ours) == len(theirs)
    for mine, all_of_them in zip(ours, theirs, strict=True):
        assert len(mine) > 6
        assert mine == {name: all_of_them[name] for name in mine}

"""Where a person's caches lie; they may be deleted at any time."""

from pathlib import Path

import click
from platformdirs import user_cache_path

cache_option = click.option(
    "--cache", type=click.Path(path_type=Path), metavar="FOLDER",
    help="Where to keep what was made of pictures and pages; it may be deleted at any time.",
)  # fmt: skip


def pictures_in(cache: Path | None) -> Path:
    """Where pictures are kept."""
    return cache or _own() / "pictures"


def publishing_in(cache: Path | None) -> Path:
    """Where it is kept what earlier publishing came to."""
    return (cache or _own()) / "publishing"


def _own() -> Path:
    return user_cache_path("restoration-journal", appauthor=False)

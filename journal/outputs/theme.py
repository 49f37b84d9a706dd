"""Themes: templates and style, in the checkout or as installed with the package."""

from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

_PACKAGE = Path(__file__).resolve().parent.parent
DEFAULT = "coachline"


def theme_folder(name: str = DEFAULT) -> Path:
    """Where a theme lies: inside the installed package, else beside it in the checkout."""
    places = (_PACKAGE / "themes" / name, _PACKAGE.parent / "themes" / name)
    found = next((place for place in places if place.is_dir()), None)
    if found is None:
        raise FileNotFoundError(f"the theme {name} is missing from this installation")
    return found


def environment(*themes: Path, live: bool = False) -> Environment:
    """Templates that escape every value, and fail loudly for one that is not there.

    `live` pages come from the desk: they carry its script and hear of changes.
    """
    made = Environment(
        loader=FileSystemLoader(themes, encoding="utf-8"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    made.globals["live"] = live
    return made

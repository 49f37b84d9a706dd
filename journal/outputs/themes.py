"""Where themes lie, in the checkout or as installed with the package."""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent
DEFAULT = "coachline"


def theme_folder(name: str = DEFAULT) -> Path:
    """Where a theme lies: inside the installed package, else beside it in the checkout."""
    places = (_PACKAGE / "themes" / name, _PACKAGE.parent / "themes" / name)
    found = next((place for place in places if place.is_dir()), None)
    if found is None:
        raise FileNotFoundError(f"the theme {name} is missing from this installation")
    return found

"""Themes: templates and style, in the checkout or as installed with the package."""

from pathlib import Path
from types import CodeType

from jinja2 import BytecodeCache, Environment, FileSystemLoader, StrictUndefined
from jinja2.bccache import Bucket

_PACKAGE = Path(__file__).resolve().parent.parent
DEFAULT = "coachline"


class _Compiled(BytecodeCache):
    """Templates as compiled, by their file and its text: a process compiles each of them once.

    Compiling them all takes three times as long as publishing a small car does.
    """

    def __init__(self) -> None:
        self._codes: dict[tuple[str, str], CodeType] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        """Hand over what was compiled of the same text before."""
        bucket.code = self._codes.get((bucket.key, bucket.checksum))

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep what has been compiled."""
        if bucket.code is not None:
            self._codes[bucket.key, bucket.checksum] = bucket.code


_COMPILED = _Compiled()


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
        bytecode_cache=_COMPILED,
    )
    made.globals["live"] = live
    return made

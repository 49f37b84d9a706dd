"""Themes: templates as they are printed."""

from functools import lru_cache
from pathlib import Path
from types import CodeType

from jinja2 import BytecodeCache, Environment, FileSystemLoader, StrictUndefined
from jinja2.bccache import Bucket

from journal.outputs.themes import DEFAULT, theme_folder

__all__ = ["COMPILED", "DEFAULT", "environment", "theme_folder"]


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


COMPILED = _Compiled()


def environment(
    *themes: Path, live: bool = False, compiled: BytecodeCache = COMPILED
) -> Environment:
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
        bytecode_cache=compiled,
    )
    made.globals["live"] = live
    # What many pages show alike is printed once: `once(macro, values)` for `macro(values)`.
    made.globals["once"] = lru_cache(maxsize=256)(lambda macro, *values: macro(*values))
    return made

"""A page before it is printed: where it goes, which template prints it, and the values it shows."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class Page:
    """One page of an archive.

    `path` is relative to the archive with `/`; `template` names a file of the theme; `values`
    are ready to print: templates loop and print, they never compute.
    """

    path: str
    template: str
    values: Mapping[str, Any]

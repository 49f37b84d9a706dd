"""What an archive is made of before it is written: pages to print, and files that are no pages."""

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


@dataclass(frozen=True)
class TextFile:
    """A file that is no page, such as a feed: its path relative to the archive, and its text."""

    path: str
    text: str

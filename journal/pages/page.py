"""What an archive is made of before it is written: pages to print, and files that are no pages."""

from collections.abc import Callable, Iterator, Mapping
from functools import cached_property
from typing import Any

from msgspec import Struct


class Page(Struct, frozen=True):
    """One page of an archive.

    `path` is relative to the archive with `/`; `template` names a file of the theme; `values`
    are ready to print: templates loop and print, they never compute. Where one function makes many
    pages they are `Later`, so that one of them can be had without the others.
    """

    path: str
    template: str
    values: Mapping[str, Any]

    @property
    def ready(self) -> Mapping[str, Any]:
        """The values, made by now."""
        return self.values.made if isinstance(self.values, Later) else self.values


class TextFile(Struct, frozen=True):
    """A file that is no page, such as a feed: its path relative to the archive, and its text."""

    path: str
    text: str


class Later(Mapping[str, Any]):
    """The values of a page, made when the first of them is asked for."""

    def __init__(self, make: Callable[[], Mapping[str, Any]]) -> None:
        self._make = make

    @cached_property
    def made(self) -> Mapping[str, Any]:
        """All of them."""
        return self._make()

    def __getitem__(self, name: str) -> Any:
        return self.made[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self.made)

    def __len__(self) -> int:
        return len(self.made)

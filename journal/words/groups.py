"""Things set apart by what they have in common, each group in the order given."""

from collections.abc import Callable, Hashable, Iterable
from typing import TypeVar

K = TypeVar("K", bound=Hashable)
T = TypeVar("T")


def grouped(things: Iterable[T], key: Callable[[T], K]) -> dict[K, tuple[T, ...]]:
    """Things by one key each."""
    groups: dict[K, list[T]] = {}
    for thing in things:
        groups.setdefault(key(thing), []).append(thing)
    return {key: tuple(group) for key, group in groups.items()}


def grouped_by_each(
    things: Iterable[T], keys: Callable[[T], Iterable[K]]
) -> dict[K, tuple[T, ...]]:
    """Things under every one of their keys, each once under a key."""
    groups: dict[K, list[T]] = {}
    for thing in things:
        for key in dict.fromkeys(keys(thing)):
            groups.setdefault(key, []).append(thing)
    return {key: tuple(group) for key, group in groups.items()}

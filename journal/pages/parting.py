"""Long lists, told on several pages.

A page has room for so many entries and no more. A list that is longer goes on over further pages, in
the order that it has: its sections stand whole where they can, and one that is too long for any page is
cut into parts of one size. The parts are counted from the oldest entry on, and a rest of less than half
a part stays with the one beside it, so that a new entry moves none but the latest ones.

The first page lies where the list always lay, `snags.html`; the others in a folder of its name,
`snags/2.html`, where no other page can be called the same.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import pairwise
from typing import Any

from msgspec import Struct


class Section(Struct, frozen=True):
    """Entries that stand together; `key` names them on their page, and is their place there.

    The oldest comes first, unless they stand `newest_first`. `weigh` tells how much room each takes,
    where one takes more than another.
    """

    key: str
    entries: tuple[Any, ...]
    newest_first: bool = False
    weigh: Callable[[Any], int] | None = None

    @property
    def weights(self) -> tuple[int, ...]:
        """How much room each entry takes."""
        return tuple(map(self.weigh, self.entries)) if self.weigh else (1,) * len(self.entries)


class Stretch(Struct, frozen=True):
    """What one page has of a section: its entries from `first` on, counted from 0, and whether they are
    the `last` ones of it."""

    key: str
    entries: tuple[Any, ...]
    first: int = 0
    last: bool = True


class Leaf(Struct, frozen=True):
    """One page of a list: its path within the car's folder, its number from 1 to `of`, and what is on it."""

    path: str
    number: int
    of: int
    stretches: tuple[Stretch, ...]

    def stretch(self, key: str) -> Stretch:
        """What this page has of a section; empty when that stands on others."""
        return next((s for s in self.stretches if s.key == key), Stretch(key, ()))

    def entries(self, key: str) -> tuple[Any, ...]:
        """The entries of a section that this page has."""
        return self.stretch(key).entries

    @property
    def continued(self) -> tuple[str, ...]:
        """The sections that began on a page before."""
        return tuple(s.key for s in self.stretches if s.first)


def parted(path: str, sections: Iterable[Section], room: int) -> tuple[Leaf, ...]:
    """The pages of a list that begins at `path`, none with more than `room` entries; one when it is empty.

    An entry that takes more room than a page has gets one of its own.
    """
    pages = tuple(_pages(sections, room)) or ((),)
    return tuple(
        Leaf(leaf_path(path, number), number, len(pages), stretches)
        for number, stretches in enumerate(pages, 1)
    )


def leaf_path(path: str, number: int) -> str:
    """Where a page of a list lies that begins at `path`."""
    return path if number == 1 else f"{folder_of(path)}{number}.html"


def folder_of(path: str) -> str:
    """The folder of the further pages of a list that begins at `path`."""
    return f"{path.removesuffix('.html')}/"


def _pages(sections: Iterable[Section], room: int) -> Iterator[tuple[Stretch, ...]]:
    """Stretches in order, as many on a page as find room together."""
    page: list[Stretch] = []
    taken = 0
    for section in sections:
        for stretch in _stretches(section, room):
            end = stretch.first + len(stretch.entries)
            needed = sum(section.weights[stretch.first : end])
            if page and (taken + needed > room or page[-1].key == stretch.key):
                yield tuple(page)
                page, taken = [], 0
            page.append(stretch)
            taken += needed
    if page:
        yield tuple(page)


def _stretches(section: Section, room: int) -> Iterator[Stretch]:
    count = len(section.entries)
    cut = (
        bounds_by_weight(section.weights, room)
        if section.weigh
        else bounds(count, room, newest_first=section.newest_first)
    )
    for first, end in cut:
        yield Stretch(section.key, section.entries[first:end], first, end == count)


def bounds_by_weight(weights: Sequence[int], room: int) -> tuple[tuple[int, int], ...]:
    """Where each part begins and ends, when it holds as many entries as find room together."""
    begun, taken = [0], 0
    for place, weight in enumerate(weights):
        if place > begun[-1] and taken + weight > room:
            begun.append(place)
            taken = 0
        taken += weight
    return tuple(pairwise((*begun, len(weights)))) if weights else ()


def bounds(count: int, room: int, *, newest_first: bool = False) -> tuple[tuple[int, int], ...]:
    """Where each part of so many entries begins and ends, when a part holds at most `room` of them."""
    if count <= room:
        return ((0, count),) if count else ()
    size = -(-room * 2 // 3)
    parts = max((count + size // 2) // size, 1)
    ends = [*(n * size for n in range(parts)), count]
    ordered = [count - end for end in reversed(ends)] if newest_first else ends
    return tuple(pairwise(ordered))


def seen_around(here: int, of: int, near: int = 2) -> tuple[int | None, ...]:
    """The pages by whose numbers a row of links leads on: the first, the last, and those near this one;
    None stands for those between."""
    if of <= 4 * near:
        return tuple(range(1, of + 1))
    shown = sorted({1, of, *range(max(1, here - near), min(of, here + near) + 1)})
    return tuple(_with_gaps(shown))


def _with_gaps(numbers: Sequence[int]) -> Iterator[int | None]:
    for before, number in pairwise((0, *numbers)):
        if number - before == 2:
            # A gap would take as much room as the one number that it stands for.
            yield number - 1
        elif number - before > 2:
            yield None
        yield number

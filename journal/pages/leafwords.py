"""The words and links by which a reader goes from page to page of a long list."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date

from journal.pages.common import Place
from journal.pages.links import Links, Ref
from journal.pages.parting import Leaf, Stretch, leaf_path, seen_around
from journal.pages.value import Value
from journal.pages.words import day_words

# How the page before and the page after are called, by the order in which a list stands.
AS_TOLD = ("Before", "After")
OLDEST_FIRST = ("Earlier", "Later")
NEWEST_FIRST = ("Later", "Earlier")


class Turn(Value, frozen=True):
    """How one page of a list leads to the others.

    `numbers` has None where some are left out, and is read out behind a `word`; `before` and `after`
    say what stands there, behind how that page is called.
    """

    here: str
    numbers: tuple[Place | None, ...]
    before: tuple[str, Ref] | None
    after: tuple[str, Ref] | None
    word: str = "Page"


def titled(title: str, leaf: Leaf) -> str:
    """The title of a page, with its number where there are several."""
    return title if leaf.of == 1 else f"{title}, page {leaf.number} of {leaf.of}"


def turn_words(
    links: Links, leaves: Sequence[Leaf], told: Callable[[Leaf], str], ways: tuple[str, str]
) -> Turn | None:
    """How the page that `links` starts from leads to the others; None where it is the only one.

    `told` says in a few words what stands on a page.
    """
    if len(leaves) == 1:
        return None
    here = next(leaf for leaf in leaves if leaf.path == links.path)
    first = leaves[0].path
    around = seen_around(here.number, here.of)
    return Turn(
        f"Page {here.number} of {here.of}",
        tuple(_number(links, first, number) if number else None for number in around),
        _beside(links, leaves, here.number - 1, told, ways[0]),
        _beside(links, leaves, here.number + 1, told, ways[1]),
    )


def _number(links: Links, first: str, number: int) -> Place:
    path = leaf_path(first, number)
    return Place(str(number), links.to(path), "page" if path == links.path else "")


def _beside(
    links: Links, leaves: Sequence[Leaf], number: int, told: Callable[[Leaf], str], way: str
) -> tuple[str, Ref] | None:
    if not 1 <= number <= len(leaves):
        return None
    leaf = leaves[number - 1]
    return f"{way}, page {number}", Ref(told(leaf), links.to(leaf.path))


def days_told(days: Sequence[date]) -> str:
    """`4 March 2024 to 2 May 2025`."""
    first, last = min(days), max(days)
    return day_words(last) if first == last else f"{day_words(first)} to {day_words(last)}"


def sections_told(headings: Mapping[str, str]) -> Callable[[Leaf], str]:
    """What stands on a page by the headings of its sections: `Gearbox`, `Gearbox to Brakes`."""

    def told(leaf: Leaf) -> str:
        first, last = headings[leaf.stretches[0].key], headings[leaf.stretches[-1].key]
        return first if first == last else f"{first} to {last}"

    return told


def beginnings(links: Links, leaves: Sequence[Leaf]) -> Iterator[tuple[Stretch, str]]:
    """The first stretch of every section, and where it is; its key is its place on its page."""
    for leaf in leaves:
        page = "" if leaf.path == links.path else links.to(leaf.path)
        for stretch in leaf.stretches:
            if not stretch.first:
                yield stretch, f"{page}#{stretch.key}"


def contents(links: Links, leaves: Sequence[Leaf], headings: Mapping[str, str]) -> tuple[Ref, ...]:
    """Where each section of a list begins, under its heading; none for a list on one page."""
    begun = beginnings(links, leaves) if len(leaves) > 1 else ()
    return tuple(Ref(headings[stretch.key], place) for stretch, place in begun)

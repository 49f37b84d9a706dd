"""What the last publishing of an archive came to: when all is as it was then, there is nothing to do.

Every file of the content and of the archive is looked at, and none is read but those that were changed
a moment before the look of that time.
"""

import json
from collections.abc import Callable, Mapping
from typing import Any

from msgspec import Struct
from msgspec.structs import asdict, replace

from journal.outputs.kept.look import Asked, Content, Lying
from journal.outputs.kept.store import Store

Clock = Callable[[], int]


class Told(Struct, frozen=True):
    """What is said at the end: all problems as text, whether there is an error among them, and how many
    pages there are. `anew` marks what had to be done, and was not found as it should be."""

    problems: str
    errors: bool
    pages: int
    anew: bool = True


class Book(Struct, frozen=True):
    """What was published: the sums over the texts and the photographs as looked at from `began` on, and
    over the archive as looked at from `ended` on (moments in ns), and what was said."""

    began: int
    ended: int
    texts: dict[str, str]
    photos: dict[str, str]
    archive: dict[str, str]
    told: Told


class Keeping(Struct, frozen=True):
    """Where things are kept from one publishing to the next, and what time it is, in ns."""

    store: Store
    clock: Clock


def read_book(keeping: Keeping, asked: Asked) -> Book | None:
    """The book of an archive, or None. One from a time to come was written by a clock that was wrong:
    what it took for long ago may have been a moment before."""
    raw = keeping.store.get(_name(asked))
    if raw is None:
        return None
    told: dict[str, Any] = json.loads(raw)
    book = Book(**{**told, "told": Told(**told["told"])})
    return book if book.ended <= keeping.clock() else None


def write_book(keeping: Keeping, asked: Asked, book: Book) -> None:
    """Keep a book."""
    keeping.store.put(
        _name(asked), json.dumps({**asdict(book), "told": asdict(book.told)}).encode()
    )


def written_since(book: Book, content: Content) -> frozenset[str]:
    """The cars of which texts are not what was published; what all share is under no name."""
    now = content.sums_of_texts(book.began)
    names = book.texts.keys() | now.keys()
    return frozenset(name for name in names if book.texts.get(name) != now.get(name))


def still(
    keeping: Keeping, asked: Asked, book: Book, content: Content, archive: Lying, now: int
) -> Told | None:
    """What was said when these texts were published, when photographs and archive are as they were then;
    None when they are not. `now` is a moment before the look."""
    # In this order, since another hand may still be looking at the photographs.
    if book.archive != archive.sums(book.ended):
        return None
    if book.photos != content.sums_of_photos(book.began):
        return None
    if content.is_fresh(book.began) or archive.is_fresh(book.ended):
        # What was read now need not be read the next time.
        write_book(keeping, asked, book_of(content, now, archive.sums(now), now, book.told))
    return replace(book.told, anew=False)


def book_of(
    content: Content, began: int, archive: Mapping[str, str], ended: int, told: Told
) -> Book:
    """The book of what is published now."""
    texts, photos = content.sums_of_texts(began), content.sums_of_photos(began)
    return Book(began, ended, texts, photos, dict(archive), told)


def _name(asked: Asked) -> str:
    return f"{asked.name}/book"

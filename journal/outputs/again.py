"""Publishing again: most of the time nothing has changed, and to see that takes a look at every file.

This module and what it needs are all that is loaded for it.
"""

from collections.abc import Callable, Collection, Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path

from msgspec import Struct

from journal.outputs.hands import Meanwhile, meanwhile
from journal.outputs.kept.book import Book, Keeping, Told, read_book, still, written_since
from journal.outputs.kept.look import (
    Asked,
    Content,
    Lying,
    Trees,
    in_short,
    trees_of_archive,
    trees_of_photos,
    trees_of_texts,
)
from journal.outputs.swap import Swap, swapping


class Found(Struct, frozen=True):
    """What there is: the content, and the archive as it lies there, both as looked at from `began` on (a
    moment in ns); and what the last publishing came to."""

    content: Content
    lying: Lying
    began: int
    book: Book | None


Anew = Callable[[Swap, Found], Told]


def published(
    asked: Asked, keeping: Keeping, anew: Anew, notice: Callable[[str], None], *, hands: int = 1
) -> Told:
    """What is said of an archive that is up to date, once it is: `anew` brings it there when anything is
    not as the last publishing left it. So many `hands` look at the files.

    Raises WrongCall when there is nowhere to put it, and what `anew` raises; the archive before it then
    stays.
    """
    with swapping(asked.target, keep_out_of=asked.root, notice=notice) as swap:
        began = keeping.clock()
        book = read_book(keeping, asked)
        bases = tuple(book.archive) if book else ()
        archive = partial(trees_of_archive, swap.target, bases)
        with _meanwhile(partial(trees_of_photos, asked.root), hands) as photos:
            content = Content(asked.root, trees_of_texts(asked.root), photos.answer)
            written = written_since(book, content) if book is not None else frozenset()
            if book is not None and not written:
                lying = Lying(swap.target, bases, partial(archive, hands))
                told = still(keeping, asked, book, content, lying, began)
                return told or anew(swap, Found(content, lying, began, book))
            # There is something to do, whatever lies there: what is needed for it is loaded meanwhile.
            tops = {swap.target / name for name in written if f"{name}/" in bases} | {swap.target}
            worked_on, rest = partial(archive, only=tops), partial(archive, but=tops)
            with (
                _meanwhile(worked_on, hands, tops, photos) as first,
                _meanwhile(rest, hands, (), first) as others,
            ):
                lying = Lying(swap.target, bases, others.answer, first.answer)
                return anew(swap, Found(content, lying, began, book))


@contextmanager
def _meanwhile(
    look: Callable[[], Trees],
    hands: int,
    wanted: Collection[Path] = (),
    after: Meanwhile[Trees] | None = None,
) -> Iterator[Meanwhile[Trees]]:
    """A look by another hand where there is one, else when it is asked for. Where there are but two, looks
    are taken one `after` the other, so that one hand is free for what is done meanwhile.

    Another hand tells in short of all trees but those that are `wanted`: to send a hundred thousand paths
    takes longer than to look at those of one car again.
    """
    short = look if hands < 2 else lambda: in_short(look(), wanted)
    with meanwhile(short, copied=hands > 1, after=after if hands == 2 else None) as begun:
        yield begun

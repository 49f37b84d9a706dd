"""What came of a car when it was last worked on, and by what it is known that it would come to the same."""

from msgspec import Struct

from journal.outputs.kept.pack import packed, unpacked
from journal.outputs.kept.store import Store
from journal.pages import CarFront
from journal.records.problem import Problem


class Saved(Struct, frozen=True):
    """What came of a car the last time, and by what it is known to come to the same: `key` is a sum over
    all it was made from, as looked at from `began` on; `elsewhere` is what was found in its files while
    others were looked at."""

    began: int
    key: str
    elsewhere: tuple[Problem, ...]
    problems: tuple[Problem, ...]
    front: CarFront | None


def keep_saved(store: Store, name: str, saved: Saved) -> None:
    """Keep it under a name."""
    store.put(name, packed(saved))


def saved_of(store: Store, name: str) -> Saved | None:
    """What was kept under a name, or None."""
    kept = unpacked(store.get(name))
    return kept if isinstance(kept, Saved) else None

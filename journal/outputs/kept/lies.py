"""How the files of one part of an archive lay there when they had been set, so that those that lie there
still need not be read."""

from array import array
from collections.abc import Callable, Sequence

from journal.outputs.kept.pack import packed, unpacked
from journal.outputs.kept.store import Store
from journal.outputs.kept.tree import Tree
from journal.reading.prints import TICK_NS


def keep_lying(store: Store, name: str, tree: Tree, ended: int, sha: Callable[[str], str]) -> None:
    """Keep how a part lies there, as looked at from `ended` on, a moment in ns, with the `sha` of each
    file by its path in that part."""
    shas = [sha(path) for path in tree.paths]
    store.put(name, packed((ended, tree.paths, tree.numbers.tobytes(), shas)))


def lying_still(store: Store, name: str, now: Tree | None) -> dict[str, str]:
    """The hashes of the files of a part that lie there as they did when they had been set, by their path
    in it; those that were changed a moment before that are not among them."""
    kept = unpacked(store.get(name)) if now is not None else None
    if kept is None or now is None:
        return {}
    ended, paths, numbers, shas = kept
    then = Tree.of(now.top, paths, array("q", numbers))
    if paths == now.paths and then.numbers == now.numbers:
        changed: Sequence[int] = now.changed
    else:
        there = set(now.prints())
        # What lies there otherwise is as if it were new.
        changed = [p.changed if (path, p) in there else ended for path, p in then.prints()]
    still = ended - TICK_NS
    return {
        path: sha for path, sha, at in zip(paths, shas, changed, strict=True) if sha and at <= still
    }

"""Hash trees over a list, by the rules of RFC 6962, section 2.1 (the same in RFC 9162, section 2.1).

A tree over a list answers for every entry of it with one short root. That an entry is in the list is
shown by a few hashes (inclusion), and that a longer list starts with a shorter one by a few others
(consistency). Hashes are SHA-256, as bytes.
"""

from collections.abc import Sequence
from hashlib import sha256

EMPTY = sha256(b"").digest()


def leaf_hash(data: bytes) -> bytes:
    """The hash of one entry: SHA-256 of a zero byte and the entry."""
    return sha256(b"\x00" + data).digest()


def node_hash(left: bytes, right: bytes) -> bytes:
    """The hash of two neighbours: SHA-256 of a one byte and both."""
    return sha256(b"\x01" + left + right).digest()


def root_of(leaves: Sequence[bytes]) -> bytes:
    """The root over leaf hashes; that of no leaves is the hash of nothing."""
    if not leaves:
        return EMPTY
    # Whole subtrees from the left, largest first: two of one size become one of the next.
    stack: list[tuple[int, bytes]] = []
    for leaf in leaves:
        size, node = 1, leaf
        while stack and stack[-1][0] == size:
            node = node_hash(stack.pop()[1], node)
            size *= 2
        stack.append((size, node))
    root = stack.pop()[1]
    while stack:
        root = node_hash(stack.pop()[1], root)
    return root


def inclusion(leaves: Sequence[bytes], index: int) -> tuple[bytes, ...]:
    """The hashes that show the leaf at `index` to be in the tree, from the leaf upwards
    (RFC 6962, section 2.1.1)."""
    if len(leaves) <= 1:
        return ()
    split = _split(len(leaves))
    if index < split:
        return (*inclusion(leaves[:split], index), root_of(leaves[split:]))
    return (*inclusion(leaves[split:], index - split), root_of(leaves[:split]))


def consistency(leaves: Sequence[bytes], first: int) -> tuple[bytes, ...]:
    """The hashes that show the tree over the first leaves to be the beginning of this one
    (RFC 6962, section 2.1.2). `first` is their number, at least one."""
    return _subproof(leaves, first, whole=True)


def _subproof(leaves: Sequence[bytes], first: int, *, whole: bool) -> tuple[bytes, ...]:
    if first == len(leaves):
        return () if whole else (root_of(leaves),)
    split = _split(len(leaves))
    if first <= split:
        return (*_subproof(leaves[:split], first, whole=whole), root_of(leaves[split:]))
    return (*_subproof(leaves[split:], first - split, whole=False), root_of(leaves[:split]))


def _split(size: int) -> int:
    """The largest power of two below a size of at least two."""
    return 1 << ((size - 1).bit_length() - 1)


def root_from_inclusion(leaf: bytes, index: int, size: int, proof: Sequence[bytes]) -> bytes | None:
    """The root that a proof leads to, or None when the proof does not fit the place
    (RFC 9162, section 2.1.3.2)."""
    if not 0 <= index < size:
        return None
    node, at, last = leaf, index, size - 1
    for other in proof:
        if last == 0:
            return None
        if at & 1 or at == last:
            node = node_hash(other, node)
            while not at & 1 and at:
                at, last = at >> 1, last >> 1
        else:
            node = node_hash(node, other)
        at, last = at >> 1, last >> 1
    return node if last == 0 else None


def consistent(
    first: int, second: int, first_root: bytes, second_root: bytes, proof: Sequence[bytes]
) -> bool:
    """Whether a proof shows the tree of the first size to be the beginning of that of the second
    (RFC 9162, section 2.1.4.2). Sizes are at least one."""
    if first == second:
        return not proof and first_root == second_root
    if not 0 < first < second or not proof:
        return False
    path = list(proof)
    if first & (first - 1) == 0:
        path.insert(0, first_root)
    at, last = first - 1, second - 1
    while at & 1:
        at, last = at >> 1, last >> 1
    older = newer = path[0]
    for other in path[1:]:
        if last == 0:
            return False
        if at & 1 or at == last:
            older, newer = node_hash(other, older), node_hash(other, newer)
            while not at & 1 and at:
                at, last = at >> 1, last >> 1
        else:
            newer = node_hash(newer, other)
        at, last = at >> 1, last >> 1
    return last == 0 and older == first_root and newer == second_root

"""Whether one bag of a car follows another: the seals of the earlier one are the beginning of the chain
in the later one, and the same key signed both.

That is shown as RFC 9162, section 2.1.4, has it: the tree over all entries of the later bag starts with
the tree over those of the earlier one. What the seals add is in the lists of the later bag, so that it
proves this without the earlier bag's own lists.
"""

from collections.abc import Iterator
from pathlib import Path

from journal.outputs.bag.layout import INFO, info_in
from journal.outputs.bag.verify import SEALS, Finding, Kind, Verified
from journal.reading.seals import read_seals
from journal.records.seal import Statement
from journal.words.merkle import consistency, consistent

_GROUP = "bag-group-identifier"


def not_following(
    later: Path, told: Verified, earlier: Path, before: Verified
) -> tuple[Finding, ...]:
    """Why one good bag does not follow another; nothing when it does."""
    cars = [_group(folder) for folder in (earlier, later)]
    if cars[0] != cars[1]:
        return (Finding(Kind.APART, f"{INFO}: Bag-Group-Identifier", *cars),)
    if told.key != before.key:
        return (Finding(Kind.APART, "signed/workshop.pem", before.key, told.key),)
    first, last = before.seals.last, told.seals.last
    if first is None or last is None:
        return (Finding(Kind.APART, SEALS, "seals in both bags", "none in one of them"),)
    return tuple(_chain(first, last, told.seals.statements, _leaves(later)))


def _group(folder: Path) -> str:
    return info_in((folder / INFO).read_text(encoding="utf-8")).get(_GROUP, "")


def _leaves(folder: Path) -> list[bytes]:
    return [entry.leaf for seal in read_seals(folder / SEALS) for entry in seal.entries or ()]


def _chain(
    first: Statement, last: Statement, chain: tuple[Statement, ...], leaves: list[bytes]
) -> Iterator[Finding]:
    """The last seal of the earlier bag has its place in the chain, before the end of it."""
    if last.seal <= first.seal:
        found = f"it ends with seal {last.seal}"
        yield Finding(Kind.APART, SEALS, f"seals after seal {first.seal}", found)
        return
    same = chain[first.seal - 1]
    place = f"{SEALS}/{first.seal:04}"
    if same != first:
        yield Finding(Kind.APART, place, first.root, same.root)
        return
    proof = consistency(leaves, first.entries)
    roots = bytes.fromhex(first.root), bytes.fromhex(last.root)
    if not consistent(first.entries, last.entries, *roots, proof):
        yield Finding(
            Kind.APART, place, "the beginning of the tree of the last seal", "another tree"
        )

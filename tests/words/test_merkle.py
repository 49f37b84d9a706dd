"""Hash trees against the published vectors, and the laws of RFC 6962 and RFC 9162.

Vectors: transparency-dev/merkle, commit 417fb0c3, testonly/constants.go (roots of the first eight
sizes over eight leaves) and testdata/inclusion, testdata/consistency (happy paths).
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.words.merkle import (
    EMPTY,
    consistency,
    consistent,
    inclusion,
    leaf_hash,
    root_from_inclusion,
    root_of,
)

DATA = [
    bytes.fromhex(text)
    for text in ("", "00", "10", "2021", "3031", "40414243", "5051525354555657",
                 "606162636465666768696a6b6c6d6e6f")
]  # fmt: skip
ROOTS = [
    "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
    "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
    "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
    "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
    "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
    "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
    "76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef",
    "ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c",
    "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328",
]
LEAVES = [leaf_hash(data) for data in DATA]
L = [leaf.hex() for leaf in LEAVES]
PAIR_01 = ROOTS[2]
PAIR_23 = "5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e"
PAIR_45 = "0ebc5d3437fbe2db158b9f126a1d118e308181031d0a949f8dededebc558ef6a"
PAIR_67 = "ca854ea128ed050b41b35ffc1b87b8eb2bde461e9e3b5596ece6b9d5975a0ae0"
LAST_FOUR = "6b47aaf29ee3c2af9af889bc1fb9254dabd31177f16232dd6aab035ca39bf6e4"


def _hex(proof: tuple[bytes, ...]) -> list[str]:
    return [node.hex() for node in proof]


@pytest.mark.parametrize("size", range(9))
def test_root__is_the_published_one(size: int) -> None:
    assert ROOTS[size] == root_of(LEAVES[:size]).hex()


@pytest.mark.parametrize(
    ("index", "size", "proof"),
    [
        (0, 1, []),
        (0, 8, [L[1], PAIR_23, LAST_FOUR]),
        (5, 8, [L[4], PAIR_67, ROOTS[4]]),
        (2, 3, [ROOTS[2]]),
        (1, 5, [L[0], PAIR_23, L[4]]),
    ],
)
def test_inclusion__is_the_published_proof(index: int, size: int, proof: list[str]) -> None:
    assert proof == _hex(inclusion(LEAVES[:size], index))
    assert bytes.fromhex(ROOTS[size]) == root_from_inclusion(
        LEAVES[index], index, size, [bytes.fromhex(node) for node in proof]
    )


@pytest.mark.parametrize(
    ("first", "second", "proof"),
    [
        (1, 1, []),
        (1, 8, [L[1], PAIR_23, LAST_FOUR]),
        (6, 8, [PAIR_45, PAIR_67, ROOTS[4]]),
        (6, 7, [PAIR_45, L[6], ROOTS[4]]),
        (2, 5, [PAIR_23, L[4]]),
    ],
)
def test_consistency__is_the_published_proof(first: int, second: int, proof: list[str]) -> None:
    assert proof == _hex(consistency(LEAVES[:second], first))
    assert consistent(
        first, second, bytes.fromhex(ROOTS[first]), bytes.fromhex(ROOTS[second]),
        [bytes.fromhex(node) for node in proof],
    )  # fmt: skip


_LEAVES = st.lists(st.binary(max_size=8), min_size=1, max_size=40).map(
    lambda data: [leaf_hash(one) for one in data]
)


@given(_LEAVES, st.data())
def test_inclusion__leads_to_the_root_and_no_other_leaf_or_place_does(
    leaves: list[bytes], data: st.DataObject
) -> None:
    index = data.draw(st.integers(0, len(leaves) - 1))
    proof = inclusion(leaves, index)
    root = root_of(leaves)
    assert root == root_from_inclusion(leaves[index], index, len(leaves), proof)
    assert root != root_from_inclusion(leaf_hash(b"another entry"), index, len(leaves), proof)
    assert root_from_inclusion(leaves[index], len(leaves), len(leaves), proof) is None
    assert root_from_inclusion(leaves[index], index, len(leaves), (*proof, EMPTY)) is None
    if proof:
        assert root_from_inclusion(leaves[index], index, len(leaves), proof[:-1]) is None


@given(_LEAVES, st.data())
def test_consistency__holds_for_every_beginning_and_for_no_other(
    leaves: list[bytes], data: st.DataObject
) -> None:
    first = data.draw(st.integers(1, len(leaves)))
    proof = consistency(leaves, first)
    older, newer = root_of(leaves[:first]), root_of(leaves)
    assert consistent(first, len(leaves), older, newer, proof)
    forged = root_of([leaf_hash(b"forged"), *leaves[1:first]])
    if forged != older:
        assert not consistent(first, len(leaves), forged, newer, proof)
    assert not consistent(first, len(leaves), older, newer, (*proof, EMPTY))


def test_leaf_and_node__cannot_be_taken_for_each_other() -> None:
    # The prefixes of RFC 6962, section 2.1, are there so that a node is never a leaf.
    assert leaf_hash(LEAVES[0] + LEAVES[1]) != root_of(LEAVES[:2])

"""Names: their form, and the nearest known one, the same on every machine."""

import random
from difflib import SequenceMatcher

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.words.names import is_slug, nearest, slug_of, title_of

KEYS = ("gearbox/laygear", "gearbox/front-bearing", "brakes/pipes", "rear-axle/hub-near-side")
_NAMES = st.from_regex(r"[a-z]{1,4}(-[a-z]{1,4})?", fullmatch=True)


@pytest.mark.parametrize("text", ["a", "front-bearing", "2nd-gear", "a-1-b"])
def test_slug__is_lower_case_words_joined_by_hyphens(text: str) -> None:
    assert is_slug(text)


@pytest.mark.parametrize(
    "text",
    ["", "-", "A", "a b", "a_b", "a--b", "-a", "a-", "é", "a/b", "a.b", "..", "a\n", "²"],
)
def test_slug__is_nothing_else(text: str) -> None:
    assert not is_slug(text)


@pytest.mark.parametrize(
    ("name", "meant"),
    [
        ("gearbox/laygaer", "gearbox/laygear"),
        ("laygear", "gearbox/laygear"),
        ("engine/laygear", "gearbox/laygear"),
        ("GEARBOX/LAYGEAR", "gearbox/laygear"),
        ("brakes/pipe", "brakes/pipes"),
        ("front-bearing", "gearbox/front-bearing"),
        ("electrical/dynamo", None),
        ("", None),
    ],
)
def test_nearest__is_the_name_that_was_meant_or_none(name: str, meant: str | None) -> None:
    assert meant == nearest(name, KEYS)


def test_nearest__of_nothing_known_is_none() -> None:
    assert nearest("laygear", ()) is None


def test_nearest__of_equals_is_the_alphabetically_first() -> None:
    assert "abcd1" == nearest("abcd", ["abcd3", "abcd1", "abcd2"])
    assert "brakes/pipes" == nearest("pipes", ["fuel/pipes", "brakes/pipes"])


@given(_NAMES, st.lists(_NAMES, max_size=8), st.randoms(use_true_random=False))
def test_nearest__does_not_depend_on_the_order_of_what_is_known(
    name: str, known: list[str], chance: random.Random
) -> None:
    shuffled = [*known, *known]
    chance.shuffle(shuffled)
    assert nearest(name, known) == nearest(name, shuffled)


@given(_NAMES, st.lists(_NAMES, max_size=8))
def test_nearest__is_a_known_name_and_a_known_name_is_its_own(name: str, known: list[str]) -> None:
    assert nearest(name, known) in {None, *known}
    assert name == nearest(name, [*known, name])


_SHORT = st.text("ab-", min_size=1, max_size=9)


@given(_SHORT, st.lists(_SHORT, max_size=8))
def test_nearest__is_the_likest_of_all_where_one_is_like_at_all(
    name: str, known: list[str]
) -> None:
    """Against the plain way: every known name is compared in full."""
    likeness = {one: SequenceMatcher(None, name, one, autojunk=False).ratio() for one in known}
    likeness |= {one: 0.95 for one in known if one == name}
    most = max(likeness.values(), default=0)
    likest = sorted(one for one in known if likeness[one] == most)
    assert (likest[0] if most >= 0.6 else None) == nearest(name, known)


def test_title__is_the_name_in_words() -> None:
    assert "Front wheel bearings" == title_of("front-wheel-bearings")
    assert "2nd gear" == title_of("2nd-gear")
    assert "" == title_of("")


def test_slug__is_no_longer_than_a_file_name_may_be() -> None:
    assert is_slug("a" * 100)
    assert not is_slug("a" * 101)
    assert "a" * 100 == slug_of("a" * 300)


def test_nearest__takes_no_text_for_a_name_that_nobody_would_give() -> None:
    # To measure how alike two texts are takes time by their lengths.
    assert nearest("laygear " * 1_000_000, ["gearbox/laygear"]) is None

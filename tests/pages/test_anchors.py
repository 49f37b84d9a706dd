"""The place of a named thing on its page: nobody else's, and one that an address can hold."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.pages.anchors import anchor

NAMES = st.text(alphabet="abA1-._/ é", max_size=8)


@pytest.mark.parametrize(
    ("name", "place"),
    [
        ("laygear", "part-laygear"),
        ("no.3_b", "part-no.3_b"),
        ("brakes/pipes", "part-brakes__pipes"),
    ],
)
def test_anchor__is_the_name_where_that_is_plain(name: str, place: str) -> None:
    assert place == anchor("part", name)


@given(NAMES, NAMES)
def test_anchor__of_two_names_is_never_the_same(one: str, other: str) -> None:
    assert (one == other) is (anchor("part", one) == anchor("part", other))


@given(st.text(max_size=20))
def test_anchor__needs_no_escape_in_an_address(name: str) -> None:
    # RFC 3986, section 2.3: the characters that mean themselves everywhere.
    assert re.fullmatch(r"part-[A-Za-z0-9._-]+", anchor("part", name))

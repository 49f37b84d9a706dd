"""Entries under names: in the order written, and found without walking them."""

import pickle

from journal.records.fields import Named


def test_entry__is_found_under_its_name_and_the_first_one_counts() -> None:
    entries = Named([("a", 1), ("b", 2), ("a", 3)])
    assert (1, 2, None) == (entries.get("a"), entries.get("b"), entries.get("c"))
    assert "a" in entries
    assert "c" not in entries
    assert [("a", 1), ("b", 2), ("a", 3)] == list(entries)


def test_entries__are_the_same_whether_or_not_one_was_sought() -> None:
    sought, fresh = Named([("a", 1)]), Named([("a", 1)])
    assert 1 == sought.get("a")
    assert sought == fresh
    assert hash(sought) == hash(fresh)
    assert sought == pickle.loads(pickle.dumps(sought))

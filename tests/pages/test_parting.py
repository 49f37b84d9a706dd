"""Long lists over several pages: every entry once, in order, and no page with more than it has room for."""

from hypothesis import given
from hypothesis import strategies as st

from journal.pages.parting import (
    Leaf,
    Section,
    bounds,
    folder_of,
    leaf_path,
    parted,
    seen_around,
)

counts = st.lists(st.integers(0, 40), max_size=6)
rooms = st.integers(1, 12)


def _sections(counts: list[int], *, newest_first: bool = False) -> list[Section]:
    """Sections a, b, c ... with so many entries each, every entry told by its section and place."""
    return [
        Section(key, tuple(f"{key}{n}" for n in range(count)), newest_first)
        for key, count in zip("abcdef", counts, strict=False)
    ]


def _told(leaves: tuple[Leaf, ...]) -> list[list[str]]:
    return [[e for s in leaf.stretches for e in s.entries] for leaf in leaves]


def test_list__stays_on_its_page_as_long_as_that_has_room() -> None:
    (leaf,) = parted("snags.html", _sections([2, 0, 3]), room=5)
    assert ("snags.html", 1, 1) == (leaf.path, leaf.number, leaf.of)
    assert (("a0", "a1"), (), ("c0", "c1", "c2")) == tuple(map(leaf.entries, "abc"))


def test_list_of_nothing__has_a_page() -> None:
    assert (Leaf("snags.html", 1, 1, ()),) == parted("snags.html", [], room=5)


def test_sections__stand_whole_on_a_page_where_they_can() -> None:
    assert [["a0", "a1", "a2"], ["b0", "b1", "c0", "c1"]] == _told(
        parted("snags.html", _sections([3, 2, 2]), room=4)
    )


def test_section_too_long_for_a_page__is_cut_into_parts_of_one_size() -> None:
    # Two thirds of nine are six; a rest of less than half of that stays with the part before it.
    assert ((0, 6), (6, 12), (12, 20)) == bounds(20, 9)
    assert ((0, 6), (6, 12), (12, 18), (18, 21)) == bounds(21, 9)


def test_section_with_the_latest_first__is_cut_from_its_oldest_on() -> None:
    assert ((0, 8), (8, 14), (14, 20)) == bounds(20, 9, newest_first=True)


def test_pages__tell_what_goes_on_and_what_ends() -> None:
    first, last = parted("snags.html", _sections([4, 1]), room=3)
    assert ((), ("a",)) == (first.continued, last.continued)
    assert [False, True, True] == [s.last for leaf in (first, last) for s in leaf.stretches]
    assert ["snags.html", "snags/2.html"] == [first.path, last.path]


def test_further_pages__lie_in_a_folder_of_the_first() -> None:
    assert "components/brakes/pipes/" == folder_of("components/brakes/pipes.html")
    assert "sheets/index/3.html" == leaf_path("sheets/index.html", 3)


@given(counts, rooms, st.booleans())
def test_every_entry__is_on_exactly_one_page_in_the_order_of_the_list(
    counts: list[int], room: int, newest_first: bool
) -> None:
    sections = _sections(counts, newest_first=newest_first)
    leaves = parted("snags.html", sections, room)
    assert [e for s in sections for e in s.entries] == [e for page in _told(leaves) for e in page]
    assert [*range(1, len(leaves) + 1)] == [leaf.number for leaf in leaves]
    assert len(leaves) == len({leaf.path for leaf in leaves})


@given(counts, rooms, st.booleans())
def test_no_page__has_more_than_it_has_room_for_or_nothing(
    counts: list[int], room: int, newest_first: bool
) -> None:
    pages = _told(parted("snags.html", _sections(counts, newest_first=newest_first), room))
    assert all(len(page) <= room for page in pages)
    assert all(pages) or not any(counts)


@given(st.lists(st.integers(1, 9), max_size=30), rooms)
def test_entry_of_some_weight__takes_its_room(weights: list[int], room: int) -> None:
    entries = tuple(enumerate(weights))
    leaves = parted("a.html", [Section("a", entries, weigh=lambda entry: entry[1])], room)
    pages = [leaf.entries("a") for leaf in leaves]
    assert entries == tuple(e for page in pages for e in page)
    assert all(len(page) <= 1 or sum(w for _, w in page) <= room for page in pages)


@given(st.integers(0, 60), rooms)
def test_new_entry__moves_none_but_the_latest(count: int, room: int) -> None:
    """What was written a while ago stays where it was, and so do the links to it."""
    before = _told(parted("a.html", _sections([count]), room))
    after = _told(parted("a.html", _sections([count + 1]), room))
    assert before[:-2] == after[: len(before[:-2])]


@given(st.integers(0, 60), rooms)
def test_new_entry_of_a_list_with_the_latest_first__leaves_the_older_pages_as_they_are(
    count: int, room: int
) -> None:
    def told(count: int) -> list[list[int]]:
        entries = tuple(range(count, 0, -1))
        return [
            list(leaf.entries("a"))
            for leaf in parted("a.html", [Section("a", entries, newest_first=True)], room)
        ]

    before, after = told(count), told(count + 1)
    older = before[2:]
    assert older == after[len(after) - len(older) :]


def test_row_of_numbers__leads_to_all_pages_while_they_are_few() -> None:
    assert (1, 2, 3, 4, 5, 6, 7, 8) == seen_around(3, 8)


def test_row_of_numbers__leaves_out_those_far_away() -> None:
    assert (1, None, 7, 8, 9, 10, 11, None, 20) == seen_around(9, 20)
    assert (1, 2, 3, None, 20) == seen_around(1, 20)
    # A gap is never in the place of one number.
    assert (1, 2, 3, 4, 5, 6, None, 20) == seen_around(4, 20)


@given(st.integers(1, 300), st.data())
def test_row_of_numbers__is_short_and_leads_on(of: int, data: st.DataObject) -> None:
    here = data.draw(st.integers(1, of))
    row = seen_around(here, of)
    numbers = [number for number in row if number]
    assert sorted(set(numbers)) == numbers
    assert {1, of, here, max(1, here - 1), min(of, here + 1)} <= set(numbers)
    assert len(row) <= 9

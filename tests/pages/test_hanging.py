"""How pictures are hung: each once, in order, and never more on a page than it can hold."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.ledgers.gallery import Picture
from journal.pages.hanging import (
    FIRST_FEW,
    Leaf,
    Room,
    Way,
    bounds,
    by_month,
    by_stage,
    by_subsystem,
    leaves,
    parts_of,
    room_place,
    where_hung,
)
from journal.pages.view import CarView, view_of
from journal.words.vocabulary import Reader, Stage
from tests.pages.picturing import published
from tests.writing import a_car, a_sheet


def _picture(number: int, stage: Stage | None = None) -> Picture:
    day = date(2024, 3, 5) + timedelta(number)
    return Picture(
        number, f"{day}/{number}.jpg", day, f"{day}-day", "brakes", (), stage, None, None
    )


def _way(*counts: int) -> Way:
    """Rooms a, b, c ... with so many pictures each."""
    rooms, first = [], 1
    for key, count in zip("abcdefgh", counts, strict=False):
        rooms.append(Room(key, tuple(_picture(n) for n in range(first, first + count))))
        first += count
    return Way("rooms", "pictures/rooms.html", tuple(rooms))


def test_leaves__are_one_page_as_long_as_it_holds_them() -> None:
    way = _way(3, 2)
    assert (Leaf("pictures/rooms.html", way.rooms),) == leaves(way, most=5)


def test_leaves__are_a_page_a_room_when_one_would_hold_too_many() -> None:
    told = [
        (leaf.path, [len(r.pictures) for r in leaf.rooms]) for leaf in leaves(_way(4, 2), most=5)
    ]
    assert told == [
        ("pictures/rooms.html", [FIRST_FEW, 2]),
        ("pictures/rooms/a.html", [4]),
        ("pictures/rooms/b.html", [2]),
    ]


def test_leaves__cut_a_room_that_is_too_large_itself() -> None:
    # Seven pictures in pages of three at most: three pages, of 2, 2 and 3.
    told = [(leaf.path, leaf.part, leaf.parts) for leaf in leaves(_way(7), most=3)][1:]
    assert told == [
        ("pictures/rooms/a.html", 1, 3),
        ("pictures/rooms/a/2.html", 2, 3),
        ("pictures/rooms/a/3.html", 3, 3),
    ]
    assert [len(part) for part in parts_of(_way(7).rooms[0].pictures, 3)] == [2, 2, 3]


@given(st.lists(st.integers(1, 30), max_size=8), st.integers(1, 12))
def test_every_picture__hangs_once_on_a_page_that_can_hold_it(counts: list[int], most: int) -> None:
    way = _way(*counts)
    pages = [leaf for leaf in leaves(way, most) if not leaf.led_from]
    hung = [p.number for leaf in pages for room in leaf.rooms for p in room.pictures]
    assert hung == [p.number for room in way.rooms for p in room.pictures]
    assert all(sum(len(r.pictures) for r in leaf.rooms) <= most for leaf in pages)
    assert sorted(where_hung(way, most)) == sorted(hung)
    assert len({leaf.path for leaf in leaves(way, most)}) == len(leaves(way, most))


@given(st.integers(0, 1000), st.integers(1, 20))
def test_bounds__leave_nothing_out(count: int, parts: int) -> None:
    cut = bounds(count, parts)
    assert [n for first, last in cut for n in range(first, last)] == list(range(count))
    sizes = [last - first for first, last in cut]
    assert max(sizes) - min(sizes) <= 1


def test_room__is_found_on_its_own_page_or_on_that_of_all() -> None:
    way = _way(3, 2)
    assert room_place(way, "b", most=5) == "pictures/rooms.html#room-b"
    assert room_place(way, "b", most=4) == "pictures/rooms/b.html"


def _view() -> CarView:
    def shown(file: str, of: list[str], stage: str | None) -> dict[str, object]:
        return {"file": file, "of": of, **({"stage": stage} if stage else {})}

    first = a_sheet(
        "2024-03-28", subsystem=["brakes", "trim"],
        photos=[
            shown("1.jpg", ["brakes/pipes"], "as-finished"), shown("2.jpg", [], None),
            shown("3.jpg", ["trim/seat"], "as-found"),
        ],
    )  # fmt: skip
    second = a_sheet(
        "2024-04-02", name="b",
        photos=[
            shown("4.jpg", ["brakes/hoses"], "evidence"), shown("5.jpg", ["brakes/pipes"], "as-found"),
            shown("lost.jpg", ["brakes/pipes"], "as-found"),
        ],
    )  # fmt: skip
    photos = [f"2024-03-28/{n}.jpg" for n in (1, 2, 3)] + [
        f"2024-04-02/{n}.jpg" for n in (4, 5, "lost")
    ]
    register = dict.fromkeys(["brakes/pipes", "brakes/hoses", "trim/seat"], "first-fit")
    car = a_car(register, [first, second], photos=photos)
    # The sixth photograph could not be read, so it is not published.
    return view_of(car, Reader.OWNER, pictures={path: published() for path in photos[:-1]})


def _told(way: Way) -> list[tuple[str, list[int]]]:
    return [(room.key, [p.number for p in room.pictures]) for room in way.rooms]


@pytest.mark.parametrize(
    ("way", "rooms"),
    [
        # Pipes are photographed first, then hoses; the work in general hangs last.
        (by_subsystem, [("brakes", [5, 1, 4, 2]), ("trim", [3])]),
        (
            by_stage,
            [("as-found", [3, 5]), ("evidence", [4]), ("as-finished", [1]), ("no-stage", [2])],
        ),
        (by_month, [("2024-03", [1, 2, 3]), ("2024-04", [4, 5])]),
    ],
)
def test_rooms__are_in_the_order_of_the_trade_the_work_and_the_days(
    way: object, rooms: list[tuple[str, list[int]]]
) -> None:
    assert callable(way)
    assert rooms == _told(way(_view()))

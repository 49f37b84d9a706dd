"""Changing the earth: what those say who have done it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.bench.earth_polarity import ITEMS, Deed
from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        "`Motors will sometimes run in reverse (not the starter, but sometimes the heater motor or wiper motor)`, mossmotorshelp.freshdesk.com 44002389976",
        {"fitted": "starter, heater-motor, wiper-motor"},
        {"swapped": "2", "changed": "0", "left": "1"},
    ),
    Example(
        "Battery cables, wires of the coil, and the dynamo to be flashed, mg-cars.org.uk/mgcc/midgetreg/positivetoneg.shtml",
        {"fitted": "coil, dynamo"},
        {"swapped": "2", "changed": "0", "left": "0"},
    ),
    Example(
        "`Lighting systems, horns and starters will work just fine`; petrol pumps with capacitor or diode do not, classicmotorsports.com/articles/going-negative",
        {"fitted": "lamps, horn, starter, fuel-pump"},
        {"swapped": "0", "changed": "1", "left": "3"},
    ),
)  # fmt: skip


def _rows(fitted: str, **more: str) -> list[tuple[str, str]]:
    grid = answer_of("earth-polarity", {"fitted": fitted, **more}).worked.grids[0]
    return [(row[0], row[1]) for row in grid.rows]


def test_list__is_in_the_order_of_work() -> None:
    assert [
        ("battery", "first"),
        ("radio or player", "take off or convert"),
        ("electric petrol pump", "find out first"),
        ("ignition coil", "swap the leads"),
        ("starter motor", "leave"),
        ("battery", "turn round"),
        ("dynamo", "at the end"),
        ("first start", "at the end"),
        ("label", "at the end"),
    ] == _rows("dynamo, coil, fuel-pump, radio, starter")


def test_verdict__tells_first_what_would_be_destroyed() -> None:
    told = [
        answer_of("earth-polarity", {"fitted": fitted}).worked.verdict
        for fitted in ("coil, radio, alternator", "coil, clock", "coil, dynamo")
    ]
    assert [
        "2 items would be destroyed by negative earth: nothing is connected before they are off or converted.",
        "1 item to find out about first; the rest is leads to turn round.",
        "Leads to turn round and nothing to replace: negative earth can be had with what is there.",
    ] == told


def test_list__misses_what_every_car_has() -> None:
    assert (
        "Neither dynamo nor alternator is in the list: what charges this car?",
        "The ignition coil is not in the list; every car with one needs its leads turned round.",
    ) == answer_of("earth-polarity", {"fitted": "horn"}).worked.warnings


@pytest.mark.parametrize(
    ("wrong", "mistake"),
    [
        ({"fitted": "coil", "now": "negative"}, "wanted is what it has now, negative earth; write the other one, or leave it be"),
        ({"fitted": "dynamo, alternator"}, "fitted cannot be both dynamo and alternator; write the one that charges the car as it will run"),
        ({"fitted": "coil, coil"}, 'fitted has "coil" twice; write each once'),
        ({"fitted": "coil, dynamoo"}, 'fitted cannot be "dynamoo"; write dynamo'),
    ],
)  # fmt: skip
def test_mistake__is_one_sentence(wrong: dict[str, str], mistake: str) -> None:
    assert [mistake] == mistakes_of("earth-polarity", wrong)


@given(st.lists(st.sampled_from([i.word for i in ITEMS if i.word != "alternator"]), min_size=1, unique=True))  # fmt: skip
def test_every_item__stands_once_in_the_list(fitted: list[str]) -> None:
    worked = answer_of("earth-polarity", {"fitted": ", ".join(fitted)}).worked
    assert len(fitted) + 4 == len(worked.grids[0].rows)
    assert len(fitted) == sum(int(r.words) for r in worked.results)


def test_every_item__is_known_by_one_word_and_says_how() -> None:
    assert len({item.word for item in ITEMS}) == len(ITEMS)
    assert set(Deed) == {item.deed for item in ITEMS}
    assert all(len(item.how) > 8 for item in ITEMS)

"""Charging: what is on together against what the machine makes."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.worked_examples import Example, answer_of, mistakes_of

EXAMPLES = (
    Example(
        # 500 / 13.8 = 36.2 A.
        "Amplifier of 500 W at 13.8 V draws 36.2 A, hotrod.com/how-to/0804rc-electrical-current",
        {"loads": "amplifier: always, 500 W", "voltage": "13.8 V", "output": "55 A", "idling": "0 %"},
        {"load": "36.2 A", "spare": "18.8 A"},
    ),
    Example(
        # 40 Ah and 180 W: 2.667 h till it is flat, so half of that till it is half flat.
        "Battery of 40 Ah with 180 W, 2.667 h, carpc.kyferez.com/Tools/electronics/CalcBattDischarge.html",
        {"loads": "computer: always, 180 W", "output": "0 A", "idling": "0 %", "battery": "40 Ah"},
        {"load": "15 A", "lasts": "1.333 h", "engine-off": "1.333 h"},
    ),
    Example(
        # 1.7 kW of intermittent loads at a factor of 0.1 are 170 W, 14.17 A at 12 V.
        "Intermittent loads at a factor of 0.1, 170 W, what-when-how.com, Vehicle electrical loads, 14.4",
        {"loads": "all that is intermittent: brief, 1700 W", "output": "45 A"},
        {"load": "14.17 A"},
    ),
    Example(
        # "at least 120 % of the worst-case load".
        "Charging systems are sized for 120 % of the worst load, alshain.a-centauri.com/batteryfaq/carfaq5.htm",
        {"loads": "all: always, current 50 A", "output": "60 A", "idling": "0 %"},
        {"wanted": "60.0 A"},
    ),
)  # fmt: skip

CAR = {
    "loads": "ignition: always, current 3 A; headlamps: night, 45 W, 2; side lamps: night, 5 W, 6; wiper: wet, current 3 A; heater: wet, current 4 A",
    "output": "22 A",
}


def _told(**more: str) -> dict[str, str]:
    return {r.name: r.words for r in answer_of("charge-balance", CAR | more).worked.results}


def test_times__add_what_is_on_together() -> None:
    # 3; 3 + 7 = 10; 3 + 7.5 + 2.5 = 13; 20 on a wet night. A fifth of the time idling leaves 17.6 of 22.
    rows = answer_of("charge-balance", CAR).worked.grids[0].rows
    assert (
        ("Dry day", "3.0 A", "19.0 A", "−3.0 A", "14.6 A"),
        ("Wet day", "10.0 A", "12.0 A", "−10.0 A", "7.6 A"),
        ("Dry night", "13.0 A", "9.0 A", "−13.0 A", "4.6 A"),
        ("Wet night", "20.0 A", "2.0 A", "−20.0 A", "−2.4 A"),
    ) == rows


def test_verdict__tells_road_and_traffic_apart() -> None:
    told = [
        answer_of("charge-balance", CAR | more).worked
        for more in (
            {"output": "11 A"},
            {},
            {"idling": "0 %"},
            {"output": "28 A", "idle": "10 A", "machine": "alternator"},
        )
    ]
    assert [
        "The dynamo does not keep up even on the road (dry night and wet night): the battery lacks up to 9.0 A.",
        "The dynamo keeps up on the road and not in traffic (wet night): there the battery lacks 2.4 A.",
        "The dynamo keeps up, with less than the margin of 20 %: the battery is slow to charge on a wet night.",
        "The alternator keeps up at all times and has 8.0 A to spare for the battery on a wet night.",
    ] == [worked.verdict for worked in told]
    assert [False, False, False, True] == [worked.right for worked in told]


def test_battery__lasts_till_half_of_it_is_gone() -> None:
    # Half of 57 Ah over the 2.4 A that are lacking: 11.9 h; over 20 A with the engine off: 1.4 h.
    told = _told(battery="57 Ah")
    assert ("11.9 h", "1.4 h") == (told["lasts"], told["engine-off"])
    assert "lasts" not in _told(battery="57 Ah", idling="0 %")


@pytest.mark.parametrize(
    ("wrong", "mistake"),
    [
        ({"loads": "ignition: always"}, 'loads needs power or current for "ignition", one of them; write it like headlamps: night, 45 W, 2 or ignition: always, current 3 A'),
        ({"loads": "ignition: always, 3 A"}, 'loads has a power that must be a power, found "3 A"; write it in W, kW or hp'),
        ({"loads": "ignition: often, 30 W"}, 'loads has a when that cannot be "often"; write always, night, wet or brief'),
        ({"idle": "30 A"}, "idle must be no more than output; give what it makes at tick-over"),
    ],
)  # fmt: skip
def test_mistake__is_one_sentence(wrong: dict[str, str], mistake: str) -> None:
    assert [mistake] == mistakes_of("charge-balance", CAR | wrong)


@given(st.integers(1, 300), st.integers(0, 60), st.integers(1, 50))
def test_balance__falls_by_what_is_switched_on_more(watts: int, amps: int, more: int) -> None:
    def spare(power: int) -> Fraction:
        written = {"loads": f"lamp: night, {power} W", "output": f"{amps} A"}
        results = answer_of("charge-balance", written).worked.results
        return Fraction(next(r.exact for r in results if r.name == "spare") or 0)

    assert spare(watts) - spare(watts + more) == Fraction(more, 12)

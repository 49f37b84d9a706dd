"""What the dossier tells of the car as it goes: settings and clearances, running in and re-checks."""

from decimal import Decimal
from typing import Any

import pytest

from journal.pages.dossier.settings import latest
from journal.records.carfile import CarFile
from tests.pages.sectioning import a_full_car, section
from tests.printing import small_view
from tests.writing import a_car, a_sheet


def test_settings__stand_as_they_were_read_last() -> None:
    car = a_full_car()
    assert [Decimal("3.4")] == [r.values[0] for r in latest(small_view(car).measured.readings)]
    told = section("settings", car)
    assert "Two readings of one dimension; each stands here as it was read last." == told["lead"]
    assert (
        "One dimension was not altered after it was read; of one with a limit none is outside it."
        == told["standing"]
    )
    assert [] == told["overtaken"]


def _drum(day: str, **front: Any) -> Any:
    return a_sheet(day, subsystem="brakes", **front)


def _read(**more: Any) -> Any:
    limit = {"least": "250", "most": "255.5"}
    return {"drum": {"on": "brakes/drum", "read": "256", "unit": "mm", "limit": limit, **more}}


@pytest.mark.parametrize(
    ("work", "altered"),
    [
        ({"did": ["removed", "machined"]}, "Machined"),
        ({"did": ["adjusted"]}, "Adjusted"),
        ({"did": ["fitted"], "now": "pattern"}, "Another item fitted"),
    ],
)
def test_settings__that_were_altered_after_the_reading_are_not_passed_off_as_delivered(
    work: Any, altered: str
) -> None:
    """A drum worn past its limit and skimmed later was not delivered so (common practice, no source)."""
    sheets = [
        _drum("2024-03-05", measured=_read()),
        _drum("2024-03-08", work={"brakes/drum": work}),
    ]
    told = section("settings", a_car({"brakes/drum": "first-fit"}, sheets))
    assert [] == told["benches"]
    assert "" == told["standing"]
    ((reading,),) = (bench["readings"] for bench in told["overtaken"])
    assert "outside its limit" == reading["words"]["verdict"]
    assert {
        "did": altered, "day": "8 March 2024", "sheet": {"text": "S\N{NO-BREAK SPACE}2", "to": "sheet-2"},
    } == reading["altered"]  # fmt: skip


@pytest.mark.parametrize("did", ["removed", "cleaned", "fitted", "inspected"])
def test_settings__stand_when_the_item_was_only_taken_off_looked_at_or_put_back(did: str) -> None:
    sheets = [
        _drum("2024-03-05", measured=_read(), work={"brakes/drum": "adjusted"}),
        _drum("2024-03-08", work={"brakes/drum": did}),
    ]
    told = section("settings", a_car({"brakes/drum": "first-fit"}, sheets))
    assert [] == told["overtaken"]
    assert (
        "One dimension was not altered after it was read; of one with a limit one is outside it."
        == told["standing"]
    )


def test_settings__read_before_and_after_stand_as_they_were_after() -> None:
    read = _read(read=["256", "255"], note="Before, after")
    told = section(
        "settings", a_car({"brakes/drum": "first-fit"}, [_drum("2024-03-05", measured=read)])
    )
    ((reading,),) = (bench["readings"] for bench in told["benches"])
    words = reading["words"]
    assert ("255\N{NO-BREAK SPACE}mm", "within its limit", "256\N{NO-BREAK SPACE}mm before") == (
        words["values"], words["verdict"], words["note"],
    )  # fmt: skip


SPINNERS = {
    "what": "spinners, with the mallet", "on": "wheels-and-tyres/spinners",
    "after": "50 miles or 2 weeks", "value": "no movement",
}  # fmt: skip
NUTS = {
    "what": "head nuts", "on": "engine/head", "after": "500 miles",
    "value": {"limit": ["48", "52"], "unit": "lbf ft", "says": "cold"},
}  # fmt: skip


def _delivered(*later: Any, **car: Any) -> CarFile:
    first = a_sheet(
        "2025-06-20", subsystem="papers", odometer="48371",
        rechecks={"spinners": SPINNERS, "nuts": NUTS},
    )  # fmt: skip
    register = dict.fromkeys(("wheels-and-tyres/spinners", "engine/head"), "first-fit")
    return a_car(register, [first, *later], **{"delivered": "2025-06-20", **car})


def test_running_in__tells_what_is_due_where_when_and_what_it_should_be() -> None:
    """Worked by hand: 48,371 + 50 = 48,421 and + 500 = 48,871 miles; 20 June and 14 days is 4 July."""
    told = section("running-in", _delivered())
    assert [
        (
            "Spinners, with the mallet", "Wheels and tyres", ["Spinners"],
            "At 48,421 miles or on 4 July 2025, whichever comes first",
            "50 miles or 2 weeks after delivery", "no movement",
        ),
        (
            "Head nuts", "Engine", ["Head"], "At 48,871 miles", "500 miles after delivery",
            "48 to 52 lbf ft; cold",
        ),
    ] == [
        (r["what"], r["under"], [c["text"] for c in r["on"]], r["when"], r["counted"], r["value"])
        for r in told["due"]
    ]  # fmt: skip
    assert ["S\N{NO-BREAK SPACE}1"] * 2 == [r["sheet"]["text"] for r in told["due"]]
    assert (
        "Everything counts from delivery on 20 June 2025, when the odometer read 48,371 miles."
        == told["counting"]
    )
    assert any("Tighten wheels to the maker" in caution for caution in told["cautions"])


def test_running_in__before_delivery_says_the_stretch_alone() -> None:
    told = section("running-in", _delivered(delivered=None))
    assert [
        ("50 miles or 2 weeks after delivery, whichever comes first", ""),
        ("500 miles after delivery", ""),
    ] == [(r["when"], r["counted"]) for r in told["due"]]
    assert "" == told["counting"]


def test_running_in__what_was_done_stands_with_what_was_found_and_by_whom() -> None:
    found = {"done": "a quarter turn on two", "by": "JB"}
    later = a_sheet("2025-07-01", subsystem="wheels-and-tyres", rechecks={"spinners": found})
    told = section("running-in", _delivered(later))
    assert ["Head nuts"] == [r["what"] for r in told["due"]]
    (done,) = told["done"]
    assert ("Spinners, with the mallet", "A quarter turn on two", "1 July 2025", "S\N{NO-BREAK SPACE}2") == (
        done["what"], done["found"], done["day"], done["sheet"]["text"],
    )  # fmt: skip
    assert done["by"]


def test_running_in__that_nothing_asks_for_says_so_and_keeps_the_form() -> None:
    told = section("running-in", a_car({}))
    assert told["lead"].startswith("No sheet asks for anything to be looked at again.")
    assert ([], [], []) == (told["due"], told["done"], told["cautions"])
    assert len(told["blank"]) > len(section("running-in", _delivered())["blank"]) > 0


def test_running_in__names_what_is_to_be_watched_and_what_is_open() -> None:
    told = section("running-in", a_full_car())
    assert [("Trim: Seat", "Springs tired"), ("Brakes", "Bleed the brakes")] == [
        (w["where"], w["words"]) for w in told["watch"]
    ]


def test_running_in__what_is_put_off_is_told_with_its_reason() -> None:
    sheets = [
        a_sheet("2024-03-05", subsystem="hood", snags={"cover": {"raise": "order it, or wait?"}}),
        a_sheet("2024-03-06", subsystem="hood", snags={"cover": {"defer": "the owner waits"}}),
    ]
    (watch,) = section("running-in", a_car({"hood/cover": "absent"}, sheets))["watch"]
    assert "Order it, or wait? Put off: the owner waits" == watch["words"]

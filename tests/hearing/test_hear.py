"""What people say of the day, and what of it was done. Turns of phrase are common practice, no source."""

import re
from datetime import date
from pathlib import Path

import pytest

from journal.hearing.hear import hear
from journal.hearing.heard import Kind
from journal.records.draft import DraftLine
from journal.records.talk import Cue, Talk
from tests.hearing import score
from tests.hearing.listening import DAY, REGISTER, acts, lines, listen
from tests.writing import a_car

SILENCER, SUMP, LAYGEAR = "exhaust/silencer", "engine/sump", "gearbox/laygear"


@pytest.mark.parametrize(
    ("said", "key"),
    [
        ("took the silencer off", SILENCER),
        ("took the muffler off", SILENCER),
        ("took the lay gear out", LAYGEAR),
        ("took the cluster gear out", LAYGEAR),
        ("took the sink row mesh rings out of the gearbox", "gearbox/synchromesh"),
        ("took the near side front wing off", "body/front-wing-near-side"),
        ("took the front fender on the near side off", "body/front-wing-near-side"),
        ("took the wing at the front on the off side off", "body/front-wing-off-side"),
        ("took the grill off", "brightwork/grille"),
        ("took the break pipes off", "brakes/pipes"),
        ("took the soft top off", "hood/covering"),
    ],
)
def test_components__by_every_name_that_the_trade_uses(said: str, key: str) -> None:
    assert {(key, "removed")} == acts(said)


def test_components__the_drivers_side_is_the_off_side_of_a_car_steered_on_the_right() -> None:
    assert {("body/front-wing-off-side", "removed")} == acts(
        "took the driver's side front wing off"
    )
    assert {("body/front-wing-near-side", "removed")} == acts(
        "took the passenger side front wing off"
    )


def test_components__left_is_the_side_of_the_road_where_the_car_comes_from() -> None:
    said = "took the left hand front wing off"
    assert {("body/front-wing-near-side", "removed")} == acts(said)
    assert {("body/front-wing-off-side", "removed")} == acts(said, drive="left")


def test_components__a_hood_is_the_bonnet_in_the_mouth_of_an_american() -> None:
    said = "cut the muffler off and put the windshield away and took the hood off"
    assert ("body/bonnet", "removed") in acts(said)
    assert ("hood/covering", "removed") in acts("took the hood off")


def test_components__both_are_both() -> None:
    both = {("body/front-wing-near-side", "removed"), ("body/front-wing-off-side", "removed")}
    assert both == acts("took both front wings off")


def test_components__one_of_two_is_asked_when_no_side_is_said() -> None:
    said = "took the front wing off"
    assert set() == acts(said)
    (asked,) = lines(said, Kind.ACT)
    assert "Was this done today, and to this component?" == asked.ask


def test_components__the_subsystem_is_told_by_the_words_around() -> None:
    said = "wheel cylinders first then the drums at the back i measured the drums"
    assert ("brakes/drums-rear", "measured") in acts(said)


def test_components__what_the_car_has_none_of_is_asked() -> None:
    (line,) = lines("took the radiator out", Kind.ACT)
    assert (
        "cooling/radiator is not in the register of this car. Is another component meant?"
        == line.ask
    )


@pytest.mark.parametrize(
    ("said", "did"),
    [
        ("took the sump off", {"removed"}),
        ("the sump came off", {"removed"}),
        ("that's the sump off", {"removed"}),
        ("the sump i took off", {"removed"}),
        ("degreased and painted the sump", {"cleaned", "painted"}),
        ("took the sump off cleaned it and painted it", {"removed", "cleaned", "painted"}),
        ("i've painted the sump", {"painted"}),
        ("i'm painting the sump", {"painted"}),
        ("managed to straighten and weld the sump", {"welded", "repaired"}),
        ("had to weld the sump", {"welded"}),
        ("gave the sump a good scrub", {"cleaned"}),
        ("spent two hours painting the sump", {"painted"}),
        ("got the sump painted", {"painted"}),
        ("jonah painted the sump", {"painted"}),
        ("put the sump back on", {"fitted"}),
        ("offered the sump up", {"trial-fitted"}),
        ("so today i fitted the sump", {"fitted"}),
    ],
)
def test_acts__what_was_done_today(said: str, did: set[str]) -> None:
    assert {(SUMP, one) for one in did} == acts(said)


@pytest.mark.parametrize(
    "said",
    [
        "i'm going to paint the sump",
        "i'll paint the sump tomorrow",
        "need to paint the sump",
        "the sump needs painting",
        "i want to get the sump painted",
        "haven't painted the sump yet",
        "didn't get round to painting the sump",
        "never painted the sump",
        "couldn't get the sump off",
        "the sump wouldn't come off",
        "should have painted the sump",
        "should of painted the sump",
        "i'd like to paint the sump",
        "last week i painted the sump",
        "i painted the sump yesterday",
        "i painted the sump a fortnight ago",
        "somebody had painted the sump",
        "somebody painted the sump years ago",
        "the previous owner painted the sump",
        "had the sump painted",
        "he said he could paint the sump",
        "northgate painted the sump",
        "before i paint the sump",
        "without painting the sump",
        "once the sump is off",
        "if i'd painted the sump",
        "took the sump off no i didn't",
        "the freshly painted sump",
        "put the sump on the bench",
        "the sump's been painted by somebody",
        "instead of painting the sump",
        "i painted the floor of the shed",
    ],
)
def test_acts__what_was_not_done_today_is_not_claimed(said: str) -> None:
    assert set() == acts(said)


def test_acts__what_was_done_to_a_part_is_asked_of_the_whole() -> None:
    (line,) = lines("knocked the old gudgeon pins out", Kind.ACT)
    assert "Was this done today, and to this component?" == line.ask
    assert {"engine/pistons": {"did": ["removed"]}} == line.told["work"]


def test_acts__history_ends_where_today_begins() -> None:
    said = "last week i took the sump off so today i painted the sump"
    assert {(SUMP, "painted")} == acts(said)


def test_origins__only_what_is_said() -> None:
    assert [] == lines("fitted the silencer", Kind.ORIGIN)
    (line,) = lines("fitted the silencer it's a reproduction", Kind.ORIGIN)
    assert {"work": {SILENCER: {"now": "pattern"}}} == line.told
    (line,) = lines("fitted the silencer which is new old stock", Kind.ORIGIN)
    assert {"work": {SILENCER: {"now": "old-stock"}}} == line.told


def test_measured__with_its_limit_on_its_component() -> None:
    (line,) = lines(
        "the laygear end float is twelve thou and the book says six to ten", Kind.MEASURED
    )
    assert {
        "measured": {
            "laygear end float": {"on": LAYGEAR, "read": "12", "unit": "thou", "limit": ["6", "10"]}
        }
    } == line.told


def test_measured__on_what_was_spoken_of_last_before_it() -> None:
    said = "the laygear is back in its box it's eight thou handbook's six to ten next the sump"
    (line,) = lines(said, Kind.MEASURED)
    assert (LAYGEAR,) == line.of


def test_measured__on_what_it_is_told_on() -> None:
    said = "put the sump down and measured it, eight thou of float on the laygear"
    (line,) = lines(said, Kind.MEASURED)
    assert (LAYGEAR,) == line.of


@pytest.mark.parametrize(
    "said",
    [
        "the sump bolts are only finger tight",
        "there's a temporary bolt in the idler",
        "the silencer is too long",
        "the silencer wouldn't seat",
        "the sump is weeping at the back",
        "i don't like the look of the idler",
        "keep an eye on that sump",
    ],
)
def test_snags__what_is_loose_wrong_or_worrying(said: str) -> None:
    found = lines(said, Kind.SNAG)
    assert 1 == len(found)
    assert found[0].words in said
    assert all("raise" in entry for entry in found[0].told["snags"].values())  # type: ignore[union-attr, operator]


def test_snags__what_is_sound_is_none() -> None:
    assert [] == lines("looked the idler over and there are no cracks", Kind.SNAG)


@pytest.mark.parametrize(
    "said",
    [
        "still waiting for the silencer",
        "the silencer hasn't come",
        "they said friday for the silencer",
        "the silencer is on back order",
        "mrs harrow hasn't decided about the silencer",
    ],
)
def test_waiting__what_others_owe(said: str) -> None:
    assert lines(said, Kind.WAITING, Kind.PART)


def test_parts__ordered_from_whom_and_for_when() -> None:
    said = "ordered two wheel cylinders from north gate number a dash two two oh seven they said friday"
    (line,) = lines(said, Kind.PART)
    # 5 March 2024 was a Tuesday, so that Friday is the 8th.
    assert {
        "wheel-cylinders": {
            "what": "wheel cylinders", "number": "A-2207", "from": "northgate",
            "of": "brakes/wheel-cylinders", "ordered": DAY, "promised": "2024-03-08",
        }
    } == line.told["parts"]  # fmt: skip


def test_parts__a_supplier_that_is_not_known_is_asked() -> None:
    (line,) = lines("ordered a silencer from a place called fettle and sons", Kind.PART)
    assert "Who is it from?" == line.ask


def test_safety__what_is_not_told_of_brakes_and_steering_is_asked() -> None:
    (line,) = lines("fitted the idler", Kind.CHECK)
    assert "Idler: how were its fasteners tightened and locked, and who checked it?" == line.ask
    (line,) = lines("fitted the idler torqued it and split pinned it", Kind.CHECK)
    assert "Idler: who checked it after it was tightened and locked?" == line.ask
    assert [] == lines("fitted the idler torqued it and jonah checked it over", Kind.CHECK)
    assert [] == lines("fitted the silencer", Kind.CHECK)


def test_safety__a_compound_on_threads_that_nobody_degreased_is_asked() -> None:
    said = "fitted the silencer with thread lock on the studs"
    (line,) = lines(said, Kind.CHECK)
    assert "Were the threads degreased before the locking compound, as its maker says?" == line.ask
    assert [] == lines(f"degreased the studs and {said}", Kind.CHECK)


def test_decided__by_the_owner_for_a_component() -> None:
    (line,) = lines("mrs harrow said yes to the stainless silencer", Kind.DECIDED)
    assert {"work": {SILENCER: {"decided": "owner"}}} == line.told


def test_lines__stand_beside_their_words_and_the_second_they_were_said() -> None:
    text = "here we go took the sump off"
    talk = Talk(
        text,
        (Cue(0, 10, score.Fraction(0), score.Fraction(4)), Cue(11, 28, score.Fraction(4), None)),
    )
    known = score.known()
    (line,) = hear(talk, a_car(REGISTER), date.fromisoformat(DAY), known).lines
    assert ("took the sump off", 4) == (line.words, line.at)
    assert text[line.start : line.end] == line.words


def test_title__says_what_was_done_first() -> None:
    assert (
        "Sump removed, laygear and layshaft cleaned"
        == listen("took the sump off and cleaned the laygear").title
    )


@pytest.mark.parametrize("path", score.talks("tuned"), ids=lambda path: path.stem)
def test_talks__every_line_is_one_that_a_sheet_can_hold(path: Path) -> None:
    talk, heard, _ = score.heard_of(path)
    for line in heard.lines:
        DraftLine.model_validate(
            {"words": line.words, **line.told}, context=date.fromisoformat(DAY)
        )
        assert re.sub(r"\s+", " ", talk.text[line.start : line.end]) == line.words


def test_talks__are_understood_as_well_as_the_guide_says() -> None:
    tuned = score.score(score.talks("tuned"))
    assert tuned.false / tuned.talks <= 0.5
    assert tuned.components.f1 > 0.85
    assert tuned.snags.recall > 0.85

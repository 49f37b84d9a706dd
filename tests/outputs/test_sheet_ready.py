"""A sheet ready to fill: what is open and awaited stands there to be ticked, and claims nothing."""

from datetime import date

from journal.outputs.sheets.print import NewSheet, new_text
from journal.outputs.sheets.propose import propose
from journal.outputs.sheets.ready import offers_of, ready, tidied
from journal.reading.sheet import sheet_of
from journal.records.carfile import CarFile
from journal.records.sheet import SheetFront
from tests.writing import a_car, a_sheet

DAY = date(2024, 3, 15)
REGISTER = {"brakes/pipes": "first-fit", "brakes/drums": "first-fit", "body/sill": "first-fit"}


def the_car() -> CarFile:
    return a_car(
        REGISTER,
        [
            a_sheet(
                "2024-03-04", subsystem="body", snags={"rust": {"raise": "rust in the sill"}},
                work={"body/sill": {"did": "inspected"}},
            ),
            a_sheet(
                "2024-03-05",
                work={"brakes/drums": {"did": "inspected"}, "brakes/pipes": {"did": "removed"}},
                parts={"pipe": {"what": "Pipe", "from": "northgate", "of": "brakes/pipes",
                                "ordered": "2024-03-05", "promised": "2024-03-12"}},
                outwork={"drums": {"what": "Skim", "to": "northgate", "of": "brakes/drums", "sent": "2"}},
                snags={"weep": {"raise": "weeps at the union"},
                       "crack": {"raise": "crack:\nlook again", "hold": "yes"}},
            ),
            a_sheet("2024-03-06", snags={"weep": {"clear": "nipped up"}}),
        ],
    )  # fmt: skip


def front(**told: object) -> SheetFront:
    return SheetFront.model_validate({"date": DAY.isoformat(), "subsystem": "brakes", **told})


# What is proposed


def test_proposal__is_what_is_open_and_awaited_on_the_subsystem() -> None:
    found = propose(the_car(), DAY)
    assert ("brakes", "") == (found.subsystem, found.hand)
    assert ["crack"] == [snag.name for snag in found.snags]
    assert {"pipe", "drums"} == {item.name for item in found.waiting}
    assert ("brakes/pipes", "brakes/drums") == found.components
    assert "brakes/pipes" == found.last
    assert ("brakes", "body") == found.subsystems[:2]


def test_proposal__for_another_subsystem_and_hand() -> None:
    found = propose(the_car(), DAY, "body", "JB")
    assert (["rust"], "JB", ("body/sill",)) == (
        [s.name for s in found.snags],
        found.hand,
        found.components,
    )


def test_proposal__of_an_earlier_day_knows_nothing_of_later_ones() -> None:
    found = propose(the_car(), date(2024, 3, 5))
    assert ["crack", "weep"] == [snag.name for snag in found.snags]
    assert () == propose(the_car(), date(2024, 3, 3)).snags


def test_proposal__for_a_workshop_of_one_is_of_that_hand() -> None:
    alone = a_car(REGISTER, workshop={"name": "Shed", "hands": {"MT": "Margit Tolland"}})
    assert ("MT", "") == (propose(alone, DAY).hand, propose(alone, DAY).subsystem)


# How it stands in the sheet

READY = """\
---
date: 2024-03-15
title:
subsystem: brakes
hours: {MT: }
work:
#  brakes/pipes: {did: }  # Pipes
#  brakes/drums: {did: }  # Drums
parts:
#  pipe: {received: today, outcome: }  # from Northgate Gears, ordered 2024-03-05, 3 working days late: Pipe
outwork:
#  drums: {back: 2}  # at Northgate Gears since 2024-03-05: Skim
snags:
#  crack: {clear: }  # open 10 days, holds the handover: crack: look again
photos:
  - {file: a.jpg, of: brakes/pipes, caption: , alt: }
---

"""


def start(**told: object) -> tuple[str, frozenset[str]]:
    proposal = propose(the_car(), DAY, hand="MT")
    made = ready(NewSheet(front(**told)), offers_of(the_car(), proposal))
    return made.text, made.offered


def test_sheet_ready_to_fill() -> None:
    text, _ = start(photos=[{"file": "a.jpg", "of": "brakes/pipes"}])
    assert READY == text


def test_nothing_touched__leaves_the_sheet_as_if_nothing_had_been_offered() -> None:
    photos = [{"file": "a.jpg", "of": "brakes/pipes"}]
    text, offered = start(photos=photos)
    assert new_text(NewSheet(front(photos=photos))) == tidied(text.encode(), offered).decode()


def test_ticked_lines__stay_and_the_others_go() -> None:
    text, offered = start()
    text = text.replace("title:\n", "title: Pipes\n").replace("{MT: }", "{MT: 3.5}")
    text = text.replace("#  crack: {clear: }", "  crack: {clear: stop-drilled}")
    text = text.replace(
        "#  pipe: {received: today, outcome: }", "  pipe: {received: today, outcome: accepted}"
    )
    made = tidied((text + "All on.\n").encode(), offered).decode()
    assert (
        """\
---
date: 2024-03-15
title: Pipes
subsystem: brakes
hours: {MT: 3.5}
parts:
  pipe: {received: today, outcome: accepted}
snags:
  crack: {clear: stop-drilled}
---

All on.
"""
        == made
    )
    sheet, problems = sheet_of(made.encode(), "a.md")
    assert [] == problems
    assert sheet is not None


def test_what_is_said_already__is_not_offered() -> None:
    text, _ = start(snags={"crack": {"clear": "drilled"}}, hours={"JB": "1"}, title="Pipes")
    assert "  crack: {clear: drilled}\n" in text
    assert "#  crack" not in text
    assert "title: Pipes\nsubsystem: brakes\nhours: {JB: 1}\n" in text


def test_sheet_saved_by_another_system__is_tidied_with_its_line_ends() -> None:
    text, offered = start()
    made = tidied(("\ufeff" + text.replace("\n", "\r\n")).encode(), offered).decode()
    assert "\ufeff---\r\ndate: 2024-03-15\r\nsubsystem: brakes\r\n---\r\n" == made


def test_sheet_whose_front_matter_is_broken__is_left_for_its_writer() -> None:
    text, offered = start()
    broken = text.replace("{MT: }", "{MT: ").encode()
    assert broken == tidied(broken, offered)

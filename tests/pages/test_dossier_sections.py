"""What each section of the dossier tells, and what it says when there is nothing to tell."""

from datetime import date
from decimal import Decimal
from typing import Any

import cv2
import numpy
import pytest
from msgspec.structs import replace

from journal.digests.gate import Bar, Gate, Reason
from journal.ledgers.seals import Seals, fold_seals
from journal.pages.dossier import SECTIONS, dossier_values
from journal.pages.dossier.book import Book
from journal.pages.dossier.plain import plain
from journal.pages.dossier.seal import matrix_of
from journal.pages.links import Ref
from journal.records.carfile import CarFile
from journal.records.seal import Entry, Seal, Statement
from journal.words.merkle import EMPTY, root_of
from journal.words.spoken import spoken
from journal.words.vocabulary import Reader
from tests.pages.sectioning import FIT, a_full_car, section
from tests.printing import small_view
from tests.writing import a_car, a_sheet


def test_sections__stand_in_the_order_in_which_a_valuer_reads() -> None:
    book = Book(small_view(a_full_car()))
    assert [
        "identity", "summary", "condition", "work", "ledger", "departures", "originals", "parts",
        "settings", "proving", "running-in", "limits", "numbers", "evidence", "seal", "declaration",
    ] == [make(book).kind for make in SECTIONS]  # fmt: skip


def test_values__are_plain_data_by_name_alone() -> None:
    assert {"text": "S 1", "to": "sheet-1"} == plain(Ref("S 1", "#sheet-1"))
    assert {"text": "Pipes", "to": None} == plain(Ref("Pipes", "components/brakes/pipes.html"))
    with pytest.raises(TypeError, match="Decimal is nothing that can be printed"):
        plain({"a": (Decimal(1),)})


def test_places__every_link_leads_to_a_place_that_the_document_has() -> None:
    values = dossier_values(small_view(a_full_car()), Gate(), Seals(), paper="a4")
    leads, places = set(), set()

    def walk(value: Any) -> None:
        if isinstance(value, dict):
            leads.update([value["to"]] if value.get("to") else [])
            places.update([value["place"]] if "place" in value else [])
            for item in value.values():
                walk(item)
        elif isinstance(value, list):
            for item in value:
                walk(item)

    walk(values)
    assert {"sheet-1", "sheet-2", "picture-1", "paper-1", "line-1"} <= leads
    assert leads <= places


def test_identity__shows_each_number_with_photographs_of_what_carries_it() -> None:
    told = section("identity", a_full_car())
    (number,) = told["numbers"]
    assert "Chassis" == number["number"]["name"]
    assert ["P\N{NO-BREAK SPACE}1"] == [p["code"]["text"] for p in number["photographs"]]
    assert [("Build card", "Chassis TD 1")] == [(p["title"], p["numbers"]) for p in told["papers"]]


def test_summary__has_the_figures_at_three_moments_as_intervals() -> None:
    """Two components of weight 1. Found: one first-fit, one unknown, so M = C = 1/2 to 1. Delivered: an
    upgrade and an unknown, so M = C = 0 to 1/2. Undone, the first is as found."""
    told = section("summary", a_full_car())
    assert [
        ("As found", "50 to 100 %", "50 to 100 %"),
        ("As it stands", "0 to 50 %", "0 to 50 %"),
        ("If changes are undone", "50 to 100 %", "50 to 100 %"),
    ] == [
        (m["heading"], *(m[k].replace("\N{NO-BREAK SPACE}", " ") for k in ("material", "conforms")))
        for m in told["measures"]
    ]
    assert [("first-fit to upgrade", "yes, with the item that came off")] == [
        (d["change"], d["back"]) for d in told["departures"]
    ]
    assert "One departure made in this work." == told["departures_count"]
    assert "Of two components, one is of an origin that nobody can tell." == told["unknown"]


def test_summary__stays_one_page_and_counts_what_it_leaves_for_later() -> None:
    work = {f"brakes/p{n}": FIT for n in range(25)}
    car = a_car(dict.fromkeys(work, "first-fit"), [a_sheet("2024-03-05", work=work)])
    gate = Gate(tuple(Reason(Bar.HOLD, f"r{n}", "r", "brakes", None) for n in range(7)))
    told = section("summary", car, gate=gate)
    assert (18, 6) == (len(told["departures"]), len(told["reservations"]))
    more = told["more_departures"]
    assert (19, "All of them stand further on.") == (len(more), more[0])
    assert "and seven more departures, further on" == more[18]
    assert "and one more reservation, on the first page" == told["more_reservations"][6]
    few = section("summary", a_full_car(), gate=Gate())
    assert ([""], "") == (few["more_reservations"], few["more_departures"][1])


def test_reservations__hide_from_a_reader_what_the_gate_knows_from_hidden_sheets() -> None:
    car = a_full_car()
    hidden = Reason(
        Bar.HOLD, "open: Mrs Harrow owes", "a hold is open", "brakes", "secret", Reader.WORKSHOP
    )
    told_to_all = Reason(Bar.HOLD, "open: bleed", "a snag is open", "brakes", car.sheets[0].name)
    gate = Gate((hidden, told_to_all))
    for reader, words in (
        (Reader.WORKSHOP, ["open: Mrs Harrow owes", "open: bleed"]),
        (Reader.OWNER, ["a hold is open", "open: bleed"]),
        (Reader.PUBLIC, ["a hold is open", "a snag is open"]),
    ):
        told = Book(small_view(car, reader), gate).reservations()
        assert words == [r.words for r in told]
        assert ["", "S\N{NO-BREAK SPACE}1"] == [r.sheet.text for r in told]


def test_condition__tells_every_component_as_it_was_found() -> None:
    told = section("condition", a_full_car())
    assert [
        ("Brakes", [("Pipes", "first-fit", "weeping")]),
        ("Trim", [("Seat", "unknown", "")]),
    ] == [
        (
            b["label"],
            [(r["ref"]["text"], r["item"]["mark"]["label"], r["condition"]) for r in b["rows"]],
        )
        for b in told["branches"]
    ]
    assert (
        "One of two components was the very item that the works fitted; of one nobody can tell."
        == told["count"]
    )
    assert ["P\N{NO-BREAK SPACE}1"] == [p["code"]["text"] for p in told["photographs"]]


def test_condition__what_was_first_fit_and_no_more_is_said_of_is_told_by_name_alone() -> None:
    register = {
        "trim/seat": "first-fit",
        "trim/card": {"as-found": "first-fit", "condition": "boards rotten"},
        "trim/sill": {"as-found": "first-fit", "retained": "0.5"},
    }
    (trim,) = section("condition", a_car(register))["branches"]
    assert ["Seat"] == [ref["text"] for ref in trim["plain"]]
    assert ["Card", "Sill"] == [row["ref"]["text"] for row in trim["rows"]]


def test_work__tells_a_day_once_and_leads_there_from_its_other_subsystems() -> None:
    brakes, trim = section("work", a_full_car())["branches"]
    assert ["Pipes off", "Pipes again"] == [d["title"] for d in brakes["days"]]
    assert "Trim" == brakes["days"][0]["also"]
    assert ["S\N{NO-BREAK SPACE}2"] == [c["text"] for c in brakes["days"][0]["corrected"]]
    assert [] == trim["days"]
    assert [("Pipes off", "Brakes"), ("Pipes again", "Brakes")] == [
        (e["title"], e["under"]) for e in trim["elsewhere"]
    ]


def test_ledger__gives_each_line_its_sheets() -> None:
    brakes, _ = section("ledger", a_full_car())["branches"]
    (line,) = brakes["lines"]
    assert ("line-1", ["S\N{NO-BREAK SPACE}1"]) == (
        line["place"],
        [s["text"] for s in line["told"]],
    )


def test_departures__say_whether_it_is_the_item_that_came_off_that_can_go_back() -> None:
    def back(**change: Any) -> str:
        work = {"brakes/pipes": {**FIT, **change}}
        car = a_car({"brakes/pipes": "first-fit"}, [a_sheet("2024-03-05", work=work)])
        return str(section("departures", car)["made"][0]["back"])

    assert "yes, with the item that came off" == back()
    assert "yes, with another item" == back(original="scrapped")
    assert "no" == back(reversible="no")


def test_proving__acts_that_the_record_tells_alike_stand_together() -> None:
    done = {"did": "removed", "by": "MT"}
    work = {"brakes/pipes": done, "brakes/drum": done, "brakes/hose": {**done, "did": "fitted"}}
    car = a_car(
        dict.fromkeys(work, "first-fit"), [a_sheet("2024-03-05", subsystem="brakes", work=work)]
    )
    told = section("proving", car)
    groups = [
        (sorted(c["text"].removeprefix("Brakes: ") for c in act["components"]), act["done"])
        for act in (*told["wanting"], *(a for of in told["whole"] for a in of["acts"]))
    ]
    assert [(["Drum", "Pipes"], "Removed"), (["Hose"], "Fitted")] == sorted(
        groups, key=lambda g: g[1], reverse=True
    )


def test_parts__on_the_car_stand_first() -> None:
    came = {
        "from": "northgate",
        "ordered": "2024-03-01",
        "received": "2024-03-04",
        "outcome": "accepted",
    }
    sheet = a_sheet("2024-03-05", parts={"unions": came, "pipe": {**came, "fitted": "2024-03-05"}})
    told = section("parts", a_car({"brakes/pipes": "first-fit"}, [sheet]))
    assert ["On the car", "Arrived and not fitted"] == [g["heading"] for g in told["groups"]]


def test_departures__say_why_by_whom_and_the_way_back() -> None:
    (made,) = section("departures", a_full_car())["made"]
    change = made["words"]["change"]
    assert ("rust", "the owner", "make the set again", "bin B-2", "yes") == tuple(
        change[k] for k in ("why", "decided", "undo", "where", "back")
    )


def test_originals__are_counted_to_be_ticked() -> None:
    told = section("originals", a_full_car())
    assert (
        "One original item of the works came off the car and is kept."
        " Tick each as it is handed over." == told["lead"]
    )
    assert ["bin B-2"] == [i["where"] for i in told["originals"]]
    assert "No item that came off the car is kept." == section("originals", a_car({}))["lead"]


def test_limits__show_the_cautions_of_what_the_car_has_and_defer() -> None:
    told = section("limits", a_full_car())
    assert "it certifies nothing" in told["general"]
    assert any("road-tested by a qualified person" in c for c in told["cautions"])


def test_evidence__leads_from_a_claim_to_sheet_photograph_and_paper() -> None:
    told = section("evidence", a_full_car())
    assert ["Brakes", "Trim"] == [branch["label"] for branch in told["claims"]]
    (pipes, seat) = (claim for branch in told["claims"] for claim in branch["claims"])
    assert ("first-fit, then upgrade", "shown") == (pipes["claim"], pipes["grade"])
    assert ["P\N{NO-BREAK SPACE}1"] == [c["text"] for c in pipes["evidence"]]
    assert ["S\N{NO-BREAK SPACE}2"] == [c["text"] for c in seat["evidence"]]
    assert ["sheet-1", "sheet-2"] == [s["place"] for s in told["sheets"]]


def _sealed(car: CarFile, now: str) -> Seals:
    path = car.sheets[0].source.path.removeprefix("tern/")
    entry = Entry.of(path, "a" * 64)
    stated = Statement(
        "tern", "Saltmarsh Lane Workshop", 1, date(2024, 3, 31), date(2024, 4, 1), 1,
        root_of([entry.leaf]).hex(), 0, EMPTY.hex(), "b" * 64,
    )  # fmt: skip
    return fold_seals(
        (Seal("0001", stated, (entry,), True),), {path: now}, {path: car.sheets[0].date}
    )


def test_seal__stands_in_digits_words_and_as_a_code() -> None:
    car = replace(a_full_car(), name="tern")
    seals = _sealed(car, "a" * 64)
    assert seals.last is not None
    told = section("seal", car, seals=seals)
    assert "".join(told["root"]) == seals.last.root
    assert list(spoken(bytes.fromhex(seals.last.root))) == told["spoken"]
    assert told["standing"].endswith(
        "Every file that was sealed is what it was, or was amended openly."
    )
    # ISO/IEC 18004: 64 characters of the alphanumeric set at level M need version 4, 33 modules wide.
    assert {33} == {len(told["matrix"]), *map(len, told["matrix"])}


def test_seal__code_is_read_by_another_program() -> None:
    root = "0123456789abcdef" * 4
    dark = numpy.array([[cell == "1" for cell in row] for row in matrix_of(root)])
    picture = numpy.where(numpy.pad(dark, 4).repeat(8, 0).repeat(8, 1), 0, 255).astype("uint8")
    assert root.upper() == cv2.QRCodeDetector().detectAndDecode(picture)[0]


def test_seal__a_file_that_was_changed_is_named() -> None:
    car = a_full_car()
    told = section("seal", car, seals=_sealed(car, "c" * 64))
    assert told["standing"].endswith(
        "The record is not what was sealed; what differs stands below."
    )
    assert [
        {"heading": "Changed since they were sealed", "files": ["5 March 2024, Pipes off"]}
    ] == told["groups"]


def test_seal__that_is_not_there_is_said_plainly() -> None:
    assert "This record is not sealed." in section("seal", a_full_car())["standing"]


def test_declaration__is_for_two_hands_and_a_draft_until_delivery() -> None:
    told = section("declaration", a_full_car())
    assert [
        ["For the workshop", "Saltmarsh Lane Workshop"],
        ["The owner", "Mrs Eleanor Harrow"],
    ] == (told["signatures"])
    assert told["draft"]
    assert not section("declaration", a_full_car(delivered="2024-03-06"))["draft"]

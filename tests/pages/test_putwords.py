"""What a line would put, as the desk sets it apart: where, about what, and what is said."""

from typing import Any

import pytest

from journal.pages.putwords import Put, puts_of
from journal.records.draft import DraftLine
from tests.writing import a_car

REGISTER = {
    "brakes/pipes": "first-fit",
    "brakes/front-cylinders": {"as-found": "first-fit", "name": "Front wheel cylinders"},
}
NBSP = "\N{NO-BREAK SPACE}"


@pytest.mark.parametrize(
    ("line", "puts"),
    [
        ({"ask": "Front or rear?"}, []),
        ({"subsystem": "brakes"}, [("Subsystem", "", "Brakes")]),
        ({"hours": {"MT": "3.5"}}, [("Hours", "Margit Tolland", "3.5 hours")]),
        ({"hours": "1"}, [("Hours", "", "1 hour")]),
        ({"hours": {"brakes": {"XX": {"hours": "2", "kind": "rework"}}}},
         [("Hours", "XX", "2 hours, rework, Brakes")]),
        ({"work": {"brakes/front-cylinders": {"did": ["removed", "cleaned"], "found": "worn"}}},
         [("Component", "Front wheel cylinders", "removed, cleaned; found worn")]),
        ({"work": {"brakes/other": "removed"}}, [("Component", "brakes/other", "removed")]),
        (
            {"parts": {"kit": {"what": "wheel cylinder kit", "number": "WC-114", "qty": "2",
                               "from": "northgate",
                               "of": "brakes/front-cylinders", "received": "2024-03-05",
                               "outcome": "rejected",
                               "why": "too long", "note": "in a tin"}}},
            [("Part", "wheel cylinder kit",
              "no. WC-114; 2 of them; from Northgate Gears; received 5 March 2024; rejected; "
              "for Front wheel cylinders; note in a tin; too long")],
        ),
        ({"parts": {"front-kit": {"ordered": "2024-03-05"}}},
         [("Part", "front kit", "ordered 5 March 2024")]),
        ({"outwork": {"drums": {"what": "brake drums", "to": "northgate", "sent": "2"}}},
         [("Out for work", "brake drums", "to northgate; sent 2")]),
        ({"measured": {"bore": {"on": "brakes/pipes", "read": ["12", "14"], "unit": "thou",
                                   "limit": ["5", "15"]}}},
         [("Measured", "bore", f"12, 14{NBSP}thou, limit 5 to 15, on Pipes")]),
        ({"snags": {"leak": {"raise": "weeps", "hold": "yes", "on": "brakes/pipes"}}},
         [("Snag", "Pipes", "weeps; holds the handover")]),
        ({"snags": {"old-leak": {"clear": "dry now", "by": "MT"}}},
         [("Snag", "", "old leak cleared: dry now; by MT")]),
        ({"snags": {"old-leak": {"defer": "after the drive"}}},
         [("Snag", "", "old leak put off: after the drive")]),
        ({"snags": {"old-leak": {"hold": "yes", "ask": "owner"}}},
         [("Snag", "", "old leak; holds the handover; asked of owner")]),
        ({"proving": {"no-leaks": {"found": "dry", "by": "MT"}}},
         [("Proof", "no leaks", "found dry; by MT")]),
        ({"rechecks": {"hub-nuts": {"after": "500 miles"}}}, [("Re-check", "hub nuts", "after 500 miles")]),
        ({"work": {"brakes/pipes": "removed"}, "hours": {"JB": "1"}},
         [("Hours", "Jonah Birkett", "1 hour"), ("Component", "Pipes", "removed")]),
    ],
)  # fmt: skip
def test_line__says_where_about_what_and_what_it_would_put(
    line: dict[str, Any], puts: list[tuple[str, str, str]]
) -> None:
    assert [Put(*put) for put in puts] == [
        *puts_of(a_car(REGISTER), DraftLine.model_validate(line))
    ]

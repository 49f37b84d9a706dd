"""A line that is accepted on the page says what it says when it is accepted at the terminal."""

import json
from datetime import date
from typing import Any

import pytest

from journal.outputs.sheets.draft import accept
from journal.outputs.sheets.form import told_of
from journal.outputs.sheets.formline import beside, piece_of, with_lines
from journal.outputs.sheets.print import front_told
from journal.records.sheet import SheetFront
from tests.browser.heard.saying import TODAY
from tests.browser.phoning import Phone

_FORM: dict[str, Any] = {
    "date": TODAY, "title": "", "subsystem": ["gearbox"], "hours": {}, "body": "", "talk": None, "work": [],
    "parts": [], "measured": [], "snags": [], "photos": [], "recording": [], "draft": [], "beside": [],
}  # fmt: skip


LAYGEAR, PIPES = "gearbox/laygear", "brakes/pipes"


@pytest.mark.parametrize(
    "lines",
    [
        [{"work": {LAYGEAR: {"did": "removed"}}}, {"work": {LAYGEAR: {"did": ["cleaned", "removed"]}}}],
        [{"work": {PIPES: {"found": "worn"}}}, {"work": {PIPES: {"found": "split; worn"}}}],
        [{"work": {PIPES: {"now": "pattern"}}}, {"work": {PIPES: {"now": "made", "decided": "owner"}}}],
        [{"hours": {"MT": "0.1"}}, {"hours": {"MT": "0.2"}}, {"hours": {"JB": "1.25"}}],
        [{"hours": {"MT": "1"}}, {"hours": {"MT": {"hours": "2", "kind": "rework"}}}],
        [{"snags": {"leak": "it weeps"}}, {"snags": {"leak": "it pours"}},
         {"snags": {"leak": {"hold": "yes"}}}],
        [{"parts": {"kit": {"what": "kit", "number": "A"}}},
         {"parts": {"kit": {"what": "kit", "number": "B"}}}],
        [{"parts": {"kit": {"what": "kit"}}}, {"parts": {"kit": {"received": TODAY, "of": [PIPES]}}}],
        [{"measured": {"bore": {"read": "1", "unit": "mm"}}},
         {"measured": {"bore": {"read": "2", "unit": "mm"}}}],
        [{"rechecks": {"nuts": {"after": "500 miles"}}}, {"subsystem": "brakes"}],
    ],
)  # fmt: skip
def test_line__accepted_on_the_page_says_what_it_says_accepted_at_the_terminal(
    phone: Phone, lines: list[dict[str, Any]]
) -> None:
    """`taking.js` says of a form what `outputs/sheets/draft.py` says of a sheet: an outside check."""

    def read(told: dict[str, Any]) -> dict[str, Any]:
        front = SheetFront.model_validate({"date": TODAY, **told}, context=date.today())
        return {**front_told(front), "subsystem": sorted(front.subsystem)}

    told: dict[str, Any] = read({"subsystem": "gearbox"})
    for one in lines:
        told = accept({**told, "draft": [one]}, 0)
    given = [
        {"form": piece_of(one), "beside": beside(one), "line": one, "of": [], "words": ""}
        for one in lines
    ]
    form = phone.browser.execute_async_script(
        "const [form, lines, done] = arguments;"
        "import(document.querySelector('script[src$=\"day.js\"]').src.replace('day.js', 'taking.js'))"
        ".then(({ taken }) => done(lines.reduce((made, line) => taken(made, line).form, form)))",
        _FORM, given,
    )  # fmt: skip
    besides = [{k: v for k, v in one.items() if k != "words"} for one in form["beside"]]
    made = with_lines(told_of({}, {}, json.loads(json.dumps(form))), besides)
    assert read(told) == read(made)

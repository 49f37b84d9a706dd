"""From what was heard to the sheet: what is accepted counts, and what waits stays a draft."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from journal.outputs.sheets.store import hash_of
from journal.records.sheet import Sheet
from journal.words.vocabulary import Reader
from tests.desk.asking import Asked, asking
from tests.desk.filling import CAR, DRAFT, a_form, post, save, sheets
from tests.tern import SHEET, put_content, sheet_text

NEXT = "2024-03-06-gearbox"
OUT = {
    "words": "took the laygear out",
    "at": "0:12",
    "work": {"gearbox/laygear": {"did": "removed"}},
}
ASKED = {"words": "it weeps", "at": "0:40", "ask": "Where?"}
AGAIN = {"words": "look at the nuts again", "rechecks": {"nuts": {"after": "500 miles"}}}
REWORK = {"words": "two hours again", "hours": {"MT": {"hours": "2", "kind": "rework"}}}
TALK = {"text": "Took the laygear out. And it is dry. It weeps.", "for": "workshop"}
WAITS = """\
---
date: 2024-03-06
subsystem: gearbox
draft:
  - {words: took the laygear out, at: "0:12", work: {gearbox/laygear: {did: removed}}}
  - {words: it weeps, at: "0:40", ask: "Where?"}
---
::: workshop
Took the laygear out. And it is dry. It weeps.
:::
"""


@pytest.fixture
def asked(tmp_path: Path) -> Iterator[Asked]:
    root = put_content(tmp_path / "content", **{SHEET: sheet_text("hours: {MT: 3.5}")})
    with asking(root, tmp_path / "keep") as made:
        made.desk.live.check()
        yield made


def heard_form(**said: Any) -> dict[str, Any]:
    """A form in which a talk waits to be confirmed."""
    return a_form(talk=TALK, draft=[OUT, ASKED], **said)


def put(asked: Asked, text: str) -> dict[str, Any]:
    """A sheet of the day after on the disk, as a page knows it that opened it."""
    file = asked.desk.root / f"tern/sheets/2024/{NEXT}.md"
    file.write_text(text, encoding="utf-8")
    asked.desk.live.refresh()
    return {"sheet": NEXT, "source": text, "read": hash_of(text.encode())}


def opened(asked: Asked, source: dict[str, Any]) -> dict[str, Any]:
    """What the desk tells of a sheet that is opened."""
    return dict(post(asked, "carry", form=a_form(), **source).json()["opened"])


def sheet(asked: Asked) -> Sheet:
    """The sheet of the day after, as the desk has read it."""
    asked.desk.live.refresh()
    return next(s for s in asked.desk.live.state.cars["tern"].file.sheets if s.name == NEXT)


def test_lines__that_wait_stand_in_the_draft_and_the_talk_is_the_workshops(asked: Asked) -> None:
    answer = save(asked, heard_form())
    assert (200, []) == (answer.status_code, answer.json()["remarks"])
    assert {NEXT: WAITS} == sheets(asked.desk.root)
    assert Reader.WORKSHOP is sheet(asked).front.widest


def test_talk__stands_behind_what_was_typed(asked: Asked) -> None:
    save(asked, heard_form(body="Split it."))
    (text,) = sheets(asked.desk.root).values()
    assert text.endswith(f"---\nSplit it.\n\n::: workshop\n{TALK['text']}\n:::\n")


@pytest.mark.parametrize(
    ("reader", "text"),
    [("owner", f"::: owner\n{TALK['text']}\n:::\n"), ("public", f"{TALK['text']}\n")],
)
def test_talk__is_for_whom_the_writer_says_once_all_is_confirmed(
    asked: Asked, reader: str, text: str
) -> None:
    work = [{"name": "gearbox/laygear", "did": ["removed"]}]
    form = a_form(talk={**TALK, "for": reader}, draft=[], work=work)
    assert 200 == save(asked, form).status_code
    (written,) = sheets(asked.desk.root).values()
    assert written.endswith(f"---\n{text}")
    assert "draft:" not in written
    assert Reader.PUBLIC is sheet(asked).front.widest


def test_sheet__that_waits_is_opened_with_its_lines_where_they_stand_in_the_talk(
    asked: Asked,
) -> None:
    told = opened(asked, put(asked, WAITS))
    assert ("", TALK) == (told["form"]["body"], told["form"]["talk"])
    assert TALK["text"] == told["heard"]["said"]
    first, last = told["heard"]["lines"]
    assert ("act", 0, 20, "0:12", OUT) == tuple(
        first[key] for key in ("kind", "start", "end", "at", "line")
    )
    assert ("question", 37, 45, "Where?", []) == tuple(
        last[key] for key in ("kind", "start", "end", "ask", "puts")
    )
    assert {"work": [{"name": "gearbox/laygear", "did": ["removed"]}]} == first["form"]


def test_sheet__that_was_opened_and_not_touched_stays_as_it_is(asked: Asked) -> None:
    source = put(asked, WAITS.replace("draft:", "draft:  # from the van"))
    form = opened(asked, source)["form"]
    assert 200 == save(asked, form, **source).status_code
    assert {NEXT: source["source"]} == sheets(asked.desk.root)


def test_line__that_is_accepted_goes_out_of_the_draft_and_into_its_section(asked: Asked) -> None:
    source = put(asked, WAITS)
    form = opened(asked, source)["form"]
    work = [{"name": "gearbox/laygear", "did": ["removed"]}]
    assert 200 == save(asked, {**form, "work": work, "draft": [ASKED]}, **source).status_code
    (text,) = sheets(asked.desk.root).values()
    assert "work:\n  gearbox/laygear: {did: removed}\ndraft:\n  - {words: it weeps," in text
    assert text.endswith(WAITS[WAITS.index("::: workshop") :])


def test_sheet__with_the_last_line_confirmed_has_no_draft_and_the_same_text(asked: Asked) -> None:
    source = put(asked, WAITS)
    form = opened(asked, source)["form"]
    answer = save(asked, {**form, "draft": []}, **source).json()["saved"]["opened"]
    (text,) = sheets(asked.desk.root).values()
    assert f"---\ndate: 2024-03-06\nsubsystem: gearbox\n{WAITS[WAITS.index('---', 4) :]}" == text
    assert (None, None) == (answer["heard"], answer["form"]["talk"])
    assert "::: workshop" in answer["form"]["body"]


def test_line__of_which_no_card_shows_everything_is_in_the_sheet_all_the_same(asked: Asked) -> None:
    form = a_form(talk=TALK, draft=[ASKED], beside=[AGAIN, REWORK], hours={"JB": "1"})
    assert 200 == save(asked, form).status_code
    (text,) = sheets(asked.desk.root).values()
    assert "hours: {JB: 1, MT: {hours: 2, kind: rework}}" in text
    assert "rechecks:\n  nuts: {after: 500 mile}\n" in text


def test_line__saved_by_an_answer_that_never_came_counts_once(asked: Asked) -> None:
    form = a_form(talk=TALK, draft=[OUT], beside=[REWORK])
    save(asked, form)
    again = a_form(talk=TALK, draft=[], beside=[REWORK, AGAIN])
    assert 200 == save(asked, again).status_code
    (text,) = sheets(asked.desk.root).values()
    assert "hours: {MT: {hours: 2, kind: rework}}" in text
    assert "  nuts: {after: 500 mile}\n" in text
    assert "draft:" not in text


def test_line__saved_before_somebody_else_changed_the_sheet_counts_once(asked: Asked) -> None:
    source = put(asked, WAITS)
    form = opened(asked, source)["form"] | {"draft": [ASKED], "beside": [REWORK]}
    save(asked, form, **source)
    file = asked.desk.root / f"tern/sheets/2024/{NEXT}.md"
    file.write_text(
        file.read_text("utf-8").replace("subsystem: gearbox", "subsystem: brakes"), "utf-8"
    )
    more = {**form, "body": "Typed.", "beside": [REWORK]}
    assert 409 == save(asked, more, **source).status_code
    told = post(asked, "carry", form=more, **source).json()
    assert ([], "Typed.") == (told["form"]["beside"], told["form"]["body"])
    assert [ASKED] == [line["line"] for line in told["heard"]["lines"]]


def test_lines__confirmed_at_two_devices_are_gone_from_both(asked: Asked) -> None:
    source = put(asked, WAITS)
    form = opened(asked, source)["form"]
    file = asked.desk.root / f"tern/sheets/2024/{NEXT}.md"
    theirs = WAITS.replace('  - {words: it weeps, at: "0:40", ask: "Where?"}\n', "")
    file.write_text(theirs, encoding="utf-8")
    mine = {**form, "draft": [ASKED], "work": [{"name": "gearbox/laygear", "did": ["removed"]}]}
    told = post(asked, "carry", form=mine, **source).json()
    assert ([], None) == (told["form"]["draft"], told["heard"])
    onto = told["opened"]
    answer = save(asked, told["form"], sheet=NEXT, source=onto["source"], read=onto["read"])
    assert 200 == answer.status_code
    (text,) = sheets(asked.desk.root).values()
    assert "draft:" not in text
    assert "gearbox/laygear: {did: removed}" in text


def test_moments__of_accepted_lines_stand_in_the_sheet(asked: Asked) -> None:
    moment = {
        "file": "talk.mp4",
        "at": "0:12",
        "of": ["gearbox/laygear"],
        "words": "took the laygear out",
    }
    save(asked, a_form(recording=["talk.mp4", moment]))
    (text,) = sheets(asked.desk.root).values()
    assert (
        'recording:\n  - talk.mp4\n  - {file: talk.mp4, at: "0:12", of: gearbox/laygear, '
        "words: took the laygear out}\n"
    ) in text


def test_mistake__in_what_was_accepted_is_said_though_lines_wait(asked: Asked) -> None:
    answer = save(asked, heard_form(hours={"MT": "3,5"}))
    assert 422 == answer.status_code
    (remark,) = [told for told in answer.json()["remarks"] if told["error"]]
    assert ["hours", "MT"] == remark["field"]
    assert {} == sheets(asked.desk.root)


@pytest.mark.parametrize(
    "wrong",
    [
        {"draft": "all"}, {"draft": ["so it is off"]},
        {"draft": [{"work": {"gearbox/laygear": {"did": "lost"}}}]},
        {"draft": [{"words": 12}]}, {"draft": [{"nothing": "known"}]}, {"draft": [{"words": "off"}] * 2001},
        {"beside": [{"hours": "ten"}]}, {"recording": [{"at": "0:12"}]}, {"recording": {"file": "a.mp4"}},
        {"talk": "said"}, {"talk": {"text": "said"}}, {"talk": {"text": "said", "for": "keeper"}},
        {"talk": {"text": ["said"], "for": "owner"}}, {"talk": {"text": "said", "for": ["owner"]}},
        {"draft": [{"work": {"a": {"b": {"c": {"d": {"e": {"f": ""}}}}}}}]},
    ],
)  # fmt: skip
def test_form__that_no_page_of_ours_sends_is_refused(asked: Asked, wrong: dict[str, Any]) -> None:
    answer = save(asked, a_form(**wrong))
    assert (400, "This is no form of a sheet.") == (answer.status_code, answer.json()["said"])


def test_mark_of_a_block__that_is_said_hides_nothing_and_shows_nothing(asked: Asked) -> None:
    text = "said\n:::\nshown\n::: owner\nmore"
    assert (
        200
        == save(asked, a_form(talk={"text": text, "for": "workshop"}, draft=[ASKED])).status_code
    )
    (block,) = sheet(asked).body
    assert Reader.WORKSHOP is block.reader


def test_page_of_the_sheet__leads_to_its_lines(asked: Asked) -> None:
    put(asked, WAITS)
    page = asked.browser.get(f"/tern/sheets/{NEXT}.html").text
    href = f"/day?car=tern&amp;sheet={NEXT}"
    assert f'<p class="for-whom"><a href="{href}">2 lines are not confirmed</a></p>' in page
    assert (
        asked.browser.get("/tern/sheets/2024-03-05-gearbox.html").text.count("not confirmed") == 0
    )


def test_day_page__names_the_sheets_that_wait_and_the_recordings(asked: Asked) -> None:
    for name in ("b.mp4", "a.m4a", "a.vtt"):
        file = asked.desk.root / "tern/recordings" / name
        file.parent.mkdir(exist_ok=True)
        file.write_bytes(b"")
    put(asked, WAITS)
    page = asked.browser.get("/day?car=tern").text
    assert (
        '"waiting_lines": [{"name": "2024-03-06-gearbox", "title": "Gearbox", "lines": 2}]' in page
    )
    assert '"recordings": ["a.m4a", "b.mp4"]' in page
    assert '<select id="said-recording">' in page


def test_draft_of_a_page__keeps_its_note_with_all_of_it(asked: Asked) -> None:
    save(asked, heard_form())
    note = asked.desk.drafts.find(DRAFT)
    assert note is not None
    assert (TALK, [OUT, ASKED]) == (note.form["talk"], note.form["draft"])
    assert CAR.endswith(note.car)

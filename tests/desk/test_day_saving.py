"""The day, from the page into the book: whole, once, and never over what nobody saw."""

import errno
import hashlib
import os
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from journal.desk import saving
from journal.outputs.sheets import disk
from journal.outputs.sheets.store import hash_of
from tests.desk.asking import Asked, asking
from tests.desk.filling import CAR, DRAFT, a_form, post, said_beside, save, send, sheets
from tests.pictures.images import encoded, halves
from tests.tern import SHEET, put_content, sheet_text

WRITTEN = sheet_text("hours: {MT: 3.5}  # till dark\nsnags: {leak: weeps}", "Split it.\n")
NEXT = "2024-03-06-gearbox"
LAYGEAR = "gearbox/laygear"
NO_NUMBER = "must be a number with a decimal point, found"


@pytest.fixture
def asked(tmp_path: Path) -> Iterator[Asked]:
    root = put_content(tmp_path / "content", **{SHEET: WRITTEN})
    with asking(root, tmp_path / "keep") as made:
        made.desk.live.check()
        yield made


def opened(asked: Asked, name: str = "2024-03-05-gearbox") -> dict[str, Any]:
    """What a page knows of a sheet that it opened."""
    raw = (asked.desk.root / SHEET).read_bytes()
    return {"sheet": name, "source": raw.decode(), "read": hash_of(raw)}


def form_of_sheet(asked: Asked) -> dict[str, Any]:
    source = opened(asked)
    form = post(asked, "carry", form=a_form(), **source).json()["opened"]["form"]
    return dict(form)


def test_day__is_written_as_by_hand(asked: Asked) -> None:
    form = a_form(
        hours={"MT": "3.5", "JB": ""},
        body="Split it. Every stud came out whole.",
        work=[
            {"name": LAYGEAR, "did": ["removed", "inspected"], "now": "pattern", "why": "pitted"},
        ],
        snags=[{"name": "weld", "raise": "old weld by the plug", "hold": True}],
        measured=[{"name": "end float", "on": "gearbox/laygear", "read": "0.22, 0.24", "unit": "mm"}],
    )  # fmt: skip
    answer = save(asked, form)
    assert 200 == answer.status_code
    assert f"/tern/sheets/{NEXT}.html" == answer.json()["saved"]["href"]
    assert {
        NEXT: """\
---
date: 2024-03-06
subsystem: gearbox
hours: {MT: 3.5}
work:
  gearbox/laygear: {did: [removed, inspected], now: pattern, why: pitted}
measured:
  end float: {on: gearbox/laygear, read: [0.22, 0.24], unit: mm}
snags:
  weld: {raise: old weld by the plug, hold: yes}
---
Split it. Every stud came out whole.
"""
    } == sheets(asked.desk.root)


def test_day__asked_again_is_written_once(asked: Asked) -> None:
    first, again = (save(asked, a_form(body="Split it.")).json()["saved"] for _ in range(2))
    assert first == again
    assert [NEXT] == [*sheets(asked.desk.root)]


def test_day__asked_again_by_a_desk_that_was_killed_before_it_could_say_so_is_written_once(
    asked: Asked, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    put = asked.desk.drafts.put

    def killed(draft: str, note: Any) -> None:
        if note.done:
            raise RuntimeError
        put(draft, note)

    monkeypatch.setattr(asked.desk.drafts, "put", killed)
    picture = encoded(halves(60, 40))
    id = send(asked, picture)
    form = a_form(photos=[{"id": id, "of": ["gearbox/laygear"], "stage": "stripped"}])
    assert 500 == save(asked, form).status_code
    with asking(asked.desk.root, tmp_path / "keep") as started:
        assert NEXT == save(started, form).json()["saved"]["name"]
        assert () == started.desk.tray.laid(DRAFT)
    (text,) = sheets(asked.desk.root).values()
    assert "  - {file: laygear-stripped.jpg, of: gearbox/laygear, stage: stripped}" in text
    photos = asked.desk.root / "tern/photos/2024-03-06"
    assert ["laygear-stripped.jpg"] == os.listdir(photos)
    assert picture == (photos / "laygear-stripped.jpg").read_bytes()


def test_day__with_more_typed_while_nobody_knew_that_it_was_saved_changes_the_one_sheet(
    asked: Asked,
) -> None:
    save(asked, a_form(body="Split it.", snags=[{"name": "weld", "raise": "old weld"}]))
    answer = save(
        asked, a_form(body="Split it. All whole.", snags=[{"name": "weld", "raise": "old"}])
    )
    assert NEXT == answer.json()["saved"]["name"]
    (text,) = sheets(asked.desk.root).values()
    assert text.endswith("  weld: {raise: old}\n---\nSplit it. All whole.\n")


def test_day__with_more_typed_does_not_undo_what_was_changed_in_an_editor_meanwhile(
    asked: Asked,
) -> None:
    save(asked, a_form(body="Split it."))
    file = asked.desk.root / f"tern/sheets/2024/{NEXT}.md"
    file.write_text(
        file.read_text("utf-8").replace("subsystem: gearbox", "subsystem: gearbox\nhours: {JB: 1}")
    )
    save(asked, a_form(body="Split it. All whole.", hours={"MT": "2"}))
    (text,) = sheets(asked.desk.root).values()
    assert "hours: {JB: 1, MT: 2}" in text
    assert text.endswith("Split it. All whole.\n")


def test_second_sheet__of_the_day_has_its_own_name(asked: Asked) -> None:
    save(asked, a_form(body="One."))
    save(asked, a_form(body="Two."), draft="fedcba9876543210")
    assert {NEXT, f"{NEXT}-2"} == {*sheets(asked.desk.root)}


def test_phones__that_save_at_once_lose_nothing(asked: Asked) -> None:
    def one(n: int) -> int:
        told = {"draft": f"{n:016x}", "form": a_form(body=f"Sheet {n}.")}
        return int(asked.browser.post(f"{CAR}/save", json=told, headers=asked.token()).status_code)

    with ThreadPoolExecutor(8) as pool:
        assert [200] * 20 == [*pool.map(one, range(20))]
    said = sorted(text.split("---\n")[-1].strip() for text in sheets(asked.desk.root).values())
    assert sorted(f"Sheet {n}." for n in range(20)) == said


@pytest.mark.parametrize(
    ("said", "field", "words"),
    [
        ({"hours": {"MT": "3,5"}}, ["hours", "MT"], f'hours of MT {NO_NUMBER} "3,5"'),
        ({"hours": {"MT": "9" * 60}}, ["hours", "MT"], f'hours of MT {NO_NUMBER} "{"9" * 60}"'),
        ({"hours": {"MT": "35"}}, ["hours", "MT"], "hours of MT must be between 0 and 24 hours, found 35"),
        (
            {"work": [{"name": "gearbox/laygaer", "did": ["removed"]}]},
            ["work", "gearbox/laygaer"], 'there is no component "gearbox/laygaer"',
        ),
        ({"date": "2099-01-01"}, ["date"], "2099-01-01 lies in the future"),
        ({"date": "6/3/24"}, ["date"], 'date must be a date, found "6/3/24"'),
        ({"date": ""}, ["date"], "date is missing"),
        ({"subsystem": []}, ["subsystem"], "subsystem is missing"),
        (
            {"parts": [{"name": "gear", "price": "cheap"}]},
            ["parts", "gear", "price"], f'price of gear {NO_NUMBER} "cheap"',
        ),
        (
            {"snags": [{"name": "drip", "clear": "gone"}]},
            ["snags", "drip"], 'no snag "drip" was raised before this day',
        ),
    ],
)  # fmt: skip
def test_bad_input__is_said_beside_the_field_in_the_words_of_the_terminal_and_nothing_is_written(
    asked: Asked, said: dict[str, Any], field: list[Any], words: str
) -> None:
    answer = save(asked, a_form(**said))
    assert 422 == answer.status_code
    assert (field, words) in said_beside(answer)
    assert {} == sheets(asked.desk.root)


def test_warnings__do_not_keep_a_day_from_the_book(asked: Asked) -> None:
    id = send(asked, encoded(halves(60, 40)), "IMG_7.jpg")
    answer = save(asked, a_form(photos=[{"id": id}]))
    assert [(["photos", 0, "file"], 'the photograph "img-7.jpg" has no alt text')] == said_beside(
        answer
    )
    assert [NEXT] == [*sheets(asked.desk.root)]


def test_picture__that_the_desk_has_not_is_asked_for_again(asked: Asked) -> None:
    answer = save(asked, a_form(photos=[{"id": "0" * 32}]))
    assert (409, {"missing": ["0" * 32]}) == (answer.status_code, answer.json())
    other = send(asked, encoded(halves(60, 40)), draft="another-draft")
    assert {"missing": [other]} == save(asked, a_form(photos=[{"id": other}])).json()
    assert {"missing": [""]} == save(asked, a_form(photos=[{"id": "", "stage": "stripped"}])).json()
    assert {} == sheets(asked.desk.root)


def test_pictures__of_one_component_get_names_of_their_own(asked: Asked) -> None:
    ids = [send(asked, encoded(halves(60, n))) for n in (20, 30)]
    save(asked, a_form(photos=[{"id": id, "of": ["gearbox/laygear"]} for id in ids]))
    assert {"laygear.jpg", "laygear-2.jpg"} == {
        *os.listdir(asked.desk.root / "tern/photos/2024-03-06")
    }


def test_full_disk__is_said_and_everything_stays_where_it_was(
    asked: Asked, monkeypatch: pytest.MonkeyPatch
) -> None:
    id = send(asked, encoded(halves(60, 40)))
    written = disk.written_to

    def full(file: Path, data: bytes) -> None:
        if "/sheets/" in file.as_posix():
            raise OSError(errno.ENOSPC, "No space left on device")
        written(file, data)

    monkeypatch.setattr(disk, "written_to", full)
    form = a_form(photos=[{"id": id}])
    answer = save(asked, form)
    said = {"said": "The book does not take it: the disk is full. It is kept on this device."}
    assert (507, said) == (answer.status_code, answer.json())
    assert {} == sheets(asked.desk.root)
    assert [] == os.listdir(asked.desk.root / "tern/photos/2024-03-06")
    assert [id] == [laid.id for laid in asked.desk.tray.laid(DRAFT)]
    monkeypatch.undo()
    assert NEXT == save(asked, form).json()["saved"]["name"]


def test_change__touches_the_bytes_of_its_field_alone(asked: Asked) -> None:
    form = form_of_sheet(asked)
    form["hours"]["MT"] = "4"
    assert 200 == save(asked, form, **opened(asked)).status_code
    wanted = WRITTEN.replace("MT: 3.5", "MT: 4")
    assert wanted == (asked.desk.root / SHEET).read_text("utf-8")


def test_change__of_nothing_is_the_same_bytes(asked: Asked) -> None:
    before = (asked.desk.root / SHEET).stat().st_mtime_ns
    assert 200 == save(asked, form_of_sheet(asked), **opened(asked)).status_code
    assert before == (asked.desk.root / SHEET).stat().st_mtime_ns


def test_change__of_a_sheet_in_which_something_else_is_wrong_goes_through(asked: Asked) -> None:
    file = asked.desk.root / SHEET
    file.write_text(WRITTEN.replace("snags:", "unheard-of: 1\nsnags:"))
    asked.desk.live.refresh()
    form = form_of_sheet(asked)
    form["body"] = "Split it by hand."
    assert 200 == save(asked, form, **opened(asked)).status_code
    assert file.read_text("utf-8").endswith(
        "unheard-of: 1\nsnags: {leak: weeps}\n---\nSplit it by hand.\n"
    )


def test_conflict__shows_both_texts_and_writes_nothing(asked: Asked) -> None:
    form, known = form_of_sheet(asked), opened(asked)
    theirs = WRITTEN.replace("Split it.", "Split it at noon.")
    (asked.desk.root / SHEET).write_text(theirs)
    form["hours"]["MT"] = "4"
    answer = save(asked, form, **known)
    assert 409 == answer.status_code
    assert {
        "path": SHEET, "ours": WRITTEN.replace("MT: 3.5", "MT: 4"), "theirs": theirs, "can_carry": True,
    } == answer.json()["conflict"]  # fmt: skip
    assert theirs == (asked.desk.root / SHEET).read_text()

    carried = post(asked, "carry", form=form, **known).json()
    again = {"sheet": known["sheet"], **{k: carried["opened"][k] for k in ("source", "read")}}
    assert 200 == save(asked, carried["form"], **again).status_code
    assert theirs.replace("MT: 3.5", "MT: 4") == (asked.desk.root / SHEET).read_text()


def test_conflict__of_two_texts_keeps_both(asked: Asked) -> None:
    form, known = form_of_sheet(asked), opened(asked)
    (asked.desk.root / SHEET).write_text(WRITTEN.replace("Split it.", "Split it at noon."))
    form["body"] = "Split it with care."
    carried = post(asked, "carry", form=form, **known).json()
    assert "Split it at noon.\n\nSplit it with care." == carried["form"]["body"]


def test_conflict__with_a_sheet_that_is_gone_says_so(asked: Asked) -> None:
    form, known = form_of_sheet(asked), opened(asked)
    (asked.desk.root / SHEET).unlink()
    told = save(asked, {**form, "title": "Split"}, **known).json()["conflict"]
    assert (None, False) == (told["theirs"], told["can_carry"])


def test_look__shows_text_page_and_pictures_of_the_tray_and_writes_nothing(asked: Asked) -> None:
    id = send(asked, encoded(halves(60, 40)))
    form = a_form(
        title="Apart", body="The *gear* is pitted.", photos=[{"id": id, "of": ["gearbox/laygear"]}]
    )
    told = post(asked, "look", form=form, show=True).json()
    assert told["right"]
    assert told["text"].startswith("---\ndate: 2024-03-06\ntitle: Apart\n")
    assert "The <em>gear</em> is pitted." in told["html"]
    assert "/tern/sheets/2024-03-06-apart.html" == told["at"]
    assert f'src="../../_/api/pictures/{id}"' in told["html"]
    assert {} == sheets(asked.desk.root)


@pytest.mark.parametrize(
    "told",
    [
        {"form": None}, {"form": []}, {"form": {"hours": []}}, {"form": a_form(body=3)},
        {"form": a_form(), "draft": "../../x"}, {"form": a_form(work=[{"name": "a", "did": "removed"}])},
        {"form": a_form(snags=[{"name": "a", "hold": "yes"}])}, {"form": a_form(photos=[7])},
        {"form": a_form(), "sheet": "nothing", "source": "", "read": ""},
        {"form": a_form(), "sheet": "2024-03-05-gearbox", "source": "---\n", "read": "0"},
        {"form": a_form(), "sheet": "2024-03-05-gearbox", "source": "\ud800", "read": "0"},
    ],
)  # fmt: skip
def test_what_no_page_of_ours_sends__is_refused(asked: Asked, told: dict[str, Any]) -> None:
    for what in ("look", "save"):
        assert 400 == post(asked, what, **told).status_code
    assert {} == sheets(asked.desk.root)


def test_halves_of_characters__never_come_to_the_disk(asked: Asked) -> None:
    assert 200 == save(asked, a_form(body="Split\ud800 it.", title="A \udfff day")).status_code
    assert ["2024-03-06-a-day"] == [*sheets(asked.desk.root)]


def test_names__of_files_are_never_taken_from_the_browser(asked: Asked) -> None:
    id = send(asked, encoded(halves(60, 40)), "../../../../etc/passwd.jpg")
    save(asked, a_form(title="../../out", photos=[{"id": id}]))
    assert ["2024-03-06-out"] == [*sheets(asked.desk.root)]
    assert ["passwd.jpg"] == os.listdir(asked.desk.root / "tern/photos/2024-03-06")


def test_notes__make_room_for_new_ones(asked: Asked, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("journal.desk.drafts.MOST", 3)
    for n in range(5):
        save(asked, a_form(body=f"{n}"), draft=f"{n:016x}")
    found = [asked.desk.drafts.find(f"{n:016x}") for n in range(5)]
    assert [False, False, True, True, True] == [note is not None for note in found]


def test_hash__is_of_the_bytes(asked: Asked) -> None:
    answer = save(asked, a_form(body="x")).json()["saved"]["opened"]
    assert hashlib.sha256(answer["source"].encode()).hexdigest() == answer["read"]
    assert saving.hash_of(answer["source"].encode()) == answer["read"]


PLAIN = st.recursive(
    st.none() | st.booleans() | st.integers() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=8,
)  # fmt: skip
ENTRY = st.fixed_dictionaries({"name": st.text(max_size=12)}, optional={
    "did": st.lists(st.text(max_size=8), max_size=2), "now": st.text(max_size=8),
    "raise": st.text(max_size=8), "read": st.text(max_size=8), "hold": st.booleans(),
    "price": st.text(max_size=8),
})  # fmt: skip
FORMS = st.fixed_dictionaries({}, optional={
    "date": st.text(max_size=12) | st.just("2024-03-06"), "title": st.text(max_size=12),
    "subsystem": st.lists(st.text(max_size=8), max_size=2), "body": st.text(max_size=40),
    "hours": st.dictionaries(st.text(max_size=4), st.text(max_size=6), max_size=2),
    **{kind: st.lists(ENTRY, max_size=2) for kind in ("work", "parts", "measured", "snags")},
})  # fmt: skip


@given(PLAIN | FORMS)
@settings(max_examples=60, deadline=None)
def test_any_form__is_answered_in_words(desk: Asked, form: Any) -> None:
    """Whatever is sent as a form, the desk says what it would be or that it is none."""
    answer = post(desk, "look", form=form, show=True)
    assert answer.status_code in (200, 400)
    assert set(answer.json()) in ({"text", "right", "remarks", "html", "at"}, {"said"})


def test_sheet_with_lines_that_nobody_confirmed__is_changed_in_a_form_and_keeps_them(
    tmp_path: Path,
) -> None:
    front = """\
hours: {MT: 3.5}
recording: [talk.mp4, {file: talk.mp4, at: "0:05", words: so}]
draft:
  - {words: took it out, at: "0:12", work: {gearbox/laygear: {did: removed}}}  # perhaps
"""
    root = put_content(tmp_path / "content", **{SHEET: sheet_text(front, "Split it.\n")})
    with asking(root, tmp_path / "keep") as asked:
        asked.desk.live.check()
        form = {**form_of_sheet(asked), "title": "Apart"}
        assert 200 == save(asked, form, **opened(asked)).status_code
    before = sheet_text(front, "Split it.\n")
    assert before == (root / SHEET).read_text().replace("title: Apart\n", "")

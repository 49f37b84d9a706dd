"""A sheet that somebody wrote is changed where it must be, and nowhere else."""

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from journal.outputs.sheets.edit import body_of, edited, with_body
from journal.outputs.sheets.print import NewSheet, front_told, new_text
from journal.reading.sheet import sheet_of
from journal.records.fields import Named
from journal.records.goods import PartLine
from journal.records.sheet import SheetFront
from journal.words.wrong import WrongCall
from tests.drawing import keys_of, record_of, slugs, texts
from tests.published import CONTENT

SHEETS = sorted(CONTENT.glob("*/sheets/*/*.md"))

HAND = """\
---
date:   2024-03-05      # Tuesday
subsystem: [gearbox,  clutch]
mood: good              # nobody knows this key
hours: {MT: 3.5}        # and a bit
work:
    # the casing first
    gearbox/casing: {did: [stripped, cleaned],   found: 'no cracks'}   # dye-checked

    gearbox/laygear:
        did: inspected  # twice
        found: >-
            pitted
            on second
        verdict: replace
photos:
- file: a.jpg
  of: gearbox/casing
# not this one
- {file: b.jpg}
snags: {weld: {raise: old weld, hold: yes}, leak: {raise: oil}}
---

Split without trouble.##

  * every stud whole
""".replace("##", "   ")  # two blanks and more at the end of a line break it in Markdown


def front_of(raw: bytes) -> SheetFront:
    sheet, _ = sheet_of(raw, "a.md")
    assert sheet is not None
    return sheet.front


def change(text: str, **told: Any) -> str:
    """A sheet whose front matter says besides, under these keys, what is told."""
    raw = text.encode()
    now = front_of(raw)
    plain = {**front_told(now), **told}
    wanted = SheetFront.model_validate({k: v for k, v in plain.items() if v is not None})
    made = edited(raw, wanted)
    assert front_told(wanted) == front_told(front_of(made))
    return made.decode()


def lines_changed(before: str, after: str) -> tuple[list[str], list[str]]:
    """The lines that went and the lines that came."""
    old, new = before.split("\n"), after.split("\n")
    return [x for x in old if x not in new], [x for x in new if x not in old]


# What stays


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_demonstration__nothing_wanted_leaves_every_byte(path: Path) -> None:
    raw = path.read_bytes()
    assert raw == edited(raw, front_of(raw))
    assert raw == with_body(raw, body_of(raw))


def test_byte_order_mark_and_line_ends__stay(tmp_path: Path) -> None:
    raw = b"\xef\xbb\xbf" + HAND.replace("\n", "\r\n").encode()
    made = edited(raw, front_of(raw).model_copy(update={"title": "Apart"}))
    line = b"title: Apart\r\n"
    assert raw == made.replace(line, b"")
    assert 1 == made.count(line)


def test_characters_that_nobody_sees__stay_where_nothing_changes() -> None:
    """Reading takes them out and tells of them; whose they are must decide."""
    text = HAND.replace("no cracks", "no cra\u200bcks").replace("# Tuesday", "# \u202eTuesday")
    made = change(text, odometer="48206")
    assert text == made.replace("odometer: 48206\n", "")


# What changes


def test_changed_value__only_its_own_bytes_are_others() -> None:
    made = change(HAND, hours={"MT": "4"})
    assert HAND.replace("{MT: 3.5}        # and a bit", "{MT: 4}        # and a bit") == made


def test_date__keeps_its_spacing_and_comment() -> None:
    assert HAND.replace("2024-03-05 ", "2024-03-06 ") == change(HAND, date="2024-03-06")


def test_new_key__stands_where_the_house_order_has_it() -> None:
    made = change(HAND, title="Gearbox apart", parts={"laygear": {"number": "A-2207"}})
    assert (
        HAND.replace("# Tuesday\n", "# Tuesday\ntitle: Gearbox apart\n").replace(
            "        verdict: replace\n",
            "        verdict: replace\nparts:\n  laygear: {number: A-2207}\n",
        )
        == made
    )


def test_one_key_of_an_entry__leaves_the_rest_of_its_line() -> None:
    work = front_told(front_of(HAND.encode()))["work"]
    work["gearbox/casing"]["found"] = "one crack, welded"
    assert HAND.replace("'no cracks'", '"one crack, welded"') == change(HAND, work=work)


def test_key_added_to_an_entry__in_lines_and_in_brackets() -> None:
    work = front_told(front_of(HAND.encode()))["work"]
    work["gearbox/casing"]["verdict"] = "reuse"
    work["gearbox/laygear"]["by"] = "MT"
    assert (
        HAND.replace("'no cracks'}", "'no cracks', verdict: reuse}").replace(
            "        verdict: replace\n", "        verdict: replace\n        by: MT\n"
        )
        == change(HAND, work=work)
    )  # fmt: skip


def test_text_over_several_lines__replaced_by_another() -> None:
    work = front_told(front_of(HAND.encode()))["work"]
    work["gearbox/laygear"]["found"] = "sound"
    assert (
        HAND.replace(">-\n            pitted\n            on second\n", "sound\n")
        == change(HAND, work=work)
    )  # fmt: skip


def test_entry_taken_out__goes_with_its_line_and_no_other() -> None:
    made = change(HAND, snags={"weld": {"raise": "old weld", "hold": "yes"}})
    assert HAND.replace(", leak: {raise: oil}", "") == made
    work = front_told(front_of(HAND.encode()))["work"]
    del work["gearbox/casing"]
    casing = next(line for line in HAND.split("\n") if "gearbox/casing: {" in line)
    assert HAND.replace(f"{casing}\n", "") == change(HAND, work=work)


def test_snag_ticked_off_among_others() -> None:
    snags = front_told(front_of(HAND.encode()))["snags"]
    snags["leak"]["clear"] = "new gasket"
    assert HAND.replace("{raise: oil}", "{raise: oil, clear: new gasket}") == change(
        HAND, snags=snags
    )


def test_photograph_added__after_those_there() -> None:
    photos = front_told(front_of(HAND.encode()))["photos"]
    photos.append({"file": "c.jpg", "caption": "Teeth"})
    made = change(HAND, photos=photos)
    assert (
        HAND.replace("- {file: b.jpg}\n", "- {file: b.jpg}\n- {file: c.jpg, caption: Teeth}\n")
        == made
    )


def test_photograph_taken_out__the_first_of_them() -> None:
    photos = front_told(front_of(HAND.encode()))["photos"]
    made = change(HAND, photos=photos[1:])
    assert HAND.replace("- file: a.jpg\n  of: gearbox/casing\n", "") == made


def test_key_taken_out__goes_with_all_its_lines() -> None:
    made = change(HAND, photos=None, hours=None)
    gone, came = lines_changed(HAND, made)
    assert ([], True, True) == (came, "- file: a.jpg" in gone, "  of: gearbox/casing" in gone)
    assert "mood: good              # nobody knows this key\nwork:\n" in made


def test_short_form__gives_way_to_the_long_one() -> None:
    text = HAND.replace("{raise: oil}", "oil")
    snags = front_told(front_of(text.encode()))["snags"]
    snags["leak"]["hold"] = "yes"
    assert text.replace("leak: oil", "leak: {raise: oil, hold: yes}") == change(text, snags=snags)


def test_key_with_nothing_after_it__is_filled_in() -> None:
    text = HAND.replace("hours: {MT: 3.5} ", "hours: ")
    assert "hours: {MT: 2}        # and a bit\n" in change(text, hours={"MT": "2"})


def test_value_that_could_not_be_read__is_replaced_and_others_like_it_stay() -> None:
    text = HAND.replace("{MT: 3.5}", '"3,5"').replace("verdict: replace", "verdict: perhaps")
    made = change(text, hours={"MT": "3.5"})
    assert text.replace('"3,5"', "{MT: 3.5}") == made


def test_today__is_the_day_of_the_sheet_also_when_that_changes() -> None:
    text = "---\ndate: 2024-03-05\nsubsystem: gearbox\nparts:\n  ring: {ordered: today}\n---\n"
    moved = front_of(text.encode()).model_copy(update={"title": "Rings"})
    assert b"{ordered: today}" in edited(text.encode(), moved)


# What cannot be changed singly


@pytest.mark.parametrize(
    "text",
    ["", "no front matter\n", "---\ndate: 2024-03-05\n", "---\ndate: [\n---\n", "---\na: &b c\n---\n"],
)  # fmt: skip
def test_sheet_that_cannot_be_read__is_refused_in_words(text: str) -> None:
    wanted = SheetFront.model_validate({"date": "2024-03-05", "subsystem": "gearbox"})
    with pytest.raises(
        WrongCall, match=r"^the front matter of this sheet can only be changed in its text$"
    ):
        edited(text.encode(), wanted)


# The text below


def test_text_changed__other_lines_stay_as_they_are() -> None:
    raw = HAND.replace("\n", "\r\n").encode()
    body = body_of(raw).replace("every stud whole", "every stud whole but one")
    assert raw.replace(b"stud whole", b"stud whole but one") == with_body(raw, body)


def test_text_added_and_taken_away() -> None:
    bare = b"---\ndate: 2024-03-05\nsubsystem: gearbox\n---"
    assert bare + b"\nSplit.\n\nDone.\n" == with_body(bare, "Split.\n\nDone.")
    assert bare + b"\n" == with_body(bare + b"\nSplit.", "")
    assert bare + b"\nOne.\nTwo.\n" == with_body(bare + b"\nOne.", "One.\nTwo.")


# Laws

_bodies = st.lists(texts, max_size=4).map("\n".join)
_newlines = st.sampled_from(["\n", "\r\n"])


def _by_hand(front: SheetFront, flow: bool | None, indent: int, width: int) -> str:
    """Front matter as another program writes it (PyYAML): all in brackets, none, or the innermost."""
    told = yaml.safe_dump(
        front_told(front), default_flow_style=flow, indent=indent, width=width,
        sort_keys=False, allow_unicode=True,
    )  # fmt: skip
    return f"---\n{told}---\nSplit.\n"


# Many a front matter that is drawn is none.
@settings(max_examples=80, suppress_health_check=[HealthCheck.filter_too_much])
@given(
    keys_of(SheetFront),
    keys_of(SheetFront),
    _newlines,
    st.booleans(),
    st.none()
    | st.tuples(st.sampled_from([None, True, False]), st.integers(2, 5), st.integers(20, 120)),
)
def test_any_sheet__changed_into_any_other_reads_as_that(
    told: Mapping[str, Any],
    other: Mapping[str, Any],
    newline: str,
    mark: bool,
    style: tuple[bool | None, int, int] | None,
) -> None:
    before, after = record_of(SheetFront, told), record_of(SheetFront, other)
    text = _by_hand(before, *style) if style else new_text(NewSheet(before, "Split.\n"))
    text = text.replace("\n", newline)
    raw = ("\ufeff" * mark + text).encode()
    assert raw == edited(raw, before)
    made = edited(raw, after)
    assert front_told(after) == front_told(front_of(made))
    assert newline == "\n" or not re.search(rb"(?<!\r)\n", made)
    assert made.endswith(f"---{newline}Split.{newline}".encode())
    assert made == edited(made, after)


@settings(max_examples=100)
@given(
    st.dictionaries(slugs, keys_of(PartLine), min_size=1, max_size=4),
    st.integers(0, 3),
    texts.filter(bool),
)
def test_any_sheet__lines_of_what_does_not_change_are_the_same_bytes(
    parts: Mapping[str, Any], which: int, note: str
) -> None:
    told = {"date": "2024-03-05", "subsystem": "gearbox", "odometer": "1", "parts": parts}
    before = record_of(SheetFront, told)
    entries = dict(before.parts)
    name = list(entries)[which % len(entries)]
    entries[name] = entries[name].model_copy(update={"note": note})
    after = before.model_copy(update={"parts": Named(entries.items())})
    old = new_text(NewSheet(before))
    made = edited(old.encode(), after).decode()
    assert front_told(after) == front_told(front_of(made.encode()))
    gone, came = lines_changed(old, made)
    assert 1 >= len(gone)
    assert 1 >= len(came)


@settings(max_examples=200)
@given(st.text(max_size=80), st.text(st.sampled_from("ab:{}[],- \n'\"|#?&*!"), max_size=60))
def test_any_text__is_left_alone_or_refused(start: str, front: str) -> None:
    for text in (start, f"---\n{front}\n---\n{start}", f"---\ndate: 2024-03-05\n{front}\n---\n"):
        raw = text.encode("utf-8", "surrogatepass")
        sheet, _ = sheet_of(raw, "a.md")
        if sheet is not None:
            assert raw == edited(raw, sheet.front)
            assert raw == with_body(raw, body_of(raw))


@given(_bodies, _bodies, _newlines)
def test_any_text_below__is_what_was_wanted(old: str, new: str, newline: str) -> None:
    head = "---\ndate: 2024-03-05\nsubsystem: gearbox\n---\n"
    raw = f"{head}{old}\n".replace("\n", newline).encode()
    made = with_body(raw, new)
    assert new.strip("\n") == body_of(made)
    assert made.startswith(head.replace("\n", newline).encode())

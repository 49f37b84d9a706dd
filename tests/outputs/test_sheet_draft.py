"""What was heard is taken over line by line, in any order, and nothing else in the sheet changes."""

from collections.abc import Mapping
from datetime import date
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from journal.outputs.sheets.draft import accept, draft_told, drop
from journal.outputs.sheets.print import NewSheet, new_text
from journal.records.sheet import SheetFront
from tests.outputs.drafting import DRUMS, FRONT, LAYGEAR, now, places_of, wanted

# Bytes

WRITTEN = """\
---
date:   2024-05-14      # Tuesday
subsystem: [brakes]
mood: good              # nobody knows this key
work:
    # the drums first
    brakes/drums: {did: [removed],   found: 'scored'}   # both
draft:
  - {words: cleaned them, work: {brakes/drums: {did: cleaned}}}
  # the one below is nonsense
  - {words: sold them, work: {brakes/drums: {did: stored}}}
  - {words: it weeps, snags: {leak: {raise: it weeps}}}
---

Drums off.##
""".replace("##", "   ")  # two blanks and more at the end of a line break it in Markdown


def test_sheet_written_by_hand__changes_where_the_line_was_and_where_it_goes() -> None:
    raw = WRITTEN.encode()
    raw = wanted(raw, accept(now(raw), 0))
    raw = wanted(raw, drop(now(raw), 0))
    raw = wanted(raw, accept(now(raw), 0))
    start = WRITTEN.index("draft:")
    kept = WRITTEN.replace("{did: [removed],   found", "{did: [removed, cleaned],   found")
    end = WRITTEN[WRITTEN.index("---\n\nDrums") :]
    assert f"{kept[: start + 9]}snags:\n  leak: {{raise: it weeps}}\n{end}" == raw.decode()


# Laws

_words = st.sampled_from(["off", "so it is off", "and er: clean", "#1"])
_keys = st.sampled_from([DRUMS, "brakes/shoes", LAYGEAR, "fuel/pump"])
_dids = st.lists(
    st.sampled_from(["removed", "cleaned", "fitted"]), min_size=1, max_size=2, unique=True
)
_names = st.sampled_from(["kit", "leak", "end float"])
# Where two lines speak of one component or one thing in hand, they do not contradict each other.
_work = st.dictionaries(
    _keys,
    st.fixed_dictionaries(
        {"did": _dids},
        optional={"found": st.sampled_from(["worn", "scored"]), "now": st.just("pattern")},
    ),
    min_size=1, max_size=2,
)  # fmt: skip
_hours = st.dictionaries(
    st.sampled_from(["MT", "JB"]),
    st.sampled_from(["0.1", "0.25", "1.5"]) | st.just({"hours": "0.7", "kind": "rework"}),
    min_size=1,
)
_parts = st.dictionaries(
    _names,
    st.sampled_from([
        {"what": "a kit"}, {"what": "another kit", "of": DRUMS}, {"what": "a kit", "of": LAYGEAR},
        {"received": "2024-05-14"}, {"outcome": "accepted"},
    ]),
    min_size=1, max_size=2,
)  # fmt: skip
_snags = st.dictionaries(
    _names,
    st.sampled_from([{"raise": "it weeps"}, {"raise": "it rattles", "hold": "yes"}, {"clear": "dry"}]),
    min_size=1, max_size=2,
)  # fmt: skip
_measured = st.dictionaries(
    _names, st.sampled_from([{"read": "1", "unit": "mm"}, {"read": "2", "unit": "mm"}]), max_size=1
)
_lines = st.lists(
    st.fixed_dictionaries(
        {},
        optional={
            "words": _words, "ask": _words, "at": st.sampled_from(["0:12", "0:01", "1:02:05"]),
            "subsystem": st.sampled_from(["fuel", "brakes"]), "hours": _hours, "work": _work,
            "parts": _parts, "snags": _snags, "measured": _measured,
        },
    ),
    max_size=5,
)  # fmt: skip
_fronts = st.fixed_dictionaries(
    {key: st.just(value) for key, value in FRONT.items()},
    optional={
        "recording": st.just("talk.mp4"), "hours": st.just({"MT": "0.5"}), "odometer": st.just("12"),
        "work": st.just({DRUMS: {"did": "measured", "now": "pattern"}}),
        "parts": st.just({"kit": {"what": "a third kit"}}), "snags": st.just({"kit": {"raise": "open"}}),
    },
)  # fmt: skip


def as_set(value: Any, key: str = "") -> Any:
    """Plain data in which neither the order of a list nor that of keys counts, nor of words set side by
    side."""
    if isinstance(value, Mapping):
        return frozenset((k, as_set(v, k)) for k, v in value.items())
    if isinstance(value, str):
        return frozenset(value.split("; ")) if key in ("found", "did", "of") else value
    return frozenset(as_set(entry) for entry in value)


@settings(max_examples=100, deadline=None)
@given(_fronts, _lines, st.data())
def test_any_lines__taken_over_in_any_order_make_the_same_sheet(
    front: dict[str, Any], lines: list[dict[str, Any]], data: st.DataObject
) -> None:
    told = draft_told(front, lines)
    order = data.draw(st.permutations(range(len(lines))))
    first, other = told, told
    for n in range(len(lines)):
        first = accept(first, 0)
        other = accept(other, places_of(order)[n])
    assert as_set(first) == as_set(other)
    assert "draft" not in first


@settings(max_examples=60, deadline=None)
@given(_fronts, _lines, st.data())
def test_any_lines__taken_over_or_dropped_leave_no_draft_and_change_no_other_byte(
    front: dict[str, Any], lines: list[dict[str, Any]], data: st.DataObject
) -> None:
    raw = new_text(
        NewSheet(SheetFront.model_validate(front, context=date(2024, 5, 14)), "So it was.")
    ).encode()
    here = wanted(raw, draft_told(now(raw), lines))
    for _ in lines:
        before = now(here)
        take = data.draw(st.booleans())
        told = accept(before, 0) if take else drop(before, 0)
        written, here = here, wanted(here, told)
        assert told == now(here)
        assert here.endswith(b"---\nSo it was.\n")
        for key in before:
            if told.get(key) == before[key]:
                assert _bytes_of(written, key) in here
    assert b"draft" not in here


@settings(max_examples=60, deadline=None)
@given(_fronts, _lines, st.sampled_from(["\n", "\r\n"]))
def test_any_lines__put_in_and_dropped_again_leave_every_byte(
    front: dict[str, Any], lines: list[dict[str, Any]], newline: str
) -> None:
    text = new_text(NewSheet(SheetFront.model_validate(front, context=date(2024, 5, 14)), "So."))
    raw = text.replace("\n", newline).encode()
    here = wanted(raw, draft_told(now(raw), lines))
    for _ in lines:
        here = wanted(here, drop(now(here), 0))
    assert raw == here


def _bytes_of(raw: bytes, key: str) -> bytes:
    """The first line of a key, or nothing where it is not there."""
    found = [line for line in raw.split(b"\n") if line.startswith(f"{key}:".encode())]
    return found[0] if found and key != "draft" else b""

"""A sheet of the brakes with lines that were heard, and what it says once they are taken over."""

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from journal.outputs.sheets.draft import accept, draft_told
from journal.outputs.sheets.edit import edited
from journal.outputs.sheets.print import front_told
from journal.reading.sheet import sheet_of
from journal.records.sheet import SheetFront

FRONT: dict[str, Any] = {"date": "2024-05-14", "title": "Drums off", "subsystem": "brakes"}
DRUMS, LAYGEAR = "brakes/drums", "gearbox/laygear"


def heard(*lines: Mapping[str, Any], **front: Any) -> dict[str, Any]:
    """Front matter with lines that were heard."""
    return draft_told({**FRONT, **front}, lines)


def taken(*lines: Mapping[str, Any], **front: Any) -> dict[str, Any]:
    """The front matter once all lines are taken over in their order, without what stood there before."""
    told = heard(*lines, **front)
    for _ in lines:
        told = accept(told, 0)
    return {key: value for key, value in told.items() if FRONT.get(key) != value}


def wanted(raw: bytes, told: Mapping[str, Any]) -> bytes:
    return edited(raw, SheetFront.model_validate(dict(told), context=date(2024, 5, 14)))


def now(raw: bytes) -> dict[str, Any]:
    sheet, _ = sheet_of(raw, "a.md")
    assert sheet is not None
    return front_told(sheet.front)


def places_of(order: Sequence[int]) -> list[int]:
    """Where each line stands in the draft when its turn comes."""
    return [place - sum(earlier < place for earlier in order[:n]) for n, place in enumerate(order)]

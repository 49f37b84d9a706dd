"""Sheets that are written at the desk: looked at before they are saved, and saved as ordinary files.

A page names a sheet by its car and its name, which are looked up among what was read; the path is then
the one that reading found.
"""

from datetime import date
from itertools import count
from typing import Any

from anyio import to_thread
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from journal.desk.asking import API, Way, car_named, json_of, said
from journal.desk.desk import Desk
from journal.desk.pulse import problems_told
from journal.desk.state import CarState
from journal.outputs.sheets.checked import Checked, check_sheet, with_sheet
from journal.outputs.sheets.store import (
    Conflict,
    NotSaved,
    Saved,
    hash_of,
    save_new,
    save_over,
    stem_of,
)
from journal.pages import page_at
from journal.pages.links import sheet_path
from journal.pages.page import Page
from journal.pages.view import CarView
from journal.reading.text import SHEET_BYTES, read_bytes
from journal.records.sheet import Sheet
from journal.words.dates import parse_date

_NO_CAR = "There is no such car."
_NO_SHEET = "There is no such sheet."


async def get_sheet(desk: Desk, request: Request) -> Response:
    """The text of a sheet as it lies on the disk, and the hash by which a change of it is saved."""
    path = _path_of(car_named(desk, request), request.path_params["sheet"])
    if path is None:
        return said(_NO_SHEET, 404)
    raw, fault = await to_thread.run_sync(read_bytes, desk.root, path, SHEET_BYTES)
    if fault is not None:
        return said(fault.message, 409)
    return JSONResponse(
        {"path": path, "text": raw.decode("utf-8", "replace"), "hash": hash_of(raw)}
    )


async def post_preview(desk: Desk, request: Request) -> Response:
    """What a text would look like as a sheet of a car, and what is wrong in it; nothing is saved.

    Asked with `text`, and with `sheet` when it is a change of the sheet of that name, else with `day` and
    `title`. The links in the answer start from the page `at`.
    """
    car, told = car_named(desk, request), await json_of(request)
    if car is None:
        return said(_NO_CAR, 404)
    text, name = _field(told, "text"), _field(told, "sheet")
    if text is None:
        return said("A preview is asked with a text.", 400)
    path = _path_of(car, name) if name else _new_path(car, _day(told), _field(told, "title") or "")
    if path is None:
        return said(_NO_SHEET, 404)
    return JSONResponse(await to_thread.run_sync(_preview, desk, car, path, text))


async def post_sheet(desk: Desk, request: Request) -> Response:
    """Save a new sheet: asked with `text`, `day` and `title`. The same text twice is saved once."""
    car, told = car_named(desk, request), await json_of(request)
    if car is None:
        return said(_NO_CAR, 404)
    text, day, title = _field(told, "text"), _day(told), _field(told, "title")
    if text is None or day is None or title is None:
        return said("A sheet is saved with its text, its day and its title.", 400)
    data = text.encode("utf-8")
    if len(data) > SHEET_BYTES:
        return said("The sheet is longer than a sheet can be.", 413)
    saved = await to_thread.run_sync(save_new, desk.root, car.file.name, day, title, data)
    return _saved(saved)


async def put_sheet(desk: Desk, request: Request) -> Response:
    """Save a change of a sheet: asked with its `text` and the `hash` of what was read. Where other text
    lies there by now nothing is saved, and both are told."""
    path, told = (
        _path_of(car_named(desk, request), request.path_params["sheet"]),
        await json_of(request),
    )
    if path is None:
        return said(_NO_SHEET, 404)
    text, read = _field(told, "text"), _field(told, "hash")
    if text is None or read is None:
        return said("A change is saved with the text and the hash of what was read.", 400)
    data = text.encode("utf-8")
    if len(data) > SHEET_BYTES:
        return said("The sheet is longer than a sheet can be.", 413)
    return _saved(await to_thread.run_sync(lambda: save_over(desk.root, path, data, read=read)))


def _preview(desk: Desk, car: CarState, path: str, text: str) -> dict[str, Any]:
    checked = check_sheet(
        car.file, path, text.encode("utf-8"), known=car.found if car.asked else None
    )
    told = {"remarks": _remarks(checked), "elsewhere": problems_told(checked.elsewhere)}
    if checked.sheet is None:
        return {**told, "html": "", "at": ""}
    page = _page(car.view, checked.sheet)
    return {**told, "html": desk.shelf.main_of(page), "at": f"/{page.path}"}


def _page(view: CarView, sheet: Sheet) -> Page:
    """The page of a sheet in its car."""
    seen = CarView(
        with_sheet(view.car, sheet), view.reader, view.base, None, view.pictures, view.scans
    )
    page = page_at(seen, sheet_path(sheet.name))
    assert page is not None, "a car has a page for each of its sheets"
    return page


def _remarks(checked: Checked) -> list[dict[str, Any]]:
    """Problems beside the entries that they are about."""
    return [
        {"field": list(remark.field), "message": remark.problem.message, "help": remark.problem.help,
         **told}
        for remark in checked.remarks
        for told in problems_told((remark.problem,))
    ]  # fmt: skip


def _saved(saved: Saved | Conflict | NotSaved) -> Response:
    if isinstance(saved, Saved):
        name = saved.path.rsplit("/", 1)[-1].removesuffix(".md")
        return JSONResponse({"path": saved.path, "sheet": name, "hash": saved.hash})
    if isinstance(saved, NotSaved):
        return said(
            f"The sheet is not saved: {saved.reason}. The text is still on this device.", 507
        )
    theirs = saved.theirs
    return JSONResponse(
        {
            "said": "The sheet was changed meanwhile, and nothing was written over."
            if theirs is not None
            else "The sheet is not there any more, and nothing was written.",
            "ours": saved.ours.decode("utf-8", "replace"),
            "theirs": theirs.decode("utf-8", "replace") if theirs is not None else None,
            "hash": hash_of(theirs) if theirs is not None else None,
        },
        409,
    )


def _path_of(car: CarState | None, name: str) -> str | None:
    """Where the sheet of a name lies, or None when there is none of it."""
    sheets = car.file.sheets if car else ()
    return next((sheet.source.path for sheet in sheets if sheet.name == name), None)


def _new_path(car: CarState, day: date | None, title: str) -> str:
    """Where a sheet would lie that is not saved yet, in the place of no other."""
    stem = stem_of(day, title) if day else "new-sheet"
    taken = {sheet.name for sheet in car.file.sheets} | car.file.unread
    free = next(s for n in count(1) if (s := stem if n == 1 else f"{stem}-{n}") not in taken)
    return f"{car.file.name}/sheets/{free}.md"


def _field(told: Any, key: str) -> str | None:
    """A text that was sent, or None. What cannot be written as UTF-8 is no text."""
    found = told.get(key) if isinstance(told, dict) else None
    if not isinstance(found, str):
        return None
    return found if found.isascii() or not any("\ud800" <= c <= "\udfff" for c in found) else None


def _day(told: Any) -> date | None:
    try:
        return parse_date(_field(told, "day") or "")
    except ValueError:
        return None


_SHEETS = f"{API}/cars/{{car}}/sheets"
WAYS: tuple[Way, ...] = (
    Way("POST", f"{API}/cars/{{car}}/preview", post_preview),
    Way("POST", _SHEETS, post_sheet),
    Way("GET", f"{_SHEETS}/{{sheet}}", get_sheet),
    Way("PUT", f"{_SHEETS}/{{sheet}}", put_sheet),
)

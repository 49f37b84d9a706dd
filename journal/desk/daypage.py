"""The day page: the form of a day, its scripts, and what it asks of the desk.

Everything that it needs to be written into comes with the page itself, packed, in as few answers as
can be: a phone at the far end of the workshop waits for each of them.
"""

import gzip
import json
from collections.abc import Mapping
from datetime import date
from functools import cache
from hashlib import sha256
from typing import Any

from anyio import to_thread
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from journal.desk.asking import API, Way, car_named, json_of, said
from journal.desk.desk import Desk
from journal.desk.drafts import is_draft
from journal.desk.filled import Opened, carried, day_of, opened_of
from journal.desk.formtold import form_in, remark_told
from journal.desk.linetold import waiting_told
from journal.desk.offers import day_offers, words_offered
from journal.desk.preview import preview
from journal.desk.saving import (
    Asked,
    InBook,
    Missing,
    Outcome,
    Refused,
    Unsaved,
    look,
    save,
    unwritten,
)
from journal.desk.state import CarState
from journal.outputs.sheets.store import hash_of
from journal.outputs.theme import DEFAULT, theme_folder
from journal.pages.links import sheet_path
from journal.reading.text import SHEET_BYTES, read_bytes
from journal.records.sheet import photo_path

# How a page's own files are called: never otherwise under this name, so that a phone keeps them.
_FIXED = "private, max-age=31536000, immutable"
_KINDS = {"css": "text/css", "js": "text/javascript"}
_STYLE = "day.css"
# Asked for at once, so that no script waits until another one has come that names it. A browser asks one
# place for six files at a time: these and the style.
SCRIPTS = ("day.js", "cards.js", "form.js", "sending.js", "reach.js")
# Asked for once the page can be written into, or when there is something to show or to confirm.
LATER = ("saying.js", "showing.js", "confirming.js", "taking.js")


@cache
def files_of_page() -> dict[str, bytes]:
    """Scripts of the day page by name, and its style, which is that of the archive and its own."""
    folder = theme_folder("desk") / "day"
    files = sorted({*folder.glob("*.js"), *folder.glob("*.css")})
    found = {file.name: file.read_bytes() for file in files}
    style = (theme_folder(DEFAULT) / "style.css").read_bytes()
    return {**found, _STYLE: style + found[_STYLE]}


@cache
def version() -> str:
    """What tells these files from those of another version of the program."""
    whole = sha256()
    for name, data in files_of_page().items():
        whole.update(name.encode() + b"\0" + data)
    return whole.hexdigest()[:12]


@cache
def _packed(name: str) -> bytes:
    return gzip.compress(files_of_page()[name], mtime=0)


def packing(request: Request, data: bytes, kind: str, **headers: str) -> Response:
    """An answer, packed where the browser can unpack it."""
    told = {"vary": "accept-encoding", **{k.replace("_", "-"): v for k, v in headers.items()}}
    if "gzip" in request.headers.get("accept-encoding", ""):
        return Response(
            gzip.compress(data, mtime=0),
            headers={**told, "content-encoding": "gzip"},
            media_type=kind,
        )
    return Response(data, headers=told, media_type=kind)


async def get_file(desk: Desk, request: Request) -> Response:
    """A script or the style of the page."""
    name = request.path_params["name"]
    if name not in files_of_page() or request.path_params["version"] != version():
        return said("There is no such thing.", 404)
    kind = _KINDS[name.rsplit(".", 1)[-1]]
    headers = {"vary": "accept-encoding", "cache-control": _FIXED}
    if "gzip" in request.headers.get("accept-encoding", ""):
        headers["content-encoding"] = "gzip"
        return Response(_packed(name), headers=headers, media_type=kind)
    return Response(files_of_page()[name], headers=headers, media_type=kind)


def page_of(desk: Desk, request: Request, template: str, values: Mapping[str, Any]) -> Response:
    """A page of this kind."""
    workshop = desk.live.state.workshop
    told = {
        "workshop": workshop.name if workshop else "", "files": f"/_/day/{version()}",
        "scripts": SCRIPTS, **values,
    }  # fmt: skip
    return packing(request, desk.shelf.page(template, told), "text/html")


async def get_day(desk: Desk, request: Request) -> Response:
    """The page on which a day is written; with `sheet`, the one that is changed."""
    cars = desk.live.state.cars
    asked = request.query_params.get("car", "")
    latest = max(cars, key=lambda name: _last(cars[name]), default="")
    car = cars.get(asked or latest)
    if car is None:
        return Response(desk.shelf.page("told.html", _no_car(desk)), 404, media_type="text/html")
    sheet = request.query_params.get("sheet", "")
    return await to_thread.run_sync(_day, desk, request, car, sheet)


def _last(car: CarState) -> str:
    sheets = car.file.sheets
    return sheets[-1].date.isoformat() if sheets else ""


def _no_car(desk: Desk) -> dict[str, str]:
    workshop = desk.live.state.workshop
    words = "There is no car here to write of. A car file is opened with journal book-in."
    return {"title": "No such car", "words": words, "workshop": workshop.name if workshop else ""}


def _day(desk: Desk, request: Request, car: CarState, sheet: str) -> Response:
    opened = open_sheet(desk, car, sheet) if sheet else None
    if isinstance(opened, str):
        workshop = desk.live.state.workshop
        words = {"title": "This sheet cannot be opened here", "words": opened}
        words["workshop"] = workshop.name if workshop else ""
        return Response(desk.shelf.page("told.html", words), 404, media_type="text/html")
    offers = day_offers(desk.live.state, car, date.today())
    data = {
        "offers": offers,
        "opened": opened and {**opened_told(car, opened), "pictures": pictures_of(car, opened)},
    }
    values = {
        **words_offered(), "title": "Change a sheet" if opened else "The day", "car": offers,
        "opened": opened is not None, "data": json.dumps(data).replace("<", "\\u003c"),
    }  # fmt: skip
    return page_of(desk, request, "day.html", values)


def open_sheet(desk: Desk, car: CarState, name: str) -> Opened | str:
    """A sheet by its name, or why it cannot be opened in a form."""
    path = path_named(desk, car, name)
    if path is None:
        return "There is no sheet of this name, or it cannot be read as it is."
    raw, fault = read_bytes(desk.root, path, SHEET_BYTES)
    if fault is not None:
        return f"The sheet cannot be opened: {fault.message}."
    return opened_of(path, raw) or (
        "What stands above the text of this sheet cannot be read. Put it right in an editor first; the "
        "bar below the pages says what is wrong in it."
    )


def path_named(desk: Desk, car: CarState, name: str) -> str | None:
    """The path of a sheet by its name, looked up among those that there are, written a moment ago too."""
    read = (s.source.path for s in car.file.sheets if s.name == name)
    there = (desk.root / car.file.name / "sheets").rglob("*.md")
    found = (f.relative_to(desk.root).as_posix() for f in there if f.stem == name)
    return next(read, None) or next(found, None)


def opened_told(car: CarState, opened: Opened) -> dict[str, Any]:
    """A sheet that was opened, as a page hears of it: with every byte of its text, and what in it waits
    to be confirmed."""
    return {
        "name": name_of(opened.path), "path": opened.path, "source": opened.raw.decode("utf-8"),
        "read": hash_of(opened.raw), "form": opened.shown,
        "heard": waiting_told(car.file, opened.shown),
    }  # fmt: skip


def pictures_of(car: CarState, opened: Opened) -> dict[str, str]:
    """The pictures that a sheet tells of, each by its file with where the smallest of it is shown."""
    day = day_of(opened.told)
    files = [photo["file"] for photo in opened.shown["photos"]]
    found = {file: car.view.pictures.get(photo_path(day, file)) for file in files if day}
    return {f: f"/{car.view.base}{told.small.path}" for f, told in found.items() if told}


async def post_look(desk: Desk, request: Request) -> Response:
    """The sheet as it would be: its text, what is wrong with it, and with `show` its page."""
    told, asked = await _asked(desk, request)
    if asked is None:
        return said("This is no form of a sheet.", 400)
    return JSONResponse(await to_thread.run_sync(_looked, desk, asked, bool(told.get("show"))))


def _looked(desk: Desk, asked: Asked, show: bool) -> dict[str, Any]:
    seen = look(desk, asked, date.today())
    filled = seen.filled
    html = (
        preview(desk.shelf, asked.car, filled.sheet, seen.laid) if show and filled.sheet else None
    )
    name = filled.sheet.name if filled.sheet else ""
    return {
        "text": filled.raw.decode("utf-8"), "right": filled.right,
        "remarks": [remark_told(remark) for remark in filled.remarks],
        "html": html, "at": f"/{asked.car.view.base}{sheet_path(name)}" if html else "",
    }  # fmt: skip


async def post_save(desk: Desk, request: Request) -> Response:
    """Write the sheet, once however often it is asked."""
    _, asked = await _asked(desk, request)
    if asked is None:
        return said("This is no form of a sheet.", 400)
    return await to_thread.run_sync(
        lambda: outcome_told(desk, asked.car, save(desk, asked, date.today()))
    )


def outcome_told(desk: Desk, state: CarState, outcome: Outcome) -> Response:
    """What came of it, as a page hears it."""
    if isinstance(outcome, InBook):
        name = name_of(outcome.path)
        car = state.file.name
        raw, _ = read_bytes(desk.root, outcome.path, SHEET_BYTES)
        again = opened_of(outcome.path, raw)
        saved = {
            "path": outcome.path, "name": name, "href": f"/{car}/{sheet_path(name)}", "car": car,
            "opened": again and opened_told(state, again),
        }  # fmt: skip
        remarks = [remark_told(remark) for remark in outcome.remarks]
        return JSONResponse({"saved": saved, "remarks": remarks})
    if isinstance(outcome, Refused):
        return JSONResponse({"remarks": [remark_told(r) for r in outcome.remarks]}, 422)
    if isinstance(outcome, Missing):
        return JSONResponse({"missing": list(outcome.ids)}, 409)
    if isinstance(outcome, Unsaved):
        return said(f"The book does not take it: {outcome.reason}. It is kept on this device.", 507)
    theirs = outcome.theirs
    whole = theirs is not None and opened_of(outcome.path, theirs)
    return JSONResponse(
        {
            "conflict": {
                "path": outcome.path,
                "ours": outcome.ours.decode("utf-8"),
                "theirs": theirs.decode("utf-8", "replace") if theirs is not None else None,
                "can_carry": bool(whole),
            }
        },
        409,
    )


async def post_carry(desk: Desk, request: Request) -> Response:
    """What was changed in a form, put into the sheet as it lies on the disk."""
    _, asked = await _asked(desk, request)
    if asked is None or asked.opened is None:
        return said("This is no form of a sheet.", 400)
    return await to_thread.run_sync(_carried, desk, asked)


def _carried(desk: Desk, asked: Asked) -> Response:
    assert asked.opened is not None
    onto = open_sheet(desk, asked.car, name_of(asked.opened.path))
    if isinstance(onto, str):
        return said(onto, 404)
    note = desk.drafts.find(asked.draft)
    form = unwritten(asked.form, note) if note and note.done else asked.form
    form = carried(asked.opened, form, onto)
    heard = waiting_told(asked.car.file, form)
    return JSONResponse({"opened": opened_told(asked.car, onto), "form": form, "heard": heard})


def name_of(path: str) -> str:
    """The name of the sheet at a path."""
    return path.rsplit("/", 1)[-1].removesuffix(".md")


async def _asked(desk: Desk, request: Request) -> tuple[dict[str, Any], Asked | None]:
    """What a page asks for, once all of it is what a page of ours sends."""
    told = await json_of(request)
    car = car_named(desk, request)
    if not isinstance(told, dict) or car is None or not is_draft(told.get("draft")):
        return {}, None
    form = form_in(told.get("form"))
    opened = _opened_in(desk, car, told)
    if form is None or isinstance(opened, str):
        return {}, None
    return told, Asked(told["draft"], car, form, opened)


def _opened_in(desk: Desk, car: CarState, told: dict[str, Any]) -> Opened | str | None:
    """The sheet that a page had opened, from the text that it was given; "" when that is not so."""
    name, source, read = told.get("sheet"), told.get("source"), told.get("read")
    if name is None:
        return None
    path = path_named(desk, car, str(name))
    if path is None or not isinstance(source, str):
        return ""
    try:
        raw = source.encode("utf-8")
    except UnicodeEncodeError:
        return ""
    return (opened_of(path, raw) or "") if hash_of(raw) == read else ""


WAYS: tuple[Way, ...] = (
    Way("GET", "/day", get_day),
    Way("GET", "/_/day/{version}/{name}", get_file),
    Way("POST", f"{API}/cars/{{car}}/look", post_look),
    Way("POST", f"{API}/cars/{{car}}/save", post_save),
    Way("POST", f"{API}/cars/{{car}}/carry", post_carry),
)

"""A bench sum that was worked out at the desk, kept with the day: in a sheet of today, or in a new one."""

from collections.abc import Iterable
from datetime import date
from itertools import count
from typing import Any, NamedTuple

from anyio import to_thread
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from journal.bench import SUM_NAMED
from journal.desk.asking import API, Way, car_named, json_of, said
from journal.desk.desk import Desk
from journal.desk.listing import list_car, list_components, list_subsystems
from journal.desk.state import CarState
from journal.desk.sumasked import Asked, asked_in_form
from journal.outputs.sheets.edit import edited
from journal.outputs.sheets.print import NewSheet, new_text
from journal.outputs.sheets.store import Conflict, NotSaved, Saved, hash_of, save_new, save_over
from journal.pages.links import sheet_path
from journal.reading.sheet import sheet_of
from journal.reading.text import SHEET_BYTES, read_bytes
from journal.records.fields import Named
from journal.records.sheet import SheetFront
from journal.records.sum import SumLine
from journal.words.names import nearest, slug_of, title_of
from journal.words.wrong import WrongCall

_SHAPE = ("called", "of", "sheet", "subsystem")
# A name of a sum in a sheet is a few words.
_LONGEST = 60


class Kept(NamedTuple):
    """What is to be kept, under which name, and where: in `sheet`, or in a new one of `subsystem`."""

    name: str
    line: SumLine
    sheet: str
    subsystem: str


def places_to_keep(desk: Desk, today: date) -> list[dict[str, Any]]:
    """Every car with the sheets of the day, its subsystems and its components."""
    return [
        {
            **list_car(car.view),
            "sheets": [
                {"name": sheet.name, "title": sheet.title}
                for sheet in car.view.car.sheets
                if sheet.date == today
            ],
            "subsystems": list_subsystems(car.view),
            "components": list_components(car.view),
        }
        for car in desk.live.state.cars.values()
    ]


async def post_kept(desk: Desk, request: Request) -> Response:
    """Keep a sum in a sheet of today: asked with what is `given` as the form sends it, what it is
    `called`, the component that it is `of` or nothing, and the `sheet`, or the `subsystem` of a new one."""
    car, sum_ = car_named(desk, request), SUM_NAMED.get(request.path_params["sum"])
    told = await json_of(request)
    if car is None or sum_ is None:
        return said("There is no such car or sum.", 404)
    if not isinstance(told, dict) or not all(isinstance(told.get(key), str) for key in _SHAPE):
        return said("This is not what the form of the sum asks for.", 400)
    asked = await to_thread.run_sync(asked_in_form, sum_, told.get("given"))
    if asked is None or asked.answer is None:
        return said("What cannot be worked out is not kept.", 400)
    if refusal := _refusal(car, told):
        return said(refusal, 400)
    kept = Kept(
        _name(told["called"], asked), _line(asked, told["of"]), told["sheet"], told["subsystem"]
    )
    return await to_thread.run_sync(_keep, desk, car, kept, date.today())


def _refusal(car: CarState, told: dict[str, str]) -> str:
    """Why it cannot be kept so, or nothing."""
    known = [line.component.key for line in car.view.originality.lines]
    if told["of"] and told["of"] not in known:
        meant = nearest(told["of"], known)
        way = f"; write {meant}" if meant else "; leave it out, or write one of the register"
        return f'There is no component "{told["of"]}"{way}.'
    if not told["sheet"] and told["subsystem"] not in car.file.workshop.all_subsystems():
        return "A new sheet needs its subsystem."
    return ""


def _name(called: str, asked: Asked) -> str:
    return slug_of(called)[:_LONGEST].strip("-") or asked.sum.name


def _line(asked: Asked, of: str) -> SumLine:
    own = {"sum": asked.sum.name, **({"of": of} if of else {})}
    return SumLine.model_validate({**own, **dict(asked.told)})


def _keep(desk: Desk, car: CarState, kept: Kept, today: date) -> Response:
    if not kept.sheet:
        return _answer(_kept_newly(desk, car, kept, today), car)
    path = next(
        (s.source.path for s in car.file.sheets if s.name == kept.sheet and s.date == today), None
    )
    if path is None:
        return said("There is no such sheet of today.", 404)
    raw, fault = read_bytes(desk.root, path, SHEET_BYTES)
    if fault is not None:
        return said(fault.message, 409)
    try:
        data = _with_sum(raw, kept)
    except WrongCall as wrong:
        return said(f"The sum is not kept: {wrong}.", 409)
    return _answer(save_over(desk.root, path, data, read=hash_of(raw)), car)


def _kept_newly(desk: Desk, car: CarState, kept: Kept, today: date) -> Saved | NotSaved:
    title = title_of(kept.name)
    front = SheetFront(
        date=today, subsystem=(kept.subsystem,), title=title, sums=Named([(kept.name, kept.line)])
    )
    data = new_text(NewSheet(front)).encode("utf-8")
    return save_new(desk.root, car.file.name, today, title, data)


def _with_sum(raw: bytes, kept: Kept) -> bytes:
    """The sheet with the sum besides those in it; the same one under the same name is there already."""
    sheet, _ = sheet_of(raw, "")
    if sheet is None:
        raise WrongCall("the sheet cannot be read as it is")
    here = sheet.front.sums
    if here.get(kept.name) == kept.line:
        return raw
    name = _free(kept.name, (name for name, _ in here))
    sums = Named([*here, (name, kept.line)])
    return edited(raw, sheet.front.model_copy(update={"sums": sums}))


def _free(name: str, taken: Iterable[str]) -> str:
    names = set(taken)
    return next(n for k in count(1) if (n := name if k == 1 else f"{name}-{k}") not in names)


def _answer(saved: Saved | Conflict | NotSaved, car: CarState) -> Response:
    if isinstance(saved, NotSaved):
        return said(f"The sum is not kept: {saved.reason}.", 507)
    if isinstance(saved, Conflict):
        return said(
            "The sheet was changed at this moment, and nothing was written; keep it again.", 409
        )
    name = saved.path.rsplit("/", 1)[-1].removesuffix(".md")
    return JSONResponse(
        {"said": "Kept with the day.", "sheet": name, "href": f"/{car.view.base}{sheet_path(name)}"}
    )


WAYS: tuple[Way, ...] = (Way("POST", f"{API}/cars/{{car}}/sums/{{sum}}", post_kept),)

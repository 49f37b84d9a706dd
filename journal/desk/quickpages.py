"""The two quick pages of the phone: goods in, and a snag."""

import json
from collections.abc import Callable
from datetime import date
from typing import Any

from anyio import to_thread
from starlette.requests import Request
from starlette.responses import Response

from journal.desk.asking import API, Way, car_named, json_of, said
from journal.desk.daypage import outcome_told, page_of
from journal.desk.desk import Desk
from journal.desk.drafts import is_draft
from journal.desk.listing import Plain, list_car, list_subsystems, list_waiting
from journal.desk.offers import words_offered
from journal.desk.quick import Raised, Received, raise_snag, receive
from journal.desk.saving import Outcome
from journal.desk.state import CarState
from journal.pages.words import day_words
from journal.words.vocabulary import GoodsIn

SCRIPTS = ("quick.js", "form.js", "sending.js", "reach.js")
# A text longer than this is no snag but a story.
_LONGEST = 2000


async def get_goods_in(desk: Desk, request: Request) -> Response:
    """What is awaited, of every car, to be received one by one."""
    return await to_thread.run_sync(_goods_in, desk, request)


def _goods_in(desk: Desk, request: Request) -> Response:
    cars = [
        {**list_car(car.view), "waiting": [_in_words(part) for part in list_waiting(car.view)]}
        for car in desk.live.state.cars.values()
    ]
    values = {**words_offered(), "title": "Goods in", "cars": [c for c in cars if c["waiting"]]}
    return page_of(
        desk, request, "goods-in.html", {**values, **_data("goods-in"), "scripts": SCRIPTS}
    )


def _in_words(part: Plain) -> Plain:
    days = {
        key: part[key] and day_words(date.fromisoformat(part[key])) for key in ("ordered", "due")
    }
    return {**part, **days}


async def get_snag(desk: Desk, request: Request) -> Response:
    """One field and one button."""
    return await to_thread.run_sync(_snag, desk, request)


def _snag(desk: Desk, request: Request) -> Response:
    cars = [
        {**list_car(car.view), "subsystems": list_subsystems(car.view), "latest": _latest(car)}
        for car in desk.live.state.cars.values()
    ]
    cars.sort(key=lambda car: car["last"] or "", reverse=True)
    values = {"title": "A snag", "cars": cars, **_data("snag"), "scripts": SCRIPTS}
    return page_of(desk, request, "snag.html", values)


def _latest(car: CarState) -> str:
    sheets = car.file.sheets
    return sheets[-1].front.subsystem[0] if sheets else ""


def _data(page: str) -> dict[str, str]:
    return {"data": json.dumps({"page": page})}


async def post_goods_in(desk: Desk, request: Request) -> Response:
    """A part that came in."""
    told, car = await json_of(request), car_named(desk, request)
    if not _is_ours(told, "part", "outcome", "why") or car is None:
        return said("This is no part that came in.", 400)
    if told["outcome"] not in set(GoodsIn):
        return said("A part is accepted, reworked or rejected.", 400)
    came = Received(told["part"], told["outcome"], told["why"], tuple(told["photos"]))
    return await _done(desk, car, lambda: receive(desk, car, told["draft"], came, date.today()))


async def post_snag(desk: Desk, request: Request) -> Response:
    """Something open."""
    told, car = await json_of(request), car_named(desk, request)
    if not _is_ours(told, "text", "subsystem") or car is None:
        return said("This is no snag.", 400)
    snag = Raised(told["text"], told["subsystem"], told.get("hold") is True, tuple(told["photos"]))
    return await _done(desk, car, lambda: raise_snag(desk, car, told["draft"], snag, date.today()))


async def _done(desk: Desk, car: CarState, work: Callable[[], Outcome]) -> Response:
    return await to_thread.run_sync(lambda: outcome_told(desk, car, work()))


def _is_ours(told: Any, *texts: str) -> bool:
    """Whether this is what a page of ours sends."""
    return (
        isinstance(told, dict)
        and is_draft(told.get("draft"))
        and all(isinstance(told.get(key), str) and len(told[key]) <= _LONGEST for key in texts)
        and isinstance(told.get("photos"), list)
        and all(isinstance(id, str) for id in told["photos"])
    )


WAYS: tuple[Way, ...] = (
    Way("GET", "/goods-in", get_goods_in),
    Way("GET", "/snag", get_snag),
    Way("POST", f"{API}/cars/{{car}}/goods-in", post_goods_in),
    Way("POST", f"{API}/cars/{{car}}/snag", post_snag),
)

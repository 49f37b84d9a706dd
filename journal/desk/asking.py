"""What is asked of the desk as data, and what it answers: one small function each."""

import json
from collections.abc import Awaitable, Callable
from typing import Any, NamedTuple
from urllib.parse import unquote

from anyio import to_thread
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from journal.desk.desk import Desk
from journal.desk.listing import list_car, list_offers
from journal.desk.state import CarState
from journal.desk.tray import PICTURE_BYTES, Arriving, Laid, Refused

Handler = Callable[[Desk, Request], Awaitable[Response]]

API = "/_/api"


class Way(NamedTuple):
    """What is asked by which method under which path, who answers it, and how much may be sent."""

    method: str
    path: str
    answer: Handler
    most: int | None = None


def said(words: str, status: int) -> Response:
    """What did not go, in a sentence for whoever asked."""
    return JSONResponse({"said": words}, status)


def car_named(desk: Desk, request: Request) -> CarState | None:
    """The car that a path names, or None."""
    return desk.live.state.cars.get(request.path_params["car"])


async def get_token(desk: Desk, request: Request) -> Response:
    """The token without which nothing is changed."""
    return JSONResponse({"token": desk.rules.tokens.token_for(request.state.device)})


async def get_cars(desk: Desk, request: Request) -> Response:
    """Every car."""
    cars = desk.live.state.cars.values()
    return JSONResponse(
        {"cars": await to_thread.run_sync(lambda: [list_car(c.view) for c in cars])}
    )


async def get_offers(desk: Desk, request: Request) -> Response:
    """What can be picked for a sheet of one car."""
    car = car_named(desk, request)
    if car is None:
        return said("There is no such car.", 404)
    return JSONResponse(await to_thread.run_sync(list_offers, car.view))


async def get_pictures(desk: Desk, request: Request) -> Response:
    """The pictures that were sent for a draft and lie in the tray."""
    laid = desk.tray.laid(request.path_params["draft"])
    return JSONResponse({"pictures": [picture_told(one) for one in laid]})


async def get_small(desk: Desk, request: Request) -> Response:
    """A picture of the tray, small."""
    laid = desk.tray.find(request.path_params["id"])
    if laid is None:
        return said("There is no such picture.", 404)
    return Response(desk.tray.small(laid), media_type="image/webp")


async def post_picture(desk: Desk, request: Request) -> Response:
    """One picture, as the body of the request; how the device calls it stands in a header."""
    name = unquote(request.headers.get("x-picture-name", ""))
    try:
        arriving = desk.tray.arriving()
    except Refused as refused:
        return said(refused.words, refused.status)
    try:
        async for piece in request.stream():
            arriving.add(piece)
        draft = request.path_params["draft"]
        return JSONResponse(
            picture_told(await to_thread.run_sync(_laid, desk, arriving, draft, name))
        )
    except Refused as refused:
        return said(refused.words, refused.status)
    finally:
        arriving.drop()


def _laid(desk: Desk, arriving: Arriving, draft: str, name: str) -> Laid:
    arriving.close()
    return desk.tray.lay(arriving, draft, name)


async def delete_picture(desk: Desk, request: Request) -> Response:
    """Take a picture out of the tray that nobody wants."""
    laid = desk.tray.find(request.path_params["id"])
    if laid is not None:
        await to_thread.run_sync(desk.tray.drop, laid)
    return JSONResponse({})


def picture_told(laid: Laid) -> dict[str, Any]:
    """A picture of the tray as a page hears of it."""
    return {
        "id": laid.id, "name": laid.name, "width": laid.width, "height": laid.height,
        "taken": laid.taken, "small": f"{API}/pictures/{laid.id}",
    }  # fmt: skip


async def json_of(request: Request) -> Any:
    """What was sent as JSON; None when it is none."""
    try:
        return json.loads(await request.body())
    except (ValueError, RecursionError):
        return None


WAYS: tuple[Way, ...] = (
    Way("GET", f"{API}/token", get_token),
    Way("GET", f"{API}/cars", get_cars),
    Way("GET", f"{API}/cars/{{car}}", get_offers),
    Way("GET", f"{API}/drafts/{{draft}}/pictures", get_pictures),
    Way("POST", f"{API}/drafts/{{draft}}/pictures", post_picture, PICTURE_BYTES),
    Way("GET", f"{API}/pictures/{{id}}", get_small),
    Way("DELETE", f"{API}/pictures/{{id}}", delete_picture),
)

"""The desk put together: what answers under which path, and what a fault of ours looks like."""

from collections.abc import Awaitable, Callable
from hashlib import sha256

from anyio import CapacityLimiter, to_thread
from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response, StreamingResponse
from starlette.routing import Route
from starlette.types import ASGIApp

from journal.desk import asking, daypage, heard, phone, quickpages, recordings, sumforms, sumkeep
from journal.desk.asking import Way
from journal.desk.desk import Desk
from journal.desk.guard import Guard
from journal.desk.shelf import Answer

# Everything that is not a page of the archive. A page on which something is written is one row here.
WAYS: tuple[Way, ...] = (
    *asking.WAYS, *phone.WAYS, *daypage.WAYS, *heard.WAYS, *quickpages.WAYS, *sumforms.WAYS, *sumkeep.WAYS,
    *recordings.WAYS,
)  # fmt: skip

# Pages are made by few threads at once: they share one interpreter, and each is quick.
_MAKERS = 4
# What is named by its content is never otherwise.
_FIXED = "private, max-age=31536000, immutable"


def app_of(desk: Desk) -> ASGIApp:
    """The application, with its guard before it."""
    routes = [Route(way.path, _answering(desk, way.answer), methods=[way.method]) for way in WAYS]
    routes.append(Route("/_/live", _live(desk), methods=["GET"]))
    routes.append(Route("/{path:path}", _shelved(desk), methods=["GET"]))
    said = {HTTPException: _refused(desk), 404: _refused(desk), 500: _fault(desk)}
    return Guard(Starlette(routes=routes, exception_handlers=said), desk.rules)


Endpoint = Callable[[Request], Awaitable[Response]]


def _answering(desk: Desk, answer: asking.Handler) -> Endpoint:
    async def answered(request: Request) -> Response:
        return await answer(desk, request)

    return answered


def _live(desk: Desk) -> Endpoint:
    async def heard(_request: Request) -> Response:
        return StreamingResponse(desk.pulse.listen(), media_type="text/event-stream")

    return heard


def _shelved(desk: Desk) -> Endpoint:
    makers = CapacityLimiter(_MAKERS)

    async def shelved(request: Request) -> Response:
        path = request.path_params["path"]
        found = await to_thread.run_sync(desk.shelf.answer, path, limiter=makers)
        if found is None:
            raise HTTPException(404)
        return _sent(request, found)

    return shelved


def _sent(request: Request, found: Answer) -> Response:
    tag = f'"{sha256(found.data).hexdigest()[:32]}"'
    headers = {"etag": tag, "cache-control": _FIXED if found.fixed else "private, no-cache"}
    if request.headers.get("if-none-match") == tag:
        return Response(status_code=304, headers=headers)
    return Response(found.data, media_type=found.kind, headers=headers)


def _refused(desk: Desk) -> Callable[[Request, Exception], Awaitable[Response]]:
    async def refused(request: Request, why: Exception) -> Response:
        status = why.status_code if isinstance(why, HTTPException) else 404
        if status != 404 or request.url.path.startswith(f"{asking.API}/"):
            words = "There is no such thing." if status == 404 else "This cannot be asked so."
            return asking.said(words, status)
        return _told(desk, "Not here", "There is no page under this address.", 404)

    return refused


def _fault(desk: Desk) -> Callable[[Request, Exception], Awaitable[Response]]:
    """The traceback goes to the terminal; whoever asked hears that it is not their fault."""

    async def fault(_request: Request, _why: Exception) -> Response:
        words = (
            "The program made a mistake, and nothing of yours is lost. What went wrong stands in the "
            "window in which the desk was started."
        )
        return _told(desk, "The desk has stumbled", words, 500)

    return fault


def _told(desk: Desk, title: str, words: str, status: int) -> Response:
    workshop = desk.live.state.workshop
    values = {"title": title, "words": words, "workshop": workshop.name if workshop else ""}
    return Response(desk.shelf.page("told.html", values), status, media_type="text/html")

"""Letting a phone in: its address with the key, drawn to be scanned, and who is let in already."""

from typing import Any
from urllib.parse import quote

from anyio import to_thread
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from journal.desk.asking import API, Way, said
from journal.desk.desk import Desk
from journal.desk.keys import HERE
from journal.pages.qr import qr_code
from journal.pages.words import sentence, some

UNENCRYPTED = (
    "What goes between phone and desk is not encrypted: anybody in the same network could read it. "
    "Use it in the workshop’s own network only, never in one that guests or neighbours share."
)


def address_with_key(address: str, key: str) -> str:
    """Where a phone goes with a key."""
    return f"{address}?key={quote(key)}"


async def get_phone(desk: Desk, request: Request) -> Response:
    """The page for letting a phone in; this computer alone sees it."""
    if request.state.device != HERE:
        return Response(status_code=403)
    return Response(await to_thread.run_sync(_page, desk), media_type="text/html")


async def post_key(desk: Desk, request: Request) -> Response:
    """Another key; the one before lets nobody in."""
    if request.state.device != HERE or desk.rules.devices is None:
        return said("Only the desk's own computer gives keys.", 403)
    desk.rules.devices.new_key()
    return JSONResponse({})


async def post_away(desk: Desk, request: Request) -> Response:
    """Let none of the phones in any more."""
    if request.state.device != HERE or desk.rules.devices is None:
        return said("Only the desk's own computer sends phones away.", 403)
    await to_thread.run_sync(desk.rules.devices.send_away)
    return JSONResponse({})


def _page(desk: Desk) -> bytes:
    devices, workshop = desk.rules.devices, desk.live.state.workshop
    values: dict[str, Any] = {
        "workshop": workshop.name if workshop else "",
        "title": "A phone at the desk",
        "address": "",
        "unencrypted": UNENCRYPTED,
    }
    if devices is not None and desk.phone is not None:
        address = address_with_key(desk.phone, devices.key)
        values |= {
            "address": address,
            "code": qr_code(address),
            "devices": sentence(some(devices.count, "phone")) if devices.count else "No phone",
        }
    return desk.shelf.page("phone.html", values)


WAYS: tuple[Way, ...] = (
    Way("GET", "/phone", get_phone),
    Way("POST", f"{API}/key", post_key),
    Way("POST", f"{API}/away", post_away),
)

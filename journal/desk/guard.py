"""Before anything is answered: who asks, from which page, under which name, and how much is sent.

- A page of the web that has its own name lead to this computer (DNS rebinding) asks under that name:
  only the addresses that the desk is bound to are answered.
- A page of the web may send things here, and may show pictures from here: what is changed is changed
  for our own pages alone, which name themselves (`Origin`, `Sec-Fetch-Site`) and know a token.
- A phone has come with a key, or has what it was given for one. Nobody else gets an answer.
"""

import asyncio
from collections.abc import Iterable
from http.cookies import CookieError, SimpleCookie
from ipaddress import ip_address
from urllib.parse import parse_qs

from msgspec import Struct
from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from journal.desk.keys import HERE, Devices, FormTokens

COOKIE = "journal-desk"
TOKEN = "x-journal-token"

# What is asked without changing anything.
_SAFE = ("GET", "HEAD")
# A page is shown when it is gone to from anywhere; anything else is asked for by pages of ours alone.
_OURS = ("same-origin", "none")

# A form or a sheet, as text; pictures have a bound of their own.
BODY = 512 * 1024
# How long the next piece of what is sent may take, in seconds.
PATIENCE = 30.0
# A year of days in seconds.
_COOKIE_AGE = 365 * 24 * 3600

HEADERS = {
    "content-security-policy": (
        "default-src 'none'; img-src 'self' blob:; style-src 'self'; script-src 'self'; "
        "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
    ),
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "geolocation=(), microphone=(), payment=(), usb=()",
    "referrer-policy": "no-referrer",
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
}


class Rules(Struct, frozen=True):
    """What holds for one desk: the names that it answers to, as `host:port`, its tokens, the devices
    let in when there may be any, and how much may be sent to which path."""

    names: frozenset[str]
    tokens: FormTokens
    devices: Devices | None = None
    bodies: tuple[tuple[str, int], ...] = ()

    def most(self, path: str) -> int:
        """How many bytes may be sent to a path."""
        return next((most for start, most in self.bodies if path.startswith(start)), BODY)


class TooMuch(Exception):
    """More was sent than may be, or too slowly."""


class Guard:
    """Stands before an application; what does not pass is answered in few words or none."""

    def __init__(self, app: ASGIApp, rules: Rules) -> None:
        self._app = app
        self._rules = rules

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass on what is asked, or refuse it."""
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
            return
        if scope["type"] != "http":
            # Nothing here speaks anything else, and what nobody answers is closed by the server.
            return
        answer = self._refusal(scope)
        if answer is not None:
            await _sealed(answer, scope, receive, send)
            return
        await self._passed(scope, receive, send)

    def _refusal(self, scope: Scope) -> Response | None:
        """The answer to what is not passed on."""
        headers = Headers(scope=scope)
        if not self._named(headers):
            return Response(status_code=403)
        device = self._device(scope, headers)
        if device is None:
            return self._admission(scope)
        scope["state"] = {**scope.get("state", {}), "device": device}
        site = headers.get("sec-fetch-site", "same-origin")
        if scope["method"] in _SAFE:
            gone_to = headers.get("sec-fetch-mode") == "navigate"
            framed = headers.get("sec-fetch-dest") in ("iframe", "frame", "embed", "object")
            return None if site in _OURS or (gone_to and not framed) else Response(status_code=403)
        if site != "same-origin" or headers.get("origin") != f"http://{headers['host']}":
            return PlainTextResponse("This is not asked from a page of the desk.", 403)
        if not self._rules.tokens.holds(device, headers.get(TOKEN, "")):
            return PlainTextResponse("The page is from before; it is to be loaded again.", 409)
        sent = headers.get("content-length", "0")
        if not sent.isdecimal() or int(sent) > self._rules.most(scope["path"]):
            return PlainTextResponse("This is more than the desk takes at once.", 413)
        return None

    def _named(self, headers: Headers) -> bool:
        """Whether the desk is asked under a name of its own, and one only."""
        names = headers.getlist("host")
        return len(names) == 1 and names[0].lower() in self._rules.names

    def _device(self, scope: Scope, headers: Headers) -> str | None:
        """Who asks: this computer, or a device that was let in."""
        if is_here(scope):
            return HERE
        devices = self._rules.devices
        kept = cookie_in(headers)
        return kept if devices is not None and devices.knows(kept) else None

    def _admission(self, scope: Scope) -> Response:
        """A device that comes with the key is let in; the key does not stay in its address."""
        told = parse_qs(scope["query_string"].decode("latin-1"))
        devices = self._rules.devices
        given = told.get("key", [])
        kept = (
            devices.let_in(given[0])
            if devices is not None and len(given) == 1 and scope["method"] == "GET"
            else None
        )
        if kept is None:
            return Response(status_code=403)
        answer = RedirectResponse("/", 303)
        answer.set_cookie(
            COOKIE, kept, max_age=_COOKIE_AGE, path="/", httponly=True, samesite="strict"
        )
        return answer

    async def _passed(self, scope: Scope, receive: Receive, send: Send) -> None:
        left = self._rules.most(scope["path"])
        started = whole = False

        async def measured() -> Message:
            nonlocal left, whole
            try:
                # After what was sent comes nothing but the news that the browser has gone.
                async with asyncio.timeout(None if whole else PATIENCE):
                    message = await receive()
            except TimeoutError:
                raise TooMuch from None
            whole = not message.get("more_body", False)
            left -= len(message.get("body", b""))
            if left < 0:
                raise TooMuch
            return message

        async def sealed(message: Message) -> None:
            nonlocal started
            if message["type"] == "http.response.start":
                started = True
                _seal(message)
            await send(message)

        try:
            await self._app(scope, measured, sealed)
        except TooMuch:
            if not started:
                answer = PlainTextResponse("This is more than the desk takes at once.", 413)
                await _sealed(answer, scope, receive, send)


def is_here(scope: Scope) -> bool:
    """Whether it is this computer that asks."""
    client = scope.get("client")
    return client is not None and _loopback(client[0])


def cookie_in(headers: Headers) -> str:
    """What a device keeps, or nothing."""
    try:
        found = SimpleCookie(headers.get("cookie", "")).get(COOKIE)
    except CookieError:
        return ""
    return found.value if found else ""


def names_of(addresses: Iterable[str], port: int) -> frozenset[str]:
    """The names by which browsers call a desk that is bound to these addresses."""
    hosts = {f"[{a}]" if ":" in a else a for a in addresses}
    if any(_loopback(a) for a in addresses):
        hosts.add("localhost")
    ports = ("", f":{port}") if port == 80 else (f":{port}",)
    return frozenset(host + p for host in hosts for p in ports)


def _loopback(address: str) -> bool:
    try:
        return ip_address(address).is_loopback
    except ValueError:
        return False


async def _sealed(answer: Response, scope: Scope, receive: Receive, send: Send) -> None:
    async def sealed(message: Message) -> None:
        if message["type"] == "http.response.start":
            _seal(message)
        await send(message)

    await answer(scope, receive, sealed)


def _seal(message: Message) -> None:
    headers = MutableHeaders(scope=message)
    for name, value in HEADERS.items():
        headers.setdefault(name, value)
    headers.setdefault("cache-control", "no-store")

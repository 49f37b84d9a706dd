"""The desk as a server: which addresses it is bound to, how it starts, and how it ends."""

import asyncio
import gc
import logging
import socket
import sys
import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import partial
from ipaddress import ip_address
from pathlib import Path
from secrets import token_hex

import uvicorn
from msgspec import Struct

from journal.desk.app import WAYS, app_of
from journal.desk.darkroom import Darkroom
from journal.desk.desk import Desk
from journal.desk.drafts import Drafts
from journal.desk.guard import Rules, names_of
from journal.desk.keys import Devices, FormTokens
from journal.desk.pulse import Pulse
from journal.desk.shelf import Shelf
from journal.desk.state import Live
from journal.desk.tray import Tray
from journal.desk.watch import watching
from journal.outputs.collecting import collected_seldom
from journal.outputs.pictures import Means
from journal.words.wrong import WrongCall

# Any port that is seldom used; phones keep what is typed by address and port.
PORT = 7411
# An address that nothing has (RFC 5737): to ask the system by which of ours it would send there.
_ELSEWHERE = ("192.0.2.1", 9)


class Setting(Struct, frozen=True):
    """What a desk is started with: `car` shows that one alone, `phone` lets phones in, `keep` is the
    folder in which it keeps what must outlive it."""

    root: Path
    keep: Path
    means: Means
    port: int = PORT
    car: str | None = None
    phone: bool = False


def serve(setting: Setting, ready: Callable[[Desk, str], None]) -> None:
    """Run the desk until it is interrupted. `ready` is told the desk and its address here.

    Raises WrongCall when the port is taken or there is no local network for a phone.
    """
    with _bound(setting) as (sockets, addresses):
        port = sockets[0].getsockname()[1]
        desk = _desk(setting, addresses, port)
        asyncio.run(_run(desk, sockets, lambda: ready(desk, f"http://127.0.0.1:{port}/")))


def desk_of(setting: Setting, names: frozenset[str], phone: str | None = None) -> Desk:
    """A desk that answers to these names; nothing is read yet."""
    darkroom = Darkroom(setting.root, setting.means)
    live = Live(setting.root, darkroom, setting.car)
    start = token_hex(4)
    devices = Devices(setting.keep / "devices.json") if setting.phone else None
    bodies = tuple((way.path.split("{")[0], way.most) for way in WAYS if way.most)
    return Desk(
        setting.root, live, Shelf(live, darkroom, start), Pulse(live, start, _tell_fault),
        Rules(names, FormTokens(), devices, bodies), Tray(setting.keep / "tray", darkroom),
        Drafts(setting.keep / "drafts"), phone,
    )  # fmt: skip


def _desk(setting: Setting, addresses: tuple[str, ...], port: int) -> Desk:
    phone = f"http://{addresses[-1]}:{port}/" if setting.phone else None
    return desk_of(setting, names_of(addresses, port), phone)


async def _run(desk: Desk, sockets: list[socket.socket], ready: Callable[[], None]) -> None:
    loop = asyncio.get_running_loop()
    with collected_seldom():
        await asyncio.to_thread(desk.live.refresh)
    # What was read mostly stays; looking through it for garbage again and again takes half of the time.
    gc.collect()
    gc.freeze()
    server = _Server(
        uvicorn.Config(
            app_of(desk), log_config=None, access_log=False, server_header=False, date_header=False,
            proxy_headers=False, lifespan="off", ws="none", limit_concurrency=200,
            timeout_keep_alive=20, timeout_graceful_shutdown=2, h11_max_incomplete_event_size=32_768,
        ),
        desk.pulse,
    )  # fmt: skip
    logging.getLogger("uvicorn.error").setLevel(logging.ERROR)
    logging.getLogger("uvicorn.error").addHandler(logging.StreamHandler())
    following = asyncio.create_task(desk.pulse.run())
    with watching(desk.root, lambda path: _call(loop, partial(desk.pulse.change, path))):
        # What changed between reading and watching is read once more.
        desk.pulse.change()
        ready()
        try:
            await server.serve(sockets)
        finally:
            following.cancel()
            desk.shelf.close()


def _call(loop: asyncio.AbstractEventLoop, what: Callable[[], None]) -> None:
    if not loop.is_closed():
        loop.call_soon_threadsafe(what)


class _Server(uvicorn.Server):
    """A server whose open pages are let go before it waits for them."""

    def __init__(self, config: uvicorn.Config, pulse: Pulse) -> None:
        super().__init__(config)
        self._pulse = pulse

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        await self._pulse.close()
        await super().shutdown(sockets)


@contextmanager
def _bound(setting: Setting) -> Iterator[tuple[list[socket.socket], tuple[str, ...]]]:
    """Sockets on this computer alone, and on the local network where phones are let in."""
    sockets: list[socket.socket] = []
    addresses: list[str] = []
    try:
        first = _socket("127.0.0.1", setting.port)
        if first is None:
            raise WrongCall(
                f"port {setting.port} is taken, perhaps by a desk that runs already; "
                "choose another with --port"
            )
        sockets.append(first)
        addresses.append("127.0.0.1")
        port = first.getsockname()[1]
        for address in ("::1", *([local_address()] if setting.phone else [])):
            bound = _socket(address, port)
            if bound is not None:
                sockets.append(bound)
                addresses.append(address)
            elif address != "::1":
                raise WrongCall(f"port {port} of {address} is taken; choose another with --port")
        yield sockets, tuple(addresses)
    finally:
        for bound in sockets:
            bound.close()


def local_address() -> str:
    """The address of this computer in the local network; raises WrongCall when it has none there."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
        try:
            asked.connect(_ELSEWHERE)
            found = str(asked.getsockname()[0])
        except OSError:
            found = "127.0.0.1"
    address = ip_address(found)
    if address.is_loopback:
        raise WrongCall("this computer is in no network that a phone could be in")
    if not address.is_private:
        raise WrongCall(
            f"the address of this computer, {found}, can be reached from the internet; "
            "phones are let in from a local network only"
        )
    return found


def _socket(address: str, port: int) -> socket.socket | None:
    family = socket.AF_INET6 if ":" in address else socket.AF_INET
    try:
        made = socket.socket(family, socket.SOCK_STREAM)
    except OSError:
        return None
    try:
        if family == socket.AF_INET6:
            made.setsockopt(socket.IPPROTO_IPV6, socket.IPV6_V6ONLY, 1)
        # A desk that is started again at once finds its port free.
        made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        made.bind((address, port))
        made.listen(128)
    except OSError:
        made.close()
        return None
    return made


def _tell_fault(fault: BaseException) -> None:
    traceback.print_exception(fault, file=sys.stderr)

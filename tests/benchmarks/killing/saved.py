"""A desk that is killed while it saves."""

import json
import re
import socket
import time
from pathlib import Path

from tests.benchmarks.killing.running import ENOUGH, Found, Running, need, started
from tests.desk.filling import a_form
from tests.pictures.images import encoded, halves

_DRAFT = "00000000000000ab"


class Saving(Running):
    """A desk that a phone has just asked to save a sheet with a picture."""

    def __init__(self, desk: Running, answer: socket.socket) -> None:
        super().__init__(desk.pid, desk.said)
        self.answer = answer

    def ended(self) -> int:
        """0 once it has said that the sheet is in the book; the desk is closed then."""
        try:
            told = answered(self.answer)
        finally:
            super().kill()
        need("saved" in told, f"the desk does not save: {told}")
        return 0

    def kill(self) -> bool:
        """Kill the desk; whether it had not answered yet."""
        self.answer.setblocking(False)
        try:
            waiting = not self.answer.recv(1, socket.MSG_PEEK)
        except BlockingIOError:
            waiting = True
        super().kill()
        self.answer.close()
        return waiting


def saving(place: Path) -> Running:
    """Open a desk, send it a picture, and ask it to save."""
    desk = started(place, "desk", place / "content", "--port", "0", "--car", "tern")
    try:
        port = _port_of(desk)
        here = {"origin": f"http://127.0.0.1:{port}"}
        here["x-journal-token"] = str(answered(asked(port, "/_/api/token"))["token"])
        picture = encoded(halves(60, 40))
        sent = answered(asked(port, f"/_/api/drafts/{_DRAFT}/pictures", picture, **here))
        photos = [{"id": sent["id"], "of": ["gearbox/laygear"], "stage": "during"}]
        form = a_form(body="Into the book.", photos=photos)
        told = json.dumps({"draft": _DRAFT, "form": form}).encode()
        return Saving(desk, asked(port, "/_/api/cars/tern/save", told, **here))
    except BaseException:
        desk.kill()
        raise


def _port_of(desk: Running) -> int:
    until = time.monotonic() + ENOUGH
    while time.monotonic() < until:
        told = desk.said.read_text() if desk.said.exists() else ""
        if found := re.search(r"http://127\.0\.0\.1:(\d+)/\s", told):
            return int(found[1])
        time.sleep(0.01)
    raise Found("the desk does not open")


def asked(port: int, path: str, data: bytes | None = None, **headers: str) -> socket.socket:
    """A request that is sent, whose answer waits to be read."""
    to = socket.create_connection(("127.0.0.1", port), timeout=ENOUGH)
    method = "GET" if data is None else "POST"
    head = [f"{method} {path} HTTP/1.1", f"Host: 127.0.0.1:{port}", "Connection: close"]
    head += [f"{name}: {told}" for name, told in headers.items()]
    head += [f"Content-Length: {len(data)}"] if data is not None else []
    to.sendall("\r\n".join([*head, "", ""]).encode() + (data or b""))
    return to


def answered(to: socket.socket) -> dict[str, object]:
    """The answer to a request."""
    raw = b""
    with to:
        while piece := to.recv(1 << 16):
            raw += piece
    head, _, body = raw.partition(b"\r\n\r\n")
    need(b" 200 " in head.split(b"\r\n")[0], f"the desk answers {raw[:300]!r}")
    answer: dict[str, object] = json.loads(body[body.index(b"{") : body.rindex(b"}") + 1])
    return answer

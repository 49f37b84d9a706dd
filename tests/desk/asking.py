"""A desk in this process, asked as a browser would ask."""

from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path
from typing import NamedTuple
from unittest.mock import patch

from starlette.testclient import TestClient

from journal.desk import darkroom
from journal.desk.app import app_of
from journal.desk.desk import Desk
from journal.desk.serve import Setting, desk_of
from journal.pictures.pool import Here
from tests.published import MEANS

HOST = "127.0.0.1:7411"
HERE = f"http://{HOST}"
LAN = "192.168.7.20:7411"
NAMES = frozenset({HOST, "localhost:7411", "[::1]:7411"})


class Asked(NamedTuple):
    """A desk, and a browser on this computer."""

    desk: Desk
    browser: TestClient

    def token(self) -> dict[str, str]:
        """What a page of ours sends along with a change."""
        told = self.browser.get("/_/api/token").json()["token"]
        return {"origin": str(self.browser.base_url).rstrip("/"), "x-journal-token": told}


@contextmanager
def asking(
    root: Path, keep: Path, *, phone: bool = False, car: str | None = None
) -> Iterator[Asked]:
    """A desk that has read a content folder; what it keeps lies in `keep`."""
    names = NAMES | {LAN} if phone else NAMES
    desk = desk_of(Setting(root, keep, MEANS, phone=phone, car=car), names, f"http://{LAN}/")
    with pictures_looked_at_here():
        desk.live.refresh()
        try:
            yield Asked(desk, browser_for(desk))
        finally:
            desk.shelf.close()


def pictures_looked_at_here() -> AbstractContextManager[object]:
    """No process is started for the pictures of a desk, which takes longer than most tests."""
    return patch.object(darkroom, "ProcessPoolExecutor", lambda *_: Here())


def browser_for(desk: Desk, host: str = HOST, client: str = "127.0.0.1") -> TestClient:
    """A browser at an address that asks the desk under a name."""
    return TestClient(
        app_of(desk), f"http://{host}", raise_server_exceptions=False, client=(client, 50_000),
        follow_redirects=False,
    )  # fmt: skip

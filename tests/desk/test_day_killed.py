"""A desk that is killed again and again while a phone saves: what was confirmed is there, whole and once."""

import json
import os
import random
import signal
import urllib.error
import urllib.request
from pathlib import Path
from threading import Timer
from typing import Any

from tests.desk.filling import a_form
from tests.desk.ready import Ready, a_ready_desk
from tests.pictures.images import encoded, halves
from tests.tern import SHEET, put_content, sheet_text

SAVES, KILLS = 50, 6
PICTURE = encoded(halves(60, 40))


class Phone:
    """What a page does: it asks again until it is told."""

    def __init__(self, address: str) -> None:
        self.address = address.rstrip("/")
        told = self._ask("/_/api/token")
        self.headers = {"origin": self.address, "x-journal-token": told["token"]}

    def _ask(self, path: str, data: bytes | None = None, **headers: str) -> Any:
        asked = urllib.request.Request(self.address + path, data, headers)
        with urllib.request.urlopen(asked, timeout=20) as answer:
            return json.loads(answer.read())

    def save(self, n: int) -> str:
        """Save a day, every fifth with a picture; the path of its sheet."""
        draft = f"{n:016x}"
        photos = []
        if n % 5 == 0:
            laid = self._ask(
                f"/_/api/drafts/{draft}/pictures", PICTURE + bytes([n]), **self.headers
            )
            photos = [{"id": laid["id"], "of": ["gearbox/laygear"], "stage": "during"}]
        form = a_form(body=f"Day {n}.", photos=photos)
        said = json.dumps({"draft": draft, "form": form}).encode()
        return str(self._ask("/_/api/cars/tern/save", said, **self.headers)["saved"]["path"])


def saved_until_killed(desk: Ready, confirmed: dict[int, str], after: float) -> None:
    """Save one after the other until all are, or the desk is gone."""
    phone = Phone(desk.address)
    killing = Timer(after, os.kill, (desk.process.pid, signal.SIGKILL))
    killing.start()
    try:
        for n in range(SAVES):
            if n not in confirmed:
                confirmed[n] = phone.save(n)
    except (OSError, urllib.error.URLError):
        # It was killed while it was asked; nobody knows how far it came.
        desk.process.join(20)
        assert -signal.SIGKILL == desk.process.exitcode
    finally:
        killing.cancel()


def test_desk_that_is_killed__loses_no_sheet_and_writes_none_twice(tmp_path: Path) -> None:
    root = put_content(tmp_path / "content", **{SHEET: sheet_text()})
    moments = random.Random(20240306)
    confirmed: dict[int, str] = {}
    for _ in range(KILLS):
        with a_ready_desk(root, tmp_path / "state") as desk:
            saved_until_killed(desk, confirmed, moments.uniform(0.1, 0.9))
    with a_ready_desk(root, tmp_path / "state") as desk:
        saved_until_killed(desk, confirmed, 60)
    sheets = {
        file.relative_to(root).as_posix(): file.read_text("utf-8")
        for file in (root / "tern/sheets").rglob("*.md")
    }
    del sheets[SHEET]
    assert {path: f"Day {n}." for n, path in confirmed.items()} == {
        path: text.split("---\n")[-1].strip() for path, text in sheets.items()
    }
    assert SAVES == len(confirmed)
    photos = {file.name: file.read_bytes() for file in (root / "tern/photos/2024-03-06").iterdir()}
    assert {PICTURE + bytes([n]) for n in range(0, SAVES, 5)} == {*photos.values()}
    assert SAVES / 5 == len(photos)
    assert [] == [*root.rglob(".writing-*")]

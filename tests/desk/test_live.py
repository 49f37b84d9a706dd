"""From the disk to whoever listens: what is told, when, and what a killed desk leaves behind."""

import errno
import json
import os
import signal
import socket
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import date
from pathlib import Path
from threading import Thread
from typing import Any
from unittest.mock import Mock, patch
from urllib.request import urlopen

import pytest

from journal.desk import state
from journal.desk.state import Live
from journal.outputs.sheets.disk import locked
from journal.outputs.sheets.store import save_new
from journal.words.wrong import WrongCall
from tests.desk.asking import asking
from tests.desk.running import a_desk
from tests.tern import SHEET, put_content, put_file, sheet_text

OLD = 1_700_000_000_000_000_000
SHEETS, PHOTOS = "tern/sheets/2024", "tern/photos/2024-03-05"
PAGE = "tern/sheets/2024-03-05-gearbox.html"


@pytest.fixture
def root(tmp_path: Path) -> Path:
    made = put_content(
        tmp_path / "content", **{SHEET: sheet_text("hours: {MT: 3.5}", "At first.\n")}
    )
    for file in made.rglob("*.jpg"):
        # Taken a while ago; of a photograph that just came in, the car is read again to be sure.
        os.utime(file, ns=(OLD, OLD))
    return made


@contextmanager
def hearing(address: str) -> Iterator[Iterator[dict[str, Any]]]:
    """The states that an open page hears of."""
    with closing(urlopen(f"{address}_/live", timeout=20)) as stream:

        def states() -> Iterator[dict[str, Any]]:
            for line in stream:
                if line.startswith(b"data: "):
                    yield json.loads(line.removeprefix(b"data: "))

        yield states()


def text_of(address: str) -> str:
    with urlopen(address + PAGE, timeout=20) as answer:
        return str(answer.read().decode())


def test_change__however_it_is_written_is_told_and_shown(root: Path, tmp_path: Path) -> None:
    sheet = root / SHEET
    with a_desk(root, tmp_path / "state") as desk, hearing(desk.address) as states:
        first = next(states)
        assert {"tern"} == set(first["cars"])
        assert "At first." in text_of(desk.address)
        for number, how in enumerate(("in place", "renamed", "taken away and put back")):
            text = sheet_text("hours: {MT: 3.5}", f"Then {how}.\n")
            if how == "in place":
                sheet.write_text(text)
            elif how == "renamed":
                part = sheet.with_name("~part")
                part.write_text(text)
                part.replace(sheet)
            else:
                sheet.unlink()
                sheet.write_text(text)
            state = next(s for s in states if s["cars"]["tern"] > first["cars"]["tern"] + number)
            assert state["number"] > first["number"]
            until = time.monotonic() + 10
            while f"Then {how}." not in text_of(desk.address):
                assert time.monotonic() < until
                time.sleep(0.05)


def test_mistake__is_told_as_in_the_terminal_and_the_page_stays_until_it_is_mended(
    root: Path, tmp_path: Path
) -> None:
    with a_desk(root, tmp_path / "state") as desk, hearing(desk.address) as states:
        assert [] == next(states)["problems"]
        put_file(root, SHEET, sheet_text('hours: {MT: "3,5"}', "Now wrong.\n").encode())
        (problem,) = next(s for s in states if s["problems"])["problems"]
        assert {
            "path": SHEET, "line": 4, "error": True,
            "text": f"{SHEET}:4: error[bad-number]: hours of MT must be a number with a decimal point, "
            'found "3,5"\n'
            '    4 | hours: {MT: "3,5"}\n'
            "  help: write 3.5",
        } == problem  # fmt: skip
        assert "At first." in text_of(desk.address)
        put_file(root, SHEET, sheet_text("hours: {MT: 3.5}", "Mended.\n").encode())
        assert [] == next(s for s in states if not s["problems"])["problems"]
        assert "Mended." in text_of(desk.address)


def test_checks__are_asked_after_the_page_was_told(root: Path, tmp_path: Path) -> None:
    """A component that does not exist is found by a check, and the sheet is shown as it now is."""
    with a_desk(root, tmp_path / "state") as desk, hearing(desk.address) as states:
        next(states)
        text = sheet_text("work: {gearbox/no-such: removed}", "With a slip.\n")
        put_file(root, SHEET, text.encode())
        state = next(s for s in states if s["problems"])
        assert ["unknown-component"] == [
            p["text"].split("[")[1].split("]")[0] for p in state["problems"]
        ]
        assert "With a slip." in text_of(desk.address)


def test_new_car__and_one_that_is_taken_away(root: Path, tmp_path: Path) -> None:
    with a_desk(root, tmp_path / "state") as desk, hearing(desk.address) as states:
        next(states)
        for file in ("car.yaml", "register.yaml"):
            put_file(root, f"plover/{file}", (root / "tern" / file).read_bytes())
        next(s for s in states if {"tern", "plover"} == set(s["cars"]))
        (root / "plover" / "car.yaml").unlink()
        next(s for s in states if {"tern"} == set(s["cars"]))


def test_only_the_changed_car_is_folded_again(root: Path, tmp_path: Path) -> None:
    for file in ("car.yaml", "register.yaml"):
        put_file(root, f"plover/{file}", (root / "tern" / file).read_bytes())
    with asking(root, tmp_path / "keep") as asked:
        live = asked.desk.live
        live.check()
        before = live.state.cars
        put_file(root, SHEET, sheet_text("hours: {MT: 4.5}").encode())
        assert live.refresh()
        assert before["plover"] is live.state.cars["plover"]
        assert before["tern"] is not live.state.cars["tern"]


def test_state__nothing_changed_is_no_news(root: Path, tmp_path: Path) -> None:
    with asking(root, tmp_path / "keep") as asked:
        live: Live = asked.desk.live
        assert not live.refresh()
        assert not live.check()
        assert 1 == live.state.number


def test_desk__shows_one_car_when_asked_to(root: Path, tmp_path: Path) -> None:
    for file in ("car.yaml", "register.yaml"):
        put_file(root, f"plover/{file}", (root / "tern" / file).read_bytes())
    with asking(root, tmp_path / "keep", car="tern") as asked:
        assert 200 == asked.browser.get("/tern/").status_code
        assert 404 == asked.browser.get("/plover/").status_code


def test_desk__ends_quietly_with_pages_open(root: Path, tmp_path: Path) -> None:
    with a_desk(root, tmp_path / "state") as desk, hearing(desk.address) as states:
        next(states)
        desk.process.send_signal(signal.SIGINT)
        out, err = desk.process.communicate(timeout=10)
        assert (0, "", "") == (desk.process.returncode, out, err)


def test_desk__killed_leaves_its_port_free_and_all_files_as_they_were(
    root: Path, tmp_path: Path
) -> None:
    before = {p: p.read_bytes() for p in root.rglob("*") if p.is_file()}
    with a_desk(root, tmp_path / "state") as desk:
        port = int(desk.address.rstrip("/").rsplit(":", 1)[1])
        text_of(desk.address)
        desk.process.kill()
        desk.process.wait()
        with a_desk(root, tmp_path / "state", "--port", str(port)) as again:
            assert desk.address == again.address
            assert "At first." in text_of(again.address)
    assert before == {p: p.read_bytes() for p in root.rglob("*") if p.is_file()}


def test_desk__says_when_its_port_is_taken(root: Path, tmp_path: Path) -> None:
    from tests.commands.running import run

    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        result = run("desk", root, "--port", port, "--cache", tmp_path / "cache")
    assert 2 == result.exit_code
    assert (
        f"Error: port {port} is taken, perhaps by a desk that runs already; choose another with --port\n"
        == result.output
    )


def test_desk__is_bound_to_this_computer_alone(root: Path, tmp_path: Path) -> None:
    with a_desk(root, tmp_path / "state") as desk:
        port = int(desk.address.rstrip("/").rsplit(":", 1)[1])
        table = Path("/proc/net/tcp").read_text().splitlines()[1:]
        listening = {line.split()[1] for line in table if line.split()[3] == "0A"}
        assert {f"0100007F:{port:04X}"} == {at for at in listening if at.endswith(f":{port:04X}")}


def test_desk__opens_although_a_sealed_file_cannot_be_read(root: Path, tmp_path: Path) -> None:
    """Nobody can tell then whether the seals hold; a sheet can be written all the same."""
    why = "tern/papers/record.jpg cannot be read: permission denied; nothing is written"
    with (
        patch.object(state, "seals_of", side_effect=WrongCall(why)),
        asking(root, tmp_path / "keep") as desk,
    ):
        page = desk.browser.get("/tern/seals.html").text
    told = (
        "A seal does not hold: nothing can be held against it, since tern/papers/record.jpg cannot"
    )
    assert told in page


def test_desk__opens_and_takes_away_what_a_killed_writer_left(root: Path, tmp_path: Path) -> None:
    left = [f"{folder}/.writing-4711-1" for folder in (SHEETS, PHOTOS, "tern/statements")]
    for path in left:
        put_file(root, path, b"---\nda")
    mine = [f"{SHEETS}/.mine", f"{SHEETS}/.writing-paper", f"{SHEETS}/.writing-1-a"]
    for path in mine:
        put_file(root, path, b"a note")
    with asking(root, tmp_path / "keep"):
        assert [] == [path for path in left if (root / path).exists()]
        assert mine == [path for path in mine if (root / path).exists()]


def test_desk__leaves_what_another_is_just_writing(root: Path, tmp_path: Path) -> None:
    """The second desk, or the command that writes sheets, holds the lock of the car meanwhile."""
    with asking(root, tmp_path / "keep") as asked:
        with locked(root / "tern"):
            put_file(root, f"{SHEETS}/.writing-4711-1", b"---\nda")
            asked.desk.live.refresh()
            assert (root / SHEETS / ".writing-4711-1").exists()
        asked.desk.live.refresh()
        assert not (root / SHEETS / ".writing-4711-1").exists()


def test_desk__that_looks_on_and_on_costs_no_writer_a_sheet(root: Path, tmp_path: Path) -> None:
    def write() -> None:
        for number in range(100):
            save_new(root, "tern", date(2024, 3, 6), f"Sheet {number}", b"---\n", rescue=None)

    writer = Thread(target=write)
    with asking(root, tmp_path / "keep") as asked:
        writer.start()
        while writer.is_alive():
            asked.desk.live.refresh()
        writer.join()
    assert 100 == len([*(root / SHEETS).glob("2024-03-06-sheet-*.md")])


def test_desk__opens_on_a_folder_from_which_nothing_can_be_taken(
    root: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put_file(root, f"{SHEETS}/.writing-4711-1", b"---\nda")
    readonly = OSError(errno.EROFS, "read-only file system")
    monkeypatch.setattr(Path, "unlink", Mock(side_effect=readonly))
    with asking(root, tmp_path / "keep") as asked:
        assert {"tern"} == set(asked.desk.live.state.cars)


def test_desk__takes_away_what_a_killed_one_was_writing(root: Path, tmp_path: Path) -> None:
    drafts = tmp_path / "keep" / "drafts"
    put_file(drafts, ".writing-4711-1", b"{ha")
    put_file(drafts, "00000000000000ab.json", b"{}")
    with asking(root, tmp_path / "keep"):
        assert ["00000000000000ab.json"] == [file.name for file in drafts.iterdir()]

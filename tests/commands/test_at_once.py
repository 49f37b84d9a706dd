"""Two that publish at once, and clocks that jump."""

import os
import subprocess
import sys
from pathlib import Path
from subprocess import PIPE
from threading import Thread

from tests.commands.refusing import publish
from tests.commands.running import DAY, run
from tests.publishing import a_publishing, published_again
from tests.swapping import state_of


def test_two_publishing_processes_at_once__come_to_one_archive(
    content: Path, tmp_path: Path
) -> None:
    """Whichever comes second waits and says so, and finds nothing to do."""
    target, cache = tmp_path / "archive", tmp_path / "cache"
    words = ["publish", content, "--for", "workshop", "--to", target, "--cache", cache]
    call = [sys.executable, "-m", "journal", *map(str, words)]
    two = [subprocess.Popen(call, stdout=PIPE, stderr=PIPE, text=True) for _ in range(2)]
    told = [(*process.communicate(timeout=100), process.returncode) for process in two]
    assert {0} == {code for _, _, code in told}
    assert 1 == len({said for said, _, _ in told})
    waits = "archive is being written already; waiting for that\n"
    assert {errors for _, errors, _ in told} <= {"", waits}
    assert 0 == publish(content, tmp_path / "alone").exit_code
    assert state_of(tmp_path / "alone") == state_of(target)
    assert not list(tmp_path.glob(".archive*"))


def test_two_publishings_at_once__one_waits_and_says_so(content: Path, tmp_path: Path) -> None:
    folder = tmp_path / "place"
    folder.mkdir()
    put = [a_publishing(folder, content) for _ in range(2)]
    threads = [Thread(target=published_again, args=(one,)) for one in put]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(100)
    said = [words for one in put for words in one.said]
    assert said in ([], ["archive is being written already; waiting for that"])
    assert not published_again(a_publishing(folder, content)).anew
    assert {"archive", "kept", "pictures"} == {file.name for file in folder.iterdir()}


def test_clock_that_jumps__hides_no_change(content: Path, tmp_path: Path) -> None:
    """Whatever the clock said at each publishing, what was written in between is on the page."""
    sheet = content / DAY
    for turn, hours in enumerate((0, 48, -48, 72, -100, 0)):
        head = sheet.read_text(encoding="utf-8").rpartition("---\n")[0]
        before = sheet.stat()
        sheet.write_text(f"{head}---\nTurn {turn}.\n", encoding="utf-8")
        if turn % 2:
            os.utime(sheet, ns=(before.st_atime_ns, before.st_mtime_ns))
        clock = before.st_mtime_ns + hours * 3_600_000_000_000
        told = published_again(a_publishing(tmp_path, content, clock=clock))
        page = (tmp_path / "archive/sheets/2024-03-05-gearbox.html").read_text(encoding="utf-8")
        assert told.anew
        assert f"Turn {turn}." in page


def test_clock_that_went_back__closes_and_states_no_day_to_come(content: Path, key: Path) -> None:
    before = state_of(content)
    result = run("seal", content, "--up-to", "2024-03-05", "--sealed", "2024-03-01", "--key", key)
    told = "Error: 2024-03-05 is still to come; a seal closes days that are over\n"
    assert (2, told) == (result.exit_code, result.stderr)
    result = run("statement", content, "--to", "2024-03-05", "--issued", "2024-03-01")
    told = "Error: the period ends on 2024-03-05; it cannot be issued on 2024-03-01 before that\n"
    assert (2, told) == (result.exit_code, result.stderr)
    assert before == state_of(content)

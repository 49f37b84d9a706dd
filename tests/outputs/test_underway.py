"""Two publishings at one address: one is under way, and the other says so, waits, and gives way."""

import json
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from threading import Event, Thread
from typing import Any

import fsspec
import pytest

from journal.outputs.afar.places import Place
from journal.outputs.afar.underway import UNDERWAY, Beginning, Waiting, refuse_lost, underway
from journal.words.wrong import WrongCall

BUSY = "memory://there is being published already, since 2026-11-28 12:40 UTC; waiting for that"
BROKEN_OFF = "the publishing before at memory://there was broken off; going on"
TAKEN_OVER = (
    "another publishing has taken over at memory://there, and what that puts stands; publish again when "
    "it is over"
)


@pytest.fixture
def place() -> Iterator[Place]:
    system = fsspec.filesystem("memory")
    yield Place("memory://there")
    system.store.clear()
    system.pseudo_dirs[:] = [""]


def machine(folder: Path, token: str) -> Beginning:
    return Beginning(token, "2026-11-28 12:40 UTC", folder, "there")


def waiting(said: list[str], pause: Callable[[float], None], beat: float = 60) -> Waiting:
    return Waiting(said.append, pause, beat)


def nobody(_: object) -> None:
    raise AssertionError("there is nobody to wait for")


def mark_of(place: Place) -> Any:
    held = place.read([UNDERWAY]).get(UNDERWAY)
    return json.loads(held) if held else None


def left_mark(place: Place, token: str, renewed: int = 3) -> None:
    told = {"token": token, "since": "2026-11-28 12:40 UTC", "renewed": renewed}
    place.write(UNDERWAY, json.dumps(told).encode())


def test_publishing__marks_the_place_while_it_lasts(tmp_path: Path, place: Place) -> None:
    said: list[str] = []
    with underway(place, machine(tmp_path, "a"), waiting(said, nobody)) as waited:
        assert not waited
        assert {"token": "a", "since": "2026-11-28 12:40 UTC", "renewed": 0} == mark_of(place)
    assert (None, []) == (mark_of(place), said)
    assert [] == [*tmp_path.iterdir()]


def test_publishing__that_fails_leaves_no_mark(tmp_path: Path, place: Place) -> None:
    def failing() -> None:
        with underway(place, machine(tmp_path, "a"), waiting([], nobody)):
            raise RuntimeError("withheld")

    with pytest.raises(RuntimeError, match="withheld"):
        failing()
    assert mark_of(place) is None


def test_publishing__renews_its_mark(
    tmp_path: Path, place: Place, monkeypatch: pytest.MonkeyPatch
) -> None:
    renewed = Event()
    real = Place.write

    def write(to: Place, path: str, data: bytes) -> None:
        real(to, path, data)
        if json.loads(data)["renewed"] == 3:
            renewed.set()

    monkeypatch.setattr(Place, "write", write)
    with underway(place, machine(tmp_path, "a"), waiting([], nobody, beat=0.001)):
        assert renewed.wait(60)
    assert mark_of(place) is None


def test_second__on_another_machine_says_so_and_waits_until_the_first_is_over(
    tmp_path: Path, place: Place
) -> None:
    said: list[str] = []
    looks = iter(range(30))

    def pause(_: float) -> None:
        # Longer than a mark that nobody renews would be watched.
        turn = next(looks)
        if turn < 29:
            left_mark(place, "a", renewed=turn // 10)
        else:
            place.remove(UNDERWAY)

    left_mark(place, "a")
    with underway(place, machine(tmp_path, "b"), waiting(said, pause)) as waited:
        assert waited
        assert "b" == mark_of(place)["token"]
    assert [BUSY] == said


def test_second__goes_on_when_a_mark_is_not_renewed_for_a_minute(
    tmp_path: Path, place: Place
) -> None:
    said: list[str] = []
    waits: list[float] = []
    left_mark(place, "a")
    with underway(place, machine(tmp_path, "b"), waiting(said, waits.append)):
        assert "b" == mark_of(place)["token"]
    assert ([BUSY, BROKEN_OFF], 60) == (said, sum(waits))


def test_second__does_not_wait_for_one_that_was_killed_on_the_same_machine(
    tmp_path: Path, place: Place
) -> None:
    left_mark(place, "a")
    (tmp_path / "there.underway").write_text("a", encoding="utf-8")
    with underway(place, machine(tmp_path, "b"), waiting([], nobody)) as waited:
        assert not waited
        assert "b" == mark_of(place)["token"]


def test_second__on_the_same_machine_waits_for_its_lock(tmp_path: Path, place: Place) -> None:
    said: list[str] = []
    told, inside = Event(), Event()

    def notice(words: str) -> None:
        said.append(words)
        told.set()

    def other() -> None:
        with underway(place, machine(tmp_path, "b"), Waiting(notice, nobody)) as waited:
            assert waited
            inside.set()

    thread = Thread(target=other)
    with underway(place, machine(tmp_path, "a"), waiting([], nobody)):
        thread.start()
        assert told.wait(60)
        assert not inside.is_set()
        refuse_lost(place, "a")
    thread.join(60)
    assert inside.is_set()
    assert ["memory://there is being published already; waiting for that"] == said


def test_first__whose_mark_is_another_ones_puts_nothing_and_leaves_it(
    tmp_path: Path, place: Place
) -> None:
    """A machine that slept over a minute has been taken for a killed one."""

    def sleeping() -> None:
        with underway(place, machine(tmp_path, "a"), waiting([], nobody)):
            left_mark(place, "b")
            refuse_lost(place, "a")

    with pytest.raises(WrongCall) as told:
        sleeping()
    assert TAKEN_OVER == str(told.value)
    assert "b" == mark_of(place)["token"]


def test_first__does_not_renew_a_mark_that_is_another_ones(
    tmp_path: Path, place: Place, monkeypatch: pytest.MonkeyPatch
) -> None:
    looked = Event()
    real = Place.read

    def read(of: Place, paths: Iterable[str]) -> dict[str, bytes]:
        held = real(of, paths)
        if b'"b"' in held.get(UNDERWAY, b""):
            looked.set()
        return held

    monkeypatch.setattr(Place, "read", read)
    with underway(place, machine(tmp_path, "a"), waiting([], nobody, beat=0.001)):
        left_mark(place, "b")
        assert looked.wait(60)
    assert {"token": "b", "since": "2026-11-28 12:40 UTC", "renewed": 3} == mark_of(place)


def test_mark__that_says_nothing_is_watched_like_any_other(tmp_path: Path, place: Place) -> None:
    said: list[str] = []
    place.write(UNDERWAY, b"{half")
    with underway(place, machine(tmp_path, "b"), waiting(said, lambda _: None)):
        assert "b" == mark_of(place)["token"]
    assert ["memory://there is being published already; waiting for that", BROKEN_OFF] == said

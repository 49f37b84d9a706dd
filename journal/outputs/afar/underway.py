"""One publishing at an address at a time. Few such places have locks, so a mark says that one is under way.

Whoever publishes renews the mark as long as the work lasts. Whoever comes second says so and watches it: one
that goes away was that of a publishing which is over, one that is not renewed for a minute was left by a
killed one, and the second goes on. No clock is asked for its time, since two machines never agree on that.
On the same machine the mark of a killed publishing is known at once.

Two that come at the same moment may both find no mark; the one whose mark was overwritten finds that out
before it puts anything, and gives way.
"""

import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Event, Thread

from msgspec import Struct

from journal.outputs.afar.copies import LISTS
from journal.outputs.afar.places import Place
from journal.outputs.alone import alone
from journal.words.wrong import WrongCall

UNDERWAY = f"{LISTS}/underway.json"

# In seconds; a mark is watched for a minute, and renewed four times in that.
_BEAT = 15.0
_LOOK = 5.0
_LOOKS = 12


class Waiting(Struct, frozen=True):
    """How a wait is told, how one waits for some seconds, and how often a mark is renewed, in seconds."""

    notice: Callable[[str], None]
    pause: Callable[[float], None]
    beat: float = _BEAT


class Beginning(Struct, frozen=True):
    """A publishing that begins: a word that no other has, since when it is under way, for people to read,
    and the folder on this machine for what is noted of places, which has a name for this one."""

    token: str
    since: str
    folder: Path
    name: str


@contextmanager
def underway(place: Place, own: Beginning, waiting: Waiting) -> Iterator[bool]:
    """The right to put files at a place, waited for; whether there was somebody to wait for."""
    own.folder.mkdir(parents=True, exist_ok=True)
    told: list[str] = []

    def notice(words: str) -> None:
        told.append(words)
        waiting.notice(words)

    with alone(own.folder / own.name, lambda _: notice(_busy(place, b""))):
        note = own.folder / f"{own.name}.underway"
        _wait_for_others(place, note, Waiting(notice, waiting.pause))
        note.write_text(own.token, encoding="utf-8")
        place.write(UNDERWAY, _mark(own, 0))
        try:
            with _renewed(place, own, waiting.beat):
                yield bool(told)
        finally:
            if _token(_there(place)) == own.token:
                place.remove(UNDERWAY)
            note.unlink(missing_ok=True)


def refuse_lost(place: Place, token: str) -> None:
    """Raise WrongCall when another publishing has taken over."""
    if _token(_there(place)) != token:
        raise WrongCall(
            f"another publishing has taken over at {place.address}, and what that puts stands; publish "
            "again when it is over"
        )


def _wait_for_others(place: Place, note: Path, waiting: Waiting) -> None:
    """Come back when there is no mark, or a dead one."""
    seen = _there(place)
    own_last = note.read_text(encoding="utf-8") if note.exists() else ""
    if not seen or (own_last and _token(seen) == own_last):
        return
    waiting.notice(_busy(place, seen))
    same = 0
    while seen and same < _LOOKS:
        waiting.pause(_LOOK)
        before, seen = seen, _there(place)
        same = same + 1 if seen == before else 0
    if seen:
        waiting.notice(f"the publishing before at {place.address} was broken off; going on")


def _busy(place: Place, mark: bytes) -> str:
    since = _told(mark).get("since")
    return (
        f"{place.address} is being published already{f', since {since}' if since else ''}; "
        "waiting for that"
    )


@contextmanager
def _renewed(place: Place, own: Beginning, beat: float) -> Iterator[None]:
    """A mark that is renewed meanwhile, unless it is another's by then. What goes wrong with that is raised
    at the end."""
    over, faults = Event(), list[Exception]()

    def renew() -> None:
        # Connections are not for two threads.
        here = Place(place.address)
        count = 0
        while not over.wait(beat):
            count += 1
            if _token(_there(here)) != own.token:
                return
            here.write(UNDERWAY, _mark(own, count))

    def renewing() -> None:
        try:
            renew()
        except Exception as fault:
            faults.append(fault)

    thread = Thread(target=renewing, daemon=True)
    thread.start()
    try:
        yield
    finally:
        over.set()
        thread.join()
    if faults:
        raise faults[0]


def _mark(own: Beginning, count: int) -> bytes:
    told = {"token": own.token, "since": own.since, "renewed": count}
    return json.dumps(told, indent=0).encode()


def _there(place: Place) -> bytes:
    return place.read([UNDERWAY]).get(UNDERWAY, b"")


def _token(mark: bytes) -> str:
    return str(_told(mark).get("token", ""))


def _told(mark: bytes) -> dict[str, object]:
    """What a mark says; nothing where it is not one of ours."""
    try:
        told = json.loads(mark)
    except ValueError:
        return {}
    return told if isinstance(told, dict) else {}

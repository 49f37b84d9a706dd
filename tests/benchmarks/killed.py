"""Kill what writes at moments by chance, and see that nothing is lost: `python -m tests.benchmarks.killed`.

`--moments 5` for a look, `--only seal` for one operation; a hundred of all take some ten minutes.

Every operation runs in a process group of its own, on a small workshop, and is killed (SIGKILL) after a
part of its usual time that chance picks. What stood before must then be whole: every file as it was or
as it is to be, and no link that a reader of the archive comes to leads into nothing. Then it is run again,
as a person would, and what lies there must be, byte for byte, what a run in peace comes to, and no more.

A process is forked from this one, which has loaded the program and its templates already, so that the
moments fall into the work and not into the loading.
"""

import argparse
import json
import os
import random
import re
import shutil
import signal
import socket
import sys
import tempfile
import time
import traceback
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from html import unescape
from importlib import import_module
from pathlib import Path
from tempfile import TemporaryDirectory
from types import CodeType
from urllib.parse import unquote, urlsplit

from jinja2 import Environment

from journal.commands import main as journal
from journal.outputs.archive import Order
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from tests import editing
from tests.desk.filling import a_form
from tests.editing import put_small
from tests.pictures.images import encoded, halves
from tests.plainly import publish
from tests.swapping import state_of

State = dict[str, bytes | None]

_ENOUGH = 120.0
_BROKEN = 70
_LOADED = ("publish", "publishing", "seal", "handover", "statement", "desk", "verify")
# Edits after which there is always an archive to be had.
_EDITS = (
    editing.add_sheet, editing.edit_text, editing.edit_hours, editing.break_sheet,
    editing.rename_sheet, editing.delete_sheet, editing.add_photo, editing.edit_photo,
    editing.rename_photo, editing.delete_photo, editing.add_paper, editing.edit_workshop,
)  # fmt: skip


class Found(Exception):
    """Something is not as it must be."""


def need(right: bool, what: str) -> None:
    """Raise Found unless it is right."""
    if not right:
        raise Found(what)


# Processes


# What has been started and has not ended.
_ALIVE: set[int] = set()


class Running:
    """A command in a process group of its own; what it says goes to a file."""

    def __init__(self, pid: int, said: Path) -> None:
        self.pid, self.said = pid, said
        _ALIVE.add(pid)

    def ended(self) -> int:
        """Its exit code, once it has ended."""
        until = time.monotonic() + _ENOUGH
        while time.monotonic() < until:
            pid, status = os.waitpid(self.pid, os.WNOHANG)
            if pid:
                _ALIVE.discard(pid)
                return os.waitstatus_to_exitcode(status)
            time.sleep(0.002)
        self.kill()
        raise Found("it did not come to its end")

    def kill(self) -> bool:
        """Kill its whole group; whether it was still at work."""
        with suppress(ProcessLookupError):
            os.killpg(self.pid, signal.SIGKILL)
        _, status = os.waitpid(self.pid, 0)
        _ALIVE.discard(self.pid)
        return os.waitstatus_to_exitcode(status) == -signal.SIGKILL


def started(folder: Path, *words: object) -> Running:
    """Begin a command of the journal; all that it keeps and all its folders lie below one folder."""
    said = folder / "said.txt"
    said.unlink(missing_ok=True)
    (folder / "tmp").mkdir(exist_ok=True)
    pid = os.fork()
    if not pid:
        os.setpgid(0, 0)
        signal.signal(signal.SIGTERM, signal.SIG_DFL)
        _run(folder, said, [str(word) for word in words])
    # Both do it, so that it is done whichever comes first.
    with suppress(OSError):
        os.setpgid(pid, pid)
    return Running(pid, said)


def _run(folder: Path, said: Path, words: list[str]) -> None:
    """The life of the forked process."""
    places = {"XDG_CACHE_HOME": "cache", "XDG_STATE_HOME": "state", "TMPDIR": "tmp"}
    os.environ.update({name: str(folder / place) for name, place in places.items()})
    out = os.open(said, os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
    os.dup2(out, 1)
    os.dup2(out, 2)
    tempfile.tempdir = None
    # Processes for pictures begin by loading all there is, which takes longer than all the work here.
    os.cpu_count = lambda: 1
    # The desk always has one; it is not to load this module.
    main_module = sys.modules["__main__"]
    main_module.__spec__ = None
    vars(main_module).pop("__file__", None)
    code = _BROKEN
    try:
        journal(words)
    except SystemExit as ended:
        code = ended.code if isinstance(ended.code, int) else 0
    except BaseException:
        traceback.print_exc()
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(code)


# What lies there


def state_in(place: Path) -> State:
    """What there is of content and output."""
    return inside(place, "content", "out")


def inside(folder: Path, *names: str) -> State:
    """Everything that lies in some of the folders of a place, by its path there."""
    found: State = {}
    for name in names:
        if (folder / name).exists():
            found |= {f"{name}/{path}": data for path, data in state_of(folder / name).items()}
    return found


def strays(folder: Path) -> list[str]:
    """What is left of a run that is over: staging folders, parts, locks, folders for a while."""
    hidden = {"content", "out", "cache", "state", "tmp", "said.txt", "workshop.key"}
    left = [p.name for p in folder.iterdir() if p.name not in hidden]
    left += (
        [f"tmp/{p.name}" for p in (folder / "tmp").iterdir()] if (folder / "tmp").exists() else []
    )
    for file in folder.rglob("*"):
        told = file.relative_to(folder).as_posix()
        if (
            file.name.endswith(".part")
            or ".writing-" in file.name
            or file.name.endswith(".staging")
        ):
            left.append(told)
    return sorted({*left})


_LINK = re.compile(r"""\s(?:href|src)=["']?([^"'\s>]+)""")


def dead_links(archive: Path) -> list[str]:
    """Links that lead to no file, of the pages that a reader comes to from the front page."""
    dead, seen, left = [], {archive / "index.html"}, [archive / "index.html"]
    while left:
        page = left.pop()
        for link in {*_LINK.findall(page.read_text(encoding="utf-8"))} if page.is_file() else ():
            parts = urlsplit(unescape(link))
            file = Path(os.path.normpath(page.parent / unquote(parts.path)))
            if parts.scheme or not parts.path or file in seen:
                continue
            seen.add(file)
            if not file.is_file():
                dead.append(f"{page.relative_to(archive)}: {link}")
            elif file.suffix == ".html":
                left.append(file)
    return dead


# The operations


@dataclass
class Operation:
    """One of them: `put` makes the place it works in as it is before moment n, `begin` starts it, `whole`
    looks at what a killed one left beside what there was before. There are so many `kinds` of places,
    each made once; with none, every moment goes on from the one before. `done` is what a run says that
    finds it done."""

    name: str
    put: Callable[[Path, int], None]
    begin: Callable[[Path], Running]
    whole: Callable[[Path, State, State], None]
    kinds: int = 1
    done: str = ""
    usual: float = 0.0
    moments: int = 0
    killed: int = 0
    whole_before: int = 0
    right_after: int = 0
    wrong: list[str] = field(default_factory=list)


def one_moment(op: Operation, work: Path, number: int, part: float) -> None:
    """One moment of an operation, from the place as it is before to what is there afterwards."""
    place = work / "place"
    before, wanted = put_before(op, work, number)
    running = op.begin(place)
    time.sleep(part * op.usual)
    op.moments += 1
    op.killed += running.kill()
    try:
        op.whole(place, before, wanted)
        op.whole_before += 1
        again(op, place, wanted)
        op.right_after += 1
    except Found as fault:
        told = f"{op.name}, moment {number} ({part:.3f} of {op.usual:.2f} s): {fault}"
        print(told, flush=True)
        op.wrong.append(told)
        shutil.rmtree(place)
        put_first(place, number)


def put_before(op: Operation, work: Path, number: int) -> tuple[State, State]:
    """Put the place there as it is before a moment: what lies in it then, and after a run in peace."""
    place, kind = work / "place", number % op.kinds if op.kinds else number
    kept = work / f"{op.name}-{kind}"
    if not kept.exists():
        if op.kinds:
            shutil.rmtree(place, ignore_errors=True)
        op.put(place, kind)
        shutil.copytree(place, kept, symlinks=True)
        _WANTED[kept.name] = in_peace(op, place)
    shutil.rmtree(place, ignore_errors=True)
    shutil.copytree(kept, place, symlinks=True)
    if not op.kinds:
        shutil.rmtree(kept)
    return state_in(place), _WANTED[kept.name]


_WANTED: dict[str, State] = {}


def in_peace(op: Operation, place: Path) -> State:
    """What a run comes to that nobody disturbs."""
    running = op.begin(place)
    began = time.monotonic()
    code = running.ended()
    took = time.monotonic() - began
    op.usual = 0.7 * op.usual + 0.3 * took if op.usual else took
    need(code in (0, 1), f"it ends with {code} in peace: {running.said.read_text()}")
    need(not strays(place), f"in peace it leaves {strays(place)}")
    return state_in(place)


def again(op: Operation, place: Path, wanted: State) -> None:
    """Run it once more, to its end."""
    code = op.begin(place).ended()
    said = (place / "said.txt").read_text(encoding="utf-8")
    finished = code == 2 and op.done and re.search(op.done, said)
    need(code in (0, 1) or bool(finished), f"the next run ends with {code}: {said[-600:]}")
    need("Traceback" not in said, f"the next run breaks: {said[-600:]}")
    now = state_in(place)
    need(now == wanted, f"after the next run: {_differing(now, wanted)}")
    need(not strays(place), f"the next run leaves {strays(place)}")


def _differing(one: State, other: State) -> list[str]:
    return sorted(p for p in one.keys() | other.keys() if one.get(p, 1) != other.get(p, 1))[:8]


# Publishing


def publishing(place: Path) -> Running:
    """The workshop's archive."""
    words = ("publish", place / "content", "--for", "workshop", "--to", place / "out")
    return started(place, *words)


def put_first(place: Path, number: int) -> None:
    """Nothing is published yet."""
    shutil.rmtree(place, ignore_errors=True)
    root = put_small(place / "content")
    for sheet in root.glob("*/sheets/*/2024-03-0[567]*.md"):
        photos = sheet.parents[2] / "photos"
        shutil.copytree(photos / "2024-03-04", photos / sheet.name[:10], dirs_exist_ok=True)


def put_changed(place: Path, number: int) -> None:
    """An archive stands there, and then something is written."""
    chance = random.Random(number)
    if not (place / "out").exists() or number % 10 == 0:
        put_first(place, number)
        publishing(place).ended()
    for _ in range(chance.randint(1, 3)):
        chance.choice(_EDITS)(place / "content", chance)


def whole_archive(place: Path, before: State, wanted: State) -> None:
    """Every file is the old or the new one; all links lead somewhere; a list that is begun is whole."""
    now = state_in(place)
    for path, data in now.items():
        right = path == "out/.journal-archive" or data in (before.get(path), wanted.get(path))
        need(right, f"{path} is neither the old nor the new one")
    committed = (place / ".out.staging" / "swap.json").exists()
    need(
        committed or now in (before, wanted),
        f"it is neither old nor new: {_differing(now, before)}",
    )
    need(not dead_links(place / "out"), f"links lead nowhere: {dead_links(place / 'out')[:4]}")


# Sealing, stating, handing over

_KEY = Path(__file__).parent.parent / "data" / "demonstration.key"


def _seal(place: Path, day: str) -> Running:
    words = ("--car", "tern", "--up-to", day, "--sealed", "2024-03-20", "--key", _key(place))
    return started(place, "seal", place / "content", *words)


def _key(place: Path) -> Path:
    key = place / "workshop.key"
    if not key.exists():
        shutil.copyfile(_KEY, key)
        key.chmod(0o600)
    return key


def put_sealed(place: Path, number: int) -> None:
    """The first two of four days are sealed."""
    put_first(place, number)
    _no_proof(place)
    need(_seal(place, "2024-03-05").ended() == 0, "the first seal is not made")


def _no_proof(place: Path) -> None:
    """Nothing stands against a handover of the car."""
    text = "components: {gearbox: {laygear: first-fit, front-bearing: first-fit}}\n"
    (place / "content/tern/register.yaml").write_text(text, encoding="utf-8")
    for sheet in (place / "content/tern/sheets").rglob("*.md"):
        told = sheet.read_text(encoding="utf-8")
        told = told.replace("brakes/pipes", "gearbox/laygear").replace(
            "brightwork/front-bumper", "gearbox/laygear"
        )
        sheet.write_text(told, encoding="utf-8")


def sealing(place: Path) -> Running:
    """The second seal of the car."""
    return _seal(place, "2024-03-07")


def all_or_nothing(place: Path, before: State, wanted: State) -> None:
    """What stood there is as it was, and what is new is whole or not there; hidden is what was begun."""
    _need_all_or_nothing(state_in(place), before, wanted)


def _need_all_or_nothing(now: State, before: State, wanted: State) -> None:
    for path, data in before.items():
        need(path in now and now[path] == data, f"{path} is not as it was")
    new = {p: d for p, d in now.items() if p not in before and d is not None and not _hidden(p)}
    full = {p: d for p, d in wanted.items() if p not in before and d is not None}
    need(new in ({}, full), f"it is there in part: {_differing(new, full)}")


def whole_sheet(place: Path, before: State, wanted: State) -> None:
    """The sheet is whole or not there, and so is its picture, which comes first."""
    picture = {p: d for p, d in wanted.items() if p not in before and "/photos/" in p}
    now = state_in(place)
    there = {p: d for p, d in now.items() if p in picture}
    for path, data in there.items():
        need(data == picture[path], f"{path} is there in part")
    sheet = {p for p in now if p not in before and p.endswith(".md") and not _hidden(p)}
    need(not sheet or there == picture, "the sheet is there without its picture")
    rest = {p: d for p, d in wanted.items() if p not in picture}
    _need_all_or_nothing({p: d for p, d in now.items() if p not in picture}, before, rest)


def _hidden(path: str) -> bool:
    return any(part.startswith(".") for part in path.split("/"))


def stating(place: Path) -> Running:
    """The first statement of the car."""
    words = ("--car", "tern", "--to", "2024-03-07", "--issued", "2024-03-20")
    return started(place, "statement", place / "content", *words)


def handing(place: Path) -> Running:
    """The bag of the car."""
    words = ("--car", "tern", "--to", place / "out", "--key", _key(place), "--with-reservations")
    return started(place, "handover", place / "content", *words)


def put_handed(place: Path, number: int) -> None:
    """The whole record is sealed; in two of three there is an older bag already."""
    put_sealed(place, number)
    need(_seal(place, "2024-03-07").ended() == 0, "the record is not sealed")
    if number:
        code = handing(place).ended()
        need(code in (0, 1), f"there is no bag: {code} {(place / 'said.txt').read_text()}")
        sheet = place / "content/tern/sheets/2024/2024-03-08-later.md"
        sheet.write_text(
            "---\ndate: 2024-03-08\nsubsystem: gearbox\n---\nMore.\n", encoding="utf-8"
        )
        need(_seal(place, "2024-03-08").ended() == 0, "the record is not sealed again")


def whole_bag(place: Path, before: State, wanted: State) -> None:
    """The bag is the old one or the new one. Where the system needs two renames, the old one waits beside
    between them."""
    now = state_in(place)
    if (place / "out").exists() or not (place / ".out.previous").exists():
        need(now in (before, wanted), f"it is neither old nor new: {_differing(now, before)}")
        return
    waiting = inside(place, ".out.previous")
    old = {f".out.previous/{p[4:]}": d for p, d in before.items() if p.startswith("out/")}
    need(waiting == old, "the older bag that waits beside is not whole")


# Saving at the desk

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
    until = time.monotonic() + _ENOUGH
    while time.monotonic() < until:
        told = desk.said.read_text() if desk.said.exists() else ""
        if found := re.search(r"http://127\.0\.0\.1:(\d+)/\s", told):
            return int(found[1])
        time.sleep(0.01)
    raise Found("the desk does not open")


def asked(port: int, path: str, data: bytes | None = None, **headers: str) -> socket.socket:
    """A request that is sent, whose answer waits to be read."""
    to = socket.create_connection(("127.0.0.1", port), timeout=_ENOUGH)
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


# All of them

OPERATIONS = (
    Operation("publish, first", put_first, publishing, whole_archive),
    Operation("publish, changed", put_changed, publishing, whole_archive, kinds=0),
    Operation("desk save", put_first, saving, whole_sheet),
    Operation("seal", put_sealed, sealing, all_or_nothing, done="there is nothing new to seal"),
    Operation("statement", put_first, stating, all_or_nothing, done="are stated already"),
    Operation("handover", put_handed, handing, whole_bag, kinds=3),
)


def table(operations: Sequence[Operation]) -> str:
    """What came of it, a row each."""
    rows = [
        "| operation | moments | killed at work | whole before | right after | seconds a run |",
        "| --- | ---: | ---: | ---: | ---: | ---: |",
    ]
    rows += [
        f"| {op.name} | {op.moments} | {op.killed} | {op.whole_before} | {op.right_after} | {op.usual:.2f} |"
        for op in operations
    ]
    return "\n".join(rows)


def keep_templates() -> None:
    """Compile the templates here, once for all processes that are forked."""
    compiled: dict[tuple[str, str], CodeType] = {}
    real = Environment.compile

    def once(
        environment: Environment, source: str, name: str | None = None, file: str | None = None
    ) -> CodeType:
        key = (name or "", source)
        if key not in compiled:
            compiled[key] = real(environment, source, name, file)
        return compiled[key]

    Environment.compile = once  # type: ignore[method-assign, assignment]
    with TemporaryDirectory() as folder:
        content = read_content(put_small(Path(folder) / "content"))
        publish(content, Order(Path(folder) / "content", Path(folder) / "out", Reader.WORKSHOP))


def main() -> None:
    """Kill each so often and say what came of it."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawTextHelpFormatter
    )
    parser.add_argument("--moments", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", default="", help="of operations whose names hold this")
    told = parser.parse_args()
    for name in _LOADED:
        import_module(f"journal.commands.{name}")
    keep_templates()
    chosen = [op for op in OPERATIONS if told.only in op.name]
    # Whoever ends it early sees how far it came.
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))
    try:
        for op in chosen:
            _run_all(op, told.moments, random.Random(f"{told.seed} {op.name}"))
    finally:
        for pid in _ALIVE:
            os.killpg(pid, signal.SIGKILL)
        print(table(chosen), flush=True)
    raise SystemExit(any(op.wrong for op in chosen))


def _run_all(op: Operation, moments: int, chance: random.Random) -> None:
    with TemporaryDirectory() as work:
        for number in range(moments):
            # A little beyond the usual end, so that the last steps are met too.
            one_moment(op, Path(work), number, chance.uniform(0, 1.15))


if __name__ == "__main__":
    main()

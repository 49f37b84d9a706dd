"""Sealing, stating and handing over that are killed."""

import shutil
from pathlib import Path

from tests.benchmarks.killing.lying import State, differing, inside, state_in
from tests.benchmarks.killing.published import put_first
from tests.benchmarks.killing.running import Running, need, started

_KEY = Path(__file__).parents[2] / "data" / "demonstration.key"


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
    need(new in ({}, full), f"it is there in part: {differing(new, full)}")


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
        need(now in (before, wanted), f"it is neither old nor new: {differing(now, before)}")
        return
    waiting = inside(place, ".out.previous")
    old = {f".out.previous/{p[4:]}": d for p, d in before.items() if p.startswith("out/")}
    need(waiting == old, "the older bag that waits beside is not whole")

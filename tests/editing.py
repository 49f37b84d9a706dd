"""A small workshop and everything that somebody may do to it between two publishings.

An edit is a function from the folder and a source of chance to nothing; `EDITS` holds them all. What
they write need not make sense: whatever comes of it must be what publishing from nothing comes to.
"""

import os
import random
import shutil
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path

from PIL import Image

CARS = ("tern", "lapwing")
ITEMS = ("gearbox/laygear", "gearbox/front-bearing", "brakes/pipes", "brightwork/front-bumper")
_FIRST = date(2024, 3, 4)
_WORKSHOP = """\
name: Saltmarsh Lane Workshop
hands:
  MT: {name: Margit Tolland, rate: 50}
  JB: {name: Jonah Birkett, rate: 48}
suppliers:
  northgate: Northgate Gears
"""
_REGISTER = """\
components:
  gearbox:
    laygear: first-fit
    front-bearing: first-fit
  brakes:
    pipes: first-fit
  brightwork:
    front-bumper: absent
"""
_WORDS = ("worn", "sound", "pitted", "scored", "dry", "bent", "clean", "tight", "loose", "cracked")

Chance = random.Random
Edit = Callable[[Path, Chance], None]


def put_small(root: Path) -> Path:
    """Two cars with four sheets, one photograph and one paper each."""
    _put(root / "workshop.yaml", _WORKSHOP)
    for car in CARS:
        put_car(root / car, car)
    return root


def put_car(folder: Path, name: str) -> None:
    """One car file."""
    _put(
        folder / "car.yaml",
        f"name: Aldermoor {name.title()}\nyear: 1958\nbody: drophead\nbooked-in: 2024-03-01\n"
        f"owner: Mrs Eleanor {name.title()}son\npublic: yes\n",
    )
    _put(folder / "register.yaml", _REGISTER)
    _put(folder / "papers" / "papers.yaml", "papers:\n  record: {title: Copy of the record}\n")
    chance = random.Random(name)
    for number in range(4):
        _put_sheet(folder, _FIRST + timedelta(number), f"day-{number}", chance)
    _put_photo(folder / "photos" / f"{_FIRST}" / "bench.jpg", chance)


def _put_sheet(folder: Path, day: date, name: str, chance: Chance) -> None:
    photo = "photos:\n  - {file: bench.jpg, of: gearbox/laygear, alt: The laygear}\n"
    _put(
        folder / "sheets" / f"{day:%Y}" / f"{day}-{name}.md",
        f"---\ndate: {day}\ntitle: Day of {chance.choice(_WORDS)} things\nsubsystem: gearbox\n"
        f"hours: {{MT: {chance.randint(1, 8)}}}\n"
        f"work:\n  {chance.choice(ITEMS)}: {{did: inspected, found: {chance.choice(_WORDS)}}}\n"
        f"{photo if chance.random() < 0.5 else ''}---\n{_sentence(chance)}\n\n"
        f"::: workshop\nThe {_sentence(chance)} Nobody outside needs to know that.\n:::\n",
    )


def _put_photo(file: Path, chance: Chance) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    colour = tuple(chance.randrange(256) for _ in range(3))
    Image.new("RGB", (12, 8), colour).save(file, "JPEG")


def _sentence(chance: Chance) -> str:
    return f"It was {' and '.join(chance.sample(_WORDS, 3))} at the {chance.choice(ITEMS)}."


def _put(file: Path, text: str) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, encoding="utf-8")


def _some(root: Path, pattern: str, chance: Chance) -> Path | None:
    found = sorted(root.glob(pattern))
    return chance.choice(found) if found else None


def _car(root: Path, chance: Chance) -> Path | None:
    file = _some(root, "*/car.yaml", chance)
    return file.parent if file else None


# The edits


def add_sheet(root: Path, chance: Chance) -> None:
    if car := _car(root, chance):
        day = _FIRST + timedelta(chance.randint(0, 40))
        _put_sheet(car, day, f"more-{chance.randint(0, 9)}", chance)


def edit_text(root: Path, chance: Chance) -> None:
    if sheet := _some(root, "*/sheets/**/*.md", chance):
        sheet.write_text(f"{sheet.read_text(encoding='utf-8')}\n{_sentence(chance)}\n", "utf-8")


def edit_hours(root: Path, chance: Chance) -> None:
    if sheet := _some(root, "*/sheets/**/*.md", chance):
        text = sheet.read_text(encoding="utf-8")
        new = f"hours: {{JB: {chance.randint(1, 9)}.5}}"
        lines = [new if line.startswith("hours:") else line for line in text.split("\n")]
        sheet.write_text("\n".join(lines), "utf-8")


def break_sheet(root: Path, chance: Chance) -> None:
    if sheet := _some(root, "*/sheets/**/*.md", chance):
        text = sheet.read_text(encoding="utf-8")
        sheet.write_text(
            text.replace("hours:", chance.choice(["hour:", "\thours:", "hours"])), "utf-8"
        )


def hide_sheet(root: Path, chance: Chance) -> None:
    if sheet := _some(root, "*/sheets/**/*.md", chance):
        text = sheet.read_text(encoding="utf-8")
        sheet.write_text(text.replace("---\ndate", "---\nfor: workshop\ndate", 1), "utf-8")


def rename_sheet(root: Path, chance: Chance) -> None:
    if sheet := _some(root, "*/sheets/**/*.md", chance):
        ending = chance.choice(["renamed", "Renamed", "other"])
        sheet.rename(sheet.with_name(f"{sheet.name[:10]}-{ending}.md"))


def delete_sheet(root: Path, chance: Chance) -> None:
    if sheet := _some(root, "*/sheets/**/*.md", chance):
        sheet.unlink()


def add_photo(root: Path, chance: Chance) -> None:
    if sheet := _some(root, "*/sheets/**/*.md", chance):
        car = sheet.parents[2]
        _put_photo(car / "photos" / sheet.name[:10] / "bench.jpg", chance)


def edit_photo(root: Path, chance: Chance) -> None:
    if photo := _some(root, "*/photos/**/*.jpg", chance):
        _put_photo(photo, chance)


def spoil_photo(root: Path, chance: Chance) -> None:
    if photo := _some(root, "*/photos/**/*.jpg", chance):
        photo.write_bytes(photo.read_bytes()[:100])


def rename_photo(root: Path, chance: Chance) -> None:
    if photo := _some(root, "*/photos/**/*.jpg", chance):
        photo.rename(photo.with_name(chance.choice(["bench.jpg", "other.jpg", "third.jpg"])))


def delete_photo(root: Path, chance: Chance) -> None:
    if photo := _some(root, "*/photos/**/*.jpg", chance):
        photo.unlink()


def add_paper(root: Path, chance: Chance) -> None:
    if car := _car(root, chance):
        name = f"letter-{chance.randint(0, 5)}"
        papers = car / "papers" / "papers.yaml"
        before = papers.read_text(encoding="utf-8") if papers.exists() else "papers:\n"
        papers.parent.mkdir(exist_ok=True)
        papers.write_text(f"{before}  {name}: {{title: A letter, file: {name}.jpg}}\n", "utf-8")
        _put_photo(car / "papers" / f"{name}.jpg", chance)


def delete_papers(root: Path, chance: Chance) -> None:
    if papers := _some(root, "*/papers", chance):
        shutil.rmtree(papers)


def edit_workshop(root: Path, chance: Chance) -> None:
    name = chance.choice(["Margit Tolland", "Mette Tolland", "Margit Underhill"])
    (root / "workshop.yaml").write_text(_WORKSHOP.replace("Margit Tolland", name), "utf-8")


def misspell_workshop(root: Path, _: Chance) -> None:
    (root / "workshop.yaml").write_text(_WORKSHOP.replace("rate: 48", "rate: 4B"), "utf-8")


def edit_terms(root: Path, chance: Chance) -> None:
    text = chance.choice(["words: [", "unknown-key: yes\n", ""])
    _put(root / "terms.yaml", text)


def edit_register(root: Path, chance: Chance) -> None:
    if car := _car(root, chance):
        origin = chance.choice(["unknown", "pattern", "first-fit", "wrong-word"])
        text = _REGISTER.replace("laygear: first-fit", f"laygear: {origin}")
        (car / "register.yaml").write_text(text, "utf-8")


def edit_car(root: Path, chance: Chance) -> None:
    if car := _car(root, chance):
        text = (car / "car.yaml").read_text(encoding="utf-8")
        year = chance.randint(1950, 1965)
        lines = [f"year: {year}" if x.startswith("year:") else x for x in text.split("\n")]
        (car / "car.yaml").write_text("\n".join(lines), "utf-8")


def break_car(root: Path, chance: Chance) -> None:
    if len(list(root.glob("*/car.yaml"))) > 1 and (car := _car(root, chance)):
        (car / "car.yaml").write_text("name: [\n", "utf-8")


def mend_car(root: Path, chance: Chance) -> None:
    if car := _car(root, chance):
        text = (car / "car.yaml").read_text(encoding="utf-8")
        if text.startswith("name: ["):
            shutil.rmtree(car)
            put_car(car, car.name)


def add_car(root: Path, chance: Chance) -> None:
    name = chance.choice(["plover", "sheets", "curlew"])
    put_car(root / name, name)


def delete_car(root: Path, chance: Chance) -> None:
    if len(list(root.glob("*/car.yaml"))) > 1 and (car := _car(root, chance)):
        shutil.rmtree(car)


def touch(root: Path, chance: Chance) -> None:
    if file := _some(root, "*/**/*.*", chance):
        file.touch()


def change_under_its_old_date(root: Path, chance: Chance) -> None:
    if sheet := _some(root, "*/sheets/**/*.md", chance):
        before, text = sheet.stat(), sheet.read_text(encoding="utf-8")
        old, new = chance.sample([w for w in _WORDS if len(w) == 5], 2)
        sheet.write_text(text.replace(old, new), "utf-8")
        os.utime(sheet, ns=(before.st_atime_ns, before.st_mtime_ns))


def stray_file(root: Path, chance: Chance) -> None:
    if car := _car(root, chance):
        _put(car / "sheets" / "notes.txt", _sentence(chance))


def link_out(root: Path, chance: Chance) -> None:
    if car := _car(root, chance):
        link = car / "sheets" / f"{_FIRST}-link.md"
        link.unlink(missing_ok=True)
        link.symlink_to("/etc/hostname")


EDITS: tuple[Edit, ...] = (
    add_sheet, edit_text, edit_hours, break_sheet, hide_sheet, rename_sheet, delete_sheet,
    add_photo, edit_photo, spoil_photo, rename_photo, delete_photo, add_paper, delete_papers,
    edit_workshop, misspell_workshop, edit_terms, edit_register, edit_car, break_car, mend_car,
    add_car, delete_car, touch, change_under_its_old_date, stray_file, link_out,
)  # fmt: skip


# What may be done to the archive


def spoil_archive(target: Path, chance: Chance) -> None:
    """Change, take away or add a file where only the program should."""
    files = sorted(f for f in target.rglob("*") if f.is_file() and f.name != ".journal-archive")
    if not files:
        return
    file = chance.choice(files)
    how = chance.randrange(5)
    if how == 0:
        file.write_bytes(file.read_bytes() + b"<!-- by hand -->")
    elif how == 1:
        before, data = file.stat(), file.read_bytes()
        file.write_bytes(bytes([data[0] ^ 1]) + data[1:])
        os.utime(file, ns=(before.st_atime_ns, before.st_mtime_ns))
    elif how == 2:
        file.unlink()
    elif how == 3:
        _put(file.parent / "own" / "mine.txt", "put here by somebody")
    else:
        file.unlink()
        file.symlink_to("/etc/hostname")

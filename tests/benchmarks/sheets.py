"""A workshop with years of day sheets, written quickly: what lies on disk when nothing is small any more."""

import shutil
from datetime import date, timedelta
from pathlib import Path

CAR = "tern"
FIRST = date(2012, 1, 2)
_SUBSYSTEMS = ("engine", "gearbox", "brakes", "steering", "body", "electrical")
_ITEMS = (
    "bracket",
    "cover",
    "shaft",
    "bush",
    "housing",
    "lever",
    "pipe",
    "plate",
    "seal",
    "spring",
)
_WORKSHOP = """\
name: Saltmarsh Lane Workshop
hands: {MT: {name: Margit Tolland, rate: 50}, JB: {name: Jonah Birkett, rate: 40}}
"""
_CAR = """\
name: Aldermoor Tern
year: 1958
body: drophead
booked-in: 2012-01-01
owner: {name: Mrs Eleanor Harrow}
"""


def put_many(root: Path, sheets: int) -> Path:
    """A content folder with one car and so many sheets of consecutive days; returns the last sheet."""
    shutil.rmtree(root, ignore_errors=True)
    _put(root / "workshop.yaml", _WORKSHOP)
    _put(root / CAR / "car.yaml", _CAR)
    lines = [
        line
        for subsystem in _SUBSYSTEMS
        for line in (f"  {subsystem}:", *(f"    {item}: unknown" for item in _ITEMS))
    ]
    _put(root / CAR / "register.yaml", "\n".join(("components:", *lines, "")))
    for number in range(sheets):
        last = sheet_file(root, number)
        _put(last, sheet_text(number))
    return last


def sheet_file(root: Path, number: int) -> Path:
    """Where the sheet of a number lies."""
    day = FIRST + timedelta(number)
    return root / CAR / "sheets" / f"{day:%Y}" / f"{day}-day-{number}.md"


def sheet_text(number: int, told: str = "It went together without trouble.") -> str:
    """The text of the sheet of a number; `told` is the last sentence of its body."""
    day = FIRST + timedelta(number)
    subsystem = _SUBSYSTEMS[number % len(_SUBSYSTEMS)]
    item = f"{subsystem}/{_ITEMS[number // len(_SUBSYSTEMS) % len(_ITEMS)]}"
    return f"""\
---
date: {day}
title: Day {number} on the {subsystem}
subsystem: {subsystem}
hours: {{MT: {1 + number % 7}, JB: 1.5}}
work:
  {item}: {{did: [inspected, cleaned], found: worn by {number % 40} hundredths}}
measured:
  play {number}: {{on: {item}, read: [0.{10 + number % 80}, 0.24], unit: mm, limit: [0.05, 0.95]}}
{_snag(number)}---
Took it down on the bench and cleaned it in the tank, then looked at every face of it under the lamp.

{told}
"""


def _snag(number: int) -> str:
    if number % 4 == 0:
        return f"snags:\n  snag-{number}: {{raise: look at the thread of number {number} again}}\n"
    if number % 4 == 3:
        return f"snags:\n  snag-{number - 3}: {{clear: thread cleaned and gauged, by: MT}}\n"
    return ""


def _put(file: Path, text: str) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, encoding="utf-8")

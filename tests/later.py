"""The demonstration car after delivery: a running-in check and the first service, sealed as they came.

In a copy of the content, since the demonstration itself ends with the day of delivery.
"""

import io
import shutil
from datetime import date
from pathlib import Path

from PIL import Image, ImageDraw

from journal.outputs.seal import write_seal
from journal.reading.content import read_content
from tests.published import CONTENT
from tests.sealing_demo import CAR, demonstration_key, seal_demonstration
from tests.tern import put_file

DELIVERED = f"{CAR}/sheets/2025/2025-06-20-delivered.md"
STAMP = f"{CAR}/photos/2025-08-04/chassis-stamp.jpg"
# The lines of a sheet are as long as whoever writes it makes them.
# ruff: noqa: E501
SHEETS = {
    f"{CAR}/sheets/2025/2025-07-03-running-in-check.md": """\
---
date: 2025-07-03
title: Running-in check
subsystem: [wheels-and-tyres, engine]
hours: {JB: 1.5}
work:
  wheels-and-tyres/spinners: {did: inspected, found: "No movement on any of the four; paint line unbroken", by: JB, checked: MT}
odometer: 48462
rechecks:
  spinners: {done: "No movement on any of the four, tried with the copper mallet", by: JB}
---
Ninety-one miles since she took it, most of them to the coast and back. It starts on the second turn. JB
tried the spinners with the copper mallet and looked along the paint lines before he did; nothing had
moved, and nothing moved under the mallet.

She says the hood **creases where we said it would**. It may hang out with use, and it may not.
""",
    f"{CAR}/sheets/2025/2025-08-04-first-service.md": """\
---
date: 2025-08-04
title: First service at 500 miles
subsystem: [engine, brakes, front-suspension, chassis]
hours: {MT: 3, JB: 4}
work:
  engine/cylinder-head: {did: adjusted, found: "All ten at 50 lbf ft, cold, from the middle outwards; two had lost a little", by: MT, checked: JB}
  front-suspension/hubs: {did: measured, found: "0.06 near side, 0.06 off side", by: JB, checked: MT}
  brakes/front-near-side: {did: adjusted, found: "One notch", by: JB, checked: MT}
  brakes/front-off-side: {did: adjusted, found: "One notch", by: JB, checked: MT}
  cooling/thermostat: {did: fitted, now: service, why: "The old-stock one stuck open at 71 degrees", decided: {by: owner, on: 2025-08-04}, reversible: yes, undo: "Fit an old-stock one of the same heat", came-off: scrapped, found: "Opens at 82 degrees in the pan"}
  chassis/number-stamp: {did: cleaned, number: TD 58/0417, found: "Legible with chalk and a raking lamp"}
measured:
  Front hub end float: {on: front-suspension/hubs, read: [0.06, 0.06], unit: mm, limit: [0.02, 0.10], note: "Near side, off side"}
odometer: 48901
rechecks:
  head-nuts: {done: "All ten at 50 lbf ft; two had lost a little", by: MT, after: 1000 miles}
  hub-float: {done: "0.06 mm near side and off side", by: JB}
photos:
  - {file: chassis-stamp.jpg, of: chassis/number-stamp, stage: evidence, caption: "The stamp on the off-side dumb iron, chalked", alt: "stamped letters and figures in a painted steel rail, filled with chalk, lit from the side"}
---
Five hundred and thirty miles. The head was left to go cold overnight and the nuts pulled down from the middle
outwards: eight at 50 at once, two a few degrees short of it.

The thermostat had never let the engine warm through. The old-stock one we fitted last year stuck open at
71 °C in the pan with a thermometer beside it; the new one opens at 82. She was rung and said yes.

With the car on the lift and the paint on the dumb iron now hard, we chalked **the stamp** and took the
photograph that was never taken at booking in. TD 58/0417, as the plate has it.

- Rear brake adjusters were not reached; the handbrake is as it was.
- The axle hums no more than it did at delivery.
""",
}
AMENDED = "\nPut right on 3 July: the rivets are in the tool roll and not in the handbook.\n"


def put_delivered(root: Path) -> Path:
    """A copy of the content, sealed up to the day of delivery."""
    shutil.copytree(CONTENT, root)
    seal_demonstration(root)
    return root


def put_later(root: Path) -> Path:
    """What was written after delivery, and the seal that closes it."""
    for path, text in SHEETS.items():
        put_file(root, path, text.encode())
    with (root / DELIVERED).open("a", encoding="utf-8") as sheet:
        sheet.write(AMENDED)
    put_file(root, STAMP, _stamp())
    car = next(car for car in read_content(root).cars if car.name == CAR)
    closed = date(2025, 8, 4)
    write_seal(root, car, demonstration_key(), up_to=closed, sealed_on=closed)
    return root


def _stamp() -> bytes:
    """A picture of the number, as one could chalk it."""
    image = Image.new("RGB", (1200, 800), (38, 60, 48))
    ImageDraw.Draw(image).text((150, 330), "TD 58/0417", (225, 222, 210), font_size=150)
    out = io.BytesIO()
    image.save(out, "JPEG", quality=85)
    return out.getvalue()

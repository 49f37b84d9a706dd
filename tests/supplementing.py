"""A small car that is handed over and serviced afterwards: its first bag, and the supplement to it."""

import csv
import io
from dataclasses import dataclass
from datetime import date
from functools import cache
from pathlib import Path
from tempfile import mkdtemp

from journal.outputs.handover import HandedOver, Handover, hand_over
from journal.outputs.pictures import Means
from journal.outputs.seal import write_seal
from journal.outputs.supplement import hand_supplement
from journal.reading.content import read_content
from tests.outputs.packing import KEY, MORE
from tests.pictures.images import camera, corners, encoded
from tests.tern import put_content, put_file, sheet_text

OFF = "tern/sheets/2024/2024-03-08-off.md"
SERVICE = "tern/sheets/2024/2024-05-01-first-service.md"
LATE = "tern/sheets/2024/2024-03-07-steel.md"
DELIVERED = """\
title: Delivered
odometer: 48000
rechecks:
  oil: {what: Gearbox oil, on: gearbox/laygear, after: 500 miles}
  bolts: {what: Bolts of the gearbox, on: gearbox/laygear, after: 6 weeks}
"""
SERVICED = """\
title: First service
hours: {MT: 2}
odometer: 48510
work:
  gearbox/front-bearing:
    {did: fitted, now: pattern, why: rumbled, decided: owner, original: scrapped, reversible: "no"}
rechecks:
  oil: {done: Clean and to the mark, by: MT, after: 1000 miles}
photos: [{file: two.jpg, of: gearbox/front-bearing, caption: The new bearing, alt: a bearing on a bench}]
"""
BODY = "The bearing went in cold.\n\n::: workshop\nThe quarrelsome bill.\n:::\n"


def put_first(root: Path) -> Path:
    """A car as it was delivered, sealed to its end, of which nothing has to be proved."""
    register = "components: {gearbox: {laygear: first-fit, front-bearing: first-fit}}\n"
    open_front = (
        "title: Apart\nphotos: [{file: one.jpg, alt: a gearbox}]\nwork: {gearbox/laygear: cleaned}"
    )
    put_content(
        root,
        **{
            "tern/car.yaml": MORE,
            "tern/register.yaml": register,
            "tern/sheets/2024/2024-03-05-open.md": sheet_text(open_front, "Split.\n"),
            OFF: sheet_text(DELIVERED, date="2024-03-08"),
        },
    )
    put_photo(root, "2024-03-05/one.jpg")
    return seal(root, "2024-03-08")


def put_later(root: Path) -> Path:
    """A service, a sheet for a day that was closed, one amended, and one for the workshop alone."""
    put_file(root, SERVICE, sheet_text(SERVICED, BODY, date="2024-05-01").encode())
    put_file(root, LATE, sheet_text("title: Steel weighed", date="2024-03-07").encode())
    own = sheet_text("for: workshop", "All about the quarrel.\n", date="2024-05-01")
    put_file(root, "tern/sheets/2024/2024-05-01-quarrel.md", own.encode())
    put_file(
        root, OFF, sheet_text(DELIVERED, "Seven boxes, not six.\n", date="2024-03-08").encode()
    )
    put_photo(root, "2024-05-01/two.jpg")
    return seal(root, "2024-05-01")


def put_photo(root: Path, path: str) -> None:
    photo = encoded(corners(300, 200), exif=camera(marker="QZ").tobytes())
    put_file(root, f"tern/photos/{path}", photo)


def seal(root: Path, up_to: str) -> Path:
    (car,) = read_content(root).cars
    day = date.fromisoformat(up_to)
    write_seal(root, car, KEY, up_to=day, sealed_on=day)
    return root


def order(root: Path, target: str, **more: bool) -> Handover:
    base = root.parent
    return Handover(root, base / target, KEY, Means(base / "cache"), "tern", **more)


@dataclass(frozen=True)
class Both:
    """A content folder with all that is written, the first bag, and the supplement."""

    root: Path
    first: HandedOver
    later: HandedOver

    @property
    def pdf(self) -> bytes:
        """The document of the supplement."""
        return (self.later.bag / "data/dossier.pdf").read_bytes()


@cache
def both_bags() -> Both:
    """Made once a test process, and to be left as they are."""
    root = put_first(Path(mkdtemp(prefix="journal-supplement-")) / "content")
    first = hand_over(read_content(root), order(root, "first"))
    put_later(root)
    return Both(root, first, hand_supplement(read_content(root), order(root, "later"), first.bag))


def table(bag: Path, name: str) -> list[dict[str, str]]:
    text = (bag / f"data/tables/{name}.csv").read_bytes().decode()
    return list(csv.DictReader(io.StringIO(text, newline="")))


def stated(bag: Path, seal: str) -> dict[str, str]:
    """What the statement of a seal in a bag says, by its labels."""
    lines = (bag / f"data/seals/{seal}/statement.txt").read_text(encoding="utf-8").splitlines()[1:]
    return dict(line.split(": ", 1) for line in lines)

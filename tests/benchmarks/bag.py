"""The handover of a whole restoration: how long it takes besides the pictures, and how much memory.

    python -m tests.benchmarks.bag [--sheets 300] [--pictures 1500]

The pictures are a few of 3 megapixels with grain, told of by many sheets; the work on them is timed apart.
The aim is two minutes on two cores for all the rest, and less than 1 GiB in any process.
"""

import argparse
import resource
import tempfile
from collections.abc import Callable
from contextlib import ExitStack
from datetime import date, timedelta
from pathlib import Path
from typing import Any
from unittest.mock import patch

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from journal.outputs import archive, handover
from journal.outputs import dossier as documents
from journal.outputs.bag import contents
from journal.outputs.handover import Handover, hand_over
from journal.outputs.pictures import Means
from journal.outputs.seal import write_seal
from journal.reading.content import read_content
from tests.benchmarks.measuring import timed
from tests.benchmarks.workshop.photographs import photograph
from tests.tern import FILES, put_file, sheet_text

KEY = Ed25519PrivateKey.from_private_bytes(b"\x07" * 32)
FIRST = date(2024, 3, 5)
DID = ("removed", "inspected", "cleaned", "repaired", "painted", "fitted")


def put_car(root: Path, sheets: int, photographs: int) -> None:
    """A car with as many sheets, a component a sheet, and as many photographs as asked for."""
    for path, text in FILES.items():
        put_file(root, path, text.encode())
    names = [f"piece-{n}" for n in range(150)]
    register = "components:\n  gearbox:\n" + "".join(f"    {name}: first-fit\n" for name in names)
    put_file(root, "tern/register.yaml", register.encode())
    drawn = [photograph(seed, (2000, 1500), grain=5, quality=90) for seed in range(5)]
    each = photographs // sheets
    for n in range(sheets):
        day = FIRST + timedelta(days=n)
        shown = [f"{n}-{m}.jpg" for m in range(each)]
        front = (
            f"hours: {{MT: 3.5}}\nwork:\n  gearbox/{names[n % 150]}: {{did: {DID[n % 6]}, found: worn}}\n"
            f"photos: [{', '.join(shown)}]"
        )
        text = sheet_text(front, "What was done that day, at some length. " * 40, date=str(day))
        put_file(root, f"tern/sheets/{day.year}/{day}-day.md", text.encode())
        for m, name in enumerate(shown):
            put_file(root, f"tern/photos/{day}/{name}", drawn[(n + m) % 5])


# The steps of a handover that are timed by themselves, as module and name.
STEPS = {
    "archive, pictures": (archive, "make_pictures"),
    "bag, pictures": (contents, "pack_pictures"),
    "dossier": (documents, "typeset"),
    "closing": (handover, "close_bag"),
    "verifying": (handover, "verify_bag"),
    "zipping": (handover, "write_zip"),
    "searching for leaks": (handover, "refuse_leaks"),
}
PICTURES = ("archive, pictures", "bag, pictures")


def measure(folder: Path, sheets: int, photographs: int) -> dict[str, float]:
    """Seconds by piece of work; `all` is the whole handover."""
    root = folder / "content"
    put_car(root, sheets, photographs)
    told: dict[str, float] = {}
    (car,) = read_content(root).cars
    last = car.sheets[-1].date
    with timed("sealing", told):
        write_seal(root, car, KEY, up_to=last, sealed_on=last)
    with ExitStack() as stack:
        for what, (module, name) in STEPS.items():
            stack.enter_context(
                patch.object(module, name, _timed(getattr(module, name), what, told))
            )
        order = Handover(root, folder / "out", KEY, Means(folder / "c", 2), with_reservations=True)
        with timed("all", told):
            hand_over(read_content(root), order)
    return told


def _timed(do: Callable[..., Any], what: str, told: dict[str, float]) -> Callable[..., Any]:
    def timing(*given: Any, **named: Any) -> Any:
        with timed(what, told):
            return do(*given, **named)

    return timing


def main() -> None:
    """Print what each piece of work takes."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--sheets", type=int, default=300)
    asked.add_argument("--pictures", type=int, default=1500)
    wanted = asked.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        told = measure(Path(folder), wanted.sheets, wanted.pictures)
    for what, seconds in told.items():
        print(f"{what:<22}{seconds:7.1f} s")
    rest = told["all"] - sum(told[what] for what in PICTURES)
    print(f"{'besides pictures':<22}{rest:7.1f} s")
    for who, name in (
        (resource.RUSAGE_SELF, "this process"),
        (resource.RUSAGE_CHILDREN, "a worker"),
    ):
        print(f"most memory of {name}: {resource.getrusage(who).ru_maxrss / 1024:.0f} MiB")


if __name__ == "__main__":
    main()

"""A bag of a whole restoration: how long it takes besides the pictures, and how much memory.

    python -m tests.benchmarks.bag [--sheets 300] [--pictures 1500]

The pictures are a few of 3 megapixels with grain, told of by many sheets; packing them is timed apart. The
aim is two minutes on two cores for all the rest, and less than 1 GiB in any process.
"""

import argparse
import resource
import shutil
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date, timedelta
from pathlib import Path
from unittest.mock import patch

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from journal.digests.gate import Gate
from journal.outputs.bag import contents
from journal.outputs.bag.close import close_bag
from journal.outputs.bag.contents import Cargo, bag_info, fill_bag
from journal.outputs.bag.verify import verify_bag
from journal.outputs.bag.zip import write_zip
from journal.outputs.pictures import Means
from journal.outputs.seal import write_seal
from journal.pages.view import view_of
from journal.readers import car_for
from journal.reading.content import read_content
from journal.reading.seals import key_hash
from journal.words.vocabulary import Reader
from tests.benchmarks import pictures
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
    with patch.object(pictures, "SIZE", (2000, 1500)):
        drawn = [pictures.photograph(seed) for seed in range(5)]
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


@contextmanager
def timed(what: str, told: dict[str, float]) -> Iterator[None]:
    """Note how long a piece of work takes."""
    start = time.perf_counter()
    yield
    told[what] = time.perf_counter() - start


def measure(folder: Path, sheets: int, photographs: int) -> dict[str, float]:
    """Seconds by piece of work."""
    root, bag = folder / "content", folder / "tern"
    put_car(root, sheets, photographs)
    told: dict[str, float] = {}
    with timed("reading", told):
        (car,) = read_content(root).cars
    with timed("sealing", told):
        last = car.sheets[-1].date
        write_seal(root, car, KEY, up_to=last, sealed_on=last)
    with timed("folding", told):
        view = view_of(car_for(Reader.OWNER, car), Reader.OWNER, pictures={})
    packing = contents.pack_pictures

    def pack(*given: object) -> object:
        with timed("packing pictures", told):
            return packing(*given)  # type: ignore[arg-type]

    cargo = Cargo(
        root, b"%PDF", lambda _: None, key_hash(KEY.public_key()), Means(folder / "c", 2), Gate()
    )
    with timed("filling", told), patch.object(contents, "pack_pictures", pack):
        fill_bag(bag, view, cargo)
    told["filling"] -= told["packing pictures"]
    with timed("closing", told):
        close_bag(bag, bag_info(view), KEY)
    with timed("verifying", told):
        assert verify_bag(bag).good
    shutil.rmtree(root)
    with timed("zipping", told):
        write_zip(bag, folder / "tern.zip", view.until)
    return told


def main() -> None:
    """Print what each piece of work takes."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--sheets", type=int, default=300)
    asked.add_argument("--pictures", type=int, default=1500)
    wanted = asked.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        told = measure(Path(folder), wanted.sheets, wanted.pictures)
    for what, seconds in told.items():
        print(f"{what:<20}{seconds:7.1f} s")
    rest = sum(told.values()) - told["packing pictures"]
    print(f"{'besides pictures':<20}{rest:7.1f} s")
    for who, name in (
        (resource.RUSAGE_SELF, "this process"),
        (resource.RUSAGE_CHILDREN, "a worker"),
    ):
        print(f"most memory of {name}: {resource.getrusage(who).ru_maxrss / 1024:.0f} MiB")


if __name__ == "__main__":
    main()

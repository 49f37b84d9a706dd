"""Seal the demonstration car: `python -m tests.sealing_demo [CONTENT]`.

The seals that are there are made anew, as if each period had been closed in its time, with the key in
`tests/data/demonstration.key`. That key is no secret: it shows what seals look like and proves nothing.
Same content, same seals.
"""

import shutil
import sys
from datetime import date
from pathlib import Path

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from cryptography.hazmat.primitives.serialization import load_pem_private_key

from journal.outputs.seal import NewSeal, write_seal
from journal.reading.content import read_content
from journal.reading.seals import FOLDER

CAR = "aldermoor-tern"
KEY = Path(__file__).parent / "data" / "demonstration.key"
# The last day that each seal closes, and the day on which it was sealed.
PERIODS = (
    (date(2023, 12, 31), date(2024, 1, 8)),
    (date(2024, 6, 30), date(2024, 7, 1)),
    (date(2024, 12, 31), date(2025, 1, 6)),
    (date(2025, 6, 20), date(2025, 6, 20)),
)


def demonstration_key() -> Ed25519PrivateKey:
    """The key of the demonstration's workshop."""
    key = load_pem_private_key(KEY.read_bytes(), password=None)
    assert isinstance(key, Ed25519PrivateKey)
    return key


def seal_demonstration(root: Path) -> tuple[NewSeal, ...]:
    """Close every period of the demonstration car in a content folder, in place of its seals there."""
    shutil.rmtree(root / CAR / FOLDER, ignore_errors=True)
    car = next(car for car in read_content(root).cars if car.name == CAR)
    key = demonstration_key()
    return tuple(write_seal(root, car, key, up_to=up_to, sealed_on=on) for up_to, on in PERIODS)


if __name__ == "__main__":
    given = sys.argv[1:]
    for made in seal_demonstration(Path(given[0]) if given else Path("content")):
        print(f"seal {made.statement.seal}: {len(made.added)} entries, root {made.statement.root}")

"""The demonstration, published once a test process for each reader."""

from functools import cache
from pathlib import Path
from tempfile import mkdtemp

from journal.outputs.archive import Order, publish
from journal.reading.content import read_content
from journal.words.vocabulary import Reader

ROOT = Path(__file__).parents[1]
CONTENT = ROOT / "content"
CAR = "aldermoor-tern"


@cache
def archive_for(reader: Reader) -> Path:
    """The folder of a reader's archive: one car for owner and public, all cars for the workshop."""
    target = Path(mkdtemp(prefix=f"journal-{reader.value}-")) / "archive"
    car = None if reader is Reader.WORKSHOP else CAR
    publish(read_content(CONTENT), Order(CONTENT, target, reader, car))
    return target


def pages(folder: Path) -> tuple[Path, ...]:
    """Every page of an archive, in order."""
    return tuple(sorted(folder.rglob("*.html")))

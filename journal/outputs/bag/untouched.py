"""What lies in the bag exactly as it was sealed: sheets of which the reader sees every word, and whatever
else has the hash that a seal names."""

from collections.abc import Iterator, Mapping
from hashlib import file_digest
from pathlib import Path

from journal.outputs.bag.sheets import sheet_paths
from journal.reading.seals import read_seals
from journal.reading.sheet import read_sheet
from journal.records.carfile import CarFile
from journal.records.sheet import Sheet

# In the folder of the seals in the bag; its form is that of `sha256sum`, its paths are from the top.
AS_SEALED = "as-sealed.sha256"


def whole_sheets(root: Path, car: CarFile) -> Iterator[tuple[str, bytes]]:
    """Sheets in the bytes in which they were written, by path relative to the content folder, for a car
    that holds only what its reader may see.

    They are those that say nothing which the reader does not see, comments included, and lie in the bag
    where they lay.
    """
    paths = sheet_paths(car)
    for sheet in car.sheets:
        if sheet.source.path == f"{car.name}/{paths[sheet.name]}" and _is_whole(root, sheet):
            yield sheet.source.path, (root / sheet.source.path).read_bytes()


def _is_whole(root: Path, seen: Sheet) -> bool:
    """Whether reading the file gives what the reader sees, with nothing in it that reading passes over."""
    read, problems = read_sheet(root, seen.source.path)
    if read is None or problems or (read.front, read.body) != (seen.front, seen.body):
        return False
    text = (root / seen.source.path).read_text(encoding="utf-8")
    front = text.split("\n---", 1)[0]
    return not any(line.lstrip().startswith("#") or " #" in line for line in front.split("\n"))


def last_sealed(seals: Path) -> dict[str, str]:
    """The files that a folder of seals names, each with the hash that was last sealed."""
    return {
        entry.path: entry.sha256
        for seal in read_seals(seals)
        for entry in seal.entries or ()
        if entry.path
    }


def as_sealed(folder: Path, record: str, sealed: Mapping[str, str]) -> str:
    """The list of the files below `record`, the folder of the car in a bag, that are the very files that
    were last sealed."""
    lines = []
    for path, sha in sorted(sealed.items()):
        file = folder / record / path
        if file.is_file() and _hash(file) == sha:
            lines.append(f"{sha}  {record}/{path}\n")
    return "".join(lines)


def _hash(file: Path) -> str:
    with file.open("rb") as opened:
        return file_digest(opened, "sha256").hexdigest()

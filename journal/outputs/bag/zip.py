"""A folder as a zip file with the same bytes every time, and out again without going astray."""

import stat
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

from journal.outputs.bag.layout import files_below, is_safe
from journal.outputs.held import held_for_a_while
from journal.words.wrong import WrongCall

# The form of the dates in a zip file begins here (APPNOTE 4.4.6).
_FIRST = date(1980, 1, 1)
_COPIED_AT_ONCE = 1 << 20


def write_zip(folder: Path, file: Path, day: date) -> None:
    """Write a folder into a zip file under its own name, in order of paths, dated by one day.

    Nothing is compressed: pictures hardly shrink, and compressors of different versions write
    different bytes.
    """
    day = max(day, _FIRST)
    with zipfile.ZipFile(file, "w", zipfile.ZIP_STORED) as opened:
        for path in files_below(folder):
            entry = zipfile.ZipInfo(
                f"{folder.name}/{path}", (day.year, day.month, day.day, 0, 0, 0)
            )
            entry.external_attr = (stat.S_IFREG | 0o644) << 16
            entry.create_system = 3
            with (
                (folder / path).open("rb") as source,
                opened.open(entry, "w", force_zip64=True) as target,
            ):
                while block := source.read(_COPIED_AT_ONCE):
                    target.write(block)


@contextmanager
def opened_bag(where: Path) -> Iterator[Path]:
    """The folder of a bag that is a folder or a zip file; that of a zip file is gone afterwards.

    Raises WrongCall when nothing is there, and as `read_zip` does.
    """
    if where.is_dir():
        yield where
    elif where.is_file():
        with held_for_a_while() as held:
            yield read_zip(where, held / "bag")
    else:
        raise WrongCall(f'there is nothing at "{where}"')


def read_zip(file: Path, target: Path) -> Path:
    """Take a zip file apart below a folder; the folder of the bag in it.

    Raises WrongCall before anything is written when the file is none, when a name in it leads
    outside, stands twice or is a link, and when it does not hold one folder.
    """
    try:
        opened = zipfile.ZipFile(file)
    except (zipfile.BadZipFile, OSError):
        raise WrongCall(f"{file.name} is no zip file that can be read") from None
    with opened:
        entries = [entry for entry in opened.infolist() if not entry.is_dir()]
        for entry in entries:
            mode = entry.external_attr >> 16
            if not is_safe(entry.filename) or stat.S_ISLNK(mode):
                raise WrongCall(f'{file.name} is not safe to open: it holds "{entry.filename}"')
        names = [entry.filename for entry in entries]
        tops = {name.split("/")[0] for name in names}
        if len(set(names)) != len(names) or len(tops) != 1 or not all("/" in n for n in names):
            raise WrongCall(f"{file.name} does not hold one bag")
        for entry in entries:
            try:
                opened.extract(entry, target)
            except (zipfile.BadZipFile, OSError) as fault:
                raise WrongCall(f"{file.name} is damaged: {fault}") from fault
    return target / tops.pop()

"""The photographs and scans of a bag: in full size, with nothing in them but the picture."""

import shutil
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import partial
from hashlib import sha256
from pathlib import Path, PurePosixPath

from msgspec import Struct

from journal.outputs.pictures import Means, photo_at, scan_at, told_pictures
from journal.pictures.clean import ENDINGS, clean
from journal.pictures.decode import BYTES_AT_MOST
from journal.pictures.forms import Unreadable
from journal.pictures.pool import pool_of, worked
from journal.records.carfile import CarFile
from journal.records.place import Place
from journal.records.problem import Problem, Severity
from journal.words.names import file_name

_WORK = ".pictures"


class Packed(Struct, frozen=True):
    """One picture in the bag.

    `source` and `path` are where it lay and where it lies, relative to the content folder and to that of
    the bag; `original` is the hash of the file that was taken and sealed, `sha256` that of the one in the
    bag. `same` tells that the coded pixels are the very ones. `bag` is which bag of the car it lies in,
    counted from 1.
    """

    source: str
    path: str
    original: str
    sha256: str
    size: int
    same: bool
    bag: int = 1


class _Made(Struct, frozen=True):
    form: str
    original: str
    sha256: str
    size: int
    same: bool


class Shelf(Struct, frozen=True):
    """What a bag is packed beside: which bag it is, the pictures of those before it, and the files, by
    path relative to the content folder, that came later and are packed whatever lies there."""

    number: int = 1
    packed: tuple[Packed, ...] = ()
    later: frozenset[str] = frozenset()


FIRST = Shelf()


def pack_pictures(
    car: CarFile, root: Path, target: Path, means: Means, beside: Shelf = FIRST
) -> tuple[tuple[Packed, ...], tuple[Problem, ...]]:
    """Write every photograph and scan that the reader of a car is told of below `target`, in order,
    but for those that lie in an earlier bag. Those are among the answer too, as they lie there.

    `root` is the content folder that they are read from. A file that gives no picture is a problem and
    is left out.
    """
    photos, scans = told_pictures(car)
    told = (*(photo_at(car, path) for path in photos), *(scan_at(car, path) for path in scans))
    lying = {p.source: p for p in beside.packed}
    kept = {path: lying[path] for path in told if path in lying and path not in beside.later}
    paths = tuple(path for path in told if path not in kept)
    folder = target / _WORK
    folder.mkdir(parents=True)
    work: dict[str, Callable[[], _Made | Unreadable]] = {
        path: partial(_cleaned, str(root / path), str(folder / f"{n}.part"))
        for n, path in enumerate(paths)
    }
    done = worked(pool_of(means.workers), means.progress, "packing", work, of=len(paths))
    made = {path: answer or _KILLED for path, answer in done}
    names = _names({path: made[path] for path in paths}, kept.values(), lying)
    placed = _placed(target, paths, made, names, beside.number)
    shutil.rmtree(folder)
    packed = tuple(
        kept.get(path) or placed[path] for path in told if path in kept or path in placed
    )
    return packed, tuple(_problem(p, made[p]) for p in paths if isinstance(made[p], Unreadable))


_KILLED = Unreadable("reading it ended the process that read it")


def _cleaned(file: str, target: str) -> _Made | Unreadable:
    """Work of one process: the picture alone, written."""
    try:
        if Path(file).stat().st_size > BYTES_AT_MOST:
            return Unreadable("it is too large to be a photograph")
        raw = Path(file).read_bytes()
    except OSError:
        return Unreadable("the file cannot be opened")
    cleaned = clean(raw)
    if isinstance(cleaned, Unreadable):
        return cleaned
    Path(target).write_bytes(cleaned.data)
    return _Made(
        cleaned.form, sha256(raw).hexdigest(), sha256(cleaned.data).hexdigest(), len(cleaned.data),
        cleaned.same,
    )  # fmt: skip


def _names(
    made: Mapping[str, _Made | Unreadable], kept: Iterable[Packed], lying: Mapping[str, Packed]
) -> dict[str, str]:
    """Where each picture goes, in order of paths. One that takes the place of a picture of an earlier
    bag has its name there, as long as its form allows."""
    taken = {p.path.casefold() for p in kept}
    names = {}
    for source, answer in made.items():
        if isinstance(answer, Unreadable):
            continue
        before = lying.get(source)
        suits = (
            before is not None and PurePosixPath(before.path).suffix.lower() in ENDINGS[answer.form]
        )
        wanted = before.path if before and suits else safe_path(source, answer.form)
        names[source] = _free(wanted, taken)
        taken.add(names[source].casefold())
    return names


def _placed(
    target: Path,
    paths: Sequence[str],
    made: Mapping[str, _Made | Unreadable],
    names: Mapping[str, str],
    bag: int,
) -> dict[str, Packed]:
    """Move what was written to where it belongs."""
    placed = {}
    for number, source in enumerate(paths):
        answer = made[source]
        if isinstance(answer, Unreadable):
            continue
        file = target / names[source]
        file.parent.mkdir(parents=True, exist_ok=True)
        (target / _WORK / f"{number}.part").rename(file)
        placed[source] = Packed(
            source, names[source], answer.original, answer.sha256, answer.size, answer.same, bag
        )
    return placed


def safe_path(path: str, form: str) -> str:
    """A path of names that are safe on every system, ending as a file of the form should."""
    *folders, name = PurePosixPath(path).parts
    stem, ending = PurePosixPath(name).stem, PurePosixPath(name).suffix
    kept = ending if ending.lower() in ENDINGS[form] else f".{form}"
    return "/".join((*map(file_name, folders), f"{file_name(stem)}{kept}"))


def _free(path: str, taken: Iterable[str]) -> str:
    """The path, or the first numbered one that no other file has, whatever the case of its letters."""
    stem, _, ending = path.rpartition(".")
    ways = (path, *(f"{stem}-{n}.{ending}" for n in range(2, len(set(taken)) + 3)))
    return next(way for way in ways if way.casefold() not in taken)


def _problem(path: str, told: _Made | Unreadable) -> Problem:
    assert isinstance(told, Unreadable)
    return Problem(
        Place(path, 1), "bad-picture", f"the picture is not in the bag: {told.reason}",
        Severity.WARNING, help="save it again as JPEG, HEIC, PNG, WebP or TIFF",
    )  # fmt: skip

"""The pictures of an archive: facts of every photograph, and renditions made by all cores.

Work goes to an executor; what was made before comes out of the cache. A file that is no picture, or
that brings down the process that reads it, costs one problem and nothing else. What decodes and encodes
takes long to load, and is loaded where a picture is worked on: most days none is.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import partial
from hashlib import sha256
from pathlib import Path, PurePath

from msgspec import Struct
from msgspec.structs import replace

from journal.pictures.cache import (
    Entry,
    Kept,
    PictureCache,
    Stat,
    copied,
    kept_bytes,
    put_renditions,
)
from journal.pictures.forms import Unreadable, misnamed
from journal.pictures.pool import Pool, Progress, worked
from journal.pictures.published import Published, Rendition
from journal.pictures.sizes import Encoded, sizes_of
from journal.records.photofacts import PhotoFacts
from journal.records.place import Place
from journal.records.problem import Problem, Severity

_KILLED = Unreadable("reading it ended the process that read it")
_CHANGED = Unreadable("it was changed while it was read")


class Studio(Struct, frozen=True):
    """With what pictures are made: the content folder, the cache, who does the work, who is told.

    `pool` opens an executor; it is opened again should a file end one of its processes.
    """

    root: Path
    cache: PictureCache
    pool: Pool
    progress: Progress


class Job(Struct, frozen=True):
    """One photograph to publish: its path relative to the content folder, the archive's folder for
    the pages of its car, and the folder below that for its renditions."""

    path: str
    base: str
    folder: str


class Glance(Struct, frozen=True):
    """A picture that was only looked at: its facts, and its narrowest rendition as WebP."""

    facts: PhotoFacts
    small: Encoded


class Hashed(Struct, frozen=True):
    """A file as it was read: what it is known by, and what is known of it."""

    stat: Stat
    entry: Entry


def look_at(
    studio: Studio, paths: Iterable[str]
) -> tuple[dict[str, PhotoFacts], tuple[Problem, ...]]:
    """The facts of photographs without making anything of them, and what is wrong with them."""
    entries = _looked(studio, tuple(dict.fromkeys(paths)))
    told = {path: entry.told for path, entry in entries.items()}
    return {p: t for p, t in told.items() if isinstance(t, PhotoFacts)}, problems_in(entries)


def make_pictures(
    studio: Studio, jobs: Sequence[Job], target: Path
) -> tuple[dict[str, Published], tuple[Problem, ...]]:
    """Write the renditions of every photograph below `target`: what is published of each by its path,
    and what is wrong with them.

    Renditions lie in the cache first and are copied from there, each against its hash.
    """
    entries = finish_pictures(studio, (job.path for job in jobs))
    made: dict[str, Published] = {}
    for job in jobs:
        entry = entries[job.path]
        if not _copied(studio, job, entry, target):
            studio.cache.forget(entry)
            entries |= _finished(studio, {job.path: replace(entry, files=())})
            entry = entries[job.path]
            _copied(studio, job, entry, target)
        if isinstance(entry.told, PhotoFacts):
            made[job.path] = _published(job, entry, entry.told)
    return made, problems_in(entries)


def finish_pictures(studio: Studio, paths: Iterable[str]) -> dict[str, Entry]:
    """What is known of each photograph once all that can be made of it lies in the cache."""
    return _finished(studio, _looked(studio, tuple(dict.fromkeys(paths))))


def known_pictures(cache: PictureCache, root: Path, paths: Iterable[str]) -> dict[str, Entry]:
    """The same for those of which nothing is left to be made, without doing anything."""
    files = {_file(root, path): path for path in paths}
    return {files[file]: entry for file, entry in cache.entries(files).items() if entry.finished}


def published_of(jobs: Iterable[Job], entries: Mapping[str, Entry]) -> dict[str, Published]:
    """What is published of each photograph that can be shown, by its path."""
    return {
        job.path: _published(job, entries[job.path], told)
        for job in jobs
        if isinstance(told := entries[job.path].told, PhotoFacts)
    }


def files_of(job: Job, entry: Entry) -> tuple[tuple[str, Kept], ...]:
    """The renditions of a photograph, each with its path in the archive."""
    return tuple((job.base + _path(job, kept), kept) for kept in entry.files)


def foretold(job: Job, facts: PhotoFacts) -> Published:
    """What will be published of a photograph that was looked at, before any of it is made."""
    sizes = sizes_of(facts.width, facts.height)
    *webp, jpeg = (
        Rendition(f"{job.folder}/{facts.sha256[:16]}-{width}.{form}", width, height)
        for width, height, form in (*((*s, "webp") for s in sizes), (*sizes[-1], "jpg"))
    )
    return Published(tuple(webp), jpeg, facts)


def rendition_of(studio: Studio, job: Job, path: str) -> bytes | Unreadable | None:
    """The bytes of one rendition by its path, made when it is not there; None if there is none such.

    Unreadable is why a photograph that could be looked at cannot be made after all.
    """
    looked = _looked(studio, (job.path,))
    entry = _finished(studio, looked)[job.path]
    data = _bytes_of(studio, job, entry, path)
    if data is None and any(_path(job, kept) == path for kept in entry.files):
        studio.cache.forget(entry)
        entry = _finished(studio, {job.path: replace(entry, files=())})[job.path]
        data = _bytes_of(studio, job, entry, path)
    return entry.told if data is None and isinstance(entry.told, Unreadable) else data


def _bytes_of(studio: Studio, job: Job, entry: Entry, path: str) -> bytes | None:
    kept = next((kept for kept in entry.files if _path(job, kept) == path), None)
    return kept_bytes(studio.cache.folder, kept) if kept else None


def glance(studio: Studio, file: Path) -> Glance | Unreadable:
    """What a file outside the content folder shows; nothing of it is kept."""
    work = {"": partial(glanced, str(file))}
    ((_, answer),) = worked(studio.pool, studio.progress, "looking at", work, of=1)
    return answer or _KILLED


def glanced(file: str) -> Glance | Unreadable:
    """Work of one process: decode a picture for its facts and a small rendition."""
    from journal.pictures.decode import facts_of
    from journal.pictures.derive import small_of

    raw = Path(file).read_bytes()
    facts = facts_of(raw)
    if isinstance(facts, Unreadable):
        return facts
    small = small_of(raw)
    return small if isinstance(small, Unreadable) else Glance(facts, small)


def hashed(file: str) -> Hashed:
    """Work of one process: read a photograph for its hash and facts."""
    from journal.pictures.decode import facts_of

    try:
        stat, raw = Stat.of(Path(file)), Path(file).read_bytes()
    except OSError:
        return Hashed(Stat(0, 0, 0, 0), Entry("", Unreadable("the file cannot be opened")))
    told = facts_of(raw)
    sha = told.sha256 if isinstance(told, PhotoFacts) else sha256(raw).hexdigest()
    return Hashed(stat, Entry(sha, told))


def finished(file: str, entry: Entry, cache: str, recipe: str) -> Entry:
    """Work of one process: put the renditions of a photograph that was looked at into the cache."""
    from journal.pictures.derive import derive
    from journal.pictures.freed import keep_freed

    raw = Path(file).read_bytes()
    if isinstance(entry.told, PhotoFacts) and len(raw) != entry.told.size:
        return replace(entry, told=_CHANGED)
    keep_freed()
    renditions = derive(raw)
    if isinstance(renditions, Unreadable):
        return replace(entry, told=renditions)
    return replace(entry, files=put_renditions(Path(cache), recipe, entry.sha256, renditions))


def _file(root: Path, path: str) -> str:
    """Where a photograph lies, in the one spelling under which the cache knows it: a thousand of them
    take no time to be spelt like this."""
    return f"{root}/{path}"


def _looked(studio: Studio, paths: Sequence[str]) -> dict[str, Entry]:
    """What is known of every photograph, looking at those that have not been seen as they now are."""
    files = {path: _file(studio.root, path) for path in paths}
    before = studio.cache.entries(files.values())
    known = {path: before.get(file) for path, file in files.items()}
    unseen = [path for path in paths if known[path] is None]
    work: dict[str, Callable[[], Hashed]] = {path: partial(hashed, files[path]) for path in unseen}
    for path, answer in worked(studio.pool, studio.progress, "looking at", work, of=len(paths)):
        known[path] = _remembered(studio, path, answer) if answer else Entry("", _KILLED)
    return {path: entry for path, entry in known.items() if entry is not None}


def _remembered(studio: Studio, path: str, answer: Hashed) -> Entry:
    sha = answer.entry.sha256
    if not sha:
        return answer.entry
    before = studio.cache.entry(sha)
    if before is None:
        studio.cache.keep(answer.entry)
    studio.cache.keep_hash(_file(studio.root, path), answer.stat, sha)
    return before or answer.entry


def _finished(studio: Studio, looked: Mapping[str, Entry]) -> dict[str, Entry]:
    """The same with every rendition made; photographs with the same content are made once."""
    paths = {entry.sha256: path for path, entry in looked.items() if not entry.finished}
    work: dict[str, Callable[[], Entry]] = {
        sha: partial(
            finished, _file(studio.root, path), looked[path], str(studio.cache.folder),
            studio.cache.recipe,
        )
        for sha, path in paths.items()
    }  # fmt: skip
    done = {}
    for sha, answer in worked(studio.pool, studio.progress, "making", work, of=len(looked)):
        done[sha] = answer or replace(looked[paths[sha]], told=_KILLED)
        if answer is not None and answer.told != _CHANGED:
            studio.cache.keep(answer)
    return {path: done.get(entry.sha256, entry) for path, entry in looked.items()}


def _copied(studio: Studio, job: Job, entry: Entry, target: Path) -> bool:
    folder = target / job.base / job.folder
    if entry.files:
        folder.mkdir(parents=True, exist_ok=True)
    return copied(
        studio.cache.folder, [(k, target / job.base / _path(job, k)) for k in entry.files]
    )


def _path(job: Job, kept: Kept) -> str:
    """Renditions are named by the photograph's content, so that a name tells nothing."""
    stem, ending = kept.name.rsplit("/", 1)[-1].split("-", 1)
    return f"{job.folder}/{stem[:16]}-{ending}"


def _published(job: Job, entry: Entry, facts: PhotoFacts) -> Published:
    *webp, jpeg = (Rendition(_path(job, kept), kept.width, kept.height) for kept in entry.files)
    return Published(tuple(webp), jpeg, facts)


def problems_in(entries: Mapping[str, Entry]) -> tuple[Problem, ...]:
    """What is wrong with photographs."""
    found = (_problem(path, entry.told) for path, entry in entries.items())
    return tuple(problem for problem in found if problem is not None)


def _problem(path: str, told: PhotoFacts | Unreadable) -> Problem | None:
    if isinstance(told, Unreadable):
        return Problem(
            Place(path, 1), "bad-picture", f"the picture cannot be shown: {told.reason}",
            Severity.WARNING, help="save it again as JPEG, HEIC, PNG, WebP or TIFF",
        )  # fmt: skip
    ending = misnamed(told, path)
    if ending is None:
        return None
    name = PurePath(path).name
    return Problem(
        Place(path, 1), "misnamed-picture",
        f'the name "{name}" does not tell what the file is: a {told.form} picture', Severity.WARNING,
        help=f"name it {PurePath(path).stem}{ending}, and the same in its sheet",
    )  # fmt: skip

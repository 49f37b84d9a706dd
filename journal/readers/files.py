"""Which files of a car a reader may be told of by name, among those that a seal answers for."""

from collections.abc import Iterable

from journal.records.carfile import CarFile
from journal.words.vocabulary import Reader

# These are in every car file; their names tell nothing.
_ALWAYS = frozenset({"car.yaml", "register.yaml", "papers/papers.yaml"})
# Everyone else reads how many there are, and no more.
_TOLD_BY_NAME = frozenset({Reader.OWNER, Reader.KEEPER})


def files_told(reader: Reader, seen: CarFile, files: Iterable[str]) -> frozenset[str]:
    """The files, by path relative to the car's folder, of which `reader` may read what stands in `seen`.

    What lies anywhere else, or is gone, is not among them: nobody can tell who might have read it.
    """
    if reader is Reader.WORKSHOP:
        return frozenset(files)
    if reader not in _TOLD_BY_NAME:
        return frozenset()
    sources = (*(s.source for s in seen.sheets), *(s.source for s in seen.statements))
    paths = {source.path.removeprefix(f"{seen.name}/") for source in sources}
    photos = {f"photos/{path}" for path in seen.photo_files}
    scans = {f"papers/{path}" for path in seen.paper_files}
    return frozenset(files) & (paths | photos | scans | _ALWAYS)

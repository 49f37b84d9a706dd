"""A faithful copy of what lies elsewhere, and files put there: of both, only what has changed travels."""

import json
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path

from journal.outputs.afar.places import Mark, Place
from journal.outputs.staging import put
from journal.outputs.turns import turn
from journal.reading.prints import is_fresh

# Lists of what stands in an archive, one for each car.
LISTS = ".journal-lies"


def settled(mark: Mark, since: int) -> bool:
    """Whether a mark, seen after `since` in ns, is sure to be another one once the file is changed."""
    return bool(mark.tag) or (mark.changed is not None and not is_fresh(mark.changed, since))


def fetch(
    place: Place, marks: Mapping[str, Mark], below: str, folder: Path, note: Path, began: int
) -> None:
    """Make what lies `below` in a folder the same as in the place, whose files have these marks; `note` is
    the file that keeps what was fetched."""
    before = _noted(note)
    wanted = [
        p for p, mark in marks.items() if before.get(p) != mark or not _is_there(folder / p, mark)
    ]
    # What is not written down is fetched again after a kill.
    known = {p: mark for p, mark in before.items() if p in marks and p not in {*wanted}}
    _write_note(note, known)
    for path in wanted:
        put(folder, path, place.read([path])[path])
    top = folder / below
    for file in sorted(top.rglob("*"), reverse=True) if top.is_dir() else ():
        if file.is_dir():
            if not any(file.iterdir()):
                file.rmdir()
        elif file.relative_to(folder).as_posix() not in marks:
            file.unlink()
    _write_note(note, {p: mark for p, mark in marks.items() if settled(mark, began)})


def _is_there(file: Path, mark: Mark) -> bool:
    return file.is_file() and file.stat().st_size == mark.size


def _noted(note: Path) -> dict[str, Mark]:
    try:
        return {path: Mark(*told) for path, told in json.loads(note.read_bytes()).items()}
    except (FileNotFoundError, ValueError):
        return {}


def _write_note(note: Path, marks: Mapping[str, Mark]) -> None:
    note.parent.mkdir(parents=True, exist_ok=True)
    part = note.with_suffix(".part")
    part.write_text(json.dumps(marks), encoding="utf-8")
    part.replace(note)


def standing(place: Place, name: str) -> tuple[dict[str, str], str]:
    """What stands in an archive of one part: the hash of each file, empty where that is not sure; and the
    key that the part was made under."""
    raw = place.read([list_of(name)]).get(list_of(name))
    try:
        told = json.loads(raw) if raw else {}
        return dict(told.get("files", {})), str(told.get("key", ""))
    except (ValueError, AttributeError):
        # It is not what we wrote: all of it is put again.
        return {}, ""


def list_of(name: str) -> str:
    """Where the list of a part lies; what belongs to no car has no name."""
    return f"{LISTS}/cars/{name}.json" if name else f"{LISTS}/rest.json"


def send(
    place: Place, name: str, files: Mapping[str, str], key: str, bytes_of: Callable[[str], bytes],
    keep: Iterable[str] = (),
) -> int:  # fmt: skip
    """Make a part of an archive hold these files, told with their hashes; how many of them travelled.

    What is new comes first, pages after what they show, and front pages last. Before the first of them the
    list says that those which change are not sure, so that the run after one that was killed puts them again.
    What is gone is taken away, but what is to `keep` since it belongs to another part by now.
    """
    before, made_under = standing(place, name)
    changed = [path for path, sha in files.items() if before.get(path) != sha]
    changed.sort(key=lambda path: (path in before, *turn(path)))
    gone = [path for path in before if path not in files]
    if changed or gone:
        _write_list(place, name, {**before, **dict.fromkeys(changed, "")}, "")
    for path in changed:
        place.write(path, bytes_of(path))
    for path in sorted({*gone} - {*keep}):
        place.remove(path)
    if changed or gone or made_under != key:
        _write_list(place, name, files, key)
    return len(changed)


def _write_list(place: Place, name: str, files: Mapping[str, str], key: str) -> None:
    told = {"key": key, "files": dict(sorted(files.items()))}
    place.write(list_of(name), json.dumps(told, indent=0).encode())

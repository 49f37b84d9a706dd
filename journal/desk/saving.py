"""From a form to the disk: pictures out of the tray first, then the sheet, then the tray is emptied.

Whatever is broken off at any moment, the pictures lie in the tray or in the car, the sheet is whole or
not there, and the page that asked may ask again: what is in the book already is not written twice.
"""

from collections.abc import Iterable, Sequence
from datetime import date, datetime, time
from pathlib import Path
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from journal.desk.desk import Desk
from journal.desk.drafts import Note
from journal.desk.filled import Filled, Opened, carried, day_of, fill, opened_of, title_told
from journal.desk.state import CarState
from journal.desk.tray import Laid
from journal.outputs.sheets.checked import Remark
from journal.outputs.sheets.disk import refusal
from journal.outputs.sheets.form import Form, body_told, form_of, told_of, without
from journal.outputs.sheets.inbox import Arrived, Taken, give_back, let_go, take_in
from journal.outputs.sheets.store import Conflict, NotSaved, Saved, hash_of, save_new, save_over
from journal.pictures.forms import misnamed
from journal.records.carfile import CarFile
from journal.records.photofacts import PhotoFacts
from journal.records.sheet import photo_path
from journal.words.names import slug_of


class Asked(Struct, frozen=True):
    """What a page wants written: the form of a draft, for a new sheet or for the one that was opened."""

    draft: str
    car: CarState
    form: Form
    opened: Opened | None = None


class InBook(Struct, frozen=True):
    """A sheet is on the disk: where, the hash of its bytes, and what there is to say of it."""

    path: str
    hash: str
    remarks: tuple[Remark, ...] = ()


class Refused(Struct, frozen=True):
    """A form is not written since something in it is wrong; the remarks say what."""

    remarks: tuple[Remark, ...]


class Unsaved(Struct, frozen=True):
    """The disk did not take it, and why, as the end of a sentence."""

    reason: str


class Missing(Struct, frozen=True):
    """Pictures of a form that do not lie in the tray, by their ids, which are empty for those that never
    came there: they are to be sent first."""

    ids: tuple[str, ...]


Outcome = InBook | Refused | Conflict | Unsaved | Missing


class Looked(Struct, frozen=True):
    """A sheet as it would be, and its pictures in the tray by the path at which they would lie."""

    filled: Filled
    laid: dict[str, Laid]


def look(desk: Desk, asked: Asked, today: date) -> Looked:
    """The sheet as it would be, written nowhere."""
    laid = _wanted(desk, asked)
    files = {
        one.id: f"{_called(asked.form, one)}{f'-{n}' if n else ''}{_ending(one)}"
        for n, one in enumerate(laid)
    }
    filled = _filled(asked, laid, files, today)
    day = filled.sheet.date if filled.sheet else today
    return Looked(filled, {photo_path(day, files[one.id]): one for one in laid})


def save(desk: Desk, asked: Asked, today: date) -> Outcome:
    """Write a sheet. Asked twice for the same draft, it is the same sheet."""
    note = desk.drafts.find(asked.draft)
    there = sheet_of(desk.root, note) if note and note.car == asked.car.file.name else None
    if note is None or there is None:
        return _saved(desk, asked, today)
    if note.form == asked.form:
        empty_tray(desk, note.files)
        return InBook(there.path, hash_of(there.raw))
    # More was typed while nobody knew that the sheet was in the book.
    form = unwritten(_renamed(asked.form, note.files), note)
    if hash_of(there.raw) == note.hash:
        return _saved(desk, replace(asked, form=form, opened=there), today)
    if asked.opened is not None:
        return _saved_or_as_noted(desk, replace(asked, form=form), note, today)
    told = told_of({}, {}, note.form, note.files)
    written = Opened(there.path, b"", told, form_of(told, body_told(note.form)))
    form = carried(written, form, there)
    return _saved(desk, replace(asked, form=form, opened=there), today)


def _saved_or_as_noted(desk: Desk, asked: Asked, note: Note, today: date) -> Outcome:
    """Write a sheet once more; where that does not go, what was noted of it before still holds."""
    outcome = _saved(desk, asked, today)
    if not isinstance(outcome, InBook):
        try:
            desk.drafts.put(asked.draft, note)
        except OSError as fault:
            return Unsaved(refusal(fault))
    return outcome


def unwritten(form: Form, note: Note) -> Form:
    """A form without the lines that stand in the sheet since the form of the note was saved."""
    if "beside" not in form:
        return form
    return {**form, "beside": without(form["beside"], note.form.get("beside", ()))}


def sheet_of(root: Path, note: Note) -> Opened | None:
    """The sheet that a draft became, as it is on the disk; None when it never came there, is gone, or
    cannot be changed in a form any more."""
    named = [root / note.path] if note.path else []
    for file in named or sorted((root / note.car / "sheets").rglob("*.md")):
        try:
            raw = file.read_bytes()
        except OSError:
            continue
        if note.done or hash_of(raw) == note.hash:
            return opened_of(file.relative_to(root).as_posix(), raw)
    return None


def _renamed(form: Form, files: dict[str, str]) -> Form:
    """A form whose pictures that lie in the car by now are known by their files."""
    photos = [
        {**p, "file": files[p["id"]], "id": ""} if p.get("id") in files else p
        for p in form.get("photos", ())
    ]
    return {**form, "photos": photos}


def _saved(desk: Desk, asked: Asked, today: date) -> Outcome:
    weighed = look(desk, asked, today).filled
    if not weighed.right or weighed.sheet is None:
        return Refused(weighed.remarks)
    laid = _wanted(desk, asked)
    wanted = {str(p.get("id", "")) for p in asked.form.get("photos", ()) if not p.get("file")}
    missing = wanted - {one.id for one in laid}
    if missing:
        return Missing(tuple(sorted(missing)))
    day = weighed.sheet.date
    taken: tuple[Taken, ...] = ()
    try:
        if laid:
            taken = take_in(
                desk.root, asked.car.file.name, day, [_arrived(desk, asked.form, x) for x in laid]
            )
        files = {one.id: t.name for one, t in zip(laid, taken, strict=True)}
        filled = _filled(asked, laid, files, today)
        note = Note(asked.car.file.name, asked.form, hash_of(filled.raw), files=files)
        desk.drafts.put(asked.draft, note)
        outcome = _written(desk, asked, filled, day)
        if isinstance(outcome, Saved):
            desk.drafts.put(asked.draft, replace(note, path=outcome.path, done=True))
    except OSError as fault:
        give_back(taken)
        return Unsaved(refusal(fault))
    if not isinstance(outcome, Saved):
        give_back(taken)
        return Unsaved(outcome.reason) if isinstance(outcome, NotSaved) else outcome
    let_go_of(desk, laid, taken)
    return InBook(outcome.path, outcome.hash, filled.remarks)


def _written(desk: Desk, asked: Asked, filled: Filled, day: date) -> Saved | Conflict | NotSaved:
    if asked.opened is not None:
        read = hash_of(asked.opened.raw)
        return save_over(desk.root, filled.path, filled.raw, read=read)
    told = told_of({}, {}, asked.form)
    return save_new(desk.root, asked.car.file.name, day, title_told(told), filled.raw)


def let_go_of(desk: Desk, laid: Sequence[Laid], taken: Sequence[Taken]) -> None:
    """Empty the tray of pictures that lie in the car, each once its copy was read and is the same."""
    for one, picture in zip(laid, taken, strict=True):
        try:
            let_go((picture,))
        except OSError:
            # It stays in the tray as well, where nobody misses it.
            continue
        desk.tray.drop(one)


def empty_tray(desk: Desk, files: Iterable[str]) -> None:
    """Take out of the tray what a sheet that is in the book has brought along."""
    for id in files:
        laid = desk.tray.find(id)
        if laid is not None:
            desk.tray.drop(laid)


def _wanted(desk: Desk, asked: Asked) -> tuple[Laid, ...]:
    """The pictures of a form that lie in the tray for its draft, in its order."""
    ids = [str(p.get("id", "")) for p in asked.form.get("photos", ())]
    found = (desk.tray.find(id) for id in dict.fromkeys(ids))
    return tuple(laid for laid in found if laid is not None and laid.draft == asked.draft)


def _filled(asked: Asked, laid: Sequence[Laid], files: dict[str, str], today: date) -> Filled:
    day = day_of(asked.form) or today
    file = _bringing(asked.car.file, {photo_path(day, files[x.id]): x for x in laid})
    return fill(asked.car, file, asked.form, asked.opened, files, today)


def _bringing(file: CarFile, pictures: dict[str, Laid]) -> CarFile:
    """The car with pictures that are on their way."""
    facts = {path: facts_of(laid) for path, laid in pictures.items()}
    return replace(
        file, photo_files=file.photo_files | facts.keys(), photo_facts={**file.photo_facts, **facts}
    )


def facts_of(laid: Laid) -> PhotoFacts:
    """What is known of a picture in the tray."""
    taken = datetime.fromisoformat(laid.taken) if laid.taken else None
    return PhotoFacts(
        laid.sha256, laid.bytes, laid.width, laid.height, laid.form,
        taken.date() if taken else None, taken.time() if taken else None,
    )  # fmt: skip


def _arrived(desk: Desk, form: Form, laid: Laid) -> Arrived:
    taken = datetime.fromisoformat(laid.taken) if laid.taken else datetime.combine(date.min, time())
    return Arrived(
        desk.tray.file(laid), taken, bool(laid.taken), _ending(laid), _called(form, laid)
    )


def _called(form: Form, laid: Laid) -> str:
    """What a picture is called: by what it shows and at which stage, else as the phone calls it."""
    entry: dict[str, Any] = next((p for p in form.get("photos", ()) if p.get("id") == laid.id), {})
    of = entry.get("of") or []
    words = [of[0].rsplit("/", 1)[-1], entry.get("stage", "")] if of else []
    return slug_of(" ".join(filter(None, words)) or laid.name.rsplit(".", 1)[0]) or "picture"


def _ending(laid: Laid) -> str:
    return misnamed(facts_of(laid), laid.name) or Path(laid.name).suffix.lower()

"""Forms and remarks as they go between page and desk: what a browser sends is checked for its shape."""

from datetime import date
from typing import Any

from pydantic import BaseModel, ValidationError

from journal.outputs.sheets.checked import Remark
from journal.outputs.sheets.form import FIELDS, Form
from journal.outputs.sheets.spoken import SHOWN_TO
from journal.records.draft import DraftLine
from journal.records.problem import Severity
from journal.records.recording import Moment

# More of one kind than this is no day of anybody.
_MOST = 400
# A sheet has no room for more lines that wait.
_MOST_LINES = 2000
_TEXTS = ("date", "title", "body")
_NAMED = tuple(kind for kind in FIELDS if kind != "photos")
# Lists whose entries are whole, as a sheet says them; `beside` are lines that were taken over and of
# which no field shows everything.
_WHOLE: dict[str, type[BaseModel]] = {"draft": DraftLine, "beside": DraftLine, "recording": Moment}
# A line of a draft is no deeper than this: section, name, key, and a set of keys under it.
_DEEPEST = 6


def form_in(told: object) -> Form | None:
    """A form out of what a browser sent: every text a text, every list a list; None when it is none."""
    if not isinstance(told, dict):
        return None
    subsystem = _words(told.get("subsystem", []))
    hours = told.get("hours", {})
    if subsystem is None or not isinstance(hours, dict) or not _all_text(hours.values()):
        return None
    form: Form = {key: told.get(key, "") for key in _TEXTS}
    if not _all_text(form.values()):
        return None
    form |= {"subsystem": subsystem, "hours": hours}
    for kind in FIELDS:
        entries = _entries(kind, told.get(kind, []))
        if entries is None:
            return None
        form[kind] = entries
    return _with_talk(form, told)


def _with_talk(form: Form, told: dict[str, Any]) -> Form | None:
    """The form with what was said and the lines of it; a form that tells nothing of them leaves them."""
    for key, shape in _WHOLE.items():
        entries = told.get(key)
        if entries is None:
            continue
        if not _are(entries, shape):
            return None
        form[key] = entries
    talk = told.get("talk")
    if talk is None:
        return form
    if not isinstance(talk, dict) or not isinstance(talk.get("text"), str):
        return None
    form["talk"] = {"text": talk["text"], "for": talk.get("for")}
    return form if talk.get("for") in SHOWN_TO else None


def _are(told: object, shape: type[BaseModel]) -> bool:
    return (
        isinstance(told, list) and len(told) <= _MOST_LINES and all(_is(one, shape) for one in told)
    )


def _is(told: object, shape: type[BaseModel]) -> bool:
    if shape is Moment and isinstance(told, str):
        return True
    if not isinstance(told, dict) or not _is_plain(told, _DEEPEST):
        return False
    try:
        shape.model_validate(told, context=date.min)
    except ValidationError:
        return False
    return True


def _is_plain(told: object, deep: int) -> bool:
    """Whether this is texts, lists and sets of keys alone, and no deeper than may be."""
    if isinstance(told, dict):
        return deep > 0 and all(_is_plain(held, deep - 1) for held in told.values())
    if isinstance(told, list):
        return deep > 0 and all(_is_plain(held, deep - 1) for held in told)
    return isinstance(told, str)


def remark_told(remark: Remark) -> dict[str, Any]:
    """A remark as a page hears of it: the field it is about, and the words of the terminal."""
    problem = remark.problem
    return {
        "field": list(remark.field), "text": problem.message, "help": problem.help or "",
        "note": problem.note or "", "error": problem.severity is Severity.ERROR,
    }  # fmt: skip


def _entries(kind: str, told: object) -> list[dict[str, Any]] | None:
    if not isinstance(told, list) or len(told) > _MOST:
        return None
    made = [_entry(kind, entry) for entry in told]
    return None if any(entry is None for entry in made) else [e for e in made if e is not None]


def _entry(kind: str, told: object) -> dict[str, Any] | None:
    if not isinstance(told, dict):
        return None
    names = ("name",) if kind in _NAMED else ("id", "file")
    entry: dict[str, Any] = {name: told.get(name, "") for name in names}
    if not _all_text(entry.values()):
        return None
    for field in FIELDS[kind]:
        if field.name not in told:
            continue
        value = told[field.name]
        if field.kind == "words":
            value = _words(value)
        elif not isinstance(value, bool if field.kind == "yes" else str):
            return None
        if value is None:
            return None
        entry[field.name] = value
    return entry


def _words(told: object) -> list[str] | None:
    return told if isinstance(told, list) and len(told) <= _MOST and _all_text(told) else None


def _all_text(values: Any) -> bool:
    return all(isinstance(value, str) for value in values)

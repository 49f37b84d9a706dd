"""Forms and remarks as they go between page and desk: what a browser sends is checked for its shape."""

from typing import Any

from journal.outputs.sheets.checked import Remark
from journal.outputs.sheets.form import FIELDS, Form
from journal.records.problem import Severity

# More of one kind than this is no day of anybody.
_MOST = 400
_TEXTS = ("date", "title", "body")
_NAMED = tuple(kind for kind in FIELDS if kind != "photos")


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
    return form


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

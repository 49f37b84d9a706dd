"""A sheet as a form shows it, and what a change of the form changes in the sheet.

A form shows part of what a sheet can say. Whoever changes a field of it changes that and nothing else:
what the form does not show, and what nobody touched, stays as it was written.
"""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from journal.outputs.sheets.print import ORDER
from journal.outputs.sheets.spoken import Spoken, parted, together
from journal.outputs.sheets.yamlform import Plain, scalar, well_formed
from journal.words.vocabulary import Reader

# A form is plain data: texts, lists of texts, yes or no; see `FIELDS` and `form_of`.
Form = dict[str, Any]
Entry = dict[str, Any]

# A comma sets readings apart before a blank alone: `0,22` is one number, and is refused as such.
_BETWEEN = re.compile(r"(?:,\s|[;\s])\s*")


class Field(NamedTuple):
    """One field of an entry: by which `name` the form knows it, under which `key` a sheet holds it,
    and how: as a `text`, as `words` in a list, as `numbers` in a list, as `yes`, as the one text that
    stands `within` a set of keys, or as the `least` or `most` of a limit."""

    name: str
    key: str
    kind: str = "text"
    within: str = ""


def _texts(*names: str) -> tuple[Field, ...]:
    return tuple(Field(name, name) for name in names)


# What a form shows of each kind of entry, in the order in which a new entry is written.
FIELDS: dict[str, tuple[Field, ...]] = {
    "work": (
        Field("did", "did", "words"),
        *_texts("found", "verdict", "now", "retained", "original", "came-off", "why"),
        Field("decided", "decided", "within", "by"),
    ),
    "parts": (
        *_texts("what", "number", "from"), Field("of", "of", "words"),
        *_texts("qty", "price", "ordered", "promised", "received", "got", "outcome", "why"),
    ),
    "measured": (
        Field("on", "on"), Field("read", "read", "numbers"), Field("unit", "unit"),
        Field("least", "limit", "least"), Field("most", "limit", "most"), *_texts("with", "note"),
    ),
    "snags": (Field("raise", "raise"), Field("hold", "hold", "yes"), *_texts("on", "clear", "by")),
    "photos": (Field("of", "of", "words"), *_texts("stage", "caption", "alt")),
}  # fmt: skip
# What an entry is that stands there as a bare text.
_BARE = {"work": "did", "snags": "raise", "photos": "file"}
_NAMED = ("work", "parts", "measured", "snags")
# Lists that a form holds as a sheet says them, each entry whole.
_LISTED = ("recording", "draft")


def form_of(told: Mapping[str, Plain], body: str) -> Form:
    """The form of a sheet by its front matter as plain data (`front_told`) and its text.

    Hours of a hand that are more than a number are not shown; `otherwise` names them. While lines of a
    draft wait, what was said stands apart from the text, as `talk`, where it can be told from it.
    """
    hours = told.get("hours", {})
    typed, spoken = parted(body) if told.get("draft") else (body, None)
    return {
        "date": _text(told.get("date")), "title": _text(told.get("title")),
        "subsystem": _words(told.get("subsystem")), "hours": _by_hand(hours),
        "otherwise": _otherwise(hours), "body": typed,
        "talk": spoken and {"text": spoken.text, "for": spoken.reader.value},
        **{kind: [*_entries(kind, told.get(kind, {}))] for kind in _NAMED},
        "photos": [
            {"file": entry["file"], **_shown("photos", entry)}
            for entry in (_whole("photos", e) for e in _items(told.get("photos", ())))
        ],
        **{key: [*_items(told.get(key, ()))] for key in _LISTED},
    }  # fmt: skip


def body_told(form: Form) -> str:
    """The text of a sheet that a form makes: what was typed in it, and what was said."""
    talk = form.get("talk")
    spoken = Spoken(str(talk["text"]), Reader(talk["for"])) if talk else None
    return together(str(form.get("body", "")), spoken)


def told_of(
    before: Mapping[str, Plain], shown: Form, wanted: Form, files: Mapping[str, str] | None = None
) -> dict[str, Plain]:
    """Front matter that says what a form says: `before` is what the sheet said, `shown` the form of
    it, `wanted` the form as it is now. `files` says under which name a picture lies that the form
    knows by its `id`. Nothing that the form says is judged here.
    """
    told = dict(before)
    for key in ("date", "title"):
        if wanted.get(key, "") != shown.get(key, ""):
            _put(told, key, _clean(wanted.get(key)))
    if wanted.get("subsystem") != shown.get("subsystem"):
        _put(told, "subsystem", _short(_clean_words(wanted.get("subsystem"))))
    hours = _hours(told.get("hours", {}), shown.get("hours", {}), wanted.get("hours", {}))
    _put(told, "hours", hours)
    for kind in _NAMED:
        _put(
            told, kind, _named(kind, told.get(kind, {}), shown.get(kind, ()), wanted.get(kind, ()))
        )
    photos = _photos(
        told.get("photos", ()), shown.get("photos", ()), wanted.get("photos", ()), files or {}
    )
    _put(told, "photos", photos)
    for key in _LISTED:
        _put(told, key, _listed(told.get(key, ()), shown.get(key, ()), wanted.get(key)))
    return {key: told[key] for key in ORDER if key in told}


def spread(told: Mapping[str, Plain], body: str = "") -> str:
    """A sheet that has every value on a line of its own, so that each problem is beside its field."""
    front = "".join(f"{line}\n" for line in _spread(told, ""))
    return f"---\n{front}---\n{well_formed(body)}\n"


def _spread(value: Mapping[str, Plain] | Sequence[Plain], indent: str) -> Iterator[str]:
    pairs: Iterable[tuple[str, Plain]] = (
        ((f"{indent}{scalar(key)}:", held) for key, held in value.items())
        if isinstance(value, Mapping)
        else ((f"{indent}-", held) for held in value)
    )
    for opening, held in pairs:
        if isinstance(held, str):
            yield f"{opening} {scalar(held)}"
        elif not held:
            yield f"{opening} {'{}' if isinstance(held, Mapping) else '[]'}"
        else:
            yield opening
            yield from _spread(held, f"{indent}  ")


def _entries(kind: str, told: Plain) -> Iterator[Entry]:
    assert isinstance(told, Mapping)
    for name, entry in told.items():
        yield {"name": name, **_shown(kind, _whole(kind, entry))}


def _items(told: Plain) -> Sequence[Plain]:
    return (told,) if isinstance(told, str | Mapping) else told


def _whole(kind: str, entry: Plain) -> dict[str, Plain]:
    """An entry as a set of keys, whatever it stands there as."""
    return dict(entry) if isinstance(entry, Mapping) else {_BARE[kind]: entry}


def _shown(kind: str, entry: Mapping[str, Plain]) -> Entry:
    return {field.name: _seen(field, entry.get(field.key)) for field in FIELDS[kind]}


def _seen(field: Field, value: "Plain | None") -> Any:
    """A value as the form shows it."""
    if field.kind == "words":
        return _words(value)
    if field.kind == "yes":
        return value == "yes"
    if field.kind == "numbers":
        return ", ".join(_words(value))
    if field.kind == "within" and isinstance(value, Mapping):
        return _text(value.get(field.within))
    if field.kind in ("least", "most"):
        return _text(_limit(value).get(field.kind))
    return _text(value)


def _limit(value: "Plain | None") -> dict[str, Plain]:
    if isinstance(value, Mapping):
        return dict(value)
    return (
        dict(zip(("least", "most"), value or (), strict=False))
        if not isinstance(value, str)
        else {}
    )


def _text(value: "Plain | None") -> str:
    return value if isinstance(value, str) else ""


def _words(value: "Plain | None") -> list[str]:
    if value is None or isinstance(value, Mapping):
        return []
    return [value] if isinstance(value, str) else [word for word in value if isinstance(word, str)]


def _by_hand(told: Plain) -> dict[str, str]:
    """Hours of hands that are told by their number alone."""
    if isinstance(told, str):
        return {"": told}
    if not isinstance(told, Mapping) or "hours" in told:
        return {}
    return {hand: hours for hand, hours in told.items() if isinstance(hours, str)}


def _otherwise(told: Plain) -> list[str]:
    """Whose hours are told with their kind, or by subsystem."""
    if isinstance(told, str):
        return []
    if not isinstance(told, Mapping) or "hours" in told:
        return [""]
    return [hand for hand, hours in told.items() if not isinstance(hours, str)]


def _hours(told: Plain, shown: Mapping[str, Any], wanted: Mapping[str, Any]) -> Plain:
    """Hours in which those of the hands are put that differ."""
    after = {str(hand): _clean(hours) for hand, hours in wanted.items()}
    if _otherwise(told) == [""] or all(
        after.get(h, "") == shown.get(h, "") for h in {*after, *shown}
    ):
        return told
    made: dict[str, Plain] = dict(told) if isinstance(told, Mapping) else {"": told} if told else {}
    for hand in (*after, *(hand for hand in shown if hand not in after)):
        if after.get(hand, "") != shown.get(hand, ""):
            _put(made, hand, after.get(hand, ""))
    return made.get("", made) if len(made) == 1 else made


def _named(
    kind: str, told: Plain, shown: Sequence[Entry], wanted: Sequence[Entry]
) -> dict[str, Plain]:
    assert isinstance(told, Mapping)
    before = {entry["name"]: entry for entry in shown}
    after = {_clean(entry.get("name")): entry for entry in wanted}
    made: dict[str, Plain] = {
        name: entry for name, entry in told.items() if name in after or name not in before
    }
    for name, entry in after.items():
        was = before.get(name, {})
        if name in told:
            made[name] = _changed(kind, told[name], was, entry)
        elif not was or _differs(kind, was, entry):
            # New, or changed here and taken out by somebody else.
            made[name] = _changed(kind, {}, {}, entry)
    return {name: entry for name, entry in made.items() if name}


def _photos(
    told: Plain, shown: Sequence[Entry], wanted: Sequence[Entry], files: Mapping[str, str]
) -> list[Plain]:
    """Pictures that the sheet tells of in its order, without those taken out; then the new ones."""
    named = [
        {**e, "file": _clean(e.get("file")) or files.get(str(e.get("id")), "")} for e in wanted
    ]
    before, after = _by_file(shown), _by_file(named)
    here = _by_file([_whole("photos", item) for item in _items(told)], [*_items(told)])
    made: list[Plain] = []
    for key, item in here.items():
        if key in before and key in after:
            made.append(_changed("photos", item, before[key], after[key]))
        elif key not in before:
            made.append(item)
    new = [e for key, e in after.items() if key not in here and key not in before and key[0]]
    return made + [_changed("photos", {"file": e["file"]}, {}, e) for e in new]


def _listed(told: Plain, shown: Sequence[Plain], wanted: Sequence[Plain] | None) -> Plain:
    """A list without the entries that were taken out, and with those that were put in at its end."""
    if wanted is None or [*wanted] == [*shown]:
        return told
    gone, new = without(shown, wanted), without(wanted, shown)
    return [*without(_items(told), gone), *new]


def without(entries: Sequence[Plain], others: Sequence[Plain]) -> list[Plain]:
    """Entries but for as many of each as there are among others."""
    left, kept = [*others], []
    for entry in entries:
        if entry in left:
            left.remove(entry)
        else:
            kept.append(entry)
    return kept


def _by_file(entries: Sequence[Entry], values: Sequence[Any] = ()) -> dict[tuple[str, int], Any]:
    """Entries by their file and how often it stood there before."""
    found: dict[tuple[str, int], Any] = {}
    for entry, value in zip(entries, values or entries, strict=True):
        often = sum(file == entry["file"] for file, _ in found)
        found[entry["file"], often] = value
    return found


def _changed(kind: str, told: Plain, was: Entry, wanted: Entry) -> Plain:
    """An entry in which the fields are put that differ; as it is when none does."""
    return _entry(kind, _whole(kind, told), was, wanted) if _differs(kind, was, wanted) else told


def _differs(kind: str, was: Entry, wanted: Entry) -> bool:
    return any(wanted.get(f.name, was.get(f.name)) != was.get(f.name) for f in FIELDS[kind])


def _entry(kind: str, told: dict[str, Plain], was: Entry, wanted: Entry) -> Plain:
    """An entry in which the fields that differ are put."""
    for field in FIELDS[kind]:
        value = wanted.get(field.name)
        if value is not None and value != was.get(field.name):
            _put(told, field.key, _put_of(field, told.get(field.key), value))
    return told


def _put_of(field: Field, before: "Plain | None", value: Any) -> Plain:
    if field.kind == "words":
        return _short(_clean_words(value))
    if field.kind == "numbers":
        return _short([word for word in _BETWEEN.split(_clean(value)) if word])
    if field.kind == "yes":
        return "yes" if value is True else ""
    if field.kind == "within" and isinstance(before, Mapping) and _clean(value):
        return {**before, field.within: _clean(value)}
    if field.kind in ("least", "most"):
        limit = _limit(before)
        _put(limit, field.kind, _clean(value))
        both = [limit[end] for end in ("least", "most") if end in limit]
        return both if len(both) == 2 else limit
    return _clean(value)


def _put(told: dict[str, Plain], key: str, value: Plain) -> None:
    """A value under its key; nothing said is no key."""
    if value:
        told[key] = value
    else:
        told.pop(key, None)


def _short(words: list[str]) -> Plain:
    return words[0] if len(words) == 1 else words


def _clean(value: Any) -> str:
    return well_formed(value).strip() if isinstance(value, str) else ""


def _clean_words(value: Any) -> list[str]:
    words = [value] if isinstance(value, str) else value if isinstance(value, list) else []
    return [word for word in map(_clean, words) if word]

"""What two lines say of one thing, made one: entries of a sheet's sections as plain data.

What is told key by key is put together; lists and findings stand side by side; hours are added up. Of
the rest the later line counts, and `clashing` says beforehand which that is.
"""

from collections.abc import Callable, Mapping

from journal.outputs.sheets.print import hours_told
from journal.outputs.sheets.yamlform import Plain
from journal.records.draft import DraftLine
from journal.records.fields import Named
from journal.records.hours import HoursLine
from journal.words.wrong import WrongCall

Told = dict[str, Plain]

# The sections of named entries, each with the keys that tell that an entry begins a thing; an entry
# without them goes on with the one of its name.
BEGINS: dict[str, tuple[str, ...]] = {
    "work": (), "parts": ("what", "ordered"), "outwork": ("what", "sent"), "measured": ("read",),
    "proving": (), "snags": ("raise",), "rechecks": ("after",),
}  # fmt: skip
# What an entry is that stands there as a bare text or list.
_BARE = {"work": "did", "snags": "raise", "rechecks": "after", "proving": "found"}
_LISTS = frozenset({"did", "of", "paper", "locking"})
_WORDS = frozenset({"found", "note"})
_MOST_HOURS = 24


def listed(value: "Plain | None") -> list[Plain]:
    """A list, of which one entry may stand alone."""
    if value is None:
        return []
    return [value] if isinstance(value, str | Mapping) else [*value]


def keyed(value: "Plain | None") -> Told:
    """A set of keys, or none where something else stands."""
    return dict(value) if isinstance(value, Mapping) else {}


def whole(kind: str, entry: Plain) -> Told:
    """An entry as a set of keys, whatever it stands there as."""
    return dict(entry) if isinstance(entry, Mapping) else {_BARE[kind]: entry}


def begins(kind: str, entry: Plain) -> bool:
    """Whether an entry begins a thing, which is another one than any of its name that differs."""
    return any(key in whole(kind, entry) for key in BEGINS[kind])


def free(name: str, taken: Callable[[str], bool]) -> str:
    """The name, or the first of `name-2`, `name-3` and so on that is not taken."""
    number, called = 1, name
    while taken(called):
        number += 1
        called = f"{name}-{number}"
    return called


def union(before: "Plain | None", after: "Plain | None") -> list[Plain]:
    """Both lists without what stands there twice."""
    made = listed(before)
    return made + [entry for entry in listed(after) if entry not in made]


def clashing(before: Told, after: Told) -> Told:
    """What the later of two entries says otherwise."""
    return {
        key: value
        for key, value in after.items()
        if key not in _LISTS | _WORDS and before.get(key, value) != value
    }


def together(before: Told, after: Told) -> Told:
    """Two entries of one thing as one."""
    made = dict(before)
    for key, value in after.items():
        if key in _LISTS:
            made[key] = union(made.get(key), value)
        elif key in _WORDS and key in made:
            made[key] = "; ".join(map(str, union(_said(made[key]), _said(value))))
        else:
            made[key] = value
    return made


def _said(words: Plain) -> list[Plain]:
    return [*str(words).split("; ")]


def _entries(kind: str) -> Callable[["Plain | None", Plain], Plain]:
    def merged(before: "Plain | None", after: Plain) -> Plain:
        made = keyed(before)
        for name, entry in keyed(after).items():
            new, called = whole(kind, entry), name
            if begins(kind, entry) and clashing(whole(kind, made.get(name, {})), new):
                called = free(name, made.__contains__)
            made[called] = together(whole(kind, made.get(called, {})), new)
        return made

    return merged


def _hours(before: "Plain | None", after: Plain) -> Plain:
    """Hours of one hand on one subsystem and of one kind are added up, exactly."""
    spent: dict[tuple[str, str], list[HoursLine]] = {}
    for told in filter(None, (before, after)):
        for subsystem, hands in DraftLine.model_validate({"hours": told}).hours:
            for hand, lines in hands:
                for line in lines:
                    _add(spent.setdefault((subsystem, hand), []), line)
    if len({bool(hand) for _, hand in spent}) > 1:
        raise WrongCall("the sheet has hours without a hand; write first whose they are")
    by_branch: dict[str, list[tuple[str, tuple[HoursLine, ...]]]] = {}
    for (subsystem, hand), added in spent.items():
        by_branch.setdefault(subsystem, []).append((hand, tuple(added)))
    return hours_told(Named((branch, Named(hands)) for branch, hands in by_branch.items()))


def _add(spent: list[HoursLine], more: HoursLine) -> None:
    """Add hours to those that differ in nothing but their number, where a day can hold both."""
    for n, line in enumerate(spent):
        total = line.hours + more.hours
        if line == more.model_copy(update={"hours": line.hours}) and total <= _MOST_HOURS:
            spent[n] = line.model_copy(update={"hours": total})
            return
    spent.append(more)


# How each section takes up what a line says under it. Raises WrongCall when hours with a hand would
# stand beside hours without one.
MERGES: dict[str, Callable[["Plain | None", Plain], Plain]] = {
    "subsystem": union, "hours": _hours, **{kind: _entries(kind) for kind in BEGINS},
}  # fmt: skip

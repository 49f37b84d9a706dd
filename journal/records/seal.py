"""A seal: the closing of a period by a hash tree over everything written until then.

A seal is a folder such as `seals/0002` of a car with four files, each readable without this program: the
statement (`statement.txt`), a signature over its bytes (`statement.sig`), the public key
(`workshop.pem`), and the entries that this seal adds to those before it (`entries.sha256`, in the form
that `sha256sum --check` reads).
"""

import re
from datetime import date
from typing import Any

from msgspec import Struct

from journal.words.merkle import leaf_hash

STATEMENT, SIGNATURE, PUBLIC_KEY, ENTRIES = (
    "statement.txt", "statement.sig", "workshop.pem", "entries.sha256",
)  # fmt: skip
HEADING = "Seal of a restoration journal, form 1"
_LINE = re.compile(r"([0-9a-f]{64})  ([^\n\r\\]+)")
_HIDDEN = re.compile(r"leaf ([0-9a-f]{64})")


class Entry(Struct, frozen=True):
    """One file as it was sealed: its path relative to the car's folder and the hash of its bytes.

    Of an entry that a reader may not see only the hash of its `leaf` is told; then both are empty.
    """

    path: str
    sha256: str
    leaf: bytes

    @classmethod
    def of(cls, path: str, sha256: str) -> "Entry":
        """An entry that is told in full."""
        return cls(path, sha256, leaf_hash(f"{sha256}  {path}\n".encode()))

    @property
    def line(self) -> str:
        """As it stands in the list."""
        return f"{self.sha256}  {self.path}" if self.path else f"leaf {self.leaf.hex()}"

    @property
    def hidden(self) -> "Entry":
        """The same without telling what it is of."""
        return Entry("", "", self.leaf)


def entries_in(text: str) -> tuple[Entry, ...] | None:
    """The entries of a list, or None when a line of it is none."""
    entries = []
    for line in text.splitlines():
        told, hidden = _LINE.fullmatch(line), _HIDDEN.fullmatch(line)
        if told:
            entries.append(Entry.of(told[2], told[1]))
        elif hidden:
            entries.append(Entry("", "", bytes.fromhex(hidden[1])))
        else:
            return None
    return tuple(entries)


class Statement(Struct, frozen=True):
    """What a seal states and what is signed: over how many entries, with which root, after which seal.

    Roots and the key are SHA-256 in hexadecimal; `key` is the hash of the public key in its DER form.
    `entries_before` and `root_before` are those of the seal before, 0 and the root of nothing for the
    first one.
    """

    car: str
    workshop: str
    seal: int
    up_to: date
    sealed_on: date
    entries: int
    root: str
    entries_before: int
    root_before: str
    key: str

    def text(self) -> str:
        """The statement as it is written and signed."""
        told = (f"{_label(name)}: {getattr(self, name)}" for name in self.__struct_fields__)
        return "\n".join((HEADING, *told)) + "\n"


_HEX = {"root", "root_before", "key"}


def statement_in(text: str) -> Statement | None:
    """The statement that a text is, or None for a text that is not wholly and exactly one."""
    lines = text.split("\n")
    names = Statement.__struct_fields__
    if lines[:1] != [HEADING] or len(lines) != len(names) + 2:
        return None
    told: dict[str, Any] = {}
    for name, line in zip(names, lines[1:], strict=False):
        label, _, value = line.partition(": ")
        if label != _label(name):
            return None
        told[name] = _value(name, value)
    statement = Statement(**told)
    whole = None not in told.values() and statement.text() == text
    return statement if whole else None


def _label(name: str) -> str:
    return name.replace("_", " ")


def _value(name: str, text: str) -> object:
    kind = Statement.__annotations__[name]
    if name in _HEX:
        return text if re.fullmatch("[0-9a-f]{64}", text) else None
    if kind is int:
        return int(text) if re.fullmatch(r"0|[1-9]\d{0,9}", text) else None
    if kind is date:
        try:
            return date.fromisoformat(text)
        except ValueError:
            return None
    return text or None


class Seal(Struct, frozen=True):
    """A seal as it lies in the folder: its name there, what it states, what it adds, and whether the
    signature is by the key that it names.

    `statement` and `entries` are absent when their file cannot be read as what it should be.
    """

    name: str
    statement: Statement | None
    entries: tuple[Entry, ...] | None
    signed: bool

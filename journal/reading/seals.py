"""The seals of a car, and the hashes of the files that they answer for."""

from pathlib import Path

from journal.records.seal import (
    ENTRIES,
    PUBLIC_KEY,
    SIGNATURE,
    STATEMENT,
    Seal,
    entries_in,
    statement_in,
)

FOLDER = "seals"


def read_seals(folder: Path) -> tuple[Seal, ...]:
    """The seals in a folder by name. What cannot be read as one is there with what can be read of it."""
    names = (path.name for path in folder.glob("*") if path.is_dir())
    return tuple(_seal(folder / name) for name in sorted(names) if not name.startswith("."))


def _seal(folder: Path) -> Seal:
    # Few cars are sealed on the days on which they are published, and it takes long to load.
    from journal.reading.signatures import is_signed, key_hash, public_key_in

    written = _bytes(folder / STATEMENT)
    statement = statement_in(written.decode("utf-8", errors="replace"))
    listed = _bytes(folder / ENTRIES).decode("utf-8", errors="replace")
    key = public_key_in(_bytes(folder / PUBLIC_KEY))
    named = statement is not None and key is not None and key_hash(key) == statement.key
    signed = named and is_signed(key, written, _bytes(folder / SIGNATURE))
    return Seal(folder.name, statement, entries_in(listed), signed)


def _bytes(file: Path) -> bytes:
    return file.read_bytes() if file.is_file() else b""

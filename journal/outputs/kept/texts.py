"""What the texts of a car's sheets came to when they were parsed."""

from collections.abc import Iterable

from journal.outputs.kept.pack import packed, unpacked
from journal.outputs.kept.store import Store
from journal.reading.parsed import Parsed, parsed, remember
from journal.records.sheet import Sheet


def texts_before(store: Store, name: str) -> dict[str, Parsed]:
    """What was kept of texts under a name: from now on it is remembered."""
    known: dict[str, Parsed] = unpacked(store.get(name)) or {}
    remember(known)
    return known


def keep_texts(store: Store, name: str, before: dict[str, Parsed], sheets: Iterable[Sheet]) -> None:
    """Keep what the texts of these sheets come to, unless that is what was kept `before`."""
    now = {block.text: parsed(block.text) for sheet in sheets for block in sheet.body}
    if now.keys() != before.keys():
        store.put(name, packed(now))

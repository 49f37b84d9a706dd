"""What the texts of a car's sheets came to when they were parsed."""

from collections.abc import Iterable, Iterator

from journal.outputs.hands import shared
from journal.outputs.kept.pack import packed, unpacked
from journal.outputs.kept.store import Store
from journal.reading.parsed import Parsed, parsed, remember
from journal.records.sheet import Sheet

# In so many turns texts are parsed, by whoever is free; fewer new ones are not worth another hand.
_TURNS = 32


def remember_texts(store: Store, name: str, sheets: Iterable[Sheet], hands: int) -> None:
    """Parse the texts of these sheets, by so many hands, but for those of which it is kept under a name
    what they come to; from now on it is remembered of all."""
    known: dict[str, Parsed] = unpacked(store.get(name)) or {}
    texts = dict.fromkeys(block.text for sheet in sheets for block in sheet.body)
    new = [text for text in texts if text not in known]

    def parse(numbers: Iterator[int]) -> dict[str, Parsed]:
        return {text: parsed(text) for number in numbers for text in new[number::_TURNS]}

    for some in shared(parse, _TURNS, hands if len(new) > _TURNS else 1):
        known |= some
    remember(known)
    if new:
        store.put(name, packed({text: known[text] for text in texts}))

"""The facts of photographs as one reader may see them."""

from collections.abc import Mapping
from typing import Any

from msgspec.structs import fields, replace

from journal.readers.rules import SEEN_FACTS
from journal.records.photofacts import PhotoFacts
from journal.words.vocabulary import Reader


def facts_for(reader: Reader, facts: Mapping[str, PhotoFacts]) -> dict[str, PhotoFacts]:
    """The facts of photographs with what the reader may not see of them put back to nothing."""
    if reader is Reader.WORKSHOP:
        return dict(facts)
    hidden: dict[str, Any] = {
        f.name: f.default for f in fields(PhotoFacts) if f.name not in SEEN_FACTS[reader]
    }
    return {path: replace(told, **hidden) for path, told in facts.items()}

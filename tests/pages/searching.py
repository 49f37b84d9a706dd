"""A car to search in, and the files of its search read back as the page that loads them does."""

import json
import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from journal.pages.page import TextFile
from journal.pages.searchdata import FOLDER
from journal.pages.view import CarView, view_of
from journal.records.carfile import CarFile
from journal.words.vocabulary import Reader
from tests.writing import a_car, a_sheet

# Digits to the base of 31; from 31 on a sign says that more of the number follows.
SIGNS = "0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"


def a_view(
    car: CarFile | None = None, *, base: str = "", reader: Reader = Reader.WORKSHOP
) -> CarView:
    """A car as a reader sees it, one with something of every kind unless another is given."""
    return view_of(car or a_busy_car(), reader, base=base, pictures={})


def a_busy_car() -> CarFile:
    """One car with something of every kind that can be found, pictures excepted."""
    departure = {
        "did": ["removed", "fitted"], "now": "upgrade", "original": "bin B-2", "why": "rusted through",
        "decided": "owner", "reversible": "yes", "undo": "make the set again",
    }  # fmt: skip
    first = a_sheet(
        "2024-03-05", name="pipes", title="Pipes off", hours={"MT": "3.5"},
        body="Nine pipes, *all* of them [thin](x). No. 4 wept.\n\n> A quoted line\n\n    in code",
        work={"brakes/pipes": departure},
        parts={"unions": {"what": "Unions", "number": "CB-1", "from": "northgate", "price": "12.00",
                          "why": "cross-threaded"}},
        outwork={"clips": {"what": "Clips to plate", "to": "northgate", "sent": "9", "note": "dull zinc"}},
        measured={"bore": {"on": "brakes/pipes", "read": "3.2", "unit": "mm", "limit": ["3", "4"]}},
        snags={"bleed": {"raise": "bleed the brakes", "hold": "yes"}}, papers="card",
    )  # fmt: skip
    second = a_sheet(
        "2024-03-06", name="again", title="Pipes again", snags={"bleed": {"clear": "bled twice"}},
        measured={"bore": {"on": "brakes/pipes", "read": "3.5", "unit": "mm"}},
        corrects={"sheet": first.name, "what": "ten pipes"},
    )  # fmt: skip
    register = {
        "brakes/pipes": {"as-found": "first-fit", "works": "terne-coated steel", "condition": "thin"},
        "trim/seat": "unknown",
    }  # fmt: skip
    papers = {
        "card": {"title": "Build card", "kind": "factory record", "says": "Left hand. Sent to Calder.",
                 "numbers": {"chassis": "TD 1"}, "keepers": [{"name": "A. Fenn", "place": "Calder"}]}
    }  # fmt: skip
    return a_car(register, [first, second], papers=papers)


@dataclass(frozen=True)
class Read:
    """What the files hold: `start`, words by file, and the texts of all documents in order."""

    start: dict[str, Any]
    words: dict[str, dict[str, dict[int, int]]]
    texts: list[list[Any]]

    def of(self, term: str) -> dict[int, int]:
        """The documents of a term with its level, from the one file that may hold it."""
        names = [name for name in self.start["terms"] if term.startswith(name)]
        return self.words[max(names, key=len)].get(term, {}) if names else {}


def read_search(files: Iterable[TextFile], base: str = "") -> Read:
    """Read the files of a search; every name must be told by the start, and the other way round."""
    calls = [_call(file, base) for file in files]
    (start,) = (data for kind, _, data in calls if kind == "start")
    words = {name: _words(data) for kind, name, data in calls if kind == "terms"}
    texts = [data for kind, _, data in calls if kind == "texts"]
    assert start["terms"] == list(words)
    assert start["texts"] == [sum(map(len, texts[:n])) for n in range(len(texts))]
    flat = [text for some in texts for text in some]
    assert len(flat) == sum(count for _, _, count in start["kinds"])
    return Read(start, words, flat)


def _call(file: TextFile, base: str) -> tuple[str, str, Any]:
    assert file.path.startswith(f"{base}{FOLDER}")
    assert file.text.startswith("journalFind(")
    assert file.text.endswith(");\n")
    kind, name, data = json.loads(f"[{file.text[12:-3]}]")
    return kind, name, data


def _words(lines: list[str]) -> dict[str, dict[int, int]]:
    split = (re.fullmatch("([^A-Z]*)Q([0-9A-Za-z]*)", line, re.DOTALL) for line in lines)
    return {line[1]: unpacked(line[2]) for line in split if line}


def unpacked(signs: str) -> dict[int, int]:
    """Documents and levels from their signs."""
    places: dict[int, int] = {}
    number, digit = 0, 1
    values = iter(map(SIGNS.index, signs))
    for value in values:
        number += value % 31 * digit
        digit *= 31
        if value < 31:
            places[number] = next(values)
            digit = 1
    return places

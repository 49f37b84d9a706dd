"""Where in a file everything stands: the same reading as `yamltext`, for those who change one value and
leave every other byte as it was written."""

import re
from collections.abc import Iterator
from enum import Enum
from itertools import pairwise

import yaml
from msgspec import Struct
from yaml.events import (
    AliasEvent,
    Event,
    MappingEndEvent,
    MappingStartEvent,
    NodeEvent,
    ScalarEvent,
    SequenceEndEvent,
)

from journal.reading.sheet import front_end
from journal.records.place import Loc
from journal.words.hidden import PARTING, without_hidden
from journal.words.text import normal

_COLON = re.compile(r"\s*:")


class Kind(Enum):
    """What a value is: a text, a list, or a set of keys."""

    TEXT = 0
    LIST = 1
    SET = 2


class Entry(Struct, frozen=True):
    """One key of a set with its value, or one entry of a list, which has no key.

    `start` is where the key, or the dash of a list in lines, stands; `opened` is where the colon or
    the dash ends; `end` is where the value ends, or `opened` when there is none.
    """

    key: str
    start: int
    opened: int
    value: "Node"
    end: int


class Node(Struct, frozen=True):
    """A value from `start` to `end`; `flow` marks a list or set in brackets. Nothing after a key is an
    empty text."""

    kind: Kind
    start: int
    end: int
    flow: bool = False
    entries: tuple[Entry, ...] = ()

    @property
    def empty(self) -> bool:
        """Whether nothing stands here."""
        return self.start == self.end


class Shown(Struct, frozen=True):
    """A file's text as it is read, and where each of its characters stands in the file as it is.

    `text` has LF line ends and nothing that nobody sees; `places` holds start and end of each character.
    """

    written: str
    text: str
    places: tuple[tuple[int, int], ...]

    def start(self, place: int) -> int:
        """Where in the file the character at a place of the text starts."""
        return self.places[place][0] if place < len(self.places) else len(self.written)

    def end(self, place: int) -> int:
        """Where in the file the character before a place of the text ends."""
        return self.places[place - 1][1] if place else self.start(0)

    @property
    def newline(self) -> str:
        """How the first line of the file ends."""
        found = re.search("\r\n|\r|\n", self.written)
        return found.group() if found else "\n"


def shown(written: str) -> Shown:
    """A file's text as `text_of` reads it, but for the Unicode form, with the place of each character."""
    ends: list[tuple[int, int]] = []
    characters: list[str] = []
    for match in re.finditer("\r\n|.", written, re.DOTALL):
        character = "\n" if match.group() in ("\r\n", "\r") else match.group()
        if match.start() or character != "\ufeff":
            characters.append(character)
            ends.append(match.span())
    text, _ = without_hidden("".join(characters))
    return Shown(written, text, tuple(_aligned(characters, ends, text)))


def _aligned(
    characters: list[str], ends: list[tuple[int, int]], text: str
) -> Iterator[tuple[int, int]]:
    """The place of each character of a text from which others were taken out, or made to blanks."""
    here = 0
    for character in text:
        while characters[here] != character and not (
            character == " " and characters[here] in PARTING
        ):
            here += 1
        yield ends[here]
        here += 1


class SheetSpans(Struct, frozen=True):
    """A sheet's file: its front matter as nodes, and where its text begins, both by places in the text
    of `shown`."""

    shown: Shown
    front: Node
    body: int


def sheet_spans(written: str) -> SheetSpans | None:
    """The spans of a sheet, or None when its front matter cannot be read."""
    seen = shown(written)
    lines = seen.text.split("\n")
    last = front_end(lines)
    if last is None:
        return None
    starts = [0]
    for line in lines[: last + 1]:
        starts.append(starts[-1] + len(line) + 1)
    front = _nodes(seen.text, starts[1], max(starts[last] - 1, starts[1]))
    if front is None or front.kind is not Kind.SET:
        return None
    return SheetSpans(seen, front, min(starts[last + 1], len(seen.text)))


def _nodes(text: str, start: int, end: int) -> Node | None:
    """The value between two places of a text; None when it is no YAML that a journal uses."""
    reader = _Reader(text, start)
    events = yaml.parse(text[start:end], Loader=yaml.CBaseLoader)
    try:
        for event in events:
            if isinstance(event, NodeEvent):
                return reader.node(event, events)
    except (yaml.MarkedYAMLError, yaml.reader.ReaderError, _NotOurs):
        return None
    return None


class _NotOurs(Exception):
    """The text uses what no journal does: aliases, tags, keys that are no texts."""


class _Reader:
    """Makes nodes of parser events; the events of a part start at `base` in the text."""

    def __init__(self, text: str, base: int) -> None:
        self.text, self.base = text, base

    def node(self, event: Event, events: Iterator[Event]) -> Node:
        """The node that an event opens; what belongs to it is taken from the events."""
        if isinstance(event, AliasEvent) or getattr(event, "tag", None) or event.anchor:  # type: ignore[attr-defined]
            raise _NotOurs
        start, end = self._span(event)
        if isinstance(event, ScalarEvent):
            # The line end after a text in lines of its own belongs to the line, not to the text.
            if event.style in ("|", ">") and self.text[end - 1 : end] == "\n":
                end -= 1
            return Node(Kind.TEXT, start, end)
        flow = bool(event.flow_style)  # type: ignore[attr-defined]
        if isinstance(event, MappingStartEvent):
            entries, end = self._keys(events)
            return Node(Kind.SET, start, end if flow else entries[-1].end, flow, entries)
        entries, end = self._items(events, flow, start)
        return Node(Kind.LIST, start, end if flow else entries[-1].end, flow, entries)

    def _span(self, event: Event) -> tuple[int, int]:
        assert event.start_mark
        assert event.end_mark
        return self.base + event.start_mark.index, self.base + event.end_mark.index

    def _keys(self, events: Iterator[Event]) -> tuple[tuple[Entry, ...], int]:
        found: list[Entry] = []
        for event in events:
            if isinstance(event, MappingEndEvent):
                return tuple(found), self._span(event)[1]
            if not isinstance(event, ScalarEvent):
                raise _NotOurs
            start, end = self._span(event)
            colon = _COLON.match(self.text, end)
            opened = colon.end() if colon else end
            value = self.node(next(events), events)
            if value.empty:
                value = Node(Kind.TEXT, opened, opened)
            found.append(Entry(_key(event), start, opened, value, value.end))
        raise _NotOurs

    def _items(
        self, events: Iterator[Event], flow: bool, start: int
    ) -> tuple[tuple[Entry, ...], int]:
        found: list[Entry] = []
        column = start - self._line_start(start)
        for event in events:
            if isinstance(event, SequenceEndEvent):
                return tuple(found), self._span(event)[1]
            value = self.node(event, events)
            if flow:
                found.append(Entry("", value.start, value.start, value, value.end))
                continue
            dash = self._dash(value.start, column)
            if value.empty:
                value = Node(Kind.TEXT, dash + 1, dash + 1)
            found.append(Entry("", dash, dash + 1, value, value.end))
        raise _NotOurs

    def _line_start(self, place: int) -> int:
        return self.text.rfind("\n", 0, place) + 1

    def _dash(self, place: int, column: int) -> int:
        """The dash of a list's entry whose value starts at a place: the last one in the list's column."""
        line = self._line_start(place)
        while line >= self.base:
            if self.text[line + column : line + column + 1] == "-" and line + column <= place:
                return line + column
            line = self._line_start(line - 1) if line else -1
        raise _NotOurs


def _key(event: ScalarEvent) -> str:
    text = str(event.value)
    return normal(without_hidden(text)[0] if event.style == '"' else text)


def lines_of(seen: Shown, start: int) -> tuple[tuple[str, str], ...]:
    """The lines from a place of the text on: each as it is read, and as it stands in the file with its
    line end."""
    ends = [n + 1 for n, c in enumerate(seen.text) if c == "\n" and n >= start]
    places = [start, *ends, *([len(seen.text)] if (ends or [start])[-1] < len(seen.text) else [])]
    return tuple(
        (normal(seen.text[a:b].rstrip("\n")), seen.written[_from(seen, a) : _from(seen, b)])
        for a, b in pairwise(places)
    )


def _from(seen: Shown, place: int) -> int:
    return len(seen.written) if place >= len(seen.places) else seen.end(place)


def loc_at(raw: bytes, line: int) -> Loc:
    """The key path of what stands on a line of a sheet, as far down as things have lines of their own;
    empty for a line outside the front matter, or when that cannot be read."""
    spans = sheet_spans(raw.decode("utf-8", "replace"))
    if spans is None:
        return ()
    text, loc = spans.shown.text, []
    node: Node | None = spans.front
    while node is not None:
        lines = [text.count("\n", 0, entry.start) + 1 for entry in node.entries]
        last = [text.count("\n", 0, entry.end) + 1 for entry in node.entries]
        here = [n for n, (a, b) in enumerate(zip(lines, last, strict=True)) if a <= line <= b]
        if len(here) != 1 or (node.flow and len(node.entries) > 1):
            break
        entry = node.entries[here[0]]
        loc.append(entry.key if node.kind is Kind.SET else here[0])
        # What stands on the line of its key is one field with it.
        below = entry.value.kind is not Kind.TEXT and line > lines[here[0]]
        node = entry.value if below and not entry.value.flow else None
    return tuple(loc)

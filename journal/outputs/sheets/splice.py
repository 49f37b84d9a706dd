"""The smallest changes of a YAML text that make what it says into what is wanted.

A change is a `Cut`: what stands between two places is replaced. Comments, order, spacing and all keys
that are not told to change lie outside of every cut.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import groupby, pairwise
from typing import NamedTuple

from journal.outputs.sheets.yamlform import Plain, entry_lines, flow, item_lines
from journal.reading.spans import Entry, Kind, Node


class Cut(NamedTuple):
    """What stands from `start` to `end` is replaced by `text`."""

    start: int
    end: int
    text: str


def apply(cuts: Iterable[Cut]) -> list[Cut]:
    """Cuts in order of place, those at one place as they were made; none may lie in another."""
    ordered = sorted(cuts, key=lambda cut: (cut.start, cut.end))
    for before, after in pairwise(ordered):
        assert before.end <= after.start, (before, after)
    return ordered


class Splicer:
    """Finds the cuts in one text."""

    def __init__(self, text: str) -> None:
        self.text = text

    def keys(
        self,
        node: Node,
        before: Mapping[str, Plain],
        after: Mapping[str, Plain],
        order: Sequence[str] = (),
    ) -> Iterator[Cut]:
        """Cuts in a set of keys that says `before`, so that it says `after`.

        Keys of the text that are in neither stay. A new key stands after the one that comes before
        it in `order`, or else in `after`.
        """
        here = {entry.key: entry for entry in reversed(node.entries)}
        gone = (before.keys() - after.keys()) & here.keys()
        for key, value in after.items():
            if key in here and value != before.get(key):
                yield from self._value(node, here[key], before.get(key), value)
        yield from self._without(node, [entry.key in gone for entry in node.entries])
        order = order or tuple(after)
        stay = {key: entry for key, entry in here.items() if key not in gone}
        new = [(key, value) for key, value in after.items() if key not in here]
        for key, value in sorted(new, key=lambda told: order.index(told[0])):
            known = [k for k in order[: order.index(key)] if k in stay]
            yield self._new(
                node, stay[known[-1]] if known else None, _keyed(key, value), stay.values()
            )

    def _items(self, node: Node, before: Sequence[Plain], after: Sequence[Plain]) -> Iterator[Cut]:
        """Cuts in a list: entries alike at its start and end stay, those between change in pairs."""
        first, last = _alike(before, after)
        old = node.entries[first : len(before) - last]
        new = after[first : len(after) - last]
        for entry, was, value in zip(old, before[first:], new, strict=False):
            if was != value:
                yield from self._value(node, entry, was, value)
        gone = {entry.start for entry in old[len(new) :]}
        yield from self._without(node, [entry.start in gone for entry in node.entries])
        stay = [entry for entry in node.entries if entry.start not in gone]
        anchor = node.entries[first + len(old) - 1] if first + len(old) else None
        for value in new[len(old) :]:
            yield self._new(node, anchor, _listed(value), stay)

    def _value(
        self, holder: Node, entry: Entry, before: "Plain | None", after: Plain
    ) -> Iterator[Cut]:
        """Cuts in one value: inside it where it is written as `before` is, else it is written anew."""
        node = entry.value
        if node.kind is Kind.SET and isinstance(before, Mapping) and isinstance(after, Mapping):
            here = {held.key for held in node.entries}
            if before.keys() <= here and here - (before.keys() - after.keys()):
                yield from self.keys(node, before, after)
                return
        if node.kind is Kind.LIST and isinstance(before, list) and isinstance(after, list):
            paired = len(before) == len(after) or any(_alike(before, after))
            if len(before) == len(node.entries) and paired:
                yield from self._items(node, before, after)
                return
        yield from self._anew(holder, entry, after)

    def _anew(self, holder: Node, entry: Entry, after: Plain) -> Iterator[Cut]:
        """The whole value replaced, on its line or below its key as it would be printed."""
        node = entry.value
        if holder.flow:
            yield self._there(entry, flow(after))
            return
        lines = (_keyed(entry.key, after) if entry.key else _listed(after)).lines(
            self._column(entry.start)
        )
        opening = len(_opening(entry.key, lines[0]))
        first, rest = lines[0][opening:].strip(" "), lines[1:]
        if not entry.key:
            yield self._there(entry, "\n".join([first, *rest]))
        elif not rest:
            yield from self._on_its_line(entry, first)
        elif self._is_below(entry):
            yield Cut(self._line(node.start), node.end, "\n".join(rest))
        else:
            yield Cut(entry.opened, node.end, "")
            yield Cut(self._line_end(node.end), self._line_end(node.end), _new_lines(rest))

    def _there(self, entry: Entry, text: str) -> Cut:
        node = entry.value
        return Cut(node.start, node.end, f" {text}" if node.empty else text)

    def _on_its_line(self, entry: Entry, text: str) -> Iterator[Cut]:
        if self._is_below(entry):
            yield Cut(entry.opened, entry.opened, f" {text}")
            yield Cut(self._line_end(entry.opened), entry.end, "")
        else:
            yield self._there(entry, text)

    def _is_below(self, entry: Entry) -> bool:
        return "\n" in self.text[entry.opened : entry.value.start]

    def _without(self, node: Node, gone: Sequence[bool]) -> Iterator[Cut]:
        """Cuts that take entries out; at least one stays."""
        entries = node.entries
        for out, run in groupby(range(len(entries)), key=lambda n: gone[n]):
            first, *_, last = [*run] * 2
            if not out:
                continue
            if not node.flow and not self._before(entries[first]):
                for entry in entries[first : last + 1]:
                    yield Cut(self._line(entry.start) - 1, self._line_end(entry.end), "")
            elif last + 1 < len(entries):
                yield Cut(entries[first].start, entries[last + 1].start, "")
            else:
                yield Cut(entries[first - 1].end, entries[last].end, "")

    def _new(self, node: Node, anchor: Entry | None, told: "_Told", stay: Iterable[Entry]) -> Cut:
        """A new entry after the anchor, or before the first of those that stay."""
        first = min(stay, key=lambda entry: entry.start)
        place = anchor.end if anchor else first.start
        if node.flow:
            return Cut(place, place, f", {told.flow}" if anchor else f"{told.flow}, ")
        column = self._column(first.start)
        lines = told.lines(column)
        if anchor:
            place = self._line_end(place)
            return Cut(place, place, _new_lines(lines))
        return Cut(place, place, "\n".join(lines)[column:] + "\n" + " " * column)

    def _line(self, place: int) -> int:
        """Where the line of a place starts."""
        return self.text.rfind("\n", 0, place) + 1

    def _line_end(self, place: int) -> int:
        """Where the line of a place ends, before its line end."""
        end = self.text.find("\n", place)
        return len(self.text) if end < 0 else end

    def _column(self, place: int) -> int:
        return place - self._line(place)

    def _before(self, entry: Entry) -> str:
        """What stands on the line before an entry, besides blanks."""
        return self.text[self._line(entry.start) : entry.start].strip(" ")


class _Told(NamedTuple):
    """A new entry: between brackets, and as lines from a column on."""

    flow: str
    lines: Callable[[int], list[str]]


def _keyed(key: str, value: Plain) -> _Told:
    return _Told(
        f"{flow(key)}: {flow(value)}", lambda column: [*entry_lines(key, value, " " * column)]
    )


def _listed(value: Plain) -> _Told:
    return _Told(flow(value), lambda column: [*item_lines(value, " " * column)])


def _opening(key: str, line: str) -> str:
    """What stands before the value on the first line of an entry as it is printed."""
    if not key:
        return line[: line.index("-") + 1]
    (bare,) = entry_lines(key, {}, " " * (len(line) - len(line.lstrip(" "))))
    return bare.removesuffix(" {}")


def _new_lines(lines: Sequence[str]) -> str:
    return "".join(f"\n{line}" for line in lines)


def _alike(before: Sequence[Plain], after: Sequence[Plain]) -> tuple[int, int]:
    """How many entries two lists share at their start, and how many of the rest at their end."""
    most = min(len(before), len(after))
    first = next((n for n in range(most) if before[n] != after[n]), most)
    most -= first
    last = next((n for n in range(most) if before[-1 - n] != after[-1 - n]), most)
    return first, last

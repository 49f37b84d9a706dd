"""Things to be taken out of texts, and what stands there instead."""

import re
from collections import defaultdict
from collections.abc import Callable, Iterable
from functools import cached_property

from ahocorasick import Automaton
from msgspec import Struct


class Swap(Struct, frozen=True, dict=True):
    """What is found by a regular expression, and what it is replaced by. A text without any of
    `triggers` is not searched: for numbers they are sought in its letters and digits alone, else in its
    small letters."""

    triggers: tuple[str, ...]
    expression: str
    put: Callable[[re.Match[str]], str]
    flags: re.RegexFlag = re.NOFLAG

    @cached_property
    def pattern(self) -> re.Pattern[str]:
        """What is found, made when it is first needed: most of what could stand in a text does not."""
        return re.compile(self.expression, self.flags)


class Swaps:
    """Many swaps in the order in which they are made, of which each text meets only its own."""

    def __init__(self, swaps: Iterable[Swap]) -> None:
        self._swaps = tuple(swaps)
        by_trigger: dict[str, set[int]] = defaultdict(set)
        for n, swap in enumerate(self._swaps):
            for trigger in swap.triggers:
                by_trigger[trigger].add(n)
        self._triggers = Automaton()
        for trigger, numbers in by_trigger.items():
            self._triggers.add_word(trigger, numbers)
        self._triggers.make_automaton()

    def met(self, letters: str) -> tuple[Swap, ...]:
        """The swaps of which a trigger stands in the letters of a text."""
        if not self._swaps:
            return ()
        found = {n for _, numbers in self._triggers.iter(letters) for n in numbers}
        return tuple(self._swaps[n] for n in sorted(found))

    def made(self, text: str, letters: str) -> str:
        """A text with every swap made of which a trigger stands in its letters."""
        for swap in self.met(letters):
            text = swap.pattern.sub(swap.put, text)
        return text


def put(words: str) -> Callable[[re.Match[str]], str]:
    """Words in the place of a match, with a capital where a sentence starts."""
    capital = words[:1].upper() + words[1:]
    return lambda match: capital if _starts(match.string, match.start()) else words


def _starts(text: str, at: int) -> bool:
    before = text[:at].rstrip(" \t*_\"'(“‘[>#")
    return not before or before[-1] in ".!?" or before.endswith("\n\n")

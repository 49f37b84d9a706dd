"""What is private for a reader: every text of the whole car file that theirs does not hold.

A text counts only where finding it could be no coincidence, since an archive that is withheld without
cause is nearly as bad as one that leaks:

- Words are sought as they were written, in runs of five or more, four of which say something: small
  words and dates are put together by pages too. Fewer count when one of them stands nowhere in what
  the reader may see, nor in any text or template of this program: two words with ten letters, one
  word with six letters or with letters and digits. A figure or a date alone never counts, nor does
  a text that the reader's car file holds anywhere.
- Names of entries and files count as they were written, with their hyphens.
- For the public the car's numbers, persons, addresses and suppliers count in any spelling, and money
  with its sign, whatever the reader's car file holds: the masks should have taken them out. So do
  for the next keeper the doors of people, and money unless prices are shown; and numbers and persons of
  other cars for all. A number that could be any count, and a name
  that is also a word, do not count alone.
"""

import re
from collections.abc import Iterator, Sequence

from journal.outputs.leaves import Leaf, leaves_of
from journal.outputs.named import named
from journal.outputs.own import own_words, words_of
from journal.outputs.secret import Kind, Private
from journal.records.carfile import CarFile
from journal.words.dates import MONTHS
from journal.words.vocabulary import Reader

RUN = 5
# A run of known words needs so many letters and digits, and so many words that are not small.
_LETTERS, _WORDS = 16, 4
# Words without end, such as figures, are cut.
_MOST = 40
_WORD = re.compile(r"[^\W_]+")
# Where a page may break or mark a text up.
_MARKUP = re.compile(r"\]\([^)\n]*\)|[*_`\[\]<>\\\n&~|]+")


def private_texts(
    full: CarFile, seen: CarFile, others: Sequence[CarFile], reader: Reader
) -> tuple[Private, ...]:
    """What must not stand in an archive that is made for a reader from `seen`.

    Words may still stand in what the reader sees or in what the program itself says; `leaks` takes
    those out.
    """
    if reader is Reader.WORKSHOP:
        return ()
    held = {leaf.text for leaf in leaves_of(seen)}
    known = words_of(held) | own_words()
    found = [*named(full, seen, others, reader)]
    for leaf in leaves_of(full):
        if leaf.text not in held:
            found += _pieces(leaf, known)
    for other in others:
        for leaf in leaves_of(other):
            if leaf.text not in held:
                # The first words of a text are enough to know another car by.
                found += _pieces(leaf, known)[:1]
    first: dict[tuple[Kind, str], Private] = {}
    for private in found:
        first.setdefault((private.kind, private.text), private)
    return tuple(first.values())


def seen_texts(seen: CarFile) -> Iterator[str]:
    """All that a reader's car file holds."""
    return (leaf.text for leaf in leaves_of(seen))


def _pieces(leaf: Leaf, known: frozenset[str]) -> list[Private]:
    """The runs of a text that can be told from any other; none for an amount."""
    if leaf.field:
        return []
    if leaf.name:
        kept = _is_name(leaf.text, known)
        return [Private(Kind.NAME, leaf.text, leaf.place)] if kept else []
    return [
        Private(Kind.WORDS, " ".join(run), leaf.place)
        for text in _MARKUP.split(leaf.text)
        for run in _runs(text.split())
        if _is_distinct(run, known)
    ]


def _runs(words: list[str]) -> Iterator[list[str]]:
    """Runs of words, one after the other, each as short as can be told from any other; the last one
    may reach back into the one before. A text that is never long enough is one run."""
    start, end = 0, 0
    while end < len(words):
        end += 1
        if _is_long(words[start:end]) or end - start == _MOST:
            yield words[start:end]
            start = end
    while 0 < start < len(words) < start + _MOST and not _is_long(words[start:]):
        start -= 1
    if words[start:]:
        yield words[start:]


def _is_long(run: list[str]) -> bool:
    """Whether a run of words can be told from any other, though all of them are known."""
    found = _WORD.findall(" ".join(run))
    return (
        len(found) >= RUN and sum(map(_says, found)) >= _WORDS and sum(map(len, found)) >= _LETTERS
    )


def _is_distinct(run: list[str], known: frozenset[str]) -> bool:
    words = _WORD.findall(" ".join(run))
    letters = sum(map(len, words))
    if _is_long(run):
        return True
    strange = [w for w in words if len(w) > 2 and not w.isdigit() and w.casefold() not in known]
    if len(words) > 1:
        return bool(strange) and letters >= 10
    return any(len(w) >= (6 if w.isalpha() else 5) for w in strange)


def _says(word: str) -> bool:
    """Whether a word is no part of a date and no small one."""
    return len(word) > 2 and word.isalpha() and word not in MONTHS


def _is_name(name: str, known: frozenset[str]) -> bool:
    words = _WORD.findall(name)
    letters = sum(c.isalpha() for c in name)
    return letters >= 8 if len(words) > 1 and letters > 3 else _is_distinct([name], known)

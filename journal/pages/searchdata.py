"""What the search reads: words with the documents they stand in, and the documents' sentences.

All of it lies in `find/` as script files, since a page opened from a memory stick may load nothing
else. Each calls `journalFind` with its kind, its name and its data:

- `start`: how many documents of each kind there are, and what the other files hold;
- `terms`: words by their first letters, each with its documents and its weight in them;
- `texts`: documents, by number: title, page, note, sentences, and a picture when it is one.

The weight of a word in a document is BM25 with weighted fields (Robertson and Zaragoza, The
Probabilistic Relevance Framework: BM25 and Beyond, 2009, sections 3.4 and 3.6), k1 1.2 and b 0.75,
each field measured against its own mean length. What is kept is the part that saturates, from 0 to 1,
in 61 steps; how rare a word is follows from how many documents it has.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from itertools import groupby

import msgspec
from msgspec import Struct

from journal.pages.page import TextFile
from journal.pages.searchdocs import Document, documents
from journal.pages.searchwords import terms
from journal.pages.view import CarView

FOLDER = "find/"
K1, B = 1.2, 0.75
# What a word counts in the title, in the note with the words that are not shown, and in the sentences.
BOOSTS = (3, 1, 1)
LEVELS = 61
# Bytes that a file of words or of texts may hold; one word or one document may be longer alone.
TERMS_ROOM, TEXTS_ROOM = 32_000, 16_000
MOST_LETTERS = 12

_SIGNS = "0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
_DIGITS = 31
# Ends a word: no folded word has a capital of the English alphabet.
_STOP = "Q"


class Line(Struct, frozen=True):
    """A word as it is looked up, and its data as they stand in a file, in JSON."""

    term: str
    data: str


def files_search(view: CarView) -> tuple[TextFile, ...]:
    """The files of the search of one car."""
    return tuple(TextFile(view.base + f.path, f.text) for f in search_files(documents(view)))


def search_files(found: Sequence[Document]) -> tuple[TextFile, ...]:
    """The files for some documents, which stand together by kind."""
    lines = lines_of(found)
    words = [(prefix, tuple(group)) for prefix, group in _by_letters(lines, 1)]
    texts = tuple(_by_room([_json(_text(document)) for document in found]))
    start = {
        "kinds": [
            [kind.one, kind.many, len(tuple(of))]
            for kind, of in groupby(found, key=lambda d: d.kind)
        ],
        "terms": [prefix for prefix, _ in words],
        "texts": [first for first, _ in texts],
    }
    return (
        _file("start", "", _json(start)),
        *(_file("terms", prefix, _list(line.data for line in group)) for prefix, group in words),
        *(_file("texts", str(n), _list(some)) for n, (_, some) in enumerate(texts)),
    )


def lines_of(found: Sequence[Document]) -> tuple[Line, ...]:
    """Every word of some documents, in order of code points, with its level in each of them."""
    fields = [fields_of(document) for document in found]
    lengths = [tuple(map(len, of)) for of in fields]
    means = [sum(column) / len(found) for column in zip(*lengths, strict=True)]
    signs: dict[str, list[str]] = defaultdict(list)
    last: dict[str, int] = {}
    for number, of in enumerate(fields):
        for term, level in _levels(of, means).items():
            signs[term].append(_signs(number - last.get(term, 0), level))
            last[term] = number
    return tuple(Line(term, _line(term, signs.pop(term))) for term in sorted(signs))


def fields_of(document: Document) -> tuple[tuple[str, ...], ...]:
    """The words of each field of a document, in the order of `BOOSTS`."""
    note = f"{document.kind.one} {document.note} {document.also}"
    return terms(document.title), terms(note), terms(" ".join(document.sentences))


def _levels(fields: Sequence[Sequence[str]], means: Sequence[float]) -> dict[str, str]:
    """The level of each word of a document as its sign."""
    lengths = [
        1 - B + B * len(words) / mean if mean else 1.0
        for words, mean in zip(fields, means, strict=True)
    ]
    *few, (body, boost, by_length) = zip(fields, BOOSTS, lengths, strict=True)
    counted = Counter(body)
    # Most words stand in the last field alone, and there once.
    signs = {often: _sign(boost * often / by_length) for often in {*counted.values()}}
    levels = {term: signs[often] for term, often in counted.items()}
    times: dict[str, float] = {}
    for words, more, length in few:
        for term, often in Counter(words).items():
            times[term] = times.get(term, 0) + more * often / length
    for term, weight in times.items():
        levels[term] = _sign(weight + boost * counted[term] / by_length)
    return levels


# Most words stand once in one field, in documents of few lengths.
@lru_cache(maxsize=16384)
def _sign(times: float) -> str:
    """The level of a word that counts so many times: the part of its weight that is kept."""
    return _SIGNS[max(1, round(LEVELS * times / (K1 + times)))]


def _by_letters(lines: Sequence[Line], letters: int) -> Iterator[tuple[str, tuple[Line, ...]]]:
    """Words by their first letters: by one, or by more where those of one file take too much room."""
    for prefix, group in groupby(lines, key=lambda line: line.term[:letters]):
        of = tuple(group)
        if _size(of) <= TERMS_ROOM or len(of) == 1 or letters == MOST_LETTERS:
            yield prefix, of
            continue
        if of[0].term == prefix:
            yield prefix, of[:1]
            of = of[1:]
        yield from _by_letters(of, letters + 1)


def _size(lines: Iterable[Line]) -> int:
    return sum(_room(line.data) for line in lines)


def _room(data: str) -> int:
    """How many bytes some JSON takes in a list."""
    return (len(data) if data.isascii() else len(data.encode())) + 1


def _by_room(found: Sequence[str]) -> Iterator[tuple[int, tuple[str, ...]]]:
    """Documents in files of about the same size, each file with the number of its first document."""
    first, size = 0, 0
    for number, document in enumerate(found):
        room = _room(document)
        if number > first and size + room > TEXTS_ROOM:
            yield first, tuple(found[first:number])
            first, size = number, 0
        size += room
    if found:
        yield first, tuple(found[first:])


def _line(term: str, signs: Iterable[str]) -> str:
    """A word and where it stands, in one run of letters and figures, as JSON.

    Whoever searches the archive for a word finds those that stand in its texts, and not the stems that
    were made of them.
    """
    return f'"{term}{_STOP}{"".join(signs)}"'


# Most words stand in documents that are near each other, with one of few levels: a million places share few
# texts.
@lru_cache(maxsize=16384)
def _signs(ahead: int, level: str) -> str:
    """A place of a word in letters and figures: its document by the distance from the one before it, to the
    base of 31 from the lowest digit on, with 31 added to a digit where more follow, and the level's sign."""
    signs = ""
    while ahead >= _DIGITS:
        ahead, digit = divmod(ahead, _DIGITS)
        signs += _SIGNS[_DIGITS + digit]
    return signs + _SIGNS[ahead] + level


def _text(document: Document) -> list[object]:
    shown: list[object] = [document.title, document.href, document.note, list(document.sentences)]
    return [*shown, list(document.picture)] if document.picture else shown


def file_name(kind: str, name: str) -> str:
    """The file of some data: its name holds plain letters and figures, and code points for others."""
    plain = "".join(c if c.isascii() and c.isalnum() else f"-{ord(c):x}-" for c in name)
    return f"{FOLDER}{kind}-{plain}.js" if name else f"{FOLDER}{kind}.js"


def _file(kind: str, name: str, data: str) -> TextFile:
    call = ",".join((_json(kind), _json(name), data))
    return TextFile(file_name(kind, name), f"journalFind({call});\n")


def _list(entries: Iterable[str]) -> str:
    """A list of what is JSON already."""
    return f"[{','.join(entries)}]"


def _json(data: object) -> str:
    """JSON that is the same as a script, and that nothing could take for markup."""
    text = msgspec.json.encode(data).decode()
    for sign in "<\u2028\u2029":
        text = text.replace(sign, f"\\u{ord(sign):04x}")
    return text

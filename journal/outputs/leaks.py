"""Does an archive hold what its reader may not see? Every byte and every name in it is searched.

All texts that are private are sought at once, by their letters and digits alone, in each file as it
lies and as it is read: with references, escapes and percent signs resolved, with tags taken out, in
two bytes a character, and unpacked. A text that is found so must then stand there as it was written.
"""

import re
import zlib
from base64 import b64decode
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import suppress
from hashlib import sha256
from html import unescape
from pathlib import Path, PurePosixPath
from typing import NamedTuple
from unicodedata import is_normalized, normalize
from urllib.parse import unquote

from ahocorasick import Automaton

from journal.outputs.own import own_texts
from journal.outputs.secret import Kind, Private

# Where a search starts from; longer ones make it no surer and cost memory.
_KEY = 16
# Anything shorter stands in pictures by chance.
_IN_PICTURES = 8
_LOWER = bytes(c + 32 if 65 <= c <= 90 else c for c in range(256))
_NO_LETTERS = bytes(c for c in range(128) if not chr(c).isalnum())
_SIGNS = re.compile(rb"\xc2[\x80-\xbf]|\xe2[\x80\x81][\x80-\xbf]|\xef\xbb\xbf")
_INLINE = re.compile(r"</?(?:a|abbr|b|bdi|cite|code|del|em|i|ins|mark|q|s|small|span|strong|sub|sup|time|u|"
                     r"wbr)\b[^>]*>")  # fmt: skip
_TAG = re.compile(r"<[^>]*>")
_ESCAPE = re.compile(r"\\(u[0-9a-fA-F]{4}|.)")
_PACKED = re.compile(rb"\x78[\x01\x5e\x9c\xda]|\x1f\x8b\x08")
_BASE64 = re.compile(rb";base64,([A-Za-z0-9+/=]{8,})")
_TWO_BYTES = re.compile(rb"(?:[\x20-\x7e]\x00){4,}|(?:\x00[\x20-\x7e]){4,}")
# Unpacked bytes of one stream that are searched; what is longer is no text that leaked.
_UNPACKED = 64 * 1024 * 1024


class Leak(NamedTuple):
    """A private text in a file of an archive, by its path there, or in the path itself."""

    file: str
    private: Private
    in_name: bool = False


class View(NamedTuple):
    """One way to read a file: its letters and digits, and the whole text when it is asked for."""

    letters: str
    text: Callable[[], str]
    picture: bool = False


def squeezed(text: str) -> str:
    """The letters and digits of a text in one case, as the search compares them."""
    if not text.isascii():
        # Most pages have no other signs that stand for more than one, and are done with here.
        text = text.replace("\u00a0", " ").replace("\u202f", " ").replace("…", " ")
        text = text if is_normalized("NFKC", text) else normalize("NFKC", text)
    return _letters(text.casefold().encode("utf-8", "replace"))


def _letters(raw: bytes) -> str:
    kept = raw.translate(_LOWER, _NO_LETTERS)
    return (kept if kept.isascii() else _SIGNS.sub(b"", kept)).decode("latin-1")


class _Sought:
    """Private texts by their letters and digits, sought all at once."""

    def __init__(self, letters: Mapping[Private, str]) -> None:
        self._by_key: dict[str, list[tuple[Private, str]]] = defaultdict(list)
        for private, text in letters.items():
            if text:
                self._by_key[text[:_KEY]].append((private, text))
        self._automaton = Automaton()
        for key in self._by_key:
            self._automaton.add_word(key, key)
        self._automaton.make_automaton()

    def within(self, letters: str) -> Iterator[tuple[Private, str]]:
        """Those whose letters stand in a text, with them, as often as they do."""
        if not self._by_key:
            return
        for end, key in self._automaton.iter(letters):
            for private, text in self._by_key[key]:
                if letters.startswith(text, end + 1 - len(key)):
                    yield private, text


class Search:
    """Finds any of many private texts. `held` are texts that a reader may see: what stands in one of
    them, or in what the program itself says, is not sought unless it counts everywhere. `sought` is what
    is left, without sums of money."""

    def __init__(self, private: Iterable[Private], held: Iterable[str] = ()) -> None:
        private = tuple(private)
        money = [p for p in private if p.kind is Kind.MONEY]
        letters = {p: squeezed(p.text) for p in private if p.kind is not Kind.MONEY}
        loose = {p: s for p, s in letters.items() if p.kind in (Kind.WORDS, Kind.NAME)}
        seen = _Sought(loose).within("\n".join(map(squeezed, (*held, *own_texts()))))
        allowed = {p for p, _ in seen}
        self.sought = tuple(p for p in letters if p not in allowed)
        self._sought = _Sought({p: letters[p] for p in self.sought})
        self._signs = tuple(p for p in money if not any(map(str.isdigit, p.text)))
        self._sums = {p.text: p for p in money}

    @property
    def print(self) -> str:
        """A sum over all that is sought: searches with the same find the same in the same bytes."""
        kinds = {private.kind for private in self.sought} | ({Kind.MONEY} if self._sums else set())
        told = sorted(f"{p.kind}\0{p.text}" for p in (*self.sought, *self._sums.values()))
        return sha256("\0\0".join((*sorted(kinds), *told)).encode("utf-8", "replace")).hexdigest()

    def leaks(self, folder: Path) -> Iterator[Leak]:
        """Everything private in the files below a folder and in their names, in order of path."""
        found = (file.relative_to(folder).as_posix() for file in folder.rglob("*"))
        return self.leaks_in({path: folder / path for path in found})

    def leaks_in(self, files: Mapping[str, Path]) -> Iterator[Leak]:
        """The same in files by the path that each has in the archive, folders among them."""
        for path in sorted(files, key=PurePosixPath):
            yield from (Leak(path, p, in_name=True) for p in self.found(_texts(path)))
            if files[path].is_file():
                yield from (Leak(path, p) for p in self.found(_views(files[path].read_bytes())))

    def found(self, views: Iterable[View]) -> tuple[Private, ...]:
        """What is private in any view of a file."""
        found: dict[Private, None] = {}
        for view in views:
            maybe = self._sought.within(view.letters)
            sure = {p for p, s in maybe if not view.picture or len(s) >= _IN_PICTURES}
            for private in sorted(sure - {*found}, key=_order):
                if private.pattern.search(view.text()):
                    found[private] = None
            if not view.picture:
                found |= dict.fromkeys(self._money(view.text()))
        return tuple(found)

    def _money(self, text: str) -> Iterator[Private]:
        """Sums of money, each as it was written when it is known, else by its sign."""
        for sign in self._signs:
            if sign.text in text:
                for found in sign.pattern.finditer(text):
                    yield self._sums.get(found.group(), sign)


def _order(private: Private) -> tuple[str, int, str]:
    return (private.place.path, private.place.line, private.text)


def _views(raw: bytes, depth: int = 2) -> Iterator[View]:
    """The ways to read a file: as text or as a picture, and what is packed in it."""
    try:
        yield from _texts(raw.decode("utf-8"))
        packed = _in_base64(raw)
    except UnicodeDecodeError:
        # Its letters are the same in one byte and in two, with a zero between.
        yield View(_letters(raw), lambda: _legible(raw), picture=True)
        packed = _unpacked(raw)
    for inner in packed if depth else ():
        yield from _views(inner, depth - 1)


def _legible(raw: bytes) -> str:
    """What of a picture can be read, in one byte a character or in two."""
    runs = [run.replace(b"\x00", b"").decode("ascii") for run in _TWO_BYTES.findall(raw)]
    # A character of one byte before such a run is read as its first.
    wide = (text for run in runs for text in (run, run[1:]))
    return "\n".join((raw.decode("utf-8", "replace"), *wide))


def _texts(text: str) -> Iterator[View]:
    """A text with references resolved, without tags, and with escapes and percent signs resolved."""
    plain = unescape(text) if "&" in text else text
    ways = [plain, _unescaped(plain)]
    if "<" in text:
        ways.append(_unescaped(unescape(_TAG.sub("\x00", _INLINE.sub("", text)))))
    for way in dict.fromkeys(ways):
        yield View(squeezed(way), way.__str__)


def _unescaped(text: str) -> str:
    if "\\" in text:
        text = _ESCAPE.sub(_character, text)
    if "%" in text:
        text = unquote(text)
    # What was a reference within an escape.
    return unescape(text) if "&" in text else text


def _character(match: re.Match[str]) -> str:
    """A character behind a backslash, as JSON has it."""
    escaped = match.group(1)
    if len(escaped) == 5:
        return chr(int(escaped[1:], 16))
    return " " if escaped in "nrt" else escaped


def _unpacked(raw: bytes) -> Iterator[bytes]:
    """Streams of zlib and gzip, wherever they start."""
    for found in _PACKED.finditer(raw):
        try:
            inner = zlib.decompressobj(47).decompress(memoryview(raw)[found.start() :], _UNPACKED)
        except zlib.error:
            continue
        if inner:
            yield inner


def _in_base64(raw: bytes) -> Iterator[bytes]:
    """Data that is written into a text."""
    for data in _BASE64.finditer(raw):
        with suppress(ValueError):
            yield b64decode(data.group(1) + b"==")

"""Words as the search knows them: without case, accents and plurals; and the sentences they stand in.

The script findwords.js knows the same rules and folds what a person types; a test compares the two
letter by letter.
"""

import re
import unicodedata
from functools import cache, lru_cache
from itertools import chain

# Letters that Unicode does not take apart into a letter and a mark.
_LETTERS = str.maketrans(
    {"ß": "ss", "æ": "ae", "œ": "oe", "ø": "o", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "ı": "i",
     "ς": "σ"}
)  # fmt: skip
# Combining marks, and signs that are not seen, such as a soft hyphen.
_SILENT = frozenset({"Mn", "Cf"})
_APOSTROPHE = re.compile(r"(?<=[^\W_])['\u2019](?=[^\W_])")
# Words that stand together without a space: `run-out`, `58/0431`, `CB-3302`.
_RUN = re.compile(r"[^\W_]+(?:[-\u2010/.\u2044][^\W_]+)*")
_WORD = re.compile(r"[^\W_]+")
_MOST_JOINED = 4

# Endings, the endings before which they stay, and what stands in their place (Harman, How effective
# is suffixing?, Journal of the American Society for Information Science 42, 1991): for words of
# three letters or more, the first rule that applies and no other.
_PLURALS = (
    ("ies", ("eies", "aies"), "y"),
    ("es", ("aes", "ees", "oes"), "e"),
    ("s", ("us", "ss"), ""),
)
_SHORTEST = 3
_HISSING = ("xe", "che", "she", "sse", "zze")


@cache
def _is_silent(character: str) -> bool:
    return unicodedata.category(character) in _SILENT


def fold(text: str) -> str:
    """Text in small letters, without accents and signs that are not seen: `Mâché` becomes `mache`."""
    plain = text.lower() if text.isascii() else _plain(text)
    return _APOSTROPHE.sub("", plain)


def _plain(text: str) -> str:
    apart = unicodedata.normalize("NFKD", text)
    return "".join(c for c in apart if not _is_silent(c)).lower().translate(_LETTERS)


def stem(word: str) -> str:
    """A folded word without its plural, by the rules of Harman's S stemmer and no others."""
    if len(word) < _SHORTEST:
        return word
    for ending, kept, instead in _PLURALS:
        if word.endswith(ending) and not word.endswith(kept):
            return word.removesuffix(ending) + instead
    return word


def term_of(word: str) -> str:
    """What a folded word is looked up by: its stem.

    Those rules leave `boxe` of `boxes`. After a hissing sound the `e` falls too, so that one box
    and two boxes are found together; it falls from every word, since nobody can tell them apart.
    """
    plain = stem(word)
    return plain[:-1] if plain.endswith(_HISSING) else plain


def terms(text: str) -> tuple[str, ...]:
    """What every word of a text is looked up by, in order.

    Words that stand together without a space count one by one, and after them as one word, so that
    `run-out` is found by `runout` as well as by `run`.
    """
    return tuple(chain.from_iterable(map(_terms, text.split())))


@lru_cache(maxsize=65536)
def _terms(chunk: str) -> tuple[str, ...]:
    found: list[str] = []
    for run in _RUN.findall(fold(chunk)):
        words = _WORD.findall(run)
        found += (term_of(word) for word in words)
        if 1 < len(words) <= _MOST_JOINED:
            found.append(term_of("".join(words)))
    return tuple(found)


# Where a sentence may end: its mark, quotes and brackets closing after it, a space, and a capital, a
# figure or an opening quote or bracket.
_END = re.compile(r"[.!?…]([\"'”’)\]]*)\s+(?=[\"'“‘(\[]*[\dA-ZÀ-ÖØ-Þ])")
_SHORTENED = re.compile(r"\b(?:nos?|approx|e\.g|i\.e|mr|mrs|ms|dr|st|fig|cf|vs)\.$", re.I)
_INITIAL = re.compile(r"\b[A-Z]\.$")
# Holds the longest of those and what stands before it.
_TAIL = 10


def sentences(text: str) -> tuple[str, ...]:
    """The sentences of a text, each on one line, none of them lost or changed otherwise."""
    plain = " ".join(text.split())
    found: list[str] = []
    start = 0
    for end in _END.finditer(plain):
        sentence = plain[start : end.end(1)]
        if not _goes_on(sentence):
            found.append(sentence)
            start = end.end()
    return (*found, plain[start:]) if plain[start:] else tuple(found)


def _goes_on(sentence: str) -> bool:
    """Whether the stop at the end belongs to a shortened word or an initial."""
    if not sentence.endswith("."):
        return False
    tail = sentence[-_TAIL:]
    return bool(_SHORTENED.search(tail) or _INITIAL.search(tail))

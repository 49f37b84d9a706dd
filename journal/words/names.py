"""Names: the form they are written in, and the nearest known one to a name that is not known."""

import hashlib
import re
import unicodedata
from collections.abc import Iterable
from difflib import SequenceMatcher
from functools import lru_cache

SLUG = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")

# Longer than any name that somebody writes, and short enough for a file name on every system.
LONGEST_SLUG = 100
# Nobody means a name by a text as long as this, and likeness takes time by its length.
_LONGEST_MEANT = 120
# How alike two names must be for one to be meant by the other.
_ALIKE = 0.6

_FILE_NAME = re.compile(r"[A-Za-z0-9]+([-_.][A-Za-z0-9]+)*")
# Names that mean a device on some systems, and the page of each folder.
_TAKEN = re.compile(r"(index|con|prn|aux|nul|com[0-9]|lpt[0-9])(\..*)?", re.IGNORECASE)


def is_slug(text: str) -> bool:
    """Whether `text` is lower-case words joined by hyphens, safe as a file name everywhere."""
    return len(text) <= LONGEST_SLUG and bool(SLUG.fullmatch(text))


def slug_of(text: str) -> str:
    """A short name made from a text: lower-case words joined by hyphens.

    Accents are left off; a text in another script gives an empty one.
    """
    letters = (c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))
    words = "-".join(re.findall(r"[a-z0-9]+", "".join(letters).casefold()))
    return words[:LONGEST_SLUG].rstrip("-")


# Every link of every page asks for the names of a few hundred sheets, components and subsystems.
@lru_cache(maxsize=4096)
def file_name(name: str) -> str:
    """The name of a page's file: `name` itself where it is safe on every system and in a link.

    Else its plain letters with the start of its SHA-256. Those stand after two hyphens, which no safe
    name has, so that no name is that of another's page.
    """
    if len(name) <= LONGEST_SLUG and _FILE_NAME.fullmatch(name) and not _TAKEN.fullmatch(name):
        return name
    digest = hashlib.sha256(name.encode("utf-8")).hexdigest()[:12]
    return f"{slug_of(name)[:60].rstrip('-') or 'page'}--{digest}"


def nearest(name: str, known: Iterable[str]) -> str | None:
    """The known name closest to `name`, or None when none is close enough to be meant.

    Ties go to the alphabetically first so that a message is the same on every machine.
    """
    if len(name) > _LONGEST_MEANT:
        return None
    wanted = name.casefold()
    best: tuple[float, str] | None = None
    for candidate in sorted(set(known)):
        score = _likeness(wanted, candidate.casefold())
        if score >= _ALIKE and (best is None or score > best[0]):
            best = (score, candidate)
    return best[1] if best else None


def _likeness(wanted: str, candidate: str) -> float:
    tail = candidate.rsplit("/", 1)[-1]
    if wanted == tail or wanted.rsplit("/", 1)[-1] == tail:
        return 0.95
    # No ratio is higher than that of the lengths; a file full of mistakes asks for a million of them.
    if 2 * min(len(wanted), len(candidate)) < _ALIKE * (len(wanted) + len(candidate)):
        return 0.0
    return SequenceMatcher(None, wanted, candidate, autojunk=False).ratio()


def title_of(slug: str) -> str:
    """A slug as words with a capital: `front-wheel-bearings` becomes `Front wheel bearings`."""
    words = slug.replace("-", " ")
    return words[:1].upper() + words[1:]

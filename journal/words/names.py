"""Names: the form they are written in, and the nearest known one to a name that is not known."""

import re
from collections.abc import Iterable
from difflib import SequenceMatcher

SLUG = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


def is_slug(text: str) -> bool:
    """Whether `text` is lower-case words joined by hyphens, safe as a file name everywhere."""
    return bool(SLUG.fullmatch(text))


def nearest(name: str, known: Iterable[str]) -> str | None:
    """The known name closest to `name`, or None when none is close enough to be meant.

    Ties go to the alphabetically first so that a message is the same on every machine.
    """
    wanted = name.casefold()
    best: tuple[float, str] | None = None
    for candidate in sorted(set(known)):
        score = _likeness(wanted, candidate.casefold())
        if score >= 0.6 and (best is None or score > best[0]):
            best = (score, candidate)
    return best[1] if best else None


def _likeness(wanted: str, candidate: str) -> float:
    tail = candidate.rsplit("/", 1)[-1]
    if wanted == tail or wanted.rsplit("/", 1)[-1] == tail:
        return 0.95
    return SequenceMatcher(None, wanted, candidate, autojunk=False).ratio()


def title_of(slug: str) -> str:
    """A slug as words with a capital: `front-wheel-bearings` becomes `Front wheel bearings`."""
    words = slug.replace("-", " ")
    return words[:1].upper() + words[1:]

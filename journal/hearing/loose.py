"""Lines on what stays open: things left loose, wrong or worrying, things awaited, things to do next."""

import re
from collections.abc import Iterable, Iterator, Sequence

from msgspec.structs import replace

from journal.hearing import cues
from journal.hearing.heard import Kind, Line
from journal.hearing.listening import Listening
from journal.reading.yamltext import Plain
from journal.words.names import slug_of

_SMALL = frozenset(
    "the a an and or but so i i'm im it it's its is are was were that that's thats this these "
    "those of to in on at for with we you he she they just only bit um er well right got has have "
    "had be been there theres there's what which".split()
)


def loose_lines(here: Listening, goods: Sequence[Line]) -> Iterator[Line]:
    """Snags, waiting and intentions, each under `snags:`. What a line on goods tells already is not
    told again as awaited."""
    for pattern in (cues.LOOSE, cues.WRONG):
        yield from _lines(here, Kind.SNAG, pattern, denied=True)
    for line in _lines(here, Kind.WAITING, cues.WAITING):
        if not any(line.start >= part.start and line.end <= part.end for part in goods):
            yield line
    yield from _lines(here, Kind.NEXT, cues.NEXT)


def _lines(
    here: Listening, kind: Kind, pattern: re.Pattern[str], denied: bool = False
) -> Iterator[Line]:
    for first, last, match in here.flat.found(pattern):
        said_before = here.flat.text[max(0, match.start() - 40) : match.start()].rsplit("\n")[-1]
        if denied and cues.SOUND.search(said_before):
            continue
        low, high = here.flat.clause(first, last)
        yield here.line(kind, low, high, {}, "", here.near(first, last)[:1])


def snags_of(lines: Iterable[Line]) -> Iterator[Line]:
    """The lines, each with the snag that it would raise, under a name of its own."""
    taken: set[str] = set()
    for line in lines:
        name = _name(line, taken)
        taken.add(name)
        entry: dict[str, Plain] = {"raise": line.words}
        if line.of:
            entry["on"] = line.of[0]
        yield replace(line, told={"snags": {name: entry}})


def _name(line: Line, taken: set[str]) -> str:
    words = [word for word in line.words.casefold().split() if word.strip(".,;:!?") not in _SMALL]
    base = slug_of(" ".join(words[:4] or line.words.split()[:4])) or "snag"
    names = (base, *(f"{base}-{count}" for count in range(2, len(taken) + 3)))
    return next(name for name in names if name not in taken)

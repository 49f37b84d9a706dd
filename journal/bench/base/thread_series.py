"""The thread series that a restorer meets, and how their sizes are written.

Sizes of BSW and BSF are those of BS 84, of BA those of BS 93, of UNC and UNF those of ASME B1.1, of
metric threads the usual ones of ISO 261, of pipe threads those of ISO 228-1, of cycle threads those of
BS 811. Brass threads of 26 to the inch have the Whitworth form and no standard of their own.
"""

import re
from fractions import Fraction
from functools import cache

from journal.bench.base.threads import BA, CYCLE, INCH, ISO, WHITWORTH, Form, Thread, plain
from journal.words.quantities import plain_text
from journal.words.text import listed

# Size and threads per inch.
_INCH_SERIES: tuple[tuple[str, Form, str], ...] = (
    (
        "BSW", WHITWORTH,
        "1/16-60 3/32-48 1/8-40 5/32-32 3/16-24 7/32-24 1/4-20 5/16-18 3/8-16 7/16-14 1/2-12 9/16-12 5/8-11 "
        "11/16-11 3/4-10 7/8-9 1-8 1.1/8-7 1.1/4-7 1.1/2-6",
    ),
    (
        "BSF", WHITWORTH,
        "3/16-32 7/32-28 1/4-26 9/32-26 5/16-22 3/8-20 7/16-18 1/2-16 9/16-16 5/8-14 11/16-14 3/4-12 7/8-11 1-10 "
        "1.1/8-9 1.1/4-9 1.3/8-8 1.1/2-8",
    ),
    (
        "UNC", ISO,
        "2-56 3-48 4-40 5-40 6-32 8-32 10-24 12-24 1/4-20 5/16-18 3/8-16 7/16-14 1/2-13 9/16-12 5/8-11 3/4-10 7/8-9 "
        "1-8 1.1/8-7 1.1/4-7 1.1/2-6",
    ),
    (
        "UNF", ISO,
        "0-80 2-64 3-56 4-48 5-44 6-40 8-36 10-32 12-28 1/4-28 5/16-24 3/8-24 7/16-20 1/2-20 9/16-18 5/8-18 3/4-16 "
        "7/8-14 1-12 1.1/8-12 1.1/4-12 1.1/2-12",
    ),
    (
        "cycle", CYCLE,
        "1/4-26 5/16-26 3/8-26 7/16-26 1/2-26 9/16-26 5/8-26 11/16-26 3/4-26 1-26 9/16-20",
    ),
    (
        "brass", WHITWORTH,
        "1/8-26 1/4-26 5/16-26 3/8-26 7/16-26 1/2-26 5/8-26 3/4-26 7/8-26 1-26 1.1/8-26 1.1/4-26 1.1/2-26",
    ),
)  # fmt: skip
# The one cycle thread that is not of 26 to the inch, that of pedals.
ODD = "9/16-20 cycle"
# Unified sizes below a quarter are numbers: 0.060 in and 0.013 in more for each.
_NUMBERED = ("UNC", "UNF")

# Number, diameter and pitch in mm.
_BA_SIZES = (
    "0 6.0 1.00; 1 5.3 0.90; 2 4.7 0.81; 3 4.1 0.73; 4 3.6 0.66; 5 3.2 0.59; 6 2.8 0.53; 7 2.5 0.48; 8 2.2 0.43; "
    "9 1.9 0.39; 10 1.7 0.35"
)  # fmt: skip
# Diameter and pitches in mm, the coarse one first.
_METRIC_SIZES = (
    "1.6 0.35; 2 0.4; 2.5 0.45; 3 0.5; 3.5 0.6; 4 0.7; 4.5 0.75; 5 0.8; 6 1 0.75; 7 1 0.75; 8 1.25 1 0.75; 9 1.25 1; "
    "10 1.5 1.25 1; 11 1.5; 12 1.75 1.5 1.25 1; 14 2 1.5 1.25; 16 2 1.5 1; 18 2.5 2 1.5; 20 2.5 2 1.5; 22 2.5 2 1.5; "
    "24 3 2 1.5; 27 3 2; 30 3.5 2"
)  # fmt: skip
# Size, outside diameter in mm and threads per inch.
_PIPE_SIZES = (
    "1/16 7.723 28; 1/8 9.728 28; 1/4 13.157 19; 3/8 16.662 19; 1/2 20.955 14; 5/8 22.911 14; 3/4 26.441 14; "
    "7/8 30.201 14; 1 33.249 11; 1.1/4 41.910 11"
)  # fmt: skip


class NoThread(ValueError):
    """A text names no thread known here; `help` is a way out."""

    def __init__(self, help: str) -> None:
        super().__init__(help)
        self.help = help


def _inches(size: str) -> Fraction:
    whole, _, part = size.rpartition(".")
    return Fraction(whole or 0) + Fraction(part)


def _inch_threads(series: str, form: Form, sizes: str) -> tuple[Thread, ...]:
    made = []
    for entry in sizes.split():
        size, tpi = entry.split("-")
        numbered = series in _NUMBERED and "/" not in size and int(tpi) > 12
        inches = Fraction(60 + 13 * int(size), 1000) if numbered else _inches(size)
        # What a size does not tell by itself stands beside it.
        told = entry if numbered or f"{entry} {series}" == ODD else size.replace(".", " ")
        made.append(
            Thread(f"{told} {series}", series, form, inches * INCH, INCH / int(tpi), Fraction(tpi))
        )
    return tuple(made)


def _ba_threads() -> tuple[Thread, ...]:
    sizes = (entry.split() for entry in _BA_SIZES.split(";"))
    return tuple(
        Thread(f"{number} BA", "BA", BA, Fraction(diameter), Fraction(pitch))
        for number, diameter, pitch in sizes
    )


def _metric_threads() -> tuple[Thread, ...]:
    sizes = (entry.split() for entry in _METRIC_SIZES.split(";"))
    return tuple(
        Thread(
            f"M{diameter} \N{MULTIPLICATION SIGN} {pitch}",
            "metric",
            ISO,
            Fraction(diameter),
            Fraction(pitch),
        )
        for diameter, *pitches in sizes
        for pitch in pitches
    )


def _pipe_threads() -> tuple[Thread, ...]:
    sizes = (entry.split() for entry in _PIPE_SIZES.split(";"))
    return tuple(
        Thread(
            f"{size.replace('.', ' ')} BSP",
            "BSP",
            WHITWORTH,
            Fraction(diameter),
            INCH / int(tpi),
            Fraction(tpi),
        )
        for size, diameter, tpi in sizes
    )


@cache
def threads() -> tuple[Thread, ...]:
    """All of them, series by series."""
    return (
        *(thread for series in _INCH_SERIES for thread in _inch_threads(*series)),
        *_ba_threads(),
        *_metric_threads(),
        *_pipe_threads(),
    )


# Other words for a series.
_SERIES_WORDS = {
    "bsw": "bsw", "whitworth": "bsw", "whit": "bsw", "ww": "bsw", "bsf": "bsf", "ba": "ba",
    "unc": "unc", "nc": "unc", "unf": "unf", "nf": "unf", "sae": "unf",
    "cycle": "cycle", "cei": "cycle", "bsc": "cycle", "bscy": "cycle",
    "brass": "brass", "bsb": "brass", "bsp": "bsp", "bspp": "bsp", "g": "bsp",
}  # fmt: skip


def thread_named(text: str) -> Thread:
    """The thread that a text names: `5/16 BSF`, `2BA`, `10-32 UNF`, `M8`, `M8x1`, `G 1/8`, `1/4-28`.

    Raises NoThread for what is none, and for what may be several.
    """
    key = _key(text)
    found = _by_key().get(key, ())
    if len(found) == 1:
        return found[0]
    if found:
        raise NoThread(f"say which: {listed([thread.name for thread in found], 'or')}")
    series, size = _parted(key)
    near = [thread for thread in threads() if size and size in _sizes(thread)]
    near = [thread for thread in near if _parted(_key(thread.name))[0] == series] or near
    if near:
        raise NoThread(f"known of that size: {listed([thread.name for thread in near])}")
    raise NoThread("write it like 5/16 BSF, 2 BA, 10-32 UNF or M8 x 1.25")


def _parted(key: str) -> tuple[str, str]:
    """The word for the series, if any, and the size without pitch or threads per inch."""
    words = key.split()
    series = "".join(word for word in words[:1] if word.isalpha())
    sizes = words[1:] if series else words
    both = len(sizes) > 1 and "/" in sizes[1] and "/" not in sizes[0]
    return series, " ".join(sizes[: 2 if both else 1])


def _sizes(thread: Thread) -> set[str]:
    return {_parted(key)[1] for key in _keys(thread)}


def _key(text: str) -> str:
    """A written thread in one form: size, threads per inch or pitch, and series."""
    told = plain_text(text).casefold().replace("\N{MULTIPLICATION SIGN}", "x").replace('"', " ")
    told = re.sub(r"\b(in|mm|tpi|no|number)\b\.?|#", " ", told)
    words = [
        _SERIES_WORDS.get(word, word)
        for word in re.findall(r"[a-z]+|[0-9][0-9./]*", told)
        if word != "x"
    ]
    series = [word for word in words if word.isalpha()]
    sizes = [word for word in words if not word.isalpha()]
    # `1 1/8` is one size of two words.
    if len(sizes) > 1 and "/" in sizes[1] and "/" not in sizes[0]:
        sizes[:2] = [f"{sizes[0]} {sizes[1]}"]
    numbers = [re.sub(r"(\.[0-9]*?)0+$", r"\1", size).rstrip(".") for size in sizes]
    return " ".join([*series, *numbers])


def _keys(thread: Thread) -> set[str]:
    if thread.series == "metric":
        size, pitch = plain(thread.diameter, 2), plain(thread.pitch, 3)
        coarse = next(t for t in threads() if t.name.startswith(f"M{size} "))
        return {f"m {size} {pitch}"} | ({f"m {size}"} if thread is coarse else set())
    key = _key(thread.name)
    if thread.tpi is None:
        return {key}
    series, _, size = key.partition(" ")
    size = size.removesuffix(f" {thread.tpi}")
    keys = {f"{size} {thread.tpi}", f"{series} {size} {thread.tpi}"}
    # A number stands for one thread of its series; the cycle thread of 20 is the odd one of two.
    return keys if thread.name == ODD else {*keys, f"{series} {size}"}


@cache
def _by_key() -> dict[str, tuple[Thread, ...]]:
    found: dict[str, tuple[Thread, ...]] = {}
    for thread in threads():
        for key in _keys(thread):
            found[key] = (*found.get(key, ()), thread)
    return found

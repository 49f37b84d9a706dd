"""Where a talk speaks of a component, and of which one: by its name, what stands beside it, and the talk
around it."""

from collections import Counter, defaultdict
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from journal.hearing.lexicon import Called, Lexicon, side_said
from journal.hearing.naming import Mention, joined_in, named_in
from journal.hearing.sounds import lemma_of
from journal.hearing.tokens import Token
from journal.words.sides import Side
from journal.words.vocabulary import Drive

# How far back words still tell which thing is meant, in words.
_REACH = 80


_AXES = {"front": "front", "rear": "rear", "back": "rear", "fronts": "front", "rears": "rear",
         "forward": "front"}  # fmt: skip


# What may stand between a thing and what tells more of it.
_BETWEEN = frozenset("the on at of in to from and a an its that this my our hand side".split())


# What a thing is called by the branch of the car that it belongs to.
_BRANCH_WORDS: dict[str, str] = {
    "brake": "brakes", "engine": "engine", "gearbox": "gearbox", "axle": "rear-axle", "diff": "rear-axle",
    "steering": "steering", "fuel": "fuel", "petrol": "fuel", "water": "cooling", "cooling": "cooling",
    "radiator": "cooling", "exhaust": "exhaust", "chassis": "chassis", "hood": "hood", "body": "body",
    "suspension": "front-suspension", "clutch": "gearbox", "carburettor": "fuel", "carb": "fuel",
    "oil": "engine", "door": "body", "trim": "trim", "loom": "electrical", "wiring": "electrical",
}  # fmt: skip


class _Said(Struct, frozen=True):
    """What stands beside a name: the end, the side, the branch of the car, and whether it is both."""

    axis: str = ""
    sides: frozenset[Side] = frozenset()
    branch: str = ""
    both: bool = False


def mentions_in(
    tokens: Sequence[Token], lexicon: Lexicon, misheard: Iterable[tuple[str, str]], drive: Drive | None,
    subsystem: str = "",
) -> tuple[Mention, ...]:  # fmt: skip
    """Every component that a talk speaks of, in order. `subsystem` is what the talk is likely about,
    where that is known."""
    found = list(joined_in(tokens, named_in(tokens, lexicon, misheard)))
    said = [_beside(tokens, mention, drive) for mention in found]
    return tuple(_resolved(found, said, subsystem, _sides_told(tokens, drive)))


def _beside(tokens: Sequence[Token], mention: Mention, drive: Drive | None) -> _Said:
    before = _stretch(tokens, range(mention.first - 1, max(-1, mention.first - 7), -1))
    after = _after(tokens, mention)
    inside = [token.text for token in tokens[mention.first : mention.last]]
    words = before + inside + after
    sides = _sides(before, drive) | _sides(after, drive)
    return _Said(
        next((_AXES[w] for w in (*inside, *before, *after) if w in _AXES and not _is_back(words, w)), ""),
        frozenset(sides),
        next((b for w in reversed(before) if (b := _BRANCH_WORDS.get(lemma_of(w)))), "")
        or next((b for w in after if (b := _BRANCH_WORDS.get(lemma_of(w)))), ""),
        "both" in before or "pair" in before or len(sides) > 1,
    )  # fmt: skip


def _is_back(words: Sequence[str], word: str) -> bool:
    """`back` that tells of a way and of no end: put back, went back."""
    if word != "back":
        return False
    at = words.index(word)
    return at > 0 and (
        words[at - 1] in ("it", "put", "went", "go", "goes", "came", "straight", "all", "them")
    )


_TELLING = frozenset(
    {"near", "off", "left", "right", "hand", "side", "nearside", "offside", "driver", "passenger",
     "driver's", "drivers", "passenger's", "passengers", "both", "front", "rear", "back", "old", "new",
     "whole", "other", "of", "pair", "two", "inner", "outer", "upper", "lower", "top", "bottom", "main",
     "little", "big", "original", "set", "first", "second", "complete", "rest", "all", "four"}
    | set(_BRANCH_WORDS)
)  # fmt: skip


def _stretch(tokens: Sequence[Token], order: Iterable[int]) -> list[str]:
    """The words beside a name that may tell more of it, up to the first that does not."""
    found: list[str] = []
    for at in order:
        word = tokens[at].text
        if word not in _TELLING:
            break
        found.insert(0, word)
        if tokens[at].breaks or tokens[at].pause:
            break
    return found


def _after(tokens: Sequence[Token], mention: Mention) -> list[str]:
    """What is said after it: `on the near side`, `at the front`, `of the gearbox`."""
    found: list[str] = []
    for at in range(mention.last, min(len(tokens), mention.last + 9)):
        token = tokens[at]
        if token.breaks or token.pause or (token.text not in _TELLING | _BETWEEN):
            break
        if token.text == "and":
            break
        found.append(token.text)
    return found if found and found[0] in ("on", "at", "of", "in", "from", "near", "off", "front", "rear",
                                           "nearside", "offside", "left", "right") else []  # fmt: skip


def _sides(words: Sequence[str], drive: Drive | None) -> set[Side]:
    """The sides that some words name: `near side`, `nearside front`, `left hand`, `driver's side`."""
    found: set[Side] = set()
    for at, word in enumerate(words):
        following = words[at + 1] if at + 1 < len(words) else ""
        bare = word.removesuffix("'s").removesuffix("s")
        side = side_said(bare, drive)
        if side is None:
            continue
        one = bare in ("nearside", "offside", "driver", "passenger")
        if (
            one
            or following in ("side", "hand")
            or (bare not in ("off", "right") and following in _AXES)
        ):
            found.add(side)
    return found


def _sides_told(tokens: Sequence[Token], drive: Drive | None) -> list[tuple[int, Side]]:
    """Every side that the talk names, in order."""
    words = [token.text for token in tokens]
    return [
        (at, side) for at in range(len(words)) for side in _sides(words[at : at + 2], drive)
        if _sides(words[at : at + 1], drive) or words[at + 1 : at + 2] != []
    ]  # fmt: skip


def _resolved(
    found: Sequence[Mention],
    said: Sequence[_Said],
    subsystem: str,
    sides: Sequence[tuple[int, Side]],
) -> Iterator[Mention]:
    clear = [(m.first, m.name.means[0].subsystem) for m in found if _is_clear(m)]
    often = _often(clear)
    last_axis = ""
    before: dict[tuple[str, ...], tuple[str, ...]] = {}
    named: dict[str, int] = {}
    strong: set[str] = set()
    for mention, told in zip(found, said, strict=True):
        weights = _around(mention.first, clear, often, subsystem)
        last_side = frozenset([side for at, side in sides if at <= mention.last][-1:])
        keys, may = _choose(mention, told, weights, last_side, last_axis, before)
        keys = keys or _latest(may, named, mention.first)
        if keys:
            before[mention.words] = keys
            named |= dict.fromkeys(keys, mention.first)
            if not _is_clear(mention):
                clear.append((mention.first, keys[0].split("/")[0]))
            last_axis = told.axis or last_axis
        if keys or may:
            yield replace(
                mention, keys=keys, may=may, sure=_is_sure(mention, told, weights, keys, strong)
            )
        if not mention.name.weak:
            strong.update(keys)


# So much must a talk speak of a subsystem around a name that alone says little.
_PLAIN = 1.2


def _is_sure(
    mention: Mention, told: _Said, weights: Mapping[str, float], keys: Sequence[str], strong: Container[str]
) -> bool:  # fmt: skip
    if not mention.sure:
        return False
    if not mention.name.weak or all(key in strong for key in keys):
        return True
    branch = keys[0].split("/")[0] if keys else ""
    return bool(told.branch == branch or told.axis or told.sides or weights.get(branch, 0) > _PLAIN)


def _latest(may: Sequence[str], named: Mapping[str, int], at: int) -> tuple[str, ...]:
    """The one of several that was spoken of a moment ago, where that was only one of them."""
    near = [key for key in may if at - named.get(key, -_REACH) < _REACH]
    return tuple(near) if len(near) == 1 else ()


def _is_clear(mention: Mention) -> bool:
    branches = {called.subsystem for called in mention.name.means}
    return len(branches) == 1 and not mention.name.weak


def _around(
    at: int, clear: Sequence[tuple[int, str]], often: Mapping[str, float], subsystem: str
) -> dict[str, float]:
    """How much the talk speaks of each subsystem: around a word, where what was said before counts more,
    and a little in the whole of it."""
    weights: dict[str, float] = defaultdict(float, often)
    if subsystem:
        weights[subsystem] += 0.3
    for place, branch in clear:
        far = at - place if place <= at else 2 * (place - at)
        if far < _REACH:
            weights[branch] += 1 - far / _REACH
    return weights


def _often(clear: Sequence[tuple[int, str]]) -> dict[str, float]:
    counts = Counter(branch for _, branch in clear)
    most = max(counts.values(), default=1)
    return {branch: 0.3 * count / most for branch, count in counts.items()}


def _choose(
    mention: Mention, told: _Said, weights: dict[str, float], side: frozenset[Side], axis: str,
    before: dict[tuple[str, ...], tuple[str, ...]],
) -> tuple[tuple[str, ...], tuple[str, ...]]:  # fmt: skip
    """The components meant, or those that may be."""
    fits = [c for c in mention.name.means if _may_be(c, told)]
    if not fits:
        return (), ()
    if told.branch and any(c.subsystem == told.branch for c in fits):
        fits = [c for c in fits if c.subsystem == told.branch]
    placed = bool(told.axis or told.sides)
    fits = _of_branch(fits, weights, mention.name.weak and not placed)
    if not fits:
        return (), ()
    if len({c.subsystem for c in fits}) > 1:
        return (), tuple(c.key for c in fits)
    fits = _of_end(fits, told, axis)
    return _of_side(fits, told, side, mention, before)


def _may_be(called: Called, told: _Said) -> bool:
    if told.axis and called.axis and called.axis != told.axis:
        return False
    return not (told.sides and called.side and called.side not in told.sides)


def _of_branch(fits: list[Called], weights: dict[str, float], weak: bool) -> list[Called]:
    """Those of the subsystem that the talk is about here."""
    branches = {c.subsystem for c in fits}
    if len(branches) == 1:
        return fits if not weak or weights.get(next(iter(branches)), 0) > 0.35 else []
    ranked = sorted(branches, key=lambda b: (-weights.get(b, 0.0), b))
    first, second = weights.get(ranked[0], 0.0), weights.get(ranked[1], 0.0)
    if first < 0.25:
        return [] if weak else fits
    if first < 1.3 * second:
        return [c for c in fits if weights.get(c.subsystem, 0.0) >= first / 1.3]
    return [c for c in fits if c.subsystem == ranked[0]]


def _of_end(fits: list[Called], told: _Said, axis: str) -> list[Called]:
    ends = {c.axis for c in fits}
    if len(ends) < 2:
        return fits
    for end in (told.axis, axis):
        here = [c for c in fits if c.axis == end]
        if end and here:
            return here
    return fits


def _of_side(
    fits: list[Called], told: _Said, side: frozenset[Side], mention: Mention,
    before: dict[tuple[str, ...], tuple[str, ...]],
) -> tuple[tuple[str, ...], tuple[str, ...]]:  # fmt: skip
    keys = tuple(c.key for c in fits)
    sides = {c.side for c in fits}
    if len(fits) == 1:
        return keys, ()
    ends = {c.axis for c in fits}
    if len(sides) > 1 and len(ends) == 1:
        if told.both or (mention.plural and not told.sides):
            return keys, ()
        for known in (told.sides, side):
            here = tuple(c.key for c in fits if c.side in known)
            if len(here) == 1:
                return here, ()
    if mention.words in before and set(before[mention.words]) <= set(keys):
        return before[mention.words], ()
    if told.both and len(ends) > 1 and len(fits) == 2:
        return keys, ()
    return (), keys

"""How words sound, so that a term is known in another spelling; and words without their endings."""

import re
from functools import lru_cache

# Letters that sound alike in English, in the order in which they are put: a fold that is good enough to
# bring `gudgen` to gudgeon and `sinkromesh` to synchromesh.
_FOLDS: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(pattern), put)
    for pattern, put in (
        (r"[^a-z]", ""),
        (r"^(kn|gn)", "n"), (r"^wr", "r"), (r"wh", "w"),
        (r"ph", "f"), (r"ough|augh", "o"), (r"gh", ""),
        (r"tch", "j"), (r"sch", "sk"), (r"ch(?=r|l|e?m)", "k"), (r"ch", "j"), (r"dg|g(?=[eiy])", "j"),
        (r"c(?=[eiy])", "s"), (r"ck|q|c|x", "k"), (r"z", "s"),
        (r"tion|sion|shun", "sn"), (r"mb$", "m"), (r"y", "i"), (r"w(?=[^aeiou]|$)", ""),
        (r"(?<=[aeiou])h", ""),
        (r"(.)\1+", r"\1"),
    )
)  # fmt: skip
_VOWELS = re.compile(r"(?<!^)[aeiou]+")
_SPELLINGS: dict[str, str] = {
    "tire": "tyre", "color": "colour", "gray": "grey", "carburetor": "carburettor",
    "carburator": "carburettor", "calliper": "caliper", "gauge": "gauge", "gage": "gauge",
    "molding": "moulding", "aluminum": "aluminium", "leaves": "leaf", "axel": "axle", "gasket": "gasket",
    "crossmember": "crossmember", "brakes": "brake", "lens": "lens", "chassis": "chassis",
    "glass": "glass", "brass": "brass", "canvas": "canvas", "bus": "bus", "gas": "gas",
    "boss": "boss", "press": "press", "class": "class",
}  # fmt: skip


@lru_cache(maxsize=20_000)
def sound_of(joined: str) -> str:
    """How letters without blanks sound: the first letter, then consonants, those alike as one."""
    text = joined
    for pattern, put in _FOLDS:
        text = pattern.sub(put, text)
    return re.sub(r"(.)\1+", r"\1", _VOWELS.sub("", text))


@lru_cache(maxsize=20_000)
def lemma_of(word: str) -> str:
    """A noun without its plural and in the spelling of the trade here."""
    word = re.sub(r"'s?$", "", word)
    if word in _SPELLINGS:
        return _SPELLINGS[word]
    single = _single(word)
    return _SPELLINGS.get(single, single)


def _single(word: str) -> str:
    if len(word) < 4 or not word.endswith("s") or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies") and len(word) > 4:
        return f"{word[:-3]}y"
    if word.endswith(("ches", "shes", "sses", "xes")):
        return word[:-2]
    return word[:-1]

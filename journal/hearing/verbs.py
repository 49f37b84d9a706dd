"""Verbs that tell an act, in all their forms, with the word that belongs to them: `took ... off`."""

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from enum import StrEnum

from msgspec import Struct

from journal.records.terms import Terms
from journal.words.vocabulary import Act


class Form(StrEnum):
    """How a verb stands: `clean`, `cleaned` as what happened, `cleaned` as a state, `cleaning`."""

    BASE = "base"
    PAST = "past"
    PARTICIPLE = "participle"
    ING = "ing"
    THIRD = "third"


class Verb(Struct, frozen=True):
    """A verb in one form: the words that must follow it (`off`), and the act that it then tells."""

    head: str
    forms: frozenset[Form]
    rest: tuple[str, ...]
    act: Act


# Words before a verb that make one with it: `trial fitted`, `wire brushed`.
_BEFORE_VERBS = frozenset(
    "trial dry test crack dye pressure road leak brake spot plug seam wire bead sand shot soda vapour "
    "steam powder stove zinc nickel french panel lead etch brush top".split()
)
# Verbs whose subject is the thing: "the drum came off".
_ITSELF = frozenset({"come", "go"})


def verbs_of(terms: Terms) -> Mapping[str, tuple[Verb, ...]]:
    """All verbs by the word that is heard, those with the most words to follow first."""
    forms = _irregular(terms.irregular)
    found: dict[str, dict[tuple[str, tuple[str, ...], Act], set[Form]]] = defaultdict(dict)
    for name, phrases in terms.acts:
        act = Act(name)
        for phrase in phrases:
            head, *rest = phrase.casefold().split()
            if head in _BEFORE_VERBS and rest:
                for word, form in _forms(rest[0], forms):
                    found[head].setdefault((rest[0], (word, *rest[1:]), act), set()).add(form)
                continue
            for word, form in _forms(head, forms):
                found[word].setdefault((head, tuple(rest), act), set()).add(form)
    return {
        word: tuple(
            Verb(head, frozenset(forms), rest, act)
            for (head, rest, act), forms in sorted(of.items(), key=lambda v: -len(v[0][1]))
        )
        for word, of in found.items()
    }


def nouns_of(terms: Terms) -> Mapping[tuple[str, ...], Act]:
    """Nouns that tell an act, by their words."""
    return {
        tuple(noun.casefold().split()): Act(act) for act, nouns in terms.nouns for noun in nouns
    }


def _irregular(rows: Iterable[Sequence[str]]) -> Mapping[str, list[tuple[str, str]]]:
    found: dict[str, list[tuple[str, str]]] = defaultdict(list)
    for row in rows:
        if len(row) == 3:
            found[row[0]].append((row[1], row[2]))
    return found


def _forms(head: str, irregular: Mapping[str, list[tuple[str, str]]]) -> Iterator[tuple[str, Form]]:
    yield head, Form.BASE
    yield _third(head), Form.THIRD
    for stem in _stems(head):
        yield f"{stem}ing", Form.ING
    if head in irregular:
        for past, participle in irregular[head]:
            yield past, Form.PAST
            yield participle, Form.PARTICIPLE
        return
    for past in _pasts(head):
        yield past, Form.PAST
        yield past, Form.PARTICIPLE


def _third(head: str) -> str:
    if re.search(r"(s|x|z|ch|sh)$", head):
        return f"{head}es"
    return f"{head[:-1]}ies" if re.search(r"[^aeiou]y$", head) else f"{head}s"


def _stems(head: str) -> Iterator[str]:
    if head.endswith("ie"):
        yield f"{head[:-2]}y"
    elif head.endswith("e") and not head.endswith("ee"):
        yield head[:-1]
    else:
        yield head
        if re.search(r"(^|[^aeiou])[aeiou][bdgklmnprt]$", head):
            yield head + head[-1]


def _pasts(head: str) -> Iterator[str]:
    if head.endswith("e"):
        yield f"{head}d"
    elif re.search(r"[^aeiou]y$", head):
        yield f"{head[:-1]}ied"
    else:
        for stem in _stems(head):
            yield f"{stem}ed"


def is_itself(verb: Verb) -> bool:
    """Whether what it tells happened to its subject: `came off`, `went on`."""
    return verb.head in _ITSELF

"""What a verb acts on: the things behind it, before it, or that `it` stands for."""

from collections.abc import Mapping, Sequence

from journal.hearing.moods import CLAUSE, Clauses
from journal.hearing.naming import Mention
from journal.hearing.seen import DETERMINERS, SUBJECTS, Seen
from journal.hearing.verbs import Form, is_itself
from journal.words.vocabulary import Act

# What shows that a thing begins a new sentence, and is no longer what a verb acts on.
_GOES_ON = frozenset(
    "is are was were has have had needs wants looks came comes went goes will won't wasn't isn't "
    "says did didn't does doesn't wont isnt wasnt doesnt looked feels felt seems should could "
    "would wouldn't couldn't which".split()
)

_DISTANT = frozenset(
    "from to on onto off in into under behind passes past near against of round where for with by "
    "at".split()
)

_PREPOSITIONS = frozenset(
    "from of in on for with to onto into against behind under at off round around by through "
    "between".split()
)

PRONOUNS = frozenset("it them em that those these both they everything lot".split())

_MANY = frozenset("them em those these both they everything lot".split())

# Acts that may be told of a thing behind a preposition: `cleaned the muck out of the sump`.
_OF_BEHIND = frozenset(
    {
        Act.CLEANED,
        Act.INSPECTED,
        Act.MEASURED,
        Act.PAINTED,
        Act.REFINISHED,
        Act.PROVED,
        Act.ADJUSTED,
    }
)

_OF_DIMENSIONS = frozenset({Act.MEASURED, Act.ADJUSTED, Act.INSPECTED})
# What is measured or set, and is no part: the act is then on what the talk is about.
_DIMENSIONS = frozenset(
    "float preload clearance clearances lash backlash timing toe gap gaps tension play runout "
    "tracking depth height bore bores endfloat run-out pressure compression mesh".split()
)


def focus_of(
    c: Clauses, mentions: Sequence[Mention], start: int, end: int, focus: list[Mention]
) -> list[Mention]:
    """What `it` and `them` mean at a place: the things named last, one after the other."""
    here = [m for m in mentions if start <= m.first < end]
    if focus:
        here = [m for m in here if not _is_distant(c, m)]
    if not here:
        return focus
    run = [here[-1]]
    for mention in reversed(here[:-1]):
        between = [c.word(n) for n in range(mention.last, run[0].first)]
        if len(between) > 4 or ("and" not in between and not c.tokens[run[0].first].pause):
            break
        run.insert(0, mention)
    return run


def _is_distant(c: Clauses, mention: Mention) -> bool:
    """Whether a thing is named only to say where another is: `from the hub`, `where it passes the fan`."""
    at = mention.first - 1
    while at >= 0 and c.word(at) in DETERMINERS | {
        "near",
        "side",
        "front",
        "rear",
        "back",
        "old",
        "new",
    }:
        at -= 1
    if c.word(at) == "is" and c.word(at - 1) == "which":
        return True
    return c.word(at) in _DISTANT and not c.tokens[at + 1].breaks


def objects_of(
    c: Clauses,
    s: Seen,
    at: Mapping[int, Mention],
    places: Mapping[int, Seen],
    focus: Sequence[Mention],
) -> tuple[list[Mention], int, bool]:
    """The things that a verb speaks of, where its words end, and whether they are named beside it."""
    if is_itself(s.verb) or (s.form is Form.PAST and _is_passive(c, s)):
        named = _subject(c, s, at, ())
        return named or _subject(c, s, at, focus), s.particle, bool(named)
    pronoun = _pronoun(c, s)
    if pronoun and c.word(s.at + 1) in PRONOUNS and (s.at + 1) not in at:
        follows = at.get(s.at + 2)
        if follows is None or pronoun in ("it", "them"):
            return _meant(pronoun, focus), s.particle, False
    direct, behind, end = _after(c, s, at, places)
    if direct:
        return direct, end, True
    if pronoun:
        return _meant(pronoun, focus), s.particle, False
    if behind and not s.verb.rest and s.verb.act in _OF_BEHIND and s.verb.head != "set":
        return behind, end, False
    dimension = _dimension(c, s) if s.verb.act in _OF_DIMENSIONS else 0
    if dimension and focus:
        return list(focus[-1:]), max(s.particle, dimension), True
    return _topic(c, s, at), s.particle, True


def _dimension(c: Clauses, s: Seen) -> int:
    """The place after a dimension that a verb acts on, 0 where there is none."""
    for n in range(s.at + 1, min(len(c.tokens), s.at + 6)):
        if c.tokens[n].breaks or c.word(n) in SUBJECTS | CLAUSE:
            return 0
        if c.word(n) in _DIMENSIONS:
            return n + 1
    return 0


def _topic(c: Clauses, s: Seen, at: Mapping[int, Mention]) -> list[Mention]:
    """The thing named before a clause that says what was done: `kingpins i reamed out`, `the sump
    cleaned and painted`."""
    n = c.before(s.at)
    if (
        s.verb.rest
        and s.particle > s.at + 1 + len(s.verb.rest)
        and c.word(s.at + 1) not in PRONOUNS
    ):
        return []
    if c.word(n) in ("i", "we", "i've", "we've", "ive", "weve") and not c.tokens[n + 1].breaks:
        if c.tokens[n].breaks:
            return []
        n = c.before(n)
    elif s.form is not Form.PAST:
        return []
    if c.tokens[n + 1].breaks:
        return []
    mention = at.get(n)
    if mention is None and c.word(n) == "side":
        mention = next((at[k] for k in range(n, max(-1, n - 6), -1) if k in at), None)
    if mention is None or _is_distant(c, mention):
        return []
    run = [mention]
    first = mention.first
    while c.word(first - 1) in DETERMINERS | {"both", "front", "rear", "near", "off", "side"}:
        first -= 1
    if (
        c.word(first - 1) == "and"
        and (before := at.get(first - 2)) is not None
        and not _is_distant(c, before)
    ):
        run.insert(0, before)
    return run


def _is_passive(c: Clauses, s: Seen) -> bool:
    word = c.word(c.before(s.at))
    return word in (
        "is",
        "are",
        "was",
        "were",
        "been",
        "it's",
        "that's",
        "they're",
        "theyre",
        "its",
        "thats",
    ) or (word.endswith("'s") and word not in ("he's", "she's"))


def _after(
    c: Clauses, s: Seen, at: Mapping[int, Mention], places: Mapping[int, Seen]
) -> tuple[list[Mention], list[Mention], int]:
    """Things behind a verb: those it acts on, those behind a preposition, and where the last one ends."""
    direct: list[Mention] = []
    behind: list[Mention] = []
    preposition = False
    end = s.at + 1
    n = s.at + 1
    while n < min(len(c.tokens), s.at + 26) and not _closes(c, s, n, places):
        mention = at.get(n)
        if mention is not None and mention.first == n:
            if (direct or behind) and c.word(mention.last) in _GOES_ON:
                break
            (behind if preposition else direct).append(mention)
            end = n = mention.last
            continue
        preposition = _is_behind(c, s, n, preposition, bool(direct))
        found = bool(direct or behind)
        if not found and c.word(n) == "and":
            break
        if n - end > 6 if found else n > s.at + 12:
            break
        n += 1
    return direct, behind, max(end, s.particle)


def _closes(c: Clauses, s: Seen, n: int, places: Mapping[int, Seen]) -> bool:
    """Whether a word begins something else than what the verb acts on."""
    word = c.word(n)
    other = n in places and n != s.at
    return c.tokens[n].breaks or other or word in SUBJECTS or (word in CLAUSE and word != "then")


def _is_behind(c: Clauses, s: Seen, n: int, so_far: bool, direct: bool) -> bool:
    """Whether what follows a word stands behind a preposition."""
    word = c.word(n)
    inside = s.verb.rest and s.particle - len(s.verb.rest) <= n < s.particle
    if inside and n > s.at + 1:
        # What stood between has been acted on; what follows says where: `the clutch off the flywheel`.
        return True
    if word in _PREPOSITIONS and not inside and not (word == "of" and not direct):
        return True
    if word == "and" or c.tokens[n].pause:
        return so_far and not direct
    return so_far


def _pronoun(c: Clauses, s: Seen) -> str:
    for n in range(s.at + 1, min(len(c.tokens), max(s.particle, s.at + 3))):
        if c.tokens[n].breaks:
            return ""
        if c.word(n) in PRONOUNS:
            return c.word(n)
        if c.word(n) in SUBJECTS | CLAUSE | {"and"}:
            return ""
    return ""


def _meant(pronoun: str, focus: Sequence[Mention]) -> list[Mention]:
    if pronoun in _MANY:
        return list(focus)
    return list(focus[-1:])


# What may stand between the things of a list, and what stands for a thing that was named before.
_WITHIN_LIST = frozenset("and the a both front rear near off side old new".split())
_STANDING_FOR = frozenset("it it's its they they're that that's theyre thats them one side".split())
_STANDING_FOR_MANY = frozenset({"they", "they're", "theyre", "them"})


def _subject(
    c: Clauses, s: Seen, at: Mapping[int, Mention], focus: Sequence[Mention]
) -> list[Mention]:
    """The thing before a verb of which it speaks: `the drum came off`, `it's cleaned`."""
    found: list[Mention] = []
    for n in range(s.at - 1, max(-1, s.at - 14), -1):
        word = c.word(n)
        mention = at.get(n)
        if mention is not None:
            if mention.first == n:
                if _is_distant(c, mention):
                    break
                found.insert(0, mention)
            if c.tokens[mention.first].breaks:
                break
            continue
        if not found and s.at - n > 6:
            break
        if found and word not in _WITHIN_LIST:
            break
        if not found and word in _STANDING_FOR:
            return list(focus) if word in _STANDING_FOR_MANY else list(focus[-1:])
        if word in SUBJECTS or c.tokens[n].breaks or word in ("but", "so", "because"):
            break
    return found


def shares(c: Clauses, s: Seen, places: Mapping[int, Seen]) -> bool:
    """Whether the verb waits for the thing that a next one names: `cleaned and painted the sump`."""
    if s.particle > s.at + 1 + len(s.verb.rest):
        return False
    for n in range(s.particle, min(len(c.tokens), s.particle + 4)):
        if c.tokens[n].breaks:
            return False
        if n in places:
            return places[n].form is s.form
        if (
            c.word(n) not in ("and", "then", "or", "carefully", "properly")
            and not c.tokens[n].pause
        ):
            return False
    return False

"""Whether what a verb tells was done today by the workshop: from the words before it in its clause."""

from collections.abc import Mapping, Sequence
from enum import StrEnum

from msgspec import Struct

from journal.hearing.tokens import Token
from journal.hearing.verbs import Form


class Mood(StrEnum):
    """Done here and today; perhaps so, to be asked; or not: meant, wished, denied, past, another's."""

    DONE = "done"
    ASK = "ask"
    NOT = "not"


FILLERS = frozenset("um uh er erm ah mm hmm".split())
_ADVERBS = (
    FILLERS
    | {"like"}
    | frozenset(
        "just then also now finally already carefully properly quickly both all even only actually "
        "basically again straight kind sort really well quite literally simply soon eventually duly "
        "gently fully nearly almost partly partially lightly completely totally obviously still ever "
        "sure here there first".split()
    )
)
_US = frozenset("i we i've we've i'm we're i'd we'd i'll we'll ive weve im".split())
_OTHERS = frozenset(
    "he she they he's she's they've they'd he'd she'd they're he'll they'll someone somebody "
    "whoever who people bloke lad lads chap owner factory works garage fella guy guys previous "
    "everyone nobody you you've you're you'd you'll hes shes theyve theyd youve someone's "
    "somebody's who'd who's whoever's bodger butcher predecessor".split()
)
_BE_NOW = frozenset(
    "is are am i'm im we're that's thats it's its there's theres they're theyre".split()
)
_BE_THEN = frozenset("was were".split())
_BE_BARE = frozenset("be being get gets getting".split())
_HAVE = frozenset("have has ive i've we've weve having they've theyve".split())
_NEGATED = frozenset("not never without".split())
_MODAL = frozenset(
    "will would could should can might may must shall i'll we'll ill let's lets gonna won't wont "
    "can't cant cannot couldn't couldnt wouldn't wouldnt shouldn't shouldnt don't dont doesn't "
    "doesnt didn't didnt it'll they'll he'll she'll that'll you'll please i'd we'd he'd that'd "
    "thatll itll shan't gotta wanna".split()
)
_TO_DONE = frozenset("managed started began decided proceeded".split())
_BEFORE_ING_DONE = frozenset("started began finished spent kept after been busy done".split())
_BEFORE_ING_NOT = frozenset(
    "needs wants worth before without instead about avoid fancy mind for consider stop of from "
    "than need want wanted like hate love into".split()
)
_CAUSE_DONE = frozenset("got".split())
_CAUSE_NOT = frozenset(
    "had have want wants wanted need needs needed like see find found saw having getting get "
    "leave left keep wanting prefer".split()
)
CONDITIONS = frozenset("if unless until till before whether when once".split())
_TODAY = frozenset("today morning afternoon tonight now".split())
_LATER = frozenset("tomorrow later".split())
_NEXT = frozenset("next monday tuesday wednesday thursday friday saturday sunday".split())
_DAYS = frozenset("monday tuesday wednesday thursday friday saturday sunday".split())
_PERIODS = frozenset("week month year time weekend night winter summer spring autumn".split())
CLAUSE = frozenset(
    "but so because cos cause which when while where until before after then anyway right okay ok "
    "if once although though except unless whereas".split()
)
_DETERMINERS = frozenset(
    "the a an my our his her their this these those freshly newly old new its".split()
)


class Clauses(Struct, frozen=True):
    """The words of a talk with what is known of its people: `ours` are those of the workshop, by first
    name; `theirs` those who sell to it or own the car."""

    tokens: Sequence[Token]
    ours: frozenset[str] = frozenset()
    theirs: frozenset[str] = frozenset()

    def word(self, at: int) -> str:
        """The word at a place, or nothing beyond the ends."""
        return self.tokens[at].text if 0 <= at < len(self.tokens) else ""

    def start_of(self, at: int) -> int:
        """Where the clause begins in which a word stands."""
        first = at
        while first > 0 and at - first < 16:
            if self.tokens[first].breaks or self.word(first - 1) in CLAUSE:
                break
            first -= 1
        return first

    def sentence_of(self, at: int) -> tuple[int, int]:
        """The sentence around a word, as first token and the one after the last."""
        first, last = at, at + 1
        while first > 0 and not self.tokens[first].breaks and at - first < 40:
            first -= 1
        while last < len(self.tokens) and not self.tokens[last].breaks and last - at < 40:
            last += 1
        return first, last

    def before(self, at: int) -> int:
        """The place of the word before, past small words that change nothing."""
        at -= 1
        while at >= 0 and self.word(at) in _ADVERBS and not self.tokens[at + 1].breaks:
            at -= 1
        return at


def mood_of(
    clauses: Clauses, at: int, forms: frozenset[Form], earlier: Mapping[int, tuple[Mood, Form]]
) -> tuple[Mood, Form]:
    """Whether what the verb at a place tells was done. `earlier` holds what was found of verbs before it."""
    form, mood = _by_grammar(clauses, at, forms, earlier)
    if mood is not Mood.NOT and (
        _is_history(clauses, at) or _is_other(clauses, at) or _is_taken_back(clauses, at)
    ):
        mood = Mood.NOT
    return mood, form


def _is_taken_back(c: Clauses, at: int) -> bool:
    """Whether the speaker takes it back at once: "took the sender out, no I didn't"."""
    following = [c.word(n) for n in range(at + 1, min(at + 12, len(c.tokens)))]
    return any(
        following[n] == "no"
        and following[n + 1] in _US | {"it"}
        and following[n + 2] in _SAID_NOT | _NOT_DONE
        for n in range(len(following) - 2)
    )


_NOT_DONE = frozenset("didn't haven't hasn't wasn't isn't doesn't don't".split())


def _by_grammar(
    c: Clauses, at: int, forms: frozenset[Form], earlier: Mapping[int, tuple[Mood, Form]]
) -> tuple[Form, Mood]:
    left = c.before(at)
    opens = at == 0 or c.tokens[at].breaks or left < 0
    word = "" if opens else c.word(left)
    if Form.ING in forms:
        return Form.ING, _ing(c, at, left, word, opens, earlier)
    if Form.BASE in forms and (word == "to" or word in _MODAL or c.word(left) == "did"):
        return Form.BASE, _base(c, at, left, word)
    if forms & {Form.PAST, Form.PARTICIPLE}:
        if Form.BASE in forms and (got := _inherited(c, at, left, earlier, Form.BASE)):
            return Form.BASE, got
        return Form.PAST, _past(c, at, left, word, opens, earlier)
    if Form.BASE in forms:
        return Form.BASE, _bare(c, at, left, word, earlier)
    return Form.THIRD, Mood.ASK if not _denied(c, at) else Mood.NOT


def _base(c: Clauses, at: int, left: int, word: str) -> Mood:
    if word == "did":
        return Mood.DONE
    if word != "to":
        return Mood.NOT
    governs = c.before(left)
    told = c.word(governs)
    if told == "had":
        return Mood.DONE if not c.word(governs - 1).endswith(("n't", "nt")) else Mood.NOT
    if told in _TO_DONE:
        return Mood.DONE if not _denied(c, governs) else Mood.NOT
    if told == "able" and c.word(c.before(governs)) in ("was", "were"):
        return Mood.DONE
    stretch = [c.word(n) for n in range(max(0, left - 7), left)]
    return (
        Mood.DONE
        if "took" in stretch and set(stretch) & {"hour", "hours", "me", "us", "ages"}
        else Mood.NOT
    )


def _bare(
    c: Clauses, at: int, left: int, word: str, earlier: Mapping[int, tuple[Mood, Form]]
) -> Mood:
    if word in ("i", "we"):
        told = c.word(c.before(left))
        return (
            Mood.NOT
            if told in CONDITIONS or told in ("that", "do", "as", "how", "what")
            else Mood.ASK
        )
    return _inherited(c, at, left, earlier, Form.BASE) or Mood.NOT


def _ing(
    c: Clauses, at: int, left: int, word: str, opens: bool, earlier: Mapping[int, tuple[Mood, Form]]
) -> Mood:  # fmt: skip
    first, last = c.sentence_of(at)
    ahead = {c.word(n) for n in range(max(first, at - 8), min(last, at + 12))}
    if ahead & _LATER or (ahead & _NEXT and not ahead & _TODAY):
        return Mood.NOT
    if word in _NEGATED or _denied(c, at):
        return Mood.NOT
    if word in ("i'm", "im", "we're", "am", "are", "was", "were"):
        return Mood.DONE if word in ("i'm", "im", "we're") or _subject(c, left) in _US else Mood.NOT
    if word in _BEFORE_ING_DONE or (
        word == "by" and c.word(c.before(left)) in ("started", "finished")
    ):
        return Mood.DONE
    near = [c.word(n) for n in range(max(0, at - 7), at)]
    if set(near) & {"spent", "hours", "hour"} and "spent" in near:
        return Mood.DONE
    if word in _BEFORE_ING_NOT or word in _DETERMINERS:
        return Mood.NOT
    return _inherited(c, at, left, earlier, Form.ING) or (Mood.ASK if opens else Mood.NOT)


def _past(
    c: Clauses, at: int, left: int, word: str, opens: bool, earlier: Mapping[int, tuple[Mood, Form]]
) -> Mood:  # fmt: skip
    if opens:
        return Mood.DONE
    if _denied(c, at):
        return Mood.NOT
    helped = _helped(c, at, left, word)
    if helped is not None:
        return helped
    if word in ("good", "bad", "proper", "fresh", "the"):
        return Mood.NOT
    if word in _DETERMINERS and at + 1 < len(c.tokens) and not c.tokens[at + 1].breaks:
        return Mood.NOT
    caused = _caused(c, at, left, earlier)
    if caused is not None:
        return caused
    return _inherited(c, at, left, earlier, Form.PAST) or Mood.DONE


def _helped(c: Clauses, at: int, left: int, word: str) -> Mood | None:
    """What the small verb before tells: `have cleaned`, `was cleaned`; None where there is none."""
    if word in _HAVE or word.endswith("'ve"):
        return _perfect(c, left)
    if word == "had" or (word.endswith("'d") and word != "mic'd") or word in ("id", "wed", "theyd"):
        ahead = {c.word(n) for n in range(max(0, left - 3), left)}
        return Mood.DONE if ahead & {"after", "once", "when"} else Mood.NOT
    if word in _MODAL or word in _BE_BARE or word in ("of", "to"):
        return Mood.NOT
    if word in _BE_THEN:
        return Mood.ASK
    if word == "been":
        return _been(c, at, left)
    if word in _BE_NOW or word.endswith("'s"):
        if _by_another(c, at):
            return Mood.NOT
        return Mood.ASK
    return None


def _been(c: Clauses, at: int, left: int) -> Mood:
    told = c.word(c.before(left))
    undone = told in ("had", "hadn't", "have", "to") or told.endswith(("n't", "'d"))
    return Mood.NOT if undone or _by_another(c, at) else Mood.ASK


def _by_another(c: Clauses, at: int) -> bool:
    return any(c.word(n) == "by" for n in range(at + 1, at + 5))


def _perfect(c: Clauses, left: int) -> Mood:
    told = c.word(c.before(left))
    if (
        told in _MODAL
        or told in _NEGATED
        or told in ("to", "might", "must")
        or told.endswith("n't")
    ):
        return Mood.NOT
    if c.word(left) in ("have", "has") and (told in _OTHERS or told == "you"):
        return Mood.NOT
    return Mood.DONE


def _denied(c: Clauses, at: int) -> bool:
    """Whether a `not` or a `haven't` stands before the verb in its clause."""
    first = max(c.start_of(at), at - 5)
    for n in range(at - 1, first - 1, -1):
        word = c.word(n)
        if word in _NEGATED or word.endswith("n't") or word in _SAID_NOT:
            return True
        if word in _US or word == "and" or word.endswith("ed"):
            break
    return False


_SAID_NOT = frozenset(
    "havent hasnt didnt dont wont cant couldnt isnt wasnt aint hadnt wouldnt doesnt".split()
)


def _caused(
    c: Clauses, at: int, left: int, earlier: Mapping[int, tuple[Mood, Form]]
) -> Mood | None:
    """`got the hub fitted` is done; `had the drums skimmed` is another's; `want it painted` is a wish."""
    for n in range(left, max(left - 7, c.start_of(at)) - 1, -1):
        word = c.word(n)
        if word in _US or word in ("and", "it's", "is", "are") or (n != left and n in earlier):
            return None
        if word in _CAUSE_DONE:
            return Mood.NOT if c.word(c.before(n)) == "to" or _denied(c, n) else Mood.DONE
        if word in _CAUSE_NOT:
            return Mood.NOT
    return None


def _inherited(
    c: Clauses, at: int, left: int, earlier: Mapping[int, tuple[Mood, Form]], form: Form
) -> Mood | None:
    """What the verb before has, when this one goes on after it without a subject of its own."""
    first = c.start_of(at)
    for n in range(at - 1, max(first, at - 10) - 1, -1):
        if c.word(n) in _US or c.word(n) in _OTHERS:
            return None
        if n in earlier:
            mood, was = earlier[n]
            joined = any(
                c.word(k) in ("and", "or", "then") or c.tokens[k].pause for k in range(n + 1, at)
            )
            same = was is form or (form is Form.PAST and was is not Form.BASE)
            return mood if joined and same else None
    return None


def _subject(c: Clauses, at: int) -> str:
    """The one of whom a clause speaks, before a place."""
    first = max(0, c.start_of(at) - 1)
    for n in range(at, first - 1, -1):
        word = c.word(n)
        if word in _US or word in c.ours:
            return word
        if word in _OTHERS or word in c.theirs:
            return word if at - n < 5 else ""
    return ""


def _is_other(c: Clauses, at: int) -> bool:
    """Whether another than the workshop's own people is the one of whom the clause speaks."""
    word = _subject(c, at - 1)
    if word in c.theirs:
        return True
    if word in ("he", "she", "he's", "she's", "hes", "shes", "they", "they've"):
        return _person_before(c, at) not in c.ours
    return word in _OTHERS


def _person_before(c: Clauses, at: int) -> str:
    for n in range(at - 1, max(-1, at - 150), -1):
        if c.word(n).removesuffix("'s") in c.ours | c.theirs:
            return c.word(n).removesuffix("'s")
    return ""


def _is_history(c: Clauses, at: int) -> bool:
    """Whether the words around tell of another day."""
    first, last = c.sentence_of(at)
    start = max(first, at - 14)
    for n in range(at - 1, start - 1, -1):
        if c.word(n) in _TODAY or c.word(n) in ("so", "but", "then", "anyway", "right"):
            start = n
            break
    end = at + 1
    while (
        end < min(last, at + 9)
        and c.word(end) not in CLAUSE
        and c.word(end) not in _US
        and c.word(end) != "and"
    ):
        end += 1
    return any(_tells_another_day(c, n) for n in range(start, end))


def _tells_another_day(c: Clauses, n: int) -> bool:
    word, following = c.word(n), c.word(n + 1)
    if word in ("yesterday", "ago", "originally", "previously", "formerly", "beforehand"):
        return c.word(n - 1) not in ("minute", "minutes", "hour", "hours", "moment", "second")
    if word == "last":
        return following in _PERIODS | _DAYS
    if word in ("on", "since", "from", "back") and following in _DAYS | {"in"}:
        return word != "back" or c.word(n + 2) in _MONTHS
    if word == "the" and following == "other":
        return c.word(n + 2) in ("day", "week")
    return word == "years" and following in ("ago", "back")


_MONTHS = frozenset(
    "january february march april may june july august september october november december".split()
)

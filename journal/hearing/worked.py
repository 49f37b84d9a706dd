"""Whether time that is told was worked, by whom speaks, and today.

The nearest word that tells decides. Common practice of speech, no source.
"""

from journal.hearing.phrases import phrases
from journal.hearing.strand import Strand

_WORK = frozenset({
    "spent", "worked", "working", "did", "done", "took", "taken", "been", "put", "doing", "booked", "book",
    "had", "got", "managed", "call", "that's", "was", "me", "us", "i", "we", "another", "good", "on", "job",
    "only", "take", "cleaning", "sanding", "scraping", "fiddling", "messing", "fighting", "swearing",
    "lost", "wasted", "clocked", "scrubbed", "sanded", "cleaned", "stripped", "spend", "log", "logged",
    "charge", "hours", "polishing", "measuring", "welding", "fitting", "trying", "getting", "setting",
    "filing", "grinding", "painting", "stripping", "at", "today", "i've", "we've", "it's", "plus", "in",
    "total",
})  # fmt: skip
_OURS = frozenset({"me", "us", "i", "we", "i've", "we've", "today"})
_NOT_WORK = frozenset({
    "soak", "soaked", "soaking", "leave", "leaving", "cure", "cures", "curing", "cured", "dry", "dries",
    "drying", "dried", "bake", "baked", "baking", "oven", "warm", "charging", "charged", "held", "hold",
    "holds", "holding", "simmer", "boil", "boiled", "steep", "stand", "standing", "sets", "harden",
    "hardens", "hardened", "hardening", "wait", "waits", "waited", "waiting", "let", "every", "sat", "idle",
    "idled", "run", "running", "ran", "hang", "hung", "pickle", "pickled", "settle", "settled", "cool",
    "cooled", "cooling", "lasts", "drive", "drove", "driving", "drivin", "walk", "train", "train's",
    "traffic", "sitting", "overnight", "within", "late", "early", "sleep", "slept", "ticking", "ticked",
    "tank", "vinegar", "electrolysis", "flash", "gel", "recoat", "recoats", "cook", "cooked", "cooking",
    "stood", "queue", "queued", "phone", "parked", "lay", "open", "opens", "shut", "closes", "closed",
    "warmed",
})  # fmt: skip
_OTHERS = frozenset({
    "he", "she", "they", "him", "her", "them", "he's", "she's", "they've", "he'd", "she'd", "they'd",
    "bloke", "machinist", "plater", "trimmer", "somebody", "someone", "quoted", "quote", "quotes",
    "reckons", "reckoned", "courier", "garage", "they're", "firm", "his", "their", "says", "said",
})  # fmt: skip
_AFTER_NOT = frozenset({
    "later", "ago", "away", "drive", "drive's", "old", "late", "early", "wait", "notice", "cure", "curing",
    "drying", "walk", "ride", "trip", "journey", "soak", "left", "apart", "warning", "before", "until",
    "from", "down", "off", "each", "short", "round", "between", "after", "day", "time", "flight", "holiday",
})  # fmt: skip
_LATER = frozenset({
    "will", "it'll", "should", "would", "might", "could", "going", "gonna", "need", "needs", "tomorrow",
    "want", "wants", "estimate", "estimated", "allow", "allowing", "allowed", "expect", "i'll", "we'll",
    "supposed", "that'll", "there'll", "they'll", "he'll", "shall", "can", "planned", "plan", "may", "must",
    "i'd", "we'd", "it'd", "maybe", "if", "least", "still",
})  # fmt: skip
_WENT_ON = frozenset({
    "spent", "did", "took", "worked", "been", "today", "i've", "we've", "done", "was", "had", "got", "put",
    "that's", "me",
})  # fmt: skip
_PAST = frozenset({"yesterday", "ago", "previously"})
_DAYS = frozenset({
    "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "week", "night", "month",
    "year", "time", "weekend", "winter", "summer",
})  # fmt: skip
_AHEAD = frozenset({"tomorrow"})
_MEALS = frozenset({
    "lunch", "dinner", "tea", "break", "breaks", "breakfast", "brew", "brews", "sandwich", "sandwiches",
    "dinnertime", "lunchtime", "snap", "bait",
})  # fmt: skip
_LESS = frozenset(
    {"less", "minus", "knock", "deduct", "docked", "knocking", "taking", "except", "excluding"}
)
_HANDBOOK = phrases("book time", "book says", "book hours", "the book")
_FOR_ALL = phrases(
    "all told", "in total", "in all", "altogether", "all together", "all in", "for the day", "on the day",
    "today in total", "total", "today all in", "today all told", "today altogether", "all day",
    "on the clock",
)  # fmt: skip


def is_work(strand: Strand, start: int, end: int, *, plain: bool) -> bool:
    """Whether the time at [start, end) was worked by the one who speaks.

    `plain` answers where no word around it tells.
    """
    after = strand.words_after(end, 4)
    if after[:1] and after[0] in _AFTER_NOT and not _is_sense(after):
        return False
    if set(after[:3]) & {"drive", "cure", "trip", "journey", "ride", "wait"}:
        return False
    if set(after[:2]) == {"for", "the"} and set(after) & {
        "courier",
        "delivery",
        "postman",
        "kettle",
    }:
        return False
    before = _before(strand, start)
    if _HANDBOOK.within(before):
        return False
    if after[:1] == ("job",) and before[-1:] == ("a",):
        return False
    if "in" in before[-2:] and not {"all", "day"} & set(before[-3:]):
        return bool(
            set(before[-8:]) & {"did", "done", "had", "got", "managed", "finished", "stripped"}
        )
    return _nearest(before, plain=plain or after[:1] == ("on",))


def _is_sense(after: tuple[str, ...]) -> bool:
    """Three hours down in the pit, two hours from nine: time that goes on."""
    return after[0] in ("from", "down", "after", "before", "off") and after[1:2] in (
        ("nine",), ("eight",), ("in",), ("under",), ("lunch",), ("dinner",), ("tea",), ("work",),
    )  # fmt: skip


def _before(strand: Strand, start: int) -> tuple[str, ...]:
    """The words before, without those before what sums them up."""
    before = strand.words_before(start, 9)
    since = max((n for n, word in enumerate(before) if word in ("so", "anyway")), default=-1)
    return before[since + 1 :]


def _nearest(before: tuple[str, ...], *, plain: bool) -> bool:
    """What the nearest word says that tells; a verb of another is another's time."""
    for n in range(len(before) - 1, -1, -1):
        word = before[n]
        if word in _NOT_WORK and word not in _WORK:
            return False
        if word == "charge" and before[max(0, n - 1) : n] == ("on",):
            return False
        if word in _OTHERS:
            return False
        if word in _OURS:
            return True
        if word in _WORK and _tells(word):
            return not _of_others(before[max(0, n - 3) : n])
    return plain


def _of_others(words: tuple[str, ...]) -> bool:
    """Whether the nearest person before a verb is another."""
    persons = [word for word in words if word in _OURS | _OTHERS]
    return bool(persons) and persons[-1] in _OTHERS


def _tells(word: str) -> bool:
    return word not in (
        "on", "at", "in", "good", "only", "was", "another", "it's", "had", "got", "hours",
    )  # fmt: skip


def works_near(strand: Strand, start: int, end: int) -> bool:
    """Whether nothing around times of the day says that they are those of a shop or of a wait."""
    around = set(strand.words_before(start, 5) + strand.words_after(end, 4))
    return around.isdisjoint(
        {"open", "opens", "opening", "shut", "closed", "closes", "shop's", "they're"}
    )


def is_break(strand: Strand, start: int, end: int) -> bool:
    """Whether a spell was a meal or is taken off: half an hour for lunch, less an hour."""
    before, after = strand.words_before(start, 3), strand.words_after(end, 3)
    if any(word in _LESS for word in before[-2:]) or before[-2:] in (
        ("take", "off"),
        ("knock", "off"),
    ):
        return True
    if after[:1] and after[0] in _LESS | {"after", "before", "since", "till", "until", "with"}:
        return False
    if set(after[:2]) & _MEALS or (after[:2] in (("for", "a"), ("for", "my"), ("for", "our")) and
                                   set(after[2:]) & _MEALS):  # fmt: skip
        return True
    return bool(set(before[-2:]) & _MEALS) and before[-1:] not in (("after",), ("before",), ("so",))


def is_whole_day(strand: Strand, start: int, end: int) -> bool:
    """Whether hours are told of all that was done in the day: six hours all told."""
    after, before = strand.words_after(end, 4), strand.words_before(start, 3)
    if _FOR_ALL.at(after, 0) or _FOR_ALL.at(after, 1):
        return True
    return bool({"total", "altogether"} & set(before)) or before[-2:] == ("in", "all")


def is_today(strand: Strand, start: int, end: int) -> bool:
    """Whether work was of the day that is told, and not yesterday's, nor meant for later."""
    before, after = _before(strand, start), strand.words_after(end, 7)
    if _other_day(after, before_reset=True) or after[:2] in (
        ("to", "do"),
        ("to", "go"),
        ("this", "week"),
    ):
        return False
    if after[:1] == ("today",):
        return True
    for n in range(len(before) - 1, -1, -1):
        word = before[n]
        if _is_other_day(before, n):
            return False
        if word in _LATER and before[n + 1 : n + 2] not in (("say",), ("call",)):
            return False
        if word == "today":
            return True
        if word in _WENT_ON and not _later_than(before[:n]):
            return not _other_day(before[:n], before_reset=False)
    return True


def _later_than(before: tuple[str, ...]) -> bool:
    """It would have taken, I should get it done: what went on only in thought."""
    return bool(set(before[-3:]) & _LATER)


def _other_day(words: tuple[str, ...], *, before_reset: bool) -> bool:
    for n, word in enumerate(words):
        if before_reset and word in ("today", "and", "then", "but", "i", "so", "plus"):
            return False
        if _is_other_day(words, n):
            return "today" not in words[n:] if not before_reset else True
    return False


def _is_other_day(words: tuple[str, ...], n: int) -> bool:
    word, last = words[n], words[n - 1] if n else ""
    if word in _PAST | _AHEAD:
        return True
    return (
        word in _DAYS and last in ("last", "on", "next", "other", "the") and word not in ("time",)
    )

"""How persons, places and suppliers may stand in a text, and the word that is put for them.

A name that is a word as well (Mark, Bill, a family called Green) is one where a title, a first name
or initials go before, where it has 's, where it rings or asks or pays, and where a capital stands
within a sentence.
"""

import re
from collections.abc import Iterable, Iterator

from journal.readers.known import OTHER_KEEPER, OTHER_OWNER, OWNER, TITLES, Person, Told
from journal.readers.swap import Swap, put

# Names of persons and places that are words of an English sentence (common practice, no source).
WORDS = frozenset(
    word
    for line in (
        "amber april art ash august baker bath battle beer bell bill black bob brown bush butler",
        "carpenter carter chuck church clay cliff cook cooper cross daisy dale dawn deal dean don",
        "drew duke earl eve faith field finch fisher fox frank glen grace gray green grey guy ham",
        "hand hazel head heath hill holly hope horn hull hunter iris ivy jack jay joy june key king",
        "knight lance lane lily lock long mark marsh mason may mike miles miller moon nick olive page",
        "park parson pat pearl penny phil pike pool pope potter price ray reading reed rice rich rob",
        "robin rod rose ruby rusty rye sale sandy sharp shepherd short skinner small smith spring",
        "stone street sue summer tallow tanner tom turner victor violet wade walker wall ware waters weaver",
        "wells west wheeler white will winter wise wolf wood young",
    )
    for word in line.split()
)
# Initials that mean something else in a workshop (common practice, no source).
_ABBREVIATIONS = frozenset(
    word
    for line in (
        "AC BA BS BSF BSP BSW CB CO CV DC EP HP HT ID IN LH LHD LT ML NO NOS NS OD OF OH OK ON OS",
        "PCD PD PM PTFE RH RHD TDC UK UNC UNF US",
    )
    for word in line.split()
)
_TITLE = rf"(?:(?:{'|'.join(TITLES)})\b\.?\s+)"
_COUPLE = rf"(?:{_TITLE}(?:(?:and|&)\s+{_TITLE})?)"
# Neither letter nor digit before or after.
_FROM, _TO = r"(?<![^\W_])", r"(?![^\W_])"
# What may stand between two words of a name, in texts and in addresses of pages: blanks, emphasis and
# signs, or nothing; a full stop with a blank behind it ends a sentence. The search of an archive asks for
# no more than this, so that what it finds went past a mask and was never passed over by one.
BETWEEN = r"(?:\.(?!\s)|[\s,;_+*~`\\-]|&\w{2,8};){0,6}"
# An article before a name goes with it.
_THE = r"(?:\b[Tt]he\s+)?"
_WITHIN = r"(?<=[a-z,;]\s)"
_NO_DATE = r"(?!\s+\d)"
# What a person does and a thing does not (common practice, no source).
_DOES = (
    r"(?=\s+(?:rang|rings|phoned|telephoned|wrote|writes|called|came|comes|went|says?|said|told|asks?|"
    r"asked|wants?|wanted|agrees?|agreed|decided|chose|brought|took|paid|visited|thinks?|thought|"
    r"likes?|liked|approved|collected|helped|sent|promised|remembers?|remembered|and\s+[A-Z]\w*)\b)"
)
# What goes before a person and seldom before a thing without an article (common practice, no source).
_BEFORE_SOMEONE = (
    "ask asked call called tell told ring rang phone phoned pay paid owe owes thank thanks meet met see "
    "saw with for from by to and remind promised"
)
_TO_SOMEONE = "|".join(rf"(?<=\b{word}[ \n])" for word in _BEFORE_SOMEONE.split())
PLACE, SUPPLIER = "a place not named", "a supplier"


def person_swaps(person: Person, everyday: frozenset[str]) -> Iterator[Swap]:
    """A person by whole name, family name, title and initial, first names, and initials."""
    called = put(person.called)
    if not person.family or len(person.whole.split()) > 1:
        yield _phrase(person.whole, person.called, before=f"{_COUPLE}?")
    if not person.family:
        return
    yield Swap((_letters(person.family),), _family(person, everyday), called)
    if person.called in (OTHER_OWNER, OTHER_KEEPER):
        return
    initial = re.escape(person.family[0])
    titled = rf"{_FROM}{_COUPLE}(?:[A-Z]\.?\s+)?{initial}\.?{_TO}"
    titles = tuple(f"{title.casefold()}{after}" for title in TITLES for after in " .\n")
    yield Swap(titles, titled, called)
    for given in person.given:
        if len(given.strip(".")) > 1:
            yield Swap((given.casefold(),), _given(given, initial, everyday), called)
    yield from _initials(person)


def _family(person: Person, everyday: frozenset[str]) -> str:
    """Of a keeper of another car, whom this archive has no reason to name, the whole name alone."""
    name = _either_mark(person.family)
    firsts = [re.escape(given) for given in person.given]
    lead = rf"(?:{_COUPLE}|(?:{''.join(f'{_capital(first)}|' for first in firsts)}[A-Z]\.?)\s+)"
    led = rf"{_FROM}{lead}+{_capital(name)}{_TO}"
    # As people are called on the net, and by a slip of the thumb.
    joined = rf"[@#]?{_FROM}(?i:{'|'.join((*firsts, *TITLES))})[._-]?(?i:{name}){_TO}"
    if person.called == OTHER_KEEPER:
        return f"{led}|{joined}"
    if is_word(person.family, everyday):
        return f"{led}|{joined}|{_bare(name)}"
    whole = _capital(name)
    many = rf"{_THE}{_FROM}{_capital(f'{name}s')}{_TO}"
    # In small letters it could be a word that nobody thought of, and is one behind an article.
    small = rf"{_FROM}(?i:{name}){_TO}(?:(?=['’]s)|{_DOES})|(?:{_TO_SOMEONE})(?i:{name}){_TO}"
    led = rf"{_FROM}(?i:{'|'.join((*firsts, *TITLES))})\.?\s+(?i:{name}){_TO}"
    return rf"{many}|{joined}|{led}|{_FROM}{lead}*{whole}{_TO}|{small}"


def _given(given: str, initial: str, everyday: frozenset[str]) -> str:
    """A first name, with the initial of the family behind it."""
    name, more = re.escape(given), rf"(?:\s{initial}(?:\.|{_TO}))?"
    if is_word(given, everyday):
        return rf"{_FROM}{_TITLE}{_capital(name)}{_TO}{more}|{_bare(name)}{more}"
    return rf"{_FROM}{_TITLE}?{_capital(name)}{_TO}{more}"


def _bare(name: str) -> str:
    bare = f"{_capital(name)}{_TO}"
    return rf"{_WITHIN}{bare}{_NO_DATE}|{_FROM}{bare}(?:(?=['’]s)|{_DOES})"


def _capital(name: str) -> str:
    """As written or in capitals."""
    return rf"(?:{name}|{name.upper()})"


def _initials(person: Person) -> Iterator[Swap]:
    called = put(person.called)
    letters = [word[0] for word in (*person.given, person.family)]
    if len(letters) > 1:
        dotted = r"\s?".join(rf"{letter}\." for letter in letters)
        yield Swap((letters[0].casefold(),), f"{_FROM}{dotted}", called)
    own = person.initials or ("".join(letters) if person.called == OWNER else "")
    if len(own) > 1 and (person.initials or own not in _ABBREVIATIONS):
        # Not where a number starts with the same letters.
        alone = rf"{_FROM}{re.escape(own)}s?{_TO}(?![\s./-]{{0,2}}[\d•])"
        yield Swap((own.casefold(),), alone, called)


def address_swaps(people: Iterable[Person], everyday: frozenset[str]) -> Iterator[Swap]:
    """Addresses on the web in which a family is named."""
    names = sorted(
        {_letters(p.family) for p in people if p.family and not is_word(p.family, everyday)}
    )
    for name in names:
        of = rf"[^\s()<>\]]*(?i:{re.escape(name)})(?:[^\s()<>\]]*[\w/])?"
        yield Swap((name,), rf"\]\(\s*<?\w+:{of}[^)\n]*\)", lambda _: "](#)")
        yield Swap((name,), rf"(?:\bhttps?://|\bwww\.){of}", put("a web address"))


def place_swaps(place: Told, everyday: frozenset[str]) -> Iterator[Swap]:
    """A line of an address. One word alone counts with its capital only."""
    if len(place.text.split()) > 1:
        yield _phrase(place.text, PLACE)
        return
    name = _either_mark(place.text)
    pattern = (
        _bare(name) if is_word(place.text, everyday) else f"{_THE}{_FROM}{_capital(name)}{_TO}"
    )
    yield Swap((_letters(place.text),), pattern, put(PLACE))


def supplier_swaps(supplier: Told, everyday: frozenset[str]) -> Iterator[Swap]:
    """A supplier by name, unless it is one word that is a word of the car too."""
    if len(supplier.text.split()) > 1:
        yield _phrase(supplier.text, SUPPLIER)
    elif not is_word(supplier.text, everyday):
        name = _either_mark(supplier.text)
        pattern = rf"{_THE}{_FROM}{name}s?{_TO}"
        yield Swap((_letters(supplier.text),), pattern, put(SUPPLIER), re.I)


def _phrase(text: str, called: str, *, before: str = "") -> Swap:
    """Some words, however they are set apart and in whatever case."""
    words = BETWEEN.join(_either_mark(word) for word in re.split(r"[\s,;]+", text) if word)
    start = _FROM if text[0].isalnum() else ""
    end = _TO if text[-1].isalnum() else ""
    pattern = f"{_THE}[@#]?{start}{before}{words}{end}" if words else r"(?!)"
    return Swap((_letters(text),), pattern, put(called), re.I)


def is_word(name: str, everyday: frozenset[str]) -> bool:
    """Whether a name is a word of this car or of any English sentence too."""
    return name.casefold() in WORDS or name.casefold() in everyday


def _either_mark(name: str) -> str:
    """A name with its apostrophe straight or curled."""
    return re.sub(r"['’]", "['’]", re.escape(name))


def _letters(name: str) -> str:
    """The first run of letters in a name, in small letters."""
    found = re.search(r"[^\W_]+", name)
    return found.group().casefold() if found else name.casefold()

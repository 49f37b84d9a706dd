"""A talk becomes proposals for a day sheet, each beside the words it came from."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property

from journal.hearing import cues
from journal.hearing.acts import Told, acts_in
from journal.hearing.flat import Flat
from journal.hearing.heard import Heard, Kind, Line
from journal.hearing.lexicon import lexicon_of
from journal.hearing.mentions import Mention, mentions_in
from journal.hearing.moods import Clauses, Mood
from journal.hearing.people import hands_of, others_of, suppliers_in
from journal.hearing.tokens import Token, tokens_of
from journal.hearing.verbs import nouns_of, verbs_of
from journal.reading.yamltext import Plain
from journal.records.carfile import CarFile
from journal.records.talk import Talk
from journal.records.terms import Terms
from journal.words.vocabulary import Act


@dataclass(frozen=True)
class Listening:
    """One talk with everything that is asked of it more than once."""

    talk: Talk
    car: CarFile
    terms: Terms
    subsystem: str = ""

    @cached_property
    def tokens(self) -> tuple[Token, ...]:
        """The words."""
        return tokens_of(self.talk.text)

    @cached_property
    def american(self) -> bool:
        """Whether the words are those of an American."""
        text = f" {' '.join(token.text for token in self.tokens)} "
        return sum(f" {word} " in text or f" {word}s " in text for word in self.terms.american.by) > 1

    @cached_property
    def mentions(self) -> tuple[Mention, ...]:
        """Every component that is spoken of."""
        lexicon = lexicon_of(self.car.register, self.terms, self.american)
        return mentions_in(
            self.tokens, lexicon, self.terms.misheard, self.car.car.drive, self.subsystem
        )

    @cached_property
    def clauses(self) -> Clauses:
        """The words with the people among them."""
        hands = frozenset(word for word in hands_of(self.car.workshop) if len(word) > 2)
        return Clauses(self.tokens, hands, others_of(self.car.workshop, self.car.car) - hands)

    @cached_property
    def acts(self) -> tuple[Told, ...]:
        """Every act that is told."""
        return acts_in(
            self.clauses, self.mentions, verbs_of(self.terms), nouns_of(self.terms)
        )

    @cached_property
    def flat(self) -> Flat:
        """The words in one line."""
        return Flat(self.tokens)

    def line(
        self, kind: Kind, first: int, last: int, told: Mapping[str, Plain] | None = None, ask: str = "",
        of: Iterable[str] = (),
    ) -> Line:  # fmt: skip
        """A line of the words from token `first` to before `last`."""
        start, end = self.tokens[first].start, self.tokens[last - 1].end
        words = " ".join(self.talk.text[start:end].split())
        return Line(kind, start, end, words, self.talk.at(start), told or {}, ask, tuple(of))

    def stretched(self, line: Line, other: Line) -> Line:
        """A line with the words of another that runs into it."""
        end = max(line.end, other.end)
        words = " ".join(self.talk.text[line.start : end].split())
        return replace(line, end=end, words=words, of=line.of or other.of)

    def near(self, first: int, last: int) -> tuple[str, ...]:
        """The components that a stretch of the talk speaks of: those in it, else those in its sentence,
        else the ones named last before it."""
        inside = [m for m in self.mentions if m.keys and first <= m.first < last]
        low, high = self.clauses.sentence_of(first)
        around = [m for m in self.mentions if m.keys and low <= m.first < high]
        before = [m for m in self.mentions if m.keys and first - 40 <= m.first < first][-1:]
        best = inside or sorted(around, key=lambda m: abs(m.first - first))[:1] or before
        return best[0].keys if best else ()


def hear(
    talk: Talk, car: CarFile, day: date, terms: Terms, hand: str = "", subsystem: str = ""
) -> Heard:
    """The draft of a sheet: what a talk says was done that day, and what it is unsure of.

    Nothing is filled in that was not said. `car` is the car file as it stands; `hand` the one who
    speaks, where that is known.
    """
    here = Listening(talk, car.as_of(day), terms, subsystem)
    lines = sorted(_merged(here, _lines(here)), key=lambda line: (line.start, line.end))
    branches = _branches(here)
    keys = dict.fromkeys(key for mention in here.mentions for key in mention.keys)
    return Heard("", branches, tuple(lines), talk.text, tuple(keys))


_MERGED = (Kind.SNAG, Kind.WAITING, Kind.NEXT, Kind.DECIDED)


def _merged(here: Listening, lines: Iterable[Line]) -> Iterator[Line]:
    """Lines of one kind whose words run into one another become one."""
    last: dict[Kind, Line] = {}
    for line in sorted(lines, key=lambda line: (line.start, line.end)):
        before = last.get(line.kind)
        if line.kind not in _MERGED:
            yield line
        elif before is None or line.start > before.end:
            if before is not None:
                yield before
            last[line.kind] = line
        else:
            last[line.kind] = here.stretched(before, line)
    yield from last.values()


def _branches(here: Listening) -> tuple[str, ...]:
    """The subsystems that work was done on, most first, else those spoken of."""
    done = Counter(told.key.split("/")[0] for told in here.acts if told.mood is Mood.DONE)
    spoken = Counter(key.split("/")[0] for mention in here.mentions for key in mention.keys)
    ranked = done or spoken
    return tuple(sorted(ranked, key=lambda branch: (-ranked[branch], branch)))[:4]


def _lines(here: Listening) -> Iterator[Line]:
    yield from _acts(here)
    yield from _origins(here)
    yield from _snags(here)
    yield from _cued(here, Kind.WAITING, cues.WAITING)
    yield from _cued(here, Kind.NEXT, cues.NEXT)
    yield from _cued(here, Kind.DECIDED, cues.DECIDED)


def _acts(here: Listening) -> Iterator[Line]:
    """Acts, those of the same words as one line; an act is told once."""
    told: dict[tuple[str, Act], bool] = {}
    groups: dict[tuple[int, int, Mood], list[Told]] = {}
    for one in here.acts:
        if one.mood is Mood.NOT or told.get((one.key, one.act)):
            continue
        if one.mood is Mood.DONE:
            told[one.key, one.act] = True
        groups.setdefault((one.first, one.last, one.mood), []).append(one)
    for (first, last, mood), acts in groups.items():
        if mood is Mood.ASK:
            acts = [a for a in acts if not told.get((a.key, a.act))]
        if acts:
            yield _act(here, first, last, mood, acts)


def _act(here: Listening, first: int, last: int, mood: Mood, acts: Sequence[Told]) -> Line:
    work: dict[str, Plain] = {}
    for one in acts:
        entry = work.setdefault(one.key, {"did": []})
        assert isinstance(entry, dict) and isinstance(entry["did"], list)
        if one.act.value not in entry["did"]:
            entry["did"].append(one.act.value)
    ask = "" if mood is Mood.DONE else "Was this done today, and to this component?"
    return here.line(Kind.ACT, first, last, {"work": work}, ask, work)


def _origins(here: Listening) -> Iterator[Line]:
    for origin, pattern in cues.ORIGINS:
        for first, last, _ in here.flat.found(pattern):
            keys = here.near(first, last)
            if keys:
                told: dict[str, Plain] = {"work": {key: {"now": origin} for key in keys[:1]}}
                low, high = here.flat.clause(first, last)
                yield here.line(Kind.ORIGIN, low, high, told, "", keys[:1])


def _snags(here: Listening) -> Iterator[Line]:
    for pattern in (cues.LOOSE, cues.WRONG):
        for first, last, match in here.flat.found(pattern):
            if cues.SOUND.search(here.flat.text[max(0, match.start() - 40) : match.start()].rsplit("\n")[-1]):
                continue
            yield _cue(here, Kind.SNAG, first, last)


def _cued(here: Listening, kind: Kind, pattern: "cues.re.Pattern[str]") -> Iterator[Line]:
    for first, last, _ in here.flat.found(pattern):
        yield _cue(here, kind, first, last)


def _cue(here: Listening, kind: Kind, first: int, last: int) -> Line:
    low, high = here.flat.clause(first, last)
    keys = here.near(first, last)
    return here.line(kind, low, high, {}, "", keys)

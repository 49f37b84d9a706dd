"""One talk with everything that is asked of it more than once."""

from collections.abc import Iterable, Mapping
from datetime import date
from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from journal.hearing.acts import acts_in
from journal.hearing.flat import Flat
from journal.hearing.heard import Kind, Line
from journal.hearing.known import Known
from journal.hearing.lexicon import lexicon_of
from journal.hearing.mentions import mentions_in
from journal.hearing.moods import Clauses
from journal.hearing.naming import Mention
from journal.hearing.people import Named, hands_of, others_of, speaker_in, suppliers_in
from journal.hearing.spelled import PartNumber, part_numbers_in
from journal.hearing.tokens import Token, tokens_of
from journal.hearing.told import Told
from journal.hearing.verbs import nouns_of, verbs_of
from journal.reading.yamltext import Plain
from journal.records.carfile import CarFile
from journal.records.talk import Talk


class Listening(Struct, frozen=True, dict=True):
    """One talk with everything that is asked of it more than once."""

    talk: Talk
    car: CarFile
    known: Known
    day: date
    hand: str = ""
    subsystem: str = ""

    @cached_property
    def tokens(self) -> tuple[Token, ...]:
        """The words."""
        return tokens_of(self.talk.text)

    @cached_property
    def american(self) -> bool:
        """Whether the words are those of an American."""
        text = f" {' '.join(token.text for token in self.tokens)} "
        return (
            sum(
                f" {word} " in text or f" {word}s " in text for word in self.known.terms.american.by
            )
            > 1
        )

    @cached_property
    def mentions(self) -> tuple[Mention, ...]:
        """Every component that is spoken of."""
        lexicon = lexicon_of(self.car.register, self.known.terms, self.american, self.known.starter)
        return mentions_in(
            self.tokens, lexicon, self.known.terms.misheard, self.car.car.drive, self.subsystem
        )

    @cached_property
    def clauses(self) -> Clauses:
        """The words with the people among them."""
        hands = frozenset(word for word in hands_of(self.car.workshop) if len(word) > 2)
        return Clauses(self.tokens, hands, others_of(self.car.workshop, self.car.car) - hands)

    @cached_property
    def suppliers(self) -> tuple[Named, ...]:
        """Every supplier that is named."""
        return suppliers_in(self.tokens, self.car.workshop)

    @cached_property
    def part_numbers(self) -> tuple[PartNumber, ...]:
        """Every part number that is spelled out."""
        return part_numbers_in(self.tokens)

    @cached_property
    def speaker(self) -> str:
        """The hand that says `I`: as told, as the talk itself says, or the only one who works here."""
        return self.hand or speaker_in(self.tokens, self.car.workshop)

    def said_by(self, n: int) -> str:
        """The hand in whose voice a word was said; the speaker of the talk where voices are not told."""
        cue = self.talk.cue(self.tokens[n].start)
        voice = cue.voice.casefold().split()[:1] if cue is not None else []
        hands = hands_of(self.car.workshop)
        return hands.get(voice[0], "") if voice else self.speaker

    @cached_property
    def acts(self) -> tuple[Told, ...]:
        """Every act that is told."""
        return acts_in(
            self.clauses, self.mentions, verbs_of(self.known.terms), nouns_of(self.known.terms)
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

    def told(self, line: Line, told: Mapping[str, Plain]) -> Line:
        """A line with what it would put into the sheet."""
        return replace(line, told=told)

    def near(self, first: int, last: int) -> tuple[str, ...]:
        """The components that a stretch of the talk speaks of: those in it, else those in its sentence,
        else the ones named last before it."""
        inside = [m for m in self.mentions if m.keys and first <= m.first < last]
        low, high = self.clauses.sentence_of(first)
        around = [m for m in self.mentions if m.keys and low <= m.first < high]
        before = [m for m in self.mentions if m.keys and first - 40 <= m.first < first][-1:]
        best = inside or sorted(around, key=lambda m: abs(m.first - first))[:1] or before
        return best[0].keys if best else ()

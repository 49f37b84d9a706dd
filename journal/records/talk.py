"""A spoken talk: its words as one text, and when and by whom each stretch of them was said."""

from bisect import bisect_right
from fractions import Fraction

from msgspec import Struct


class Cue(Struct, frozen=True):
    """A stretch of the words, the characters from `start` up to `end` of the talk's text.

    `begins` and `ends` are seconds from the start of the recording, exact to the millisecond; absent
    where nobody can tell, as when a time stamp is broken. `voice` is who speaks, "" where it is not said.
    """

    start: int
    end: int
    begins: Fraction | None = None
    ends: Fraction | None = None
    voice: str = ""


class Talk(Struct, frozen=True):
    """What was said, from one file.

    `text` holds all words: of a talk in cues those of each cue, one blank between them and never a line
    end; of plain text the text as it is, with its lines. `cues` are in the order of the text and do not
    overlap there, whatever their times do; plain text has none. `source` is the name of the file.
    """

    text: str
    cues: tuple[Cue, ...] = ()
    source: str = ""

    def at(self, start: int) -> Fraction | None:
        """The second at which the cue begins that the character at `start` lies in, or the one before it
        where that is a blank between two; None where no time is known.

        It is the beginning of the cue, not a guess within it: whoever listens from there hears the words.
        """
        cue = self.cue(start)
        return None if cue is None else cue.begins

    def cue(self, start: int) -> Cue | None:
        """The cue that the character at `start` lies in, or that ends before it; None before the first."""
        if not 0 <= start < len(self.text):
            return None
        place = bisect_right(self.cues, start, key=lambda cue: cue.start)
        return self.cues[place - 1] if place else None

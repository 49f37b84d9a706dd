"""An act that a talk tells."""

from dataclasses import dataclass

from journal.hearing.moods import Mood
from journal.words.vocabulary import Act


@dataclass(frozen=True)
class Told:
    """An act that a talk tells: tokens `first` to before `last` are its words."""

    key: str
    act: Act
    mood: Mood
    first: int
    last: int

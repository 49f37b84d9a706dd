"""An act that a talk tells."""

from msgspec import Struct

from journal.hearing.moods import Mood
from journal.words.vocabulary import Act


class Told(Struct, frozen=True):
    """An act that a talk tells: tokens `first` to before `last` are its words."""

    key: str
    act: Act
    mood: Mood
    first: int
    last: int

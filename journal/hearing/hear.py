"""A talk becomes proposals for a day sheet, each beside the words it came from."""

from collections import Counter
from collections.abc import Iterable, Iterator
from datetime import date

from journal.hearing.english import is_english
from journal.hearing.goods import goods_lines
from journal.hearing.heard import Heard, Kind, Line
from journal.hearing.known import Known
from journal.hearing.listening import Listening
from journal.hearing.loose import loose_lines, snags_of
from journal.hearing.measured import measured_lines
from journal.hearing.moods import Mood
from journal.hearing.safety import safety_lines
from journal.hearing.sentences import narrative
from journal.hearing.spent import hours_lines
from journal.hearing.work import work_lines
from journal.records.carfile import CarFile
from journal.records.talk import Talk


def hear(
    talk: Talk, car: CarFile, day: date, known: Known, hand: str = "", subsystem: str = ""
) -> Heard:
    """The draft of a sheet: what a talk says was done that day, and what it is unsure of.

    Nothing is filled in that was not said. `car` is the car file as it stands; `hand` the initials of the
    one who speaks and `subsystem` what the talk is likely about, where they are known.
    """
    here = Listening(talk, car.as_of(day), known, day, hand, subsystem)
    text = narrative(talk, here.tokens)
    if not here.tokens or not is_english(here.tokens):
        return Heard("", (subsystem,) if subsystem else (), (), text, (), (_NOT_ENGLISH,))
    work = tuple(work_lines(here))
    goods = tuple(goods_lines(here))
    measured = tuple(measured_lines(here))
    loose = snags_of(_told_once(_merged(here, loose_lines(here, goods))))
    lines = [*work, *goods, *measured, *hours_lines(here), *loose, *safety_lines(here)]
    lines.sort(key=lambda line: (line.start, line.end, line.kind))
    keys = dict.fromkeys(
        key for mention in here.mentions for key in mention.keys if car.component(key) is not None
    )
    return Heard(_title(here), _branches(here), tuple(lines), text, tuple(keys))


_NOT_ENGLISH = (
    "nothing was heard in it that can be proposed: only English is understood; "
    "the talk is kept as the text"
)
# No longer than a title that is read at a glance.
_TITLE = 60
_MERGED = (Kind.SNAG, Kind.WAITING, Kind.NEXT)


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


def _told_once(lines: Iterable[Line]) -> Iterator[Line]:
    """What is a snag already is not told again, by most of its words, as something to do."""
    every = list(lines)
    snags = [line for line in every if line.kind is Kind.SNAG]
    for line in every:
        if line.kind is not Kind.NEXT or not any(_is_most_of(line, snag) for snag in snags):
            yield line


def _is_most_of(line: Line, other: Line) -> bool:
    shared = min(line.end, other.end) - max(line.start, other.start)
    return shared * 10 > 6 * (line.end - line.start)


def _branches(here: Listening) -> tuple[str, ...]:
    """The subsystems that work was done on, most first, else those spoken of."""
    done = Counter(told.key.split("/")[0] for told in here.acts if told.mood is Mood.DONE)
    spoken = Counter(key.split("/")[0] for mention in here.mentions for key in mention.keys)
    ranked = done or spoken
    return tuple(sorted(ranked, key=lambda branch: (-ranked[branch], branch)))[:4]


def _title(here: Listening) -> str:
    """What was done first, and to what: `Rear drums removed, brake linings inspected`."""
    told: dict[str, str] = {}
    for act in here.acts:
        if act.mood is Mood.DONE:
            told.setdefault(act.key, act.act.value)
    named = [(here.car.component(key), did) for key, did in told.items()][:2]
    words = [f"{component.label} {did}" for component, did in named if component is not None]
    return (
        ", ".join([words[0], *(word[0].lower() + word[1:] for word in words[1:])]) if words else ""
    )

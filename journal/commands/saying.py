"""What the options of a command say, as the front matter of a sheet."""

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from typing import Any

import click
from msgspec import Struct

from journal.commands.common import Refusal
from journal.reading.shapes import read_shape
from journal.reading.yamltext import Plain, read_yaml
from journal.records.place import Source
from journal.records.sheet import SheetFront
from journal.words.names import slug_of

_SET = "keys as in a sheet"


class Said(Struct, frozen=True):
    """What was said in options, each as it was written."""

    title: str | None = None
    note: str | None = None
    hours: tuple[str, ...] = ()
    did: tuple[str, ...] = ()
    now: tuple[str, ...] = ()
    work: tuple[str, ...] = ()
    part: tuple[str, ...] = ()
    measured: tuple[str, ...] = ()
    raise_: tuple[str, ...] = ()
    hold: bool = False
    clear: tuple[str, ...] = ()

    @property
    def enough(self) -> bool:
        """Whether something of the day is said, so that no editor is needed."""
        return bool(
            self.note or self.hours or self.did or self.now or self.work or self.part
            or self.measured or self.raise_ or self.clear
        )  # fmt: skip


Option = Callable[[Callable[..., None]], Callable[..., None]]


def _many(name: str, form: str, help: str, *also: str) -> Option:
    return click.option(name, *also, multiple=True, metavar=form, help=help)


SAYING: tuple[Option, ...] = (
    click.option("--title", metavar="TEXT", help="What the day is called."),
    click.option("--note", metavar="TEXT", help="The text of the sheet."),
    _many("--hours", "MT=3.5", "Hours of a hand; a number alone is of your own."),
    _many("--did", "COMPONENT=VERB,VERB", "What was done to a component."),
    _many("--now", "COMPONENT=ORIGIN", "Where the item in the place comes from."),
    _many("--work", "COMPONENT=KEYS", f"More about a component: {_SET}, such as found: pitted."),
    _many("--part", "NAME=KEYS", f"A part: {_SET}, such as received: today, outcome: accepted."),
    _many("--measured", "NAME=KEYS", f"A measurement: {_SET}, such as read: 0.22, unit: mm."),
    _many("--raise", "NAME=TEXT", "A snag; a text alone names itself.", "raise_"),
    click.option("--hold", is_flag=True, help="The snags raised stop the handover."),
    _many("--clear", "NAME=HOW", "A snag that is done; a name alone is cleared as done."),
)


def saying_options(command: Callable[..., None]) -> Callable[..., None]:
    """The options that say what a sheet says."""
    for option in reversed(SAYING):
        command = option(command)
    return command


def front_of(said: Said, base: Mapping[str, Any], day: date, hand: str) -> SheetFront:
    """The front matter that options say besides what stands in `base`.

    Raises Refusal for the first thing that no sheet could say.
    """
    data: dict[str, Any] = {"date": day.isoformat(), **base}
    if said.title:
        data["title"] = said.title
    if said.hours:
        data["hours"] = dict(_hours(word, hand) for word in said.hours)
    work: dict[str, dict[str, Plain]] = {}
    for name, value in pairs("--did", said.did):
        work.setdefault(name, {})["did"] = [verb.strip() for verb in value.split(",")]
    for name, value in pairs("--now", said.now):
        work.setdefault(name, {})["now"] = value
    for name, value in pairs("--work", said.work):
        work.setdefault(name, {}).update(keys_of("--work", value))
    snags: dict[str, dict[str, Plain]] = {}
    for word in said.raise_:
        name, text = _named(word)
        snags[name] = {"raise": text, **({"hold": "yes"} if said.hold else {})}
    for word in said.clear:
        name, _, how = word.partition("=")
        snags.setdefault(name.strip(), {})["clear"] = how.strip() or "done"
    parts = {name: keys_of("--part", v) for name, v in pairs("--part", said.part)}
    measured = {name: keys_of("--measured", v) for name, v in pairs("--measured", said.measured)}
    data |= {
        key: {**told}
        for key, told in {"work": work, "parts": parts, "measured": measured, "snags": snags}.items()
        if told
    }  # fmt: skip
    return read_front(data, day)


def read_front(data: dict[str, Any], day: date) -> SheetFront:
    """Front matter from plain data. Raises Refusal for the first thing that no sheet could say."""
    front, _, problems = read_shape(SheetFront, data, Source(""), today=day)
    for problem in problems:
        raise Refusal("; ".join(filter(None, (problem.message, problem.help))))
    assert front is not None
    return front


def _hours(word: str, hand: str) -> tuple[str, Plain]:
    name, equals, hours = word.rpartition("=")
    if not equals and not hand:
        raise Refusal(f"say whose hours these are: --hours MT={word}, or --hand MT")
    return name.strip() or hand, hours.strip()


def pairs(option: str, words: Iterable[str]) -> Iterable[tuple[str, str]]:
    """Names and what stands after their `=`. Raises Refusal for a word without both."""
    for word in words:
        name, equals, value = word.partition("=")
        if not equals or not name.strip() or not value.strip():
            raise Refusal(f'{option} "{word}" has no name and value; write {option} name=value')
        yield name.strip(), value.strip()


def keys_of(option: str, value: str) -> dict[str, Plain]:
    """Keys as they stand in a sheet, with or without their brackets."""
    text = value if value.startswith("{") else f"{{{value}}}"
    data, _, problems = read_yaml(text, option, (text,))
    for problem in problems:
        raise Refusal(f'{option} "{value}": {problem.message}')
    if not isinstance(data, dict):
        raise Refusal(f'{option} "{value}" says no keys; write key: value, key: value')
    return data


def _named(word: str) -> tuple[str, str]:
    name, equals, text = word.partition("=")
    if equals and name.strip() and text.strip():
        return name.strip(), text.strip()
    return "-".join(slug_of(word).split("-")[:4]), word.strip()

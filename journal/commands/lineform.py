"""A line of a draft as the options of `journal write` that would say it, to be changed as a line of text."""

import shlex
from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any

import click

from journal.commands.common import Refusal
from journal.commands.saying import SAYING, Said, front_of, keys_of, pairs, read_front
from journal.outputs.sheets.merging import Told, keyed, listed, whole
from journal.outputs.sheets.print import front_told
from journal.outputs.sheets.yamlform import Plain, flow
from journal.records.draft import SECTIONS

# Sections whose entries have an option of their own here: a name, and keys as in a sheet.
_WITH_KEYS = {
    "--outwork": "outwork", "--snag": "snags", "--proof": "proving", "--recheck": "rechecks",
}  # fmt: skip
_NOT_OF_A_LINE = ("title", "note")


def line_as_text(line: Mapping[str, Plain]) -> str:
    """What a line would put, as options: `--did brakes/drums=removed,cleaned --hours MT=2`."""
    return " ".join(f"{option} {shlex.quote(word)}" for option, word in _options(line))


def line_from_text(text: str, line: Mapping[str, Plain], day: date, hand: str) -> Told:
    """The line that options say, with the words, the time and the hours of another kind of the one that
    was there; what it asked is answered.

    Raises ClickException, in words for whoever wrote it, when they say nothing that a sheet could hold.
    """
    try:
        words = shlex.split(text)
    except ValueError:
        raise Refusal("a quote is opened and not closed") from None
    told = _told(_command().make_context("change", words).params, day, hand)
    hours = _with_otherwise(line, keyed(told.get("hours")))
    told |= {"hours": hours} if hours else {}
    if not told:
        raise Refusal("this says nothing that a sheet could hold")
    return {**{key: line[key] for key in ("words", "at") if key in line}, **told}


def _command() -> click.Command:
    """The options that a line may be told by."""
    command = click.Command("change", params=[], add_help_option=False)
    for option in SAYING:
        option(command)
    own = [option for option in command.params if option.name not in _NOT_OF_A_LINE]
    more = [
        click.Option([name, key], multiple=True, metavar="NAME=KEYS")
        for name, key in _WITH_KEYS.items()
    ]
    branch = click.Option(["--subsystem"], multiple=True, metavar="NAME")
    return click.Command("change", params=[*own, *more, branch], add_help_option=False)


def _told(params: dict[str, Any], day: date, hand: str) -> Told:
    """What options say, as the sections of a sheet."""
    branches = params.pop("subsystem")
    entries = {key: _entries(option, params.pop(key)) for option, key in _WITH_KEYS.items()}
    # A sheet has a subsystem; a line need not.
    base: Told = {"subsystem": branches or ["line"]}
    said = front_told(front_of(Said(**params), base, day, hand))
    more = front_told(read_front({"date": day.isoformat(), **base, **_filled(entries)}, day))
    told: Told = {key: {**keyed(more.get(key)), **keyed(said.get(key))} for key in SECTIONS[1:]}
    if branches:
        told["subsystem"] = said["subsystem"]
    return _filled(told)


def _filled(told: Mapping[str, Plain]) -> Told:
    return {key: value for key, value in told.items() if value}


def _entries(option: str, words: tuple[str, ...]) -> Told:
    entries: Told = {}
    for name, keys in pairs(option, words):
        entries[name] = keys_of(option, keys)
    return entries


# From a line to options


def _options(line: Mapping[str, Plain]) -> Iterator[tuple[str, str]]:
    yield from (("--subsystem", str(name)) for name in listed(line.get("subsystem")))
    yield from (("--hours", word) for word in _hours(line.get("hours")))
    for key, entry in keyed(line.get("work")).items():
        yield from _work(key, whole("work", entry))
    for option, kind in (("--part", "parts"), ("--outwork", "outwork"), ("--measured", "measured"),
                         ("--proof", "proving")):  # fmt: skip
        yield from _keys(option, kind, keyed(line.get(kind)))
    for name, entry in keyed(line.get("snags")).items():
        yield _snag(name, whole("snags", entry))
    yield from _keys("--recheck", "rechecks", keyed(line.get("rechecks")))


def _work(key: str, entry: Told) -> Iterator[tuple[str, str]]:
    did, now = listed(entry.pop("did", None)), entry.pop("now", None)
    if did:
        yield "--did", f"{key}={','.join(map(str, did))}"
    if now is not None:
        yield "--now", f"{key}={now}"
    if entry:
        yield "--work", f"{key}={_bare(entry)}"


def _keys(option: str, kind: str, entries: Told) -> Iterator[tuple[str, str]]:
    for name, entry in entries.items():
        yield option, f"{name}={_bare(whole(kind, entry))}"


def _snag(name: str, entry: Told) -> tuple[str, str]:
    if entry.keys() == {"raise"}:
        return "--raise", f"{name}={entry['raise']}"
    if entry.keys() == {"clear"}:
        return "--clear", f"{name}={entry['clear']}"
    return "--snag", f"{name}={_bare(entry)}"


def _bare(entry: Told) -> str:
    """Keys without the brackets around them."""
    return flow(entry)[1:-1]


def _hours(told: "Plain | None") -> Iterator[str]:
    """Hours of hands that are told by their number alone."""
    if isinstance(told, str):
        yield told
    by_hand = {} if "hours" in keyed(told) else keyed(told)
    yield from (f"{hand}={hours}" for hand, hours in by_hand.items() if isinstance(hours, str))


def _with_otherwise(line: Mapping[str, Plain], typed: Told) -> Plain:
    """Hours that are typed, beside those of the line that are told with their kind, or by subsystem: no
    option says these, and they stay."""
    before = keyed(line.get("hours"))
    if "hours" in before:
        return typed or before
    return {hand: told for hand, told in before.items() if not isinstance(told, str)} | typed

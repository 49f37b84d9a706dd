"""YAML to plain texts, lists and mappings, with the line of every value.

Built from the parser's events, so that every scalar stays the text that was written (`1:30`, `no`,
`1e3` and `0123` are texts), keys written twice are seen, and neither depth nor aliases can make a
small file grow.
"""

import re
from bisect import bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Any

import yaml
from yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    Event,
    MappingEndEvent,
    MappingStartEvent,
    NodeEvent,
    ScalarEvent,
    SequenceEndEvent,
)

from journal.reading.hidden import hidden_problem
from journal.records.place import Loc, Place, Source
from journal.records.problem import Problem, Severity
from journal.words.hidden import without_hidden
from journal.words.text import normal

# A sheet nests five deep at most; more is a slip of indentation, or meant to harm.
DEEPEST = 16
# Some 3,000 words; a name is read at a glance.
LONGEST_TEXT = 20_000
LONGEST_KEY = 200

_COLON = re.compile(r"\s*:")
_DECIMAL_COMMA = re.compile(r"-?[0-9]+,[0-9]+")

_NO_ALIAS = "anchors and aliases (& and *) are not used in a journal"
_WRITE_OUT = "write the value out, or put it in quotes"

Plain = str | list["Plain"] | dict[str, "Plain"]


@dataclass
class _Frame:
    """A mapping or list under construction; `key` is the mapping key that waits for its value.

    `line` is where it starts; `flow` marks one written in brackets; `key_end` is where in the
    text the key ends.
    """

    loc: Loc
    value: list[Plain] | dict[str, Plain]
    line: int
    flow: bool = False
    key: str | None = None
    key_line: int = 0
    key_end: int = 0
    twice: bool = False
    keys: dict[str, int] = field(default_factory=dict)


class _Refused(Exception):
    """Reading stops here: what stands at the line cannot be read on from."""

    def __init__(self, line: int, code: str, message: str, help: str) -> None:
        super().__init__(message)
        self.line, self.code, self.message, self.help = line, code, message, help


def read_yaml(
    text: str, path: str, lines: tuple[str, ...], first_line: int = 1
) -> tuple[Plain, Source, list[Problem]]:
    """Plain data, its source, and what is wrong with it.

    `first_line` is the line of the file on which `text` starts. A key without a value is left out
    of the data; its mark stays. On a fault of syntax the data is empty and the one problem says
    where, and the source has no marks.
    """
    builder = _Builder(text, path, lines, first_line)
    try:
        data = builder.build(yaml.parse(text, Loader=yaml.CBaseLoader))
    except _Refused as refused:
        builder.report(refused.line, refused.code, refused.message, refused.help)
    except yaml.MarkedYAMLError as fault:
        builder.report(*_syntax(fault, builder))
    except yaml.reader.ReaderError as fault:
        line = first_line + text.encode()[: fault.position].count(b"\n")
        builder.report(
            line, "bad-yaml", "a control character stands on the line", "write the line anew"
        )
    else:
        return data, Source(path, lines, builder.marks), builder.problems
    return {}, Source(path, lines), builder.problems


def is_lost(data: Plain, problems: Iterable[Problem]) -> bool:
    """Whether nothing is left of what was written: more problems would only be echoes."""
    return not data and any(problem.severity is Severity.ERROR for problem in problems)


class _Builder:
    """Builds plain data from parser events, one frame per open mapping or list."""

    def __init__(self, text: str, path: str, lines: tuple[str, ...], first_line: int) -> None:
        self.text, self.path, self.lines, self.first_line = text, path, lines, first_line
        self.breaks = [place for place, character in enumerate(text) if character == "\n"]
        self.marks: dict[Loc, int] = {(): first_line}
        self.problems: list[Problem] = []
        self.frames: list[_Frame] = []
        self.root: Plain = {}

    def report(self, line: int, code: str, message: str, help: str | None) -> None:
        self.problems.append(
            Problem(Place(self.path, line), code, message, quoted=self._quoted(line), help=help)
        )

    def build(self, events: Iterator[Event]) -> Plain:
        documents = 0
        for event in events:
            if isinstance(event, DocumentStartEvent):
                documents += 1
                if documents > 1:
                    raise _Refused(
                        self._line(event), "bad-yaml", "a second document starts here",
                        "take the line --- out",
                    )  # fmt: skip
            elif isinstance(event, NodeEvent):
                self._node(event)
            elif isinstance(event, MappingEndEvent | SequenceEndEvent):
                self.frames.pop()
        return self.root

    def line_of(self, mark: Any) -> int:
        """The line of the file. YAML ends lines at rarer characters too; a file and its editor do not."""
        return self.first_line + (bisect_right(self.breaks, mark.index - 1) if mark else 0)

    def _line(self, event: Event) -> int:
        return self.line_of(event.start_mark)

    def _node(self, event: NodeEvent) -> None:
        line = self._line(event)
        if isinstance(event, AliasEvent) or event.anchor is not None:
            raise _Refused(line, "yaml-alias", _NO_ALIAS, _WRITE_OUT)
        if getattr(event, "tag", None) is not None:
            raise _Refused(
                line, "yaml-tag", "tags (!) are not used in a journal", "put the value in quotes"
            )
        if isinstance(event, ScalarEvent):
            self._scalar(event, line)
            return
        value: list[Plain] | dict[str, Plain] = {} if isinstance(event, MappingStartEvent) else []
        loc = self._put(value, line)
        if len(self.frames) >= DEEPEST:
            raise _Refused(
                line, "too-deep", f"the data is nested more than {DEEPEST} deep",
                "check the indentation",
            )  # fmt: skip
        self.frames.append(_Frame(loc, value, line, bool(getattr(event, "flow_style", False))))

    def _scalar(self, event: ScalarEvent, line: int) -> None:
        frame = self.frames[-1] if self.frames else None
        text = self._text(event, line)
        if frame is None or isinstance(frame.value, list) or frame.key is not None:
            self._bound(text, line, LONGEST_TEXT, "a value")
            empty = text == "" and not event.style
            if empty and frame and frame.flow and not self._has_colon(frame):
                self._loose(frame)
            else:
                self._put(None if empty else text, line)
            return
        self._bound(text, line, LONGEST_KEY, "a key")
        if not text:
            raise _Refused(
                line, "bad-yaml", "a value stands here without a key",
                "write the key before the colon",
            )  # fmt: skip
        frame.key, frame.key_line = text, line
        frame.key_end = event.end_mark.index if event.end_mark else 0
        frame.twice = text in frame.keys
        if frame.twice:
            self._key_twice(text, line, frame.keys[text])
        frame.keys.setdefault(text, line)

    def _text(self, event: ScalarEvent, line: int) -> str:
        """The text of a scalar. Between double quotes anything can be written by its number."""
        if event.style != '"':
            return str(event.value)
        text, found = without_hidden(event.value)
        if found:
            # Its lines are not those of the file: a line end may be written by its number too.
            found = tuple(f._replace(line=1) for f in found)
            self.problems.append(
                hidden_problem(self.path, (self._quoted(line),), found, line),
            )
        return normal(text)

    def _bound(self, text: str, line: int, most: int, what: str) -> None:
        if len(text) > most:
            raise _Refused(
                line, "too-long", f"{what} has {len(text):,} characters, and at most {most:,} are read",
                "tell it in fewer words; a sheet's long text stands below its front matter",
            )  # fmt: skip

    def _key_twice(self, key: str, line: int, first: int) -> None:
        self.problems.append(
            Problem(
                Place(self.path, line), "key-twice", f'the key "{key}" stands here twice',
                quoted=self._quoted(line), help="keep one of the two; the first one is used",
                note="the first one is here", note_place=Place(self.path, first),
            )
        )  # fmt: skip

    def _quoted(self, line: int) -> str:
        return self.lines[line - 1] if 0 < line <= len(self.lines) else ""

    def _has_colon(self, frame: _Frame) -> bool:
        return frame.key is None or bool(_COLON.match(self.text, frame.key_end))

    def _loose(self, frame: _Frame) -> None:
        """Words in brackets that a comma cut off: YAML takes them for a key without a value."""
        key, frame.key = str(frame.key), None
        before = list(frame.value.items())[-1:] if isinstance(frame.value, dict) else []
        name, told = before[0] if before else ("", "")
        if isinstance(frame.value, dict) and _DECIMAL_COMMA.fullmatch(f"{told},{key}"):
            # The number is read as it was written, and refused where a number must stand.
            frame.value[name] = f"{told},{key}"
            return
        if ":" in key:
            way = "put a blank after the colon"
        elif name and isinstance(told, str):
            way = f"put all that belongs to {name}: in quotes, or write it as key: value"
        else:
            way = "write it as key: value"
        self.report(frame.key_line, "loose-words", f'"{key}" is no key with a value', way)

    def _put(self, value: Plain | None, line: int) -> Loc:
        """Hang a value where it belongs and mark its line; None leaves the key out."""
        if not self.frames:
            self.root = {} if value is None else value
            return ()
        frame = self.frames[-1]
        if isinstance(frame.value, list):
            loc = (*frame.loc, len(frame.value))
            frame.value.append("" if value is None else value)
            self.marks[loc] = line
            return loc
        if frame.key is None:
            raise _Refused(
                line,
                "bad-yaml",
                "a list or a mapping cannot be a key",
                "write a plain text as the key",
            )
        loc = (*frame.loc, frame.key)
        if not frame.twice:
            # A value that is itself a set of keys is best pointed at by its name.
            self.marks[loc] = line if isinstance(value, str) else frame.key_line
            if value is not None:
                frame.value[frame.key] = value
        else:
            loc = (*frame.loc, frame.key, -1)
        frame.key = None
        return loc


def _syntax(fault: yaml.MarkedYAMLError, builder: _Builder) -> tuple[int, str, str, str]:
    """A fault of YAML syntax in words, at its line, with the likely cause."""
    line = min(builder.line_of(fault.problem_mark or fault.context_mark), len(builder.lines))
    opened = builder.line_of(fault.context_mark or fault.problem_mark)
    written = builder.lines[line - 1]
    problem = str(fault.problem or "")
    if "\t" in written[: len(written) - len(written.lstrip())]:
        return line, "bad-yaml", "the line is indented with a tab", "indent with spaces"
    if "mapping values are not allowed" in problem:
        return (
            line, "bad-yaml", "a second colon on the line cannot be read",
            "put the whole text after the first colon in quotes",
        )  # fmt: skip
    if "could not find expected ':'" in problem or "expected <block end>" in problem:
        return (
            line, "bad-yaml", "the line does not fit in with the lines before it",
            "check the line above for a missing colon, quote or blank after the colon, and the indentation",
        )  # fmt: skip
    if "scanning an a" in str(fault.context or ""):
        return line, "yaml-alias", _NO_ALIAS, _WRITE_OUT
    if "while scanning a quoted scalar" in str(fault.context or ""):
        return opened, "bad-yaml", "a quote is opened here and never closed", "close the quote"
    if "flow" in str(fault.context or ""):
        opened = next((f.line for f in reversed(builder.frames) if f.flow), opened)
        return (
            opened, "bad-yaml", "a bracket is opened here and the list or set inside it cannot be read",
            "close it, and put texts with commas or brackets in quotes",
        )  # fmt: skip
    return line, "bad-yaml", "the line cannot be read", "put the text after the colon in quotes"

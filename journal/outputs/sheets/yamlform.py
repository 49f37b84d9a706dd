"""Records as they are written by hand: YAML in the house form, that reading gives back as the same record.

Every scalar is a text to the reader of the files, so that only the marks of YAML itself need quotes. What a
record holds by default is left out. A set of keys stands on one line where there is room for it.
"""

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from decimal import Decimal
from fractions import Fraction
from typing import TypeAlias

from pydantic import BaseModel

from journal.records.fields import Named
from journal.records.limit import Limit
from journal.records.recheck import Wanted
from journal.records.recording import Moment
from journal.records.sections import Proof
from journal.records.sheet import Correction, Photo
from journal.records.work import Decided, Locking, Was
from journal.words.amounts import Interval
from journal.words.hidden import without_hidden
from journal.words.moments import moment_text
from journal.words.stretch import Stretch, stretch_text
from journal.words.text import normal

Plain: TypeAlias = "str | Sequence[Plain] | Mapping[str, Plain]"

_WIDTH = 110
# Begins and ends so that no mark of YAML can be meant, and holds none that ends a value. A comma ends
# one between brackets alone.
_WITHIN = r"\w .;/()'\"!&£€$%+*=°–—-"
_BARE = re.compile(rf"[^\W_]([{_WITHIN}]*[\w.)\"!%°])?")
_BARE_IN_LINE = re.compile(rf"[^\W_]([,{_WITHIN}]*[\w.)\"!%°])?")
# What a set of one key may be shortened to, and what a list of one entry is written without.
_SHORT: dict[type[BaseModel], str] = {
    Correction: "sheet", Decided: "by", Moment: "file", Photo: "file", Proof: "found", Wanted: "says",
    Was: "origin",
}  # fmt: skip
_ALONE = (Correction, Locking)
# A set of sets that people read as one line, and a list that they read line by line.
_ON_ONE_LINE = ("hours:",)
_ON_LINES = ("photos:",)


def plain_of(record: BaseModel) -> dict[str, Plain]:
    """A record as texts, lists and sets of keys, without what it holds by default."""
    told: dict[str, Plain] = {}
    for name, field in type(record).model_fields.items():
        value = getattr(record, name)
        if not field.is_required() and value == field.get_default():
            continue
        told[field.alias or name] = value_of(value)
    return told


def value_of(value: object) -> Plain:
    """Anything that a record holds. A list of one plain value is that value alone."""
    if isinstance(value, Limit) and None not in (value.least, value.most):
        return [value_of(value.least), value_of(value.most)]
    if isinstance(value, BaseModel):
        return _shortened(type(value), plain_of(value))
    if isinstance(value, Named):
        return {well_formed(name): value_of(entry) for name, entry in value}
    if isinstance(value, Interval):
        return number(value.low) if value.certain else [number(value.low), number(value.high)]
    if isinstance(value, tuple):
        entries = [value_of(entry) for entry in value]
        alone = len(entries) == 1 and (isinstance(entries[0], str) or isinstance(value[0], _ALONE))
        return entries[0] if alone else entries
    return _written(value)


def _written(value: object) -> str:
    """One value as it is written."""
    if isinstance(value, Stretch):
        return stretch_text(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Decimal):
        return f"{value:f}"
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Fraction):
        return moment_text(value)
    return well_formed(value) if type(value) is str else str(value)


def well_formed(text: str) -> str:
    """A text as reading it from a file gives it: halves of characters, which no file can hold, and
    what nobody sees are taken out."""
    whole = text.encode("utf-8", "ignore").decode("utf-8")
    return normal(without_hidden(whole)[0])


def _shortened(shape: type[BaseModel], told: dict[str, Plain]) -> Plain:
    """A set of keys, or the one that may stand bare for it."""
    key = _SHORT.get(shape, "")
    return told[key] if told.keys() == {key} else told


def number(share: Fraction) -> str:
    """A share that was written as a decimal, as that decimal."""
    places = next(n for n in range(40) if 10**n % share.denominator == 0)
    digits = f"{share.numerator * 10**places // share.denominator:0{places + 1}d}"
    return f"{digits[:-places]}.{digits[-places:]}" if places else digits


def yaml_of(told: Mapping[str, Plain]) -> str:
    """A set of keys as the text of a file; empty for none."""
    return "".join(f"{line}\n" for line in lines_of(told, ""))


def lines_of(told: Mapping[str, Plain], indent: str) -> Iterator[str]:
    """A set of keys as lines that start with `indent`."""
    for key, value in told.items():
        yield from entry_lines(key, value, indent)


def entry_lines(key: str, value: Plain, indent: str) -> Iterator[str]:
    """One key with its value: on one line where it fits, else the value indented below it."""
    opening = f"{indent}{scalar(key)}:"
    if isinstance(value, str):
        yield f"{opening} {scalar(value)}"
    elif not value or _fits(opening, value, indent):
        yield f"{opening} {flow(value)}"
    elif isinstance(value, Mapping):
        yield opening
        yield from lines_of(value, f"{indent}  ")
    else:
        yield opening
        for entry in value:
            yield from item_lines(entry, f"{indent}  ")


def _fits(opening: str, value: Plain, indent: str) -> bool:
    """At the margin sets in a set or in a list stand on lines of their own, however short they are."""
    if opening in _ON_LINES:
        return False
    if not indent and opening not in _ON_ONE_LINE:
        inner = value.values() if isinstance(value, Mapping) else value
        least = (str,) if isinstance(value, Mapping) else (str, list)
        if not all(isinstance(entry, least) for entry in inner):
            return False
    return len(opening) + 1 + len(flow(value)) <= _WIDTH


def item_lines(value: Plain, indent: str) -> Iterator[str]:
    """One entry of a list; a set of keys that is too long for a line takes several."""
    line = f"{indent}- {scalar(value) if isinstance(value, str) else flow(value)}"
    if isinstance(value, Mapping) and value and len(line) > _WIDTH:
        first, *rest = lines_of(value, f"{indent}  ")
        yield f"{indent}- {first.lstrip(' ')}"
        yield from rest
    else:
        yield line


def flow(value: Plain) -> str:
    """A value as it stands between brackets."""
    if isinstance(value, str):
        return _quoted_unless(_BARE, value)
    if isinstance(value, Mapping):
        return f"{{{', '.join(f'{flow(k)}: {flow(v)}' for k, v in value.items())}}}"
    return f"[{', '.join(map(flow, value))}]"


def scalar(text: str) -> str:
    """A text as it stands on a line of its own or after its key there."""
    return _quoted_unless(_BARE_IN_LINE, text)


def _quoted_unless(bare: re.Pattern[str], text: str) -> str:
    """A text bare where nothing in it means something to YAML, else in double quotes."""
    return text if bare.fullmatch(text) else json.dumps(text, ensure_ascii=False)

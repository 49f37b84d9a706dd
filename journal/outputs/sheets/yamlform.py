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
from journal.words.amounts import Interval
from journal.words.stretch import Stretch, stretch_text

Plain: TypeAlias = "str | Sequence[Plain] | Mapping[str, Plain]"

_WIDTH = 100
# Begins and ends so that no mark of YAML can be meant, and holds none that ends a value.
_BARE = re.compile(r"[^\W_]([\w .;/()'%+*=°–—-]*[\w.)%°])?")


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
    if isinstance(value, BaseModel):
        return plain_of(value)
    if isinstance(value, Named):
        return {name: value_of(entry) for name, entry in value}
    if isinstance(value, Interval):
        return number(value.low) if value.certain else [number(value.low), number(value.high)]
    if isinstance(value, tuple):
        entries = [value_of(entry) for entry in value]
        return entries[0] if len(entries) == 1 and isinstance(entries[0], str) else entries
    if isinstance(value, Stretch):
        return stretch_text(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Decimal):
        return f"{value:f}"
    return value.isoformat() if isinstance(value, date) else str(value)


def number(share: Fraction) -> str:
    """A share that was written as a decimal, as that decimal."""
    places = next(n for n in range(40) if 10**n % share.denominator == 0)
    digits = f"{share.numerator * 10**places // share.denominator:0{places + 1}d}"
    return f"{digits[:-places]}.{digits[-places:]}" if places else digits


def yaml_of(told: Mapping[str, Plain]) -> str:
    """A set of keys as the text of a file; empty for none."""
    return "".join(f"{line}\n" for line in _lines(told, ""))


def _lines(told: Mapping[str, Plain], indent: str) -> Iterator[str]:
    for key, value in told.items():
        yield from _entry(f"{indent}{_scalar(key)}:", value, indent)


def _entry(opening: str, value: Plain, indent: str) -> Iterator[str]:
    """One key with its value: on one line where it fits, else indented below it."""
    line = f"{opening} {_flow(value)}"
    if isinstance(value, str) or not value or _fits(line, value, indent):
        yield line
    elif isinstance(value, Mapping):
        yield opening
        yield from _lines(value, f"{indent}  ")
    else:
        yield opening
        for entry in value:
            yield from _item(entry, f"{indent}  ")


def _fits(line: str, value: Plain, indent: str) -> bool:
    """At the margin a set of sets stands on lines of its own, however short it is."""
    deep = isinstance(value, Mapping) and any(not isinstance(v, str) for v in value.values())
    return len(line) <= _WIDTH and not (deep and not indent)


def _item(value: Plain, indent: str) -> Iterator[str]:
    line = f"{indent}- {_flow(value)}"
    if isinstance(value, Mapping) and value and len(line) > _WIDTH:
        first, *rest = _lines(value, f"{indent}  ")
        yield f"{indent}- {first.lstrip(' ')}"
        yield from rest
    else:
        yield line


def _flow(value: Plain) -> str:
    if isinstance(value, str):
        return _scalar(value)
    if isinstance(value, Mapping):
        return f"{{{', '.join(f'{_scalar(k)}: {_flow(v)}' for k, v in value.items())}}}"
    return f"[{', '.join(map(_flow, value))}]"


def _scalar(text: str) -> str:
    """A text bare where nothing in it means something to YAML, else in double quotes."""
    return text if _BARE.fullmatch(text) else json.dumps(text, ensure_ascii=False)

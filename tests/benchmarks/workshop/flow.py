"""Plain data as YAML on one line, the way sheets are written by hand."""

import json
import re
from collections.abc import Mapping
from datetime import date
from typing import Any

_PLAIN = re.compile(r"[A-Za-z0-9/][A-Za-z0-9 ./+-]*")


def flow(value: Any) -> str:
    """Mappings and lists in brackets, words in quotes where they need them."""
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{flow(k)}: {flow(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(flow, value)) + "]"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float | date):
        return str(value)
    plain = _PLAIN.fullmatch(value) and value == value.strip()
    return str(value) if plain else json.dumps(value, ensure_ascii=False)


def block(key: str, lines: Mapping[str, Any]) -> str:
    """A section of lines under a key; nothing when there are none."""
    if not lines:
        return ""
    return f"{key}:\n" + "".join(f"  {flow(name)}: {flow(line)}\n" for name, line in lines.items())

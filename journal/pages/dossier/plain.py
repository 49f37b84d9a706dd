"""Values of pages as plain data for a template: texts, whole numbers, lists and mappings by name."""

from collections.abc import Mapping
from typing import Any

from msgspec.structs import asdict

from journal.pages.links import Ref
from journal.pages.value import Value

# What a place within the document starts with, as against a page of the archive.
WITHIN = "#"


def plain(value: Any) -> Any:
    """Records as mappings by field, links as `{text, to}`.

    A link keeps where it leads when that is a place within the document; what leads to a page of the
    archive keeps its words alone. Raises TypeError for what no template could print.
    """
    if isinstance(value, Ref):
        inside = value.href is not None and value.href.startswith(WITHIN)
        return {"text": value.text, "to": value.href[1:] if inside and value.href else None}
    if value is None or isinstance(value, bool | int):
        return value
    if isinstance(value, str):
        return str(value)
    if isinstance(value, Mapping):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, Value):
        return {key: plain(item) for key, item in asdict(value).items()}
    if isinstance(value, list | tuple):
        return [plain(item) for item in value]
    raise TypeError(f"{type(value).__name__} is nothing that can be printed")

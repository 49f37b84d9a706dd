"""Sheets and whatever else may be written, drawn for property tests: plain data for any shape."""

from collections.abc import Mapping
from datetime import date
from fractions import Fraction
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from hypothesis import assume
from hypothesis import strategies as st
from pydantic import BaseModel, ValidationError

from journal.records.fields import Named, Slug, Written
from journal.words.amounts import Interval
from journal.words.hidden import without_hidden
from journal.words.stretch import Stretch
from journal.words.text import normal
from journal.words.units import ALL_UNITS

# Characters that a file may hold: reading takes the others out of it before anything is made.
texts = st.text(st.characters(exclude_categories=("Cs",)), min_size=1, max_size=30).map(
    lambda text: normal(without_hidden(text)[0]).strip()
)
slugs = st.from_regex(r"[a-z]{1,6}(-[a-z0-9]{1,4})?", fullmatch=True)
_SCALARS: dict[type, st.SearchStrategy[str]] = {
    date: st.dates(date(1950, 1, 1), date(2090, 1, 1)).map(date.isoformat),
    bool: st.sampled_from(["yes", "no"]),
    Fraction: st.sampled_from(["0:12", "0:12.5", "59:59", "1:02:05", "0:00.001"]),
    Stretch: st.sampled_from(
        ["500 miles", "800 km", "6 weeks", "1 year", "12000 miles or 1 month"]
    ),
}


def plain_for(  # noqa: C901 - one line for each kind of value
    shape: Any, name: str = ""
) -> st.SearchStrategy[Any]:
    """What may be written where a shape is read."""
    origin, inner = get_origin(shape), get_args(shape)
    if shape == Slug:
        return slugs
    if name == "hours" and origin is Named:
        return hours_plain
    if name in ("unit", "currency"):
        return st.sampled_from(list(ALL_UNITS) if name == "unit" else ["EUR", "GBP", "JPY"])
    if origin is Annotated:
        return plain_for(inner[0], name)
    if origin in (Union, UnionType):
        return plain_for(next(arg for arg in inner if arg is not type(None)), name)
    if origin is tuple:
        return st.lists(plain_for(inner[0], name), min_size=1, max_size=2)
    if origin is Named or (isinstance(shape, type) and issubclass(shape, Named)):
        entry = inner[0] if inner else str
        return st.dictionaries(slugs.filter(lambda s: s != "hours"), plain_for(entry), max_size=2)
    if isinstance(shape, type) and issubclass(shape, BaseModel):
        return keys_of(shape)
    if shape is Interval:
        return st.sampled_from(["0", "0.25", "1", ["0.1", "0.125"], "0.000000001"])
    if isinstance(shape, type) and hasattr(shape, "__members__"):
        return st.sampled_from([word.value for word in shape])
    if shape in _SCALARS:
        return _SCALARS[shape]
    if shape is str:
        return st.one_of(texts, slugs)
    return st.decimals(0, 24, places=3).map(lambda d: f"{d:f}")


hours_plain = st.one_of(
    st.sampled_from(["3.5", "0"]),
    st.dictionaries(st.sampled_from(["MT", "JB"]), st.sampled_from(["1", "2.25"]), min_size=1),
    st.fixed_dictionaries({"hours": st.just("4"), "kind": st.sampled_from(["rework", "goodwill"])}),
    st.just(
        {"MT": ["1", {"hours": "2", "kind": "rework", "because": "ring"}], "brakes": {"JB": "1"}}
    ),
    st.just({"brakes": {"JB": "1", "MT": [{"hours": "2", "note": "a: b"}]}}),
)


def keys_of(shape: type[BaseModel]) -> st.SearchStrategy[dict[str, Any]]:
    fields = shape.model_fields
    needed = {f.alias: plain_for(f.annotation, n) for n, f in fields.items() if f.is_required()}
    free = {f.alias: plain_for(f.annotation, n) for n, f in fields.items() if not f.is_required()}
    return st.fixed_dictionaries(needed, optional=free)  # type: ignore[arg-type]


def record_of(shape: type[Written], plain: Mapping[str, Any]) -> Any:
    try:
        return shape.model_validate(plain)
    except ValidationError:
        assume(False)

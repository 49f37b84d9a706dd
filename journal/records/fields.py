"""Field types: how a text that a person wrote becomes a typed value, and what is said when it cannot.

Every scalar arrives as the text that stands in the file, so nothing is guessed. Each type refuses
with a sentence of ours; `reading` turns the refusal into a `Problem` at its line.
"""

from collections.abc import Callable, Iterable, Iterator
from datetime import date
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from typing import Annotated, Any, Generic, TypeVar, get_args

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    GetCoreSchemaHandler,
    ValidationInfo,
    WithJsonSchema,
)
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from journal.words.amounts import Interval, parse_decimal
from journal.words.dates import OutOfTime, parse_date
from journal.words.money import KNOWN
from journal.words.names import is_slug, nearest, slug_of
from journal.words.text import listed, normal
from journal.words.units import ALL_UNITS

T = TypeVar("T")
E = TypeVar("E", bound=StrEnum)


def kebab(name: str) -> str:
    """Field names as they are written in files: `as_found` is written `as-found`."""
    return name.rstrip("_").replace("_", "-")


class Written(BaseModel):
    """Base of every written shape: frozen, keys in kebab case, unknown keys refused."""

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        alias_generator=kebab,
        arbitrary_types_allowed=True,
        defer_build=True,
    )


class Named(Generic[T]):
    """Entries under names, in the order written: an immutable mapping that hashes and pickles."""

    __slots__ = ("_by_name", "_entries")

    def __init__(self, entries: Iterable[tuple[str, T]] = ()) -> None:
        self._entries: tuple[tuple[str, T], ...] = tuple(entries)
        self._by_name: dict[str, T] | None = None

    def __iter__(self) -> Iterator[tuple[str, T]]:
        return iter(self._entries)

    def __len__(self) -> int:
        return len(self._entries)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Named) and self._entries == other._entries

    def __hash__(self) -> int:
        return hash(self._entries)

    def __repr__(self) -> str:
        return f"Named({self._entries!r})"

    def __contains__(self, name: object) -> bool:
        return name in self._index()

    def get(self, name: str) -> T | None:
        """The entry under `name`, or None."""
        return self._index().get(name)

    def _index(self) -> dict[str, T]:
        # Made when it is first asked for: most of these hold an entry or two and are only walked.
        if self._by_name is None:
            self._by_name = dict(reversed(self._entries))
        return self._by_name

    def names(self) -> tuple[str, ...]:
        """The names in the order written."""
        return tuple(key for key, _ in self._entries)

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        (entry,) = get_args(source)
        mapping = core_schema.dict_schema(core_schema.str_schema(), handler.generate_schema(entry))
        return core_schema.no_info_after_validator_function(lambda d: cls(d.items()), mapping)


def refuse(code: str, sentence: str, **values: str) -> PydanticCustomError:
    """A refusal: `sentence` continues after the field's name; `help` among `values` is the way out."""
    return PydanticCustomError(code, "{sentence}", {"sentence": sentence, **values})


def scalar(value: object, wanted: str, **values: str) -> str:
    """The text of a scalar, or a refusal when a list or a mapping stands there."""
    if isinstance(value, str):
        return normal(value).strip()
    kind = "a list" if isinstance(value, list | tuple) else "a set of keys"
    raise refuse("wrong-shape", f"must be {wanted}, found {kind}", **values)


def _text(value: object) -> str:
    return scalar(value, "text", help="put the whole text in quotes")


def _date(value: object) -> object:
    if isinstance(value, date):
        return value
    text = scalar(value, "a date")
    try:
        return parse_date(text)
    except OutOfTime as fault:
        raise refuse("out-of-range", f"must be a day {fault}, found {text}") from None
    except ValueError:
        raise refuse(
            "bad-date",
            f'must be a date, found "{text}"',
            help="write year-month-day, such as 2024-03-05",
        ) from None


def _date_or_today(value: object, info: ValidationInfo) -> object:
    if isinstance(value, str) and value.strip() == "today" and isinstance(info.context, date):
        return info.context
    return _date(value)


_ZERO, _ONE = Decimal(0), Decimal(1)


def _number(value: object, name: str, low: Decimal | None, high: Decimal | None) -> Decimal:
    if isinstance(value, Decimal):
        return value
    text = scalar(value, "a number")
    try:
        number = parse_decimal(text)
    except ValueError:
        raise refuse(
            "bad-number", f'must be a number with a decimal point, found "{text}"', **_dotted(text)
        ) from None
    if (low is not None and number < low) or (high is not None and number > high):
        raise refuse("out-of-range", f"must be {name}, found {text}")
    return number


def _dotted(text: str) -> dict[str, str]:
    """The way out for a number with one comma. Before three digits it may set thousands apart."""
    forms = [text.replace(",", with_) for with_ in (["", "."] if text[-4:-3] == "," else ["."])]
    if text.count(",") != 1 or not all(map(_reads, forms)):
        return {}
    return {"help": f"write {listed(forms, 'or')}"}


def _reads(text: str) -> bool:
    try:
        parse_decimal(text)
    except ValueError:
        return False
    return True


def number_between(
    name: str, low: str | None = None, high: str | None = None
) -> Callable[[object], object]:
    """A validator for a plain decimal within bounds; `name` says the bounds in words."""
    lower, upper = (None if bound is None else Decimal(bound) for bound in (low, high))
    return lambda value: _number(value, name, lower, upper)


def _share(value: object) -> object:
    """One share, `0.6`, or the two ends of what is known, `[0.5, 0.7]`."""
    if isinstance(value, Interval):
        return value
    ends = value if isinstance(value, list) else [value]
    if len(ends) not in (1, 2):
        raise refuse("wrong-shape", "must be one share or two, found a list of another length")
    low, *rest = (Fraction(_number(end, "between 0 and 1", _ZERO, _ONE)) for end in ends)
    high = rest[0] if rest else low
    if high < low:
        raise refuse("out-of-range", "must have its smaller share first")
    return Interval(low, high)


def _yes(value: object) -> object:
    if isinstance(value, bool):
        return value
    text = scalar(value, "yes or no")
    if text in ("yes", "true"):
        return True
    if text in ("no", "false"):
        return False
    way = {"y": "yes", "n": "no", "on": "yes", "off": "no"}.get(text.casefold(), text.casefold())
    way = way if way in ("yes", "no") else "yes or no"
    raise refuse("bad-word", f'must be yes or no, found "{text}"', help=f"write {way}")


def _slug(value: object) -> str:
    text = scalar(value, "a name")
    if not is_slug(text):
        slug = slug_of(text)
        values = {"help": f"write {slug}"} if slug else {}
        raise refuse(
            "bad-name", f'must be lower-case words joined by hyphens, found "{text}"', **values
        )
    return text


def one_of(vocabulary: type[E]) -> Callable[[object], object]:
    """A validator for a closed vocabulary that names the nearest word, or all of them."""
    known = {str(word.value): word for word in vocabulary}

    def read(value: object) -> object:
        if isinstance(value, vocabulary):
            return value
        text = scalar(value, "one word")
        if text in known:
            return known[text]
        meant = nearest(text, known)
        way = f"write {meant}" if meant else f"use one of {listed([*known], 'or')}"
        raise refuse("bad-word", f'cannot be "{text}"', help=way)

    return read


def _unit(value: object) -> str:
    text = scalar(value, "a unit")
    if text not in ALL_UNITS:
        meant = nearest(text, ALL_UNITS)
        way = f"write {meant}" if meant else f"use one of {listed(ALL_UNITS, 'or')}"
        raise refuse("bad-word", f'is not a unit known here: "{text}"', help=way)
    return text


def _currency(value: object) -> str:
    text = scalar(value, "a currency")
    if text not in KNOWN:
        raise refuse(
            "bad-word", f'is not a currency known here: "{text}"',
            help="write its three letters of ISO 4217, such as GBP, EUR or USD",
        )  # fmt: skip
    return text


def as_list(value: object) -> object:
    """Short form: one thing where a list may stand."""
    return value if isinstance(value, list | tuple) else [value]


def not_empty(value: tuple[T, ...]) -> tuple[T, ...]:
    """A list that must hold something."""
    if not value:
        raise refuse("wrong-shape", "must have at least one entry, found an empty list")
    return value


class ShortForm:
    """What `short_form` does; it tells its key to the JSON Schema."""

    def __init__(self, key: str) -> None:
        self.key = key

    def __call__(self, value: object) -> object:
        """The value under its key when it stands bare."""
        return {self.key: value} if isinstance(value, str | list) else value


def short_form(key: str) -> BeforeValidator:
    """Short form: a bare text (or list) where a set of keys may stand means its key `key`."""
    return BeforeValidator(ShortForm(key))


def vocabulary_schema(vocabulary: type[StrEnum]) -> WithJsonSchema:
    """The JSON Schema of a closed vocabulary."""
    return WithJsonSchema({"enum": [word.value for word in vocabulary]})


_NUMBER_SCHEMA = {"type": ["number", "string"]}

Text = Annotated[
    str, BeforeValidator(_text), WithJsonSchema({"type": ["string", "number", "boolean"]})
]
Slug = Annotated[
    str,
    BeforeValidator(_slug),
    WithJsonSchema({"type": "string", "pattern": "^[a-z0-9]+(-[a-z0-9]+)*$"}),
]
Day = Annotated[date, BeforeValidator(_date), WithJsonSchema({"type": "string", "format": "date"})]
DayOrToday = Annotated[
    date,
    BeforeValidator(_date_or_today),
    WithJsonSchema({"anyOf": [{"type": "string", "format": "date"}, {"const": "today"}]}),
]
Yes = Annotated[
    bool,
    BeforeValidator(_yes),
    WithJsonSchema({"enum": ["yes", "no", "true", "false", True, False]}),
]
Unit = Annotated[str, BeforeValidator(_unit), WithJsonSchema({"enum": list(ALL_UNITS)})]
Currency = Annotated[
    str, BeforeValidator(_currency), WithJsonSchema({"type": "string", "pattern": "^[A-Z]{3}$"})
]
Number = Annotated[
    Decimal, BeforeValidator(number_between("a number")), WithJsonSchema(_NUMBER_SCHEMA)
]
Hours = Annotated[
    Decimal,
    BeforeValidator(number_between("between 0 and 24 hours", "0", "24")),
    WithJsonSchema(_NUMBER_SCHEMA),
]
Amount = Annotated[
    Decimal, BeforeValidator(number_between("0 or more", "0")), WithJsonSchema(_NUMBER_SCHEMA)
]
Weight = Annotated[
    Decimal,
    BeforeValidator(number_between("between 0 and 100", "0", "100")),
    WithJsonSchema(_NUMBER_SCHEMA),
]
Count = Annotated[
    Decimal, BeforeValidator(number_between("0 or more", "0")), WithJsonSchema(_NUMBER_SCHEMA)
]
Share = Annotated[
    Interval,
    BeforeValidator(_share),
    WithJsonSchema(
        {
            "anyOf": [
                _NUMBER_SCHEMA,
                {"type": "array", "items": _NUMBER_SCHEMA, "maxItems": 2, "minItems": 1},
            ]
        }
    ),
]

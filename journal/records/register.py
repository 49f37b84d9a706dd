"""`register.yaml`: the components that the ledger answers for, with what the works fitted."""

from decimal import Decimal
from typing import Annotated

from msgspec import Struct
from pydantic import BeforeValidator

from journal.records.fields import (
    Named,
    Share,
    Slug,
    Text,
    Weight,
    Written,
    Yes,
    as_list,
    one_of,
    short_form,
    vocabulary_schema,
)
from journal.records.place import Source
from journal.words.amounts import WHOLE, Interval
from journal.words.names import title_of
from journal.words.vocabulary import Origin

OriginField = Annotated[Origin, BeforeValidator(one_of(Origin)), vocabulary_schema(Origin)]


class RegisterLine(Written):
    """A component as it is written in the register.

    `as_found` is the origin of what was there at booking in; `retained` the share of original
    material in it; `works` what the factory fitted to this very car and `paper` how we know;
    `weight` its share in the figures; `life` the years after which such a thing is too old to
    fit; `safety` marks it beyond its subsystem; `identity` marks a carrier of the car's numbers,
    whose pictures the public does not see.
    """

    name: Text | None = None
    as_found: OriginField = Origin.UNKNOWN
    retained: Share | None = None
    conforms: Share | None = None
    condition: Text | None = None
    works: Text | None = None
    paper: Annotated[tuple[Slug, ...], BeforeValidator(as_list)] = ()
    weight: Weight = Decimal(1)
    life: Weight | None = None
    safety: Yes = False
    identity: Yes = False


class RegisterFile(Written):
    """The register as written: components by subsystem and name."""

    components: Named[Named[Annotated[RegisterLine, short_form("as-found")]]]


class Component(Struct, frozen=True):
    """One line of the register under its full name `subsystem/name`.

    `retained` is the share of original material as found: as written, else whole.
    """

    key: str
    subsystem: str
    line: RegisterLine

    @property
    def slug(self) -> str:
        """The name within its subsystem."""
        return self.key.rsplit("/", 1)[-1]

    @property
    def label(self) -> str:
        """What the component is called on a page."""
        return self.line.name or title_of(self.slug)

    @property
    def retained(self) -> Interval:
        """The share of original material in what was found."""
        return self.line.retained or WHOLE


class Register(Struct, frozen=True):
    """The components of one car in the order written, with the source they came from."""

    source: Source
    components: tuple[Component, ...] = ()

    def get(self, key: str) -> Component | None:
        """The component under its full name, or None."""
        return next((c for c in self.components if c.key == key), None)

    def of(self, subsystem: str) -> tuple[Component, ...]:
        """The components of a subsystem."""
        return tuple(c for c in self.components if c.subsystem == subsystem)

"""`car.yaml`: one car: what it is, its numbers, its owner, what was agreed."""

from typing import Annotated

from pydantic import BeforeValidator

from journal.records.address import Addresses
from journal.records.fields import (
    Amount,
    Day,
    Named,
    Text,
    Written,
    Yes,
    one_of,
    short_form,
    vocabulary_schema,
)
from journal.words.vocabulary import Drive, OdometerUnit


class Owner(Written):
    """The owner of the car; the archive for the owner shows the name, no other archive does."""

    name: Text
    address: Text | None = None


class StampedNumber(Written):
    """A number that the works stamped on the car, as read at booking in.

    `on` is the component it is stamped on; `note` says how it was read. What the papers say of
    the same number stands with the papers.
    """

    found: Text | None = None
    on: Text | None = None
    note: Text | None = None


class Payment(Written):
    """Money received from the owner, in the workshop's currency."""

    on: Day
    amount: Amount
    what: Text | None = None


class Car(Written):
    """One car.

    `booked_in`, `target`, `delivered` are dates; `target` and `delivered` are absent until they
    are known. `estimate` holds hours by subsystem. `cover` is a photograph for the front page,
    by its path under `photos/`. `public` allows a public archive at all, `plate_shown`
    the registration plate in it; `prices_shown` lets the next keeper see what parts and outwork cost.
    `payments` are the owner's; `odometer` is the unit in which the
    odometer counts. `address` is where the archive will
    be reached: by reader, or the owner's alone.
    """

    name: Text
    year: Text
    body: Text
    marque: Text | None = None
    colour: Text | None = None
    engine: Text | None = None
    plate: Text | None = None
    plate_shown: Yes = False
    prices_shown: Yes = False
    drive: Annotated[Drive, BeforeValidator(one_of(Drive)), vocabulary_schema(Drive)] = Drive.RIGHT
    booked_in: Day
    target: Day | None = None
    delivered: Day | None = None
    mileage: Text | None = None
    brief: Text | None = None
    condition: Text | None = None
    owner: Annotated[Owner, short_form("name")]
    numbers: Named[Annotated[StampedNumber, short_form("found")]] = Named()
    estimate: Named[Amount] = Named()
    payments: tuple[Payment, ...] = ()
    odometer: Annotated[
        OdometerUnit, BeforeValidator(one_of(OdometerUnit)), vocabulary_schema(OdometerUnit)
    ] = OdometerUnit.MILE
    cover: Text | None = None
    public: Yes = False
    address: Annotated[Addresses, short_form("owner")] = Addresses()

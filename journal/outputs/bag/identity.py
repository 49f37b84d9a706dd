"""The lasting name of a car in files that machines read: the same for every reader and in every bag."""

from uuid import UUID, uuid5

from journal.records.carfile import CarFile

# Names are UUIDs of version 5 (RFC 9562) under this one, which stands for nothing else.
_NAMESPACE = UUID("5f0c2c1e-6a0b-4c39-9a54-0f3c0d7e61b2")


def car_urn(car: CarFile) -> str:
    """A URN (RFC 9562, section 4) made of the names of the workshop and of the car's folder."""
    return uuid5(_NAMESPACE, f"{car.workshop.name}\n{car.name}").urn

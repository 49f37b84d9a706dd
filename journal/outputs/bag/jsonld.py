"""The car in the terms of schema.org, as JSON-LD 1.1 whose context stands in it and needs no network.

schema.org, release 30.0: `Car` with the properties of `Vehicle`, `Product` and `Thing`. Only what the
reader sees is told, and nothing that is not known.
"""

import json
import re
from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any

from journal.ledgers.keepers.chain import Stint
from journal.ledgers.numbers import CHASSIS
from journal.outputs.bag.identity import car_urn
from journal.pages.view import CarView
from journal.words.vocabulary import Drive, OdometerUnit

_CONTEXT = {
    "@version": 1.1,
    "@vocab": "https://schema.org/",
    "steeringPosition": {"@type": "@vocab"},
    "typeOfGood": {"@type": "@id"},
}
# UN/ECE Recommendation 20: statute mile, kilometre; schema.org names these for the property.
_UNIT = {OdometerUnit.MILE: "SMI", OdometerUnit.KM: "KMT"}
_STEERING = {Drive.LEFT: "LeftHandDriving", Drive.RIGHT: "RightHandDriving"}
_YEAR = re.compile(r"\d{4}")


def vehicle_jsonld(view: CarView) -> str:
    """The car, and its keepers where the reader is told of them, as the text of a JSON-LD document."""
    graph = [dict(_car(view)), *_keepers(view)]
    return json.dumps({"@context": _CONTEXT, "@graph": graph}, indent=1, ensure_ascii=False) + "\n"


def _car(view: CarView) -> Iterator[tuple[str, Any]]:
    car = view.car.car
    yield "@id", car_urn(view.car)
    yield "@type", "Car"
    yield "name", car.name
    if car.marque:
        yield "brand", {"@type": "Brand", "name": car.marque}
    if _YEAR.fullmatch(car.year):
        yield "vehicleModelDate", car.year
    yield "bodyType", car.body
    if car.colour:
        yield "color", car.colour
    if car.engine:
        yield "vehicleEngine", {"@type": "EngineSpecification", "name": car.engine}
    yield "steeringPosition", _STEERING[car.drive]
    yield from _numbers(view)
    yield from _mileage(view)
    yield from _registered(view)
    if car.condition:
        yield "description", f"As booked in on {car.booked_in}: {car.condition}"
    damages = [snag.text for snag in view.snags.open if snag.text]
    if damages:
        yield "knownVehicleDamages", damages


def _numbers(view: CarView) -> Iterator[tuple[str, Any]]:
    """The chassis number, and every number by its name, each as it was read last."""
    read = {line.name: line.delivered or line.found for line in view.numbers.lines}
    told = {name: statement.value for name, statement in read.items() if statement}
    chassis = next((told[name] for name in CHASSIS if name in told), None)
    if chassis:
        yield "vehicleIdentificationNumber", chassis
    others = [
        {"@type": "PropertyValue", "propertyID": name, "value": value}
        for name, value in told.items()
    ]
    if others:
        yield "identifier", others


def _mileage(view: CarView) -> Iterator[tuple[str, Any]]:
    counts = [count for count in view.keepers.counts if count.day]
    if counts:
        unit = _UNIT[view.keepers.unit]
        value = {"@value": f"{counts[-1].value:f}", "@type": _XSD_DECIMAL}
        yield (
            "mileageFromOdometer",
            {"@type": "QuantitativeValue", "value": value, "unitCode": unit},
        )


_XSD_DECIMAL = "http://www.w3.org/2001/XMLSchema#decimal"


def _registered(view: CarView) -> Iterator[tuple[str, Any]]:
    days = [day for plate in view.keepers.plates for paper, day in plate.given if day and paper]
    if days:
        yield "dateVehicleFirstRegistered", min(days).isoformat()


def _keepers(view: CarView) -> Iterator[Mapping[str, Any]]:
    """Each keeper with the time for which they had the car."""
    for stint in view.keepers.stints:
        if stint.name:
            yield {"@type": "Person", "name": stint.name, "owns": dict(_owned(view, stint))}


def _owned(view: CarView, stint: Stint) -> Iterator[tuple[str, Any]]:
    yield "@type", "OwnershipInfo"
    yield "typeOfGood", car_urn(view.car)
    for name, day in (("ownedFrom", stint.from_), ("ownedThrough", stint.to)):
        if isinstance(day, date):
            yield name, day.isoformat()

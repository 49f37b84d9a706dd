"""The car in terms of schema.org: expanded by the library `pyld` without a network."""

import json
from pathlib import Path
from typing import Any

import pytest
from pyld import jsonld

from journal.outputs.bag.jsonld import vehicle_jsonld
from journal.words.vocabulary import Reader
from tests.outputs.test_bag_prov import view_in
from tests.published import CONTENT
from tests.tern import put_content, sheet_text

HOME = "https://schema.org/"
# The properties of each type, its own and inherited, as far as they could be of use here: from the pages of
# schema.org for Car, EngineSpecification, PropertyValue, QuantitativeValue and OwnershipInfo, and
# for Vehicle and Product from github.com/schemaorg/schemaorg, data/schema.ttl, after release 30.0.
PROPERTIES = {
    "Car": {
        # Thing
        "name", "description", "identifier",
        # Product
        "brand", "color", "productionDate", "purchaseDate", "itemCondition", "manufacturer",
        # Vehicle
        "bodyType", "dateVehicleFirstRegistered", "knownVehicleDamages", "mileageFromOdometer",
        "numberOfPreviousOwners", "steeringPosition", "vehicleConfiguration", "vehicleEngine",
        "vehicleIdentificationNumber", "vehicleModelDate",
    },
    "Brand": {"name"},
    "EngineSpecification": {"name"},
    "PropertyValue": {"propertyID", "value", "name"},
    "QuantitativeValue": {"value", "unitCode", "unitText"},
    "Person": {"name", "owns"},
    "OwnershipInfo": {"ownedFrom", "ownedThrough", "typeOfGood", "acquiredFrom"},
}  # fmt: skip


def no_loader(url: str, _options: object) -> Any:
    raise AssertionError(f"the network is asked for {url}")


def expanded(text: str) -> list[dict[str, Any]]:
    return jsonld.expand(json.loads(text), {"documentLoader": no_loader})


def nodes(value: Any) -> list[dict[str, Any]]:
    """Every node of an expanded document, however deep."""
    if isinstance(value, list):
        return [node for entry in value for node in nodes(entry)]
    if not isinstance(value, dict) or "@value" in value:
        return []
    here = [value] if "@type" in value else []
    return here + [n for key, entry in value.items() if key[0] != "@" for n in nodes(entry)]


@pytest.mark.parametrize("name", ["aldermoor-tern", "pellmarsh-lapwing"])
@pytest.mark.parametrize("reader", [Reader.OWNER, Reader.WORKSHOP])
def test_every_term__is_a_property_of_its_type(name: str, reader: Reader) -> None:
    found = nodes(expanded(vehicle_jsonld(view_in(CONTENT, reader, name))))
    assert found
    for node in found:
        (kind,) = node["@type"]
        assert kind.startswith(HOME)
        terms = {key for key in node if not key.startswith("@")}
        assert set() == terms - {f"{HOME}{term}" for term in PROPERTIES[kind.removeprefix(HOME)]}


def car_of(root: Path, reader: Reader = Reader.OWNER) -> dict[str, Any]:
    found = nodes(expanded(vehicle_jsonld(view_in(root, reader))))
    return next(node for node in found if node["@type"] == [f"{HOME}Car"])


def value(node: dict[str, Any], term: str) -> Any:
    (found,) = node[f"{HOME}{term}"]
    return found.get("@value", found.get("@id", found))


CAR = """\
name: Aldermoor Tern
marque: Aldermoor
year: 1958
body: drophead
colour: Tern Green
engine: four cylinders
drive: left
booked-in: 2024-03-01
mileage: 48,206
odometer: km
owner: Mrs Eleanor Harrow
numbers: {chassis: {found: TD 58/0417}}
"""


def test_car__is_told_in_the_terms_of_the_standard(tmp_path: Path) -> None:
    sheet = sheet_text("odometer: 48210\nsnags: {leak: {raise: weeps at the rear cover}}")
    root = put_content(
        tmp_path, **{"tern/car.yaml": CAR, "tern/sheets/2024/2024-03-05-a.md": sheet}
    )
    car = car_of(root)
    assert ("Aldermoor Tern", "1958", "drophead", "Tern Green", "TD 58/0417") == tuple(
        value(car, term)
        for term in ("name", "vehicleModelDate", "bodyType", "color", "vehicleIdentificationNumber")
    )
    # schema.org names these two as the values of SteeringPositionValue.
    assert f"{HOME}LeftHandDriving" == value(car, "steeringPosition")
    miles = value(car, "mileageFromOdometer")
    # UN/ECE Recommendation 20: KMT is the kilometre.
    assert ("48210", "KMT") == (value(miles, "value"), value(miles, "unitCode"))
    assert "weeps at the rear cover" == value(car, "knownVehicleDamages")


def test_what_is_not_known__is_left_out(tmp_path: Path) -> None:
    car = car_of(put_content(tmp_path))
    for term in (
        "vehicleIdentificationNumber",
        "mileageFromOdometer",
        "color",
        "knownVehicleDamages",
    ):
        assert f"{HOME}{term}" not in car


def test_year_that_is_none__is_no_date(tmp_path: Path) -> None:
    root = put_content(tmp_path, **{"tern/car.yaml": CAR.replace("1958", "about 1958")})
    assert f"{HOME}vehicleModelDate" not in car_of(root)


def test_keepers__are_told_to_those_who_see_them(tmp_path: Path) -> None:
    papers = """\
papers:
  book: {title: Registration book, keepers: [{name: Alderman Pym, from: 1958-05-01, to: 1970-02-03}]}
"""
    root = put_content(
        tmp_path, **{"tern/car.yaml": CAR + "public: yes\n", "tern/papers/papers.yaml": papers}
    )
    told = expanded(vehicle_jsonld(view_in(root)))
    keeper = next(n for n in nodes(told) if n.get(f"{HOME}name") == [{"@value": "Alderman Pym"}])
    owned = value(keeper, "owns")
    assert ("1958-05-01", "1970-02-03") == (value(owned, "ownedFrom"), value(owned, "ownedThrough"))
    assert car_of(root)["@id"] == value(owned, "typeOfGood")
    public = vehicle_jsonld(view_in(root, Reader.PUBLIC))
    assert "Pym" not in public
    assert "0417" not in public

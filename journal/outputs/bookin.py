"""A new car file: `car.yaml`, a register from the starter, a place for papers, sheets and photographs."""

import json
import shutil
from datetime import date
from importlib.resources import files
from pathlib import Path

from msgspec import Struct

from journal.outputs.refused import writing
from journal.outputs.sheets.disk import make_folders, put_new
from journal.outputs.staging import put
from journal.words.hidden import without_hidden
from journal.words.names import is_slug
from journal.words.wrong import WrongCall


class BookIn(Struct, frozen=True):
    """What is known when a car comes in. `folder` is the name of the car file."""

    folder: str
    name: str
    year: str
    body: str
    owner: str
    booked_in: date
    chassis: str | None = None
    mileage: str | None = None


class NewWorkshop(Struct, frozen=True):
    """What is asked once, for the first car: the workshop's name and its first hand."""

    name: str
    initials: str
    hand: str


def open_car_file(root: Path, car: BookIn, workshop: NewWorkshop | None) -> tuple[str, ...]:
    """Write the new car file and return the paths written, relative to the content folder.

    Nothing that is there is ever written over: raises WrongCall when the car's folder exists, and when
    the disk refuses it.
    """
    if not is_slug(car.folder):
        raise WrongCall(
            f'"{car.folder}" cannot be a folder name; write --folder with lower-case words joined by hyphens'
        )
    if (root / car.folder).exists():
        raise WrongCall(f'there is a "{car.folder}" already; give the new car another --folder')
    if workshop is None and not (root / "workshop.yaml").exists():
        raise WrongCall("the content folder has no workshop.yaml; say --workshop and --hand")
    with writing(f"the car file {car.folder}", lambda: "nothing of the car is there yet"):
        make_folders(root)
        shop = workshop and put_new(
            root / "workshop.yaml", _workshop_yaml(workshop).encode("utf-8")
        )
        return (*(["workshop.yaml"] if shop else []), *_put_car(root, car))


def _put_car(root: Path, car: BookIn) -> list[str]:
    staging = root / f".{car.folder}.staging"
    shutil.rmtree(staging, ignore_errors=True)
    made = {
        "car.yaml": _car_yaml(car),
        "register.yaml": starter_register(),
        "papers/papers.yaml": _PAPERS,
    }
    try:
        for path, text in made.items():
            put(staging, path, text.encode("utf-8"))
        for folder in ("sheets", "photos"):
            (staging / folder).mkdir(parents=True)
        staging.rename(root / car.folder)
    finally:
        shutil.rmtree(staging, ignore_errors=True)
    return [f"{car.folder}/{path}" for path in made]


def starter_register() -> str:
    """The register that ships with the package: the components of a typical classic, all unknown."""
    return files("journal.starter").joinpath("register.yaml").read_text(encoding="utf-8")


def quoted(text: str) -> str:
    """A text as a YAML string in quotes, without what nobody sees."""
    # A JSON string is a YAML string, and nothing in it can be taken for anything else, once the
    # few characters are gone that JSON leaves as they are and YAML forbids or breaks lines at.
    return json.dumps(without_hidden(text)[0], ensure_ascii=False)


def _workshop_yaml(workshop: NewWorkshop) -> str:
    return f"""\
# The workshop: hands by the initials that sheets use, suppliers by a short name.
name: {quoted(workshop.name)}
currency: GBP
hands:
  {quoted(workshop.initials)}: {{name: {quoted(workshop.hand)}}}
# suppliers:
#   northgate: {{name: Northgate Gears, does: gears and bearings}}
"""


def _car_yaml(car: BookIn) -> str:
    lines = [
        "# The car as it came in. Add what is learned of it; the day sheets tell the rest.",
        f"name: {quoted(car.name)}",
        f"year: {quoted(car.year)}",
        f"body: {quoted(car.body)}",
        f"booked-in: {car.booked_in.isoformat()}",
        f"owner: {{name: {quoted(car.owner)}}}",
        *([f"mileage: {quoted(car.mileage)}"] if car.mileage else []),
    ]
    if car.chassis:
        lines += [
            "numbers:",
            f"  chassis: {{found: {quoted(car.chassis)}, on: papers/chassis-plate}}",
        ]
    lines += [
        "# brief: what the owner asked for",
        "# condition: how it stood on the day it came in",
        "# target: 2026-06-30",
        "# estimate: {body: 300, brakes: 60}",
        "# public: yes    (the owner allows a public archive)",
        "# prices-shown: yes    (the owner lets the next keeper see what parts and outwork cost)",
        "# address: https://archive.example/tern/    (where the owner's archive will be reached)",
    ]
    return "\n".join(lines) + "\n"


_PAPERS = """\
# Papers of the car, each under a short name, for example:
# papers:
#   factory-record:
#     title: Copy of the factory record
#     date: 2023-10-02
#     says: Built in May 1958, engine and body as numbered.
#     numbers: {chassis: TD 58/0417}
papers: {}
"""

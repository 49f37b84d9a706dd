"""What pages are made from: one car as one reader may see it, with all its ledgers folded."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType

from journal.ledgers.gallery import Gallery, fold_gallery
from journal.ledgers.hours import Hours, fold_hours
from journal.ledgers.measured import Measurements, fold_measured
from journal.ledgers.numbers import Numbers, fold_numbers
from journal.ledgers.originality import Originality
from journal.ledgers.originality.fold import fold_originality
from journal.ledgers.outwork import Outwork, fold_outwork
from journal.ledgers.parts import Parts, fold_parts
from journal.ledgers.snags import Snags, fold_snags
from journal.pictures.published import Published
from journal.records.carfile import CarFile
from journal.records.problem import Problem
from journal.words.vocabulary import Reader


@dataclass(frozen=True)
class CarView:
    """One car for one reader.

    `car` holds only what the reader may see. `until` is the day the archive speaks of: the day
    asked for, else the day of the last sheet, else the day the car was booked in. `base` is the
    folder of the car within the archive, empty or ending in `/`. `pictures` maps the path of a
    photograph under `photos/` to what is published of it; `scans` the same for files under
    `papers/`. `problems` are shown to the workshop alone.
    """

    car: CarFile
    reader: Reader
    until: date
    base: str
    originality: Originality
    snags: Snags
    hours: Hours
    parts: Parts
    outwork: Outwork
    measured: Measurements
    gallery: Gallery
    numbers: Numbers
    pictures: Mapping[str, Published]
    scans: Mapping[str, Published]
    problems: tuple[Problem, ...] = ()


def view_of(
    car: CarFile,
    reader: Reader,
    *,
    base: str = "",
    as_of: date | None = None,
    pictures: Mapping[str, Published],
    scans: Mapping[str, Published] = MappingProxyType({}),
    problems: tuple[Problem, ...] = (),
) -> CarView:
    """Fold every ledger over a car file that already holds only what the reader may see."""
    if as_of is not None:
        car = car.as_of(as_of)
    last = car.sheets[-1].date if car.sheets else car.car.booked_in
    numbers = fold_numbers(car)
    originality = fold_originality(car, disputed=numbers.disputed_components, as_of=as_of)
    return CarView(
        car, reader, as_of or last, base, originality,
        fold_snags(car), fold_hours(car), fold_parts(car),
        fold_outwork(car), fold_measured(car), fold_gallery(car), numbers,
        pictures, scans, problems,
    )  # fmt: skip

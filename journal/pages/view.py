"""What pages are made from: one car as one reader may see it, with all its ledgers folded."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType

from journal.digests.forecast import Forecast, digest_forecast
from journal.digests.money import Money
from journal.digests.money.fold import money_of
from journal.digests.news import News, digest_news
from journal.digests.progress import Progress, digest_progress
from journal.digests.statement import Statements, digest_statement, known_until
from journal.digests.sums import Sums, digest_sums
from journal.digests.suppliers import Suppliers, digest_suppliers
from journal.digests.waiting import Waiting, digest_waiting
from journal.ledgers.completeness import Completeness, fold_completeness
from journal.ledgers.decisions import Decisions, fold_decisions
from journal.ledgers.gallery import Gallery, fold_gallery
from journal.ledgers.hours import Hours, fold_hours
from journal.ledgers.keepers import Keepers, fold_keepers
from journal.ledgers.measured import Measurements, fold_measured
from journal.ledgers.numbers import Numbers, fold_numbers
from journal.ledgers.originality import Originality
from journal.ledgers.originality.fold import fold_originality
from journal.ledgers.outwork import Outwork, fold_outwork
from journal.ledgers.parts import Parts, fold_parts
from journal.ledgers.proving import Proving, fold_proving
from journal.ledgers.rechecks import Rechecks, fold_rechecks
from journal.ledgers.seals import UNSEALED, Seals
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
    `papers/`. `problems` are shown to the workshop alone. `seals` are those made by then, with the
    files that the reader may be told of.
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
    sums: Sums
    gallery: Gallery
    numbers: Numbers
    keepers: Keepers
    decisions: Decisions
    proving: Proving
    completeness: Completeness
    rechecks: Rechecks
    progress: Progress
    forecast: Forecast
    waiting: Waiting
    news: News
    suppliers: Suppliers
    money: Money
    statements: Statements
    pictures: Mapping[str, Published]
    scans: Mapping[str, Published]
    problems: tuple[Problem, ...] = ()
    seals: Seals = UNSEALED


def view_of(
    car: CarFile,
    reader: Reader,
    *,
    base: str = "",
    as_of: date | None = None,
    pictures: Mapping[str, Published],
    scans: Mapping[str, Published] = MappingProxyType({}),
    problems: tuple[Problem, ...] = (),
    seals: Seals = UNSEALED,
    whole: bool = True,
) -> CarView:
    """Fold every ledger over a car file that holds only what the reader may see and what was known
    on the day `as_of`.

    Unless everything that was written for the car is `whole`, nothing is stated of its money
    beyond the statements that were issued.
    """
    day = as_of or (car.sheets[-1].date if car.sheets else car.car.booked_in)
    numbers = fold_numbers(car)
    originality = fold_originality(car, disputed=numbers.disputed_components, as_of=as_of)
    snags, hours, parts, outwork = (
        fold_snags(car), fold_hours(car), fold_parts(car), fold_outwork(car),
    )  # fmt: skip
    decisions, proving, keepers = fold_decisions(car), fold_proving(car), fold_keepers(car)
    progress = digest_progress(car, originality=originality, hours=hours, proving=proving, day=day)
    job, money = progress.whole, money_of(car)
    statements = digest_statement(car, lines=money.by_sheet(), until=known_until(car, day))
    return CarView(
        car=car,
        reader=reader,
        until=day,
        base=base,
        originality=originality,
        snags=snags,
        hours=hours,
        parts=parts,
        outwork=outwork,
        measured=fold_measured(car),
        sums=digest_sums(car),
        gallery=fold_gallery(car),
        numbers=numbers,
        keepers=keepers,
        decisions=decisions,
        proving=proving,
        completeness=fold_completeness(car),
        rechecks=fold_rechecks(car, exchanged=keepers.exchanged),
        progress=progress,
        forecast=digest_forecast(
            car, hours=hours, budget=job.budget, remaining=job.to_complete, day=day
        ),
        waiting=digest_waiting(
            car, parts=parts, outwork=outwork, decisions=decisions, snags=snags, day=day
        ),
        news=digest_news(
            car,
            parts=parts,
            outwork=outwork,
            hours=hours,
            originality=originality,
            snags=snags,
            day=day,
        ),
        suppliers=digest_suppliers(car, parts=parts, outwork=outwork, hours=hours),
        money=money,
        statements=statements if whole else statements.without_running(),
        pictures=pictures,
        scans=scans,
        problems=problems,
        seals=seals,
    )

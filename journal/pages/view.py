"""What pages are made from: one car as one reader may see it, with its ledgers."""

from collections.abc import Callable, Mapping
from datetime import date
from functools import cached_property
from types import MappingProxyType
from typing import Any, TypeVar

from msgspec import Struct
from msgspec.structs import replace

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
from journal.records.sheet import Sheet
from journal.words.groups import grouped_by_each
from journal.words.vocabulary import Reader

T = TypeVar("T")


class CarView(Struct, frozen=True, dict=True):
    """One car for one reader, each ledger folded when it is first asked for.

    `car` holds only what the reader may see and what was known by `as_of`. `base` is the folder of
    the car within the archive, empty or ending in `/`. `pictures` maps the path of a photograph
    under `photos/` to what is published of it; `scans` the same for files under `papers/`.
    `problems` are shown to the workshop alone. `seals` are those made by then, with the files that
    the reader may be told of. Unless everything that was written for the car is `whole`, nothing is
    stated of its money beyond the statements that were issued.
    """

    car: CarFile
    reader: Reader
    base: str
    as_of: date | None
    pictures: Mapping[str, Published]
    scans: Mapping[str, Published]
    problems: tuple[Problem, ...] = ()
    seals: Seals = UNSEALED
    whole: bool = True

    def telling(self, problems: tuple[Problem, ...]) -> "CarView":
        """The same view, with all that is folded already, that tells of these problems."""
        other = replace(self, problems=problems)
        other.__dict__.update(self.__dict__)
        return other

    def fold_ahead(self) -> None:
        """Fold what pages of many kinds ask for, before copies of this process make them: each of those
        would fold it for itself."""
        _ = self.statements, self.completeness

    def once(self, make: Callable[["CarView"], T]) -> T:
        """What a function makes of this view, made when it is first asked for.

        It is shared by views that are `telling` of other problems, so it must not be made of those.
        """
        if make not in self._made:
            self._made[make] = make(self)
        made: T = self._made[make]
        return made

    @cached_property
    def _made(self) -> dict[Callable[["CarView"], Any], Any]:
        return {}

    @cached_property
    def until(self) -> date:
        """The day the archive speaks of: the day asked for, else that of the last sheet, else the day
        the car was booked in."""
        car = self.car
        return self.as_of or (car.sheets[-1].date if car.sheets else car.car.booked_in)

    @cached_property
    def sheets(self) -> Mapping[str, Sheet]:
        """The day sheets by name."""
        return {sheet.name: sheet for sheet in self.car.sheets}

    @cached_property
    def corrections(self) -> Mapping[str, tuple[Sheet, ...]]:
        """The later sheets that correct each sheet, by its name."""
        return grouped_by_each(self.car.sheets, lambda s: (c.sheet for c in s.front.corrects))

    @cached_property
    def originality(self) -> Originality:
        """What is the car's own, and how anyone knows."""
        disputed = self.numbers.disputed_components
        return fold_originality(self.car, disputed=disputed, as_of=self.as_of)

    @cached_property
    def snags(self) -> Snags:
        """What is open, and what was."""
        return fold_snags(self.car)

    @cached_property
    def hours(self) -> Hours:
        """Every hour worked."""
        return fold_hours(self.car)

    @cached_property
    def parts(self) -> Parts:
        """What was ordered, and what came of it."""
        return fold_parts(self.car)

    @cached_property
    def outwork(self) -> Outwork:
        """What was sent away."""
        return fold_outwork(self.car)

    @cached_property
    def measured(self) -> Measurements:
        """Every reading."""
        return fold_measured(self.car)

    @cached_property
    def sums(self) -> Sums:
        """What was worked out at the bench."""
        return digest_sums(self.car)

    @cached_property
    def gallery(self) -> Gallery:
        """Every photograph told of."""
        return fold_gallery(self.car)

    @cached_property
    def numbers(self) -> Numbers:
        """The stamped numbers."""
        return fold_numbers(self.car)

    @cached_property
    def keepers(self) -> Keepers:
        """Who had the car, and its mileages."""
        return fold_keepers(self.car)

    @cached_property
    def decisions(self) -> Decisions:
        """What was asked, and who decided."""
        return fold_decisions(self.car)

    @cached_property
    def proving(self) -> Proving:
        """What must be recorded before the handover."""
        return fold_proving(self.car)

    @cached_property
    def completeness(self) -> Completeness:
        """What is missing of the record of safety-critical work."""
        return fold_completeness(self.car)

    @cached_property
    def rechecks(self) -> Rechecks:
        """What is to be looked at again on the road."""
        return fold_rechecks(self.car, exchanged=self.keepers.exchanged)

    @cached_property
    def progress(self) -> Progress:
        """Hours earned and spent."""
        return digest_progress(
            self.car, originality=self.originality, hours=self.hours, proving=self.proving,
            day=self.until,
        )  # fmt: skip

    @cached_property
    def forecast(self) -> Forecast:
        """When the work will be done."""
        job = self.progress.whole
        return digest_forecast(
            self.car, hours=self.hours, budget=job.budget, remaining=job.to_complete, day=self.until
        )

    @cached_property
    def waiting(self) -> Waiting:
        """What is waited for."""
        return digest_waiting(
            self.car, parts=self.parts, outwork=self.outwork, decisions=self.decisions,
            snags=self.snags, day=self.until,
        )  # fmt: skip

    @cached_property
    def news(self) -> News:
        """What happened lately."""
        return digest_news(
            self.car, parts=self.parts, outwork=self.outwork, hours=self.hours,
            originality=self.originality, snags=self.snags, day=self.until,
        )  # fmt: skip

    @cached_property
    def suppliers(self) -> Suppliers:
        """What each supplier got right."""
        return digest_suppliers(self.car, parts=self.parts, outwork=self.outwork, hours=self.hours)

    @cached_property
    def money(self) -> Money:
        """What every sheet comes to."""
        return money_of(self.car)

    @cached_property
    def statements(self) -> Statements:
        """What was stated to the owner, and what is not yet."""
        lines, until = self.money.by_sheet(), known_until(self.car, self.until)
        told = digest_statement(self.car, lines=lines, until=until)
        return told if self.whole else told.without_running()


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
    """A view of a car file that holds only what the reader may see and what was known on the day
    `as_of`."""
    return CarView(car, reader, base, as_of, pictures, scans, problems, seals, whole)

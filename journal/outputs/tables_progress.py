"""The table `progress`: one row a subsystem, with the finishing date below."""

from datetime import date
from fractions import Fraction

from journal.digests.forecast import LEAST_WEEKS, LEAST_WORKED, Forecast, Unsaid, digest_forecast
from journal.digests.progress import Progress, SubsystemProgress, digest_progress
from journal.ledgers.hours import fold_hours
from journal.ledgers.numbers import fold_numbers
from journal.ledgers.originality.fold import fold_originality
from journal.ledgers.proving import fold_proving
from journal.outputs.table import Cell, Table
from journal.records.carfile import CarFile
from journal.words.amounts import plain_number


def table_progress(car: CarFile, day: date) -> Table:
    """Agreed, planned, earned and spent hours, the share done, and what is reckoned from them."""
    hours = fold_hours(car)
    originality = fold_originality(car, disputed=fold_numbers(car).disputed_components)
    told = digest_progress(
        car, originality=originality, hours=hours, proving=fold_proving(car), day=day
    )
    whole = told.whole
    forecast = digest_forecast(
        car, hours=hours, budget=whole.budget, remaining=whole.to_complete, day=day
    )
    columns = (
        "subsystem", "components", "share done", "agreed", "of them extras", "planned", "earned",
        "spent", "cost variance", "schedule variance", "cpi", "spi", "at completion", "to complete",
        "variance at completion", "to complete index",
    )  # fmt: skip
    return Table(columns, tuple(map(_row, told.subsystems)), f"{_sums(told)} {_date(forecast)}")


def _row(told: SubsystemProgress) -> tuple[Cell, ...]:
    hours = told.hours
    return (
        told.name, len(told.components), told.share, hours.budget, told.agreed, hours.planned,
        hours.earned, hours.spent, hours.cost_variance, hours.schedule_variance, hours.cpi,
        hours.spi, hours.at_completion, hours.to_complete, hours.variance_at_completion,
        hours.to_complete_index,
    )  # fmt: skip


def _sums(told: Progress) -> str:
    whole = told.whole
    planned = f"{_number(whole.planned)} planned, " if whole.planned is not None else ""
    said = (
        f"{_number(whole.budget)} hours agreed, {planned}{_number(whole.earned)} earned, "
        f"{_number(whole.spent)} spent on {told.day.isoformat()}."
    )
    if whole.at_completion is None:
        return said
    return f"{said} The whole comes to {_number(whole.at_completion)} at its own pace."


def _number(hours: Fraction | None) -> str:
    return "" if hours is None else plain_number(hours)


def _date(told: Forecast) -> str:
    if told.unsaid is Unsaid.SHORT_HISTORY:
        return (
            f"No finishing date: {len(told.weeks)} whole weeks lie behind, {told.worked} with work; "
            f"{LEAST_WEEKS} and {LEAST_WORKED} are wanted."
        )
    if told.unsaid is not None or told.early is None or told.middle is None:
        return f"No finishing date: {told.unsaid.value if told.unsaid else ''}."
    late = told.late.isoformat() if told.late else "more than ten years on"
    return (
        f"Finished between {told.early.isoformat()} and {late} eight times in ten, half of them "
        f"by {told.middle.isoformat()}."
    )

"""The finishing date in words: what is said, how it was reckoned, or why nothing is said."""

from journal.digests.forecast import (
    HORIZON_WEEKS,
    LEAST_WEEKS,
    LEAST_WORKED,
    RUNS,
    Forecast,
    Unsaid,
)
from journal.pages.view import CarView
from journal.pages.words import day_words, in_words, some
from journal.words.amounts import plain_number


def forecast_sentences(view: CarView) -> tuple[str, ...]:
    """When the car may be finished, and when it is wanted."""
    told = view.forecast
    delivered, target = view.car.car.delivered, view.car.car.target
    if told.unsaid is Unsaid.DELIVERED and delivered is not None:
        wanted = f" It was wanted by {day_words(target)}." if target else ""
        return (f"The car was handed over on {day_words(delivered)}.{wanted}",)
    said = _said(told)
    return (*said, f"It is wanted by {day_words(target)}.") if target else said


def _said(told: Forecast) -> tuple[str, ...]:
    if told.unsaid is Unsaid.SHORT_HISTORY:
        return (
            f"No finishing date is given: {_history(told)}. "
            f"It takes {in_words(LEAST_WEEKS)} whole weeks, {in_words(LEAST_WORKED)} of them with work, "
            "before the past says anything of what is to come.",
        )  # fmt: skip
    if told.unsaid is not None or told.early is None or told.middle is None:
        return (f"No finishing date is given: {told.unsaid.value if told.unsaid else ''}.",)
    half = f"half of the runs were done by {day_words(told.middle)}"
    if told.late is None:
        years = HORIZON_WEEKS // 52
        return (
            f"Finished not before {day_words(told.early)}; {half}, but more than one in ten not "
            f"within {in_words(years)} years.",
        )
    return (
        f"Finished between {day_words(told.early)} and {day_words(told.late)}, eight times in ten; "
        f"{half}.",
    )


def _history(told: Forecast) -> str:
    weeks = (
        f"{some(len(told.weeks), 'whole week')} {'lies' if len(told.weeks) == 1 else 'lie'} behind"
    )
    if not told.weeks:
        return weeks
    return f"{weeks}, {_worked(told)} of them with work on this car"


def _worked(told: Forecast) -> str:
    return "all" if told.worked == len(told.weeks) else in_words(told.worked)


def forecast_method(view: CarView) -> str:
    """How the dates were reckoned, in a sentence or three; empty when none are given."""
    told = view.forecast
    if told.unsaid is not None or told.remaining is None:
        return ""
    return (
        f"Going on as so far, {plain_number(told.remaining, 0)} hours are still to come. They are worked "
        f"off week by week at the pace of a past week drawn by lot from the last {len(told.weeks)}, "
        f"{_worked(told)} of them with work on this car, on the workshop’s working days and not on its "
        f"holidays; that was done {RUNS:,} times over with the same lots every time. "
        "The dates know nothing of parts that do not come."
    )

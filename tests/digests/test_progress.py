"""Progress: the steps of a component, and hours planned, earned and spent."""

from datetime import date
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.digests.progress import Progress, digest_progress
from journal.digests.progress.earned import Earned, elapsed
from journal.digests.progress.steps import PATHS, STEPS, ComponentProgress, Step
from journal.ledgers.hours import fold_hours
from journal.ledgers.originality.fold import fold_originality
from journal.ledgers.proving import fold_proving
from journal.records.sheet import Sheet
from journal.words.vocabulary import Act
from tests.writing import a_car, a_sheet

REGISTER = {
    "gearbox/laygear": "first-fit",
    "brakes/pipes": "first-fit",
    "body/door": "first-fit",
    "brightwork/bumper": "absent",
}


def progress(
    *sheets: Sheet, day: str = "2024-12-31", register: dict[str, Any] | None = None, **car: Any
) -> Progress:
    file = a_car(register or REGISTER, sheets, **car)
    return digest_progress(
        file, originality=fold_originality(file), hours=fold_hours(file),
        proving=fold_proving(file), day=date.fromisoformat(day),
    )  # fmt: skip


def component(key: str, *lines: Any, **car: Any) -> ComponentProgress:
    sheets = [a_sheet(f"2024-01-{n:02d}", work={key: line}) for n, line in enumerate(lines, 1)]
    found = progress(*sheets, **car).component(key)
    assert found is not None
    return found


def done(told: ComponentProgress) -> list[Step]:
    return [step for step in told.steps if step in told.done]


# Earned value, against published worked examples.


def test_earned__the_fence() -> None:
    # Four sides at 1,000, the end of day 3 (studylib.net/doc/5898152). Printed there: EAC 4,479 and
    # VAC -479, since it goes on from a CPI rounded to .893.
    fence = Earned(Fraction(4000), Fraction(3000), Fraction(2500), Fraction(2800))
    assert (-300, -500) == (fence.cost_variance, fence.schedule_variance)
    assert (Fraction(25, 28), Fraction(5, 6)) == (fence.cpi, fence.spi)
    assert round(float(fence.cpi or 0), 6) == 0.892857
    assert (4480, 1680, -480) == (
        fence.at_completion, fence.to_complete, fence.variance_at_completion,
    )  # fmt: skip
    assert Fraction(5, 4) == fence.to_complete_index


def test_earned__the_task_of_eight_hours() -> None:
    # 8 h at 100, 11 h spent, 1 h to go (tutorialspoint.com, earn_value_management). Printed there,
    # cut short: EV 734, SPI 0.91, CPI 0.66.
    task = Earned(Fraction(800), Fraction(800), Fraction(800 * 11, 12), Fraction(1100))
    assert 733.33 == round(float(task.earned), 2)
    assert (0.9167, 0.6667) == (round(float(task.spi or 0), 4), round(float(task.cpi or 0), 4))
    assert (1200, -400) == (task.at_completion, task.variance_at_completion)


def test_earned__the_task_of_a_hundred_hours() -> None:
    # 100 h at 100, 110 h spent, 10 h to go (simplilearn.com, rar84).
    task = Earned(Fraction(10000), Fraction(10000), Fraction(10000 * 110, 120), Fraction(11000))
    assert (9166.67, -1833.33) == (
        round(float(task.earned), 2), round(float(task.cost_variance), 2),
    )  # fmt: skip
    assert (0.9167, 0.8333) == (round(float(task.spi or 0), 4), round(float(task.cpi or 0), 4))
    assert (12000, -2000) == (task.at_completion, task.variance_at_completion)


def test_earned__before_anything_is_spent_or_planned_says_nothing_of_pace() -> None:
    none = Earned(Fraction(8), Fraction(0), Fraction(0), Fraction(0))
    assert (None, None, None, None) == (none.cpi, none.spi, none.at_completion, none.to_complete)
    assert None is Earned(Fraction(8), None, Fraction(4), Fraction(5)).schedule_variance


amounts = st.fractions(min_value=Fraction(1, 4), max_value=900, max_denominator=20)


@given(amounts, amounts, amounts)
def test_earned__variances_agree_with_one_another(
    budget: Fraction, earned: Fraction, spent: Fraction
) -> None:
    hours = Earned(budget, None, earned, spent)
    assert hours.at_completion is not None
    assert hours.to_complete is not None
    assert budget == hours.at_completion + (hours.variance_at_completion or 0)
    assert hours.at_completion == spent + hours.to_complete
    # What is to come is what is not earned, at the pace so far.
    assert hours.to_complete == (budget - earned) / (earned / spent)


# The steps of a component.


def test_component__goes_step_by_step_from_the_car_and_back() -> None:
    lines = (
        "removed",
        {"did": "inspected", "found": "second-gear teeth pitted", "verdict": "repair"},
        "machined",
        "fitted",
    )
    reached = [done(component("gearbox/laygear", *lines[:n]))[-1:] for n in range(5)]
    # What lies on the bench is taken as looked at: nobody takes a thing off unseen.
    assert [[], [Step.ASSESS], [Step.ASSESS], [Step.REPAIR], [Step.FIT]] == reached
    assert None is component("gearbox/laygear", *lines).next


def test_component__nobody_has_touched_has_all_its_steps_to_go() -> None:
    told = component("gearbox/laygear")
    assert ("not touched yet", [], Fraction(0), Step.STRIP) == (
        told.path, done(told), told.share, told.next,
    )  # fmt: skip


def test_component__looked_at_and_found_good_is_left_alone() -> None:
    told = component("gearbox/laygear", {"did": "inspected", "verdict": "reuse"})
    assert ("left alone", (Step.ASSESS,), Fraction(1)) == (told.path, told.steps, told.share)


def test_component__repaired_where_it_is_never_had_to_come_off() -> None:
    told = component("gearbox/laygear", ["cleaned", "repaired"])
    assert ("worked on in place", (Step.ASSESS, Step.REPAIR), None) == (
        told.path, told.steps, told.next,
    )  # fmt: skip


def test_component__that_was_only_cleaned_is_not_repaired() -> None:
    assert Step.REPAIR is component("gearbox/laygear", "removed", "cleaned").next


def test_component__that_was_missing_has_nothing_to_strip() -> None:
    told = component("brightwork/bumper")
    assert ("to be found", (Step.REPAIR, Step.TRIAL, Step.FIT)) == (told.path, told.steps)
    found = component("brightwork/bumper", {"now": "period-used", "did": "stored"})
    assert ([Step.REPAIR], Step.TRIAL) == (done(found), found.next)


def test_component__replaced_is_repaired_and_not_yet_fitted() -> None:
    told = component("gearbox/laygear", {"did": "removed", "now": "pattern", "why": "pitted"})
    assert ([Step.STRIP, Step.ASSESS, Step.REPAIR], Step.FIT) == (done(told), told.next)
    # Told without an act, the other item is in its place.
    assert None is component("gearbox/laygear", {"now": "pattern", "why": "pitted"}).next


def test_component__taken_off_again_is_not_fitted_any_more() -> None:
    told = component("brakes/pipes", ["removed", "repaired", "fitted", "proved"], "removed")
    assert ([Step.STRIP, Step.ASSESS, Step.REPAIR], Step.FIT) == (done(told), told.next)


def test_component__with_a_later_verdict_wants_repair_again() -> None:
    lines = (["removed", "repaired"], {"did": "inspected", "verdict": "repair"})
    assert Step.REPAIR is component("gearbox/laygear", *lines).next
    assert Step.FIT is component("gearbox/laygear", *lines, "rebuilt").next


def test_component__out_for_work_is_not_repaired_yet() -> None:
    off = a_sheet("2024-01-01", work={"gearbox/laygear": ["removed", "repaired"]})
    out = a_sheet("2024-01-02", outwork={"lot": {"sent": "1", "of": "gearbox/laygear"}})
    told = progress(off, out).component("gearbox/laygear")
    assert told is not None
    assert ([Step.STRIP, Step.ASSESS], Step.REPAIR) == (done(told), told.next)


def test_stand_in__does_not_count_as_fitted() -> None:
    line = {"did": ["removed", "repaired", "fitted"], "stand-in": "shelf item"}
    told = component("gearbox/laygear", line)
    assert Step.FIT is told.next


def test_proving__is_asked_where_a_failure_can_hurt_someone() -> None:
    marked = {"trim/belts": {"as-found": "first-fit", "safety": "yes"}, "trim/seat": "first-fit"}
    assert Step.PROVE in component("brakes/pipes").steps
    assert Step.PROVE not in component("gearbox/laygear").steps
    assert Step.PROVE in component("trim/belts", register=marked).steps
    assert Step.PROVE not in component("trim/seat", register=marked).steps
    assert Step.PROVE is component("brakes/pipes", ["removed", "repaired", "fitted"]).next
    assert None is component("brakes/pipes", ["removed", "repaired", "fitted", "proved"]).next


def test_trial_fit__is_asked_of_panels_and_of_whatever_was_tried() -> None:
    assert Step.TRIAL in component("body/door").steps
    assert Step.TRIAL not in component("gearbox/laygear", "removed").steps
    assert Step.TRIAL in done(component("gearbox/laygear", "removed", "trial-fitted"))


def test_delivered_car__asks_nothing_of_what_was_never_touched() -> None:
    told = component("gearbox/laygear", delivered="2024-06-01")
    assert ("not part of the job", None, None) == (told.path, told.share, told.next)
    # What was found in need of repair and left so is not done because the car has gone.
    found = {"did": "inspected", "verdict": "repair"}
    assert Step.STRIP is component("gearbox/laygear", found, delivered="2024-06-01").next


@given(st.lists(st.lists(st.sampled_from(Act), min_size=1, max_size=3), max_size=5))
def test_component__share_is_a_share_whatever_was_written(acts: list[list[Act]]) -> None:
    for key in REGISTER:
        told = component(key, *({"did": list(a)} for a in acts))
        assert told.path in PATHS
        assert 0 <= (told.share or 0) <= 1
        assert (told.share == 1) is (told.next is None)
        assert set(told.steps) <= set(STEPS)


# Hours.


def test_subsystem__earns_its_estimate_in_the_share_of_its_steps() -> None:
    # A gearbox of two components; no trial fit, no proving: strip 2, assess 1, repair 4, fit 2.
    # The casing, weight 3, is off and repaired: 7 of 9 parts. The laygear, weight 1, is off: 3 of 9.
    # (3 x 7/9 + 1 x 3/9) / 4 = 24/36 = 2/3; of 24 hours that is 16.
    register = {"gearbox/casing": {"as-found": "first-fit", "weight": "3"},
                "gearbox/laygear": "first-fit"}  # fmt: skip
    sheet = a_sheet(
        "2024-01-01", subsystem="gearbox", hours={"MT": "20"},
        work={"gearbox/casing": ["removed", "repaired"], "gearbox/laygear": "removed"},
    )  # fmt: skip
    (box,) = progress(sheet, register=register, estimate={"gearbox": "24"}).subsystems
    assert Fraction(2, 3) == box.share
    assert (16, 20, Fraction(4, 5), 30) == (
        box.hours.earned, box.hours.spent, box.hours.cpi, box.hours.at_completion,
    )  # fmt: skip


def test_planned__grows_evenly_from_booking_in_to_the_target() -> None:
    # Booked in on 11 September 2023, wanted 100 days later; a quarter of the way 6 of 24 hours.
    car: dict[str, Any] = {"estimate": {"gearbox": "24"}, "target": "2023-12-20"}
    planned = [
        progress(day=day, **car).whole.planned
        for day in ("2023-09-11", "2023-10-06", "2023-12-20", "2024-05-01")
    ]
    assert [0, 6, 24, 24] == planned
    assert None is progress(estimate={"gearbox": "24"}).whole.planned


def test_elapsed__of_a_target_before_the_start_is_all() -> None:
    assert 1 == elapsed(date(2024, 2, 1), date(2024, 1, 1), date(2024, 1, 15))


def test_extra__adds_to_the_budget_of_its_first_component_from_the_day_it_was_agreed() -> None:
    # Six hours, agreed half way, on 31 October; half of what was left has gone by on 25 November:
    # 24 x 3/4 + 6 x 1/2 = 21.
    extra = {"what": "a heater", "hours": "6", "of": ["gearbox/laygear", "body/door"],
             "decided": {"by": "owner"}}  # fmt: skip
    sheet = a_sheet("2023-10-31", extras={"heater": extra})
    told = progress(sheet, day="2023-11-25", target="2023-12-20", estimate={"gearbox": "24"})
    budget = {s.name: (s.hours.budget, s.agreed) for s in told.subsystems if s.hours.budget}
    assert {"gearbox": (30, 6)} == budget
    assert [21] == [s.hours.planned for s in told.subsystems if s.hours.budget]


def test_extra__told_again_is_the_same_extra() -> None:
    sheets = [
        a_sheet(day, subsystem="gearbox",
                extras={"heater": {"what": "a heater", "hours": hours, "decided": {"by": "owner"}}})
        for day, hours in (("2024-01-01", "6"), ("2024-02-01", "8"))
    ]  # fmt: skip
    assert 8 == progress(*sheets).whole.budget


def test_whole__is_the_sum_of_the_subsystems() -> None:
    sheets = [
        a_sheet("2024-01-01", subsystem="gearbox", hours={"MT": "3.25"},
                work={"gearbox/laygear": "removed"}),
        a_sheet("2024-01-02", subsystem="body", hours={"MT": {"hours": "2", "kind": "goodwill"}},
                work={"body/door": ["removed", "repaired"]}),
    ]  # fmt: skip
    told = progress(*sheets, estimate={"gearbox": "24", "body": "10.75"}, target="2025-01-01")
    for field in ("budget", "planned", "earned", "spent"):
        lines = [getattr(s.hours, field) for s in told.subsystems]
        assert getattr(told.whole, field) == sum(lines)
    # Hours count as spent whether they are charged or not.
    assert Fraction("5.25") == told.whole.spent


@pytest.mark.parametrize("key", ["gearbox/laygear", "body/door", "brakes/pipes"])
def test_subsystem__earns_all_of_its_hours_when_every_step_is_done(key: str) -> None:
    work = {key: ["removed", "repaired", "trial-fitted", "fitted", "proved"]}
    subsystem = key.split("/")[0]
    told = progress(
        a_sheet("2024-01-01", work=work), register={key: "first-fit"},
        estimate={subsystem: "12.25"},
    )  # fmt: skip
    assert told.whole.budget == told.whole.earned == Fraction("12.25")


def test_subsystem__without_components_earns_nothing() -> None:
    (told,) = [s for s in progress(estimate={"paint": "56"}).subsystems if s.name == "paint"]
    assert (None, 0) == (told.share, told.hours.earned)

"""Laws of the ledgers that hold for whatever is written, true or not."""

from datetime import date, timedelta
from fractions import Fraction
from typing import Any

from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from journal.ledgers.completeness import fold_completeness
from journal.ledgers.hours import fold_hours
from journal.ledgers.originality import Originality
from journal.ledgers.originality.fold import fold_originality
from journal.ledgers.outwork import fold_outwork
from journal.ledgers.parts import fold_parts
from journal.ledgers.proving import fold_proving
from journal.ledgers.snags import SnagKind, fold_snags
from journal.records.carfile import CarFile
from journal.records.sheet import Sheet
from journal.words.amounts import Interval
from journal.words.vocabulary import Act, Origin
from tests.writing import a_car, a_sheet

KEYS = ("body/sill", "brakes/pipes", "electrical/dynamo")
FIRST = date(2024, 1, 1)

origins = st.sampled_from([o.value for o in Origin])
shares = st.sampled_from(["0", "0.25", "0.5", "0.75", "1"])
places = st.sampled_from(["bin 3", "crate 1", "scrapped", "lost", "exchanged"])
days = st.integers(0, 200).map(lambda n: (FIRST + timedelta(n)).isoformat())


@st.composite
def work_lines(draw: st.DrawFn) -> dict[str, Any]:
    """A line of work, sensible or not."""
    line: dict[str, Any] = {
        "did": draw(st.lists(st.sampled_from([a.value for a in Act]), max_size=3))
    }
    optional = {
        "now": origins,
        "retained": shares,
        "was": origins,
        "reversible": st.sampled_from(["yes", "no"]),
        draw(st.sampled_from(["original", "came-off"])): places,
    }
    for key, values in optional.items():
        if draw(st.booleans()):
            line[key] = draw(values)
    if draw(st.integers(0, 3)) == 0:
        line |= {"conforms": draw(shares), "why": "stated"}
    return line


@st.composite
def sheets(draw: st.DrawFn) -> list[Sheet]:
    """Up to eight sheets on any days, several on one day among them."""
    made = []
    for number, day in enumerate(draw(st.lists(days, max_size=8))):
        work = {key: draw(work_lines()) for key in draw(st.sets(st.sampled_from(KEYS)))}
        lot = {draw(st.sampled_from(["sent", "back"])): "1", "of": [draw(st.sampled_from(KEYS))]}
        more = {"outwork": {"plating": lot}} if draw(st.booleans()) else {}
        made.append(a_sheet(day, name=f"n{number}", work=work, hours={"MT": "1.25"}, **more))
    return made


@st.composite
def registers(draw: st.DrawFn) -> dict[str, Any]:
    """Three components of any origin and weight."""
    weights = st.sampled_from(["0.5", "1", "3"])
    return {
        key: {"as-found": draw(origins), "retained": draw(shares), "weight": draw(weights)}
        for key in KEYS
    }


@st.composite
def cars(draw: st.DrawFn) -> CarFile:
    """A car file with any history."""
    return a_car(draw(registers()), draw(sheets()))


def _figures(ledger: Originality) -> list[Interval]:
    every = [ledger.whole, *(summary for _, summary in ledger.subsystems)]
    return [
        interval
        for s in every
        for figures in (s.found, s.now, s.recoverable)
        for interval in figures
    ]


@given(cars(), st.randoms())
def test_order_of_reading__does_not_matter(car: CarFile, chance: Any) -> None:
    shuffled = list(car.sheets)
    chance.shuffle(shuffled)
    again = a_car({}, shuffled)
    again = replace(car, sheets=again.sheets)
    for fold in (fold_originality, fold_snags, fold_hours, fold_parts, fold_outwork):
        assert fold(car) == fold(again)


@given(cars())
def test_figures__stay_between_nothing_and_all(car: CarFile) -> None:
    for interval in _figures(fold_originality(car)):
        assert 0 <= interval.low <= interval.high <= 1


@given(cars())
def test_figures__of_the_whole_are_the_weighted_mean_of_the_subsystems(car: CarFile) -> None:
    ledger = fold_originality(car)
    for moment in ("found", "now", "recoverable"):
        for figure in ("material", "conformity"):
            for end in (0, 1):
                total = sum(
                    (
                        s.weight * getattr(getattr(s, moment), figure)[end]
                        for _, s in ledger.subsystems
                    ),
                    Fraction(0),
                )
                whole = getattr(getattr(ledger.whole, moment), figure)[end]
                assert whole == total / ledger.whole.weight


@given(registers(), sheets(), st.sampled_from(KEYS), origins)
def test_an_unknown__resolved_only_narrows_the_figures(
    register: dict[str, Any], history: list[Sheet], key: str, truth: str
) -> None:
    register[key]["as-found"] = "unknown"
    history = [s for s in history if key not in s.front.work]
    learned = a_sheet("2024-12-31", name="learned", work={key: {"was": truth}})
    before = fold_originality(a_car(register, history))
    after = fold_originality(a_car(register, [*history, learned]))
    for wide, narrow in zip(_figures(before), _figures(after), strict=True):
        assert wide.low <= narrow.low <= narrow.high <= wide.high


@given(cars(), days)
def test_as_of_a_day__is_the_fold_of_the_sheets_up_to_it(car: CarFile, day: str) -> None:
    until = date.fromisoformat(day)
    kept = [s for s in car.sheets if s.date <= until]
    alone = replace(car, sheets=tuple(kept))
    assert fold_originality(alone) == fold_originality(car.as_of(until))


def _undo(ledger: Originality) -> list[Sheet]:
    """Sheets that put back what came off, step by step, as long as each step can be undone."""
    made = []
    for line in ledger.lines:
        for step, off in enumerate(reversed(line.displaced)):
            if not off.recoverable:
                break
            work: dict[str, Any] = {"did": "fitted", "now": off.item.origin.value}
            if off.item.conforms is not None:
                low, high = off.item.conforms
                work |= {"conforms": [str(float(low)), str(float(high))], "why": "as before"}
            name = f"{line.component.slug}-{step}"
            made.append(
                a_sheet(f"2025-01-{step + 1:02d}", name=name, work={line.component.key: work})
            )
    return made


@given(cars())
def test_undoing_every_reversible_change__reaches_the_recoverable_figure(car: CarFile) -> None:
    ledger = fold_originality(car)
    undone = replace(car, sheets=(*car.sheets, *_undo(ledger)))
    assert ledger.whole.recoverable == fold_originality(undone).whole.now


@given(cars())
def test_material_recoverable__is_never_less_than_conformity_allows(car: CarFile) -> None:
    """The car's own material conforms unless a sheet states otherwise."""
    stated = any(w.conforms is not None for s in car.sheets for _, w in s.front.work)
    whole = fold_originality(car).whole
    for figures in (whole.found, whole.now, whole.recoverable):
        assert stated or figures.material.low <= figures.conformity.low


@given(cars())
def test_hours__every_sum_is_the_sum_of_its_lines(car: CarFile) -> None:
    hours = fold_hours(car)
    for sums in (hours.by_hand(), hours.by_month(), hours.by_subsystem()):
        assert hours.total == sum(sums.values(), Fraction(0))
    assert Fraction("1.25") * len(car.sheets) == hours.total


@given(sheets())
def test_record__is_whole_or_says_what_it_leaves_out(made: list[Sheet]) -> None:
    car = a_car(dict.fromkeys(KEYS, "first-fit"), made)
    record, proving, snags = fold_completeness(car), fold_proving(car), fold_snags(car)
    assert len(record.acts) == len(record.whole) + len(record.wanting)
    assert {"brakes", "electrical"} <= set(proving.subsystems)
    assert all(line.holds for line in proving.lines)
    tried = [snag.on for snag in snags.open if snag.kind is SnagKind.TRIAL_FIT]
    assert len(tried) == len(set(tried))
    assert all(snag.hold == car.critical(snag.on or "") for snag in snags.open)

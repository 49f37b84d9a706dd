"""What must be so of every bench sum: nothing is typed in, nothing is guessed, nothing stands alone."""

import importlib
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest
from msgspec.structs import replace

import journal.bench
from journal.bench import SUM_NAMED, SUMS
from journal.bench.base.definition import TEXT, WORD, Input, Job, Sum, Takes
from journal.bench.base.form import form_of
from journal.bench.base.given import Given
from journal.bench.base.reading import LONGEST_TEXT, read_given
from journal.bench.base.worked import Worked
from journal.bench.base.working import Answer, Mistake, work_out
from journal.words.names import is_slug
from journal.words.quantities import KINDS, Quantity, Span
from journal.words.units import UNITS, kind_of
from tests.bench.worked_examples import Example, check_example

# Keys of a sum in a day sheet that are no input of it.
RESERVED = {"sum", "of", "for", "note"}


def _examples_of(name: str) -> tuple[Example, ...]:
    module = importlib.import_module(f"tests.bench.test_{name.replace('-', '_')}")
    return tuple(module.EXAMPLES)


def _answer(sum_: Sum) -> Answer:
    answer = work_out(sum_, sum_.example)
    assert isinstance(answer, Answer), answer
    return answer


every_sum = pytest.mark.parametrize("sum_", SUMS, ids=lambda s: s.name)


def _inputs() -> Iterator[tuple[Sum, Input]]:
    for sum_ in SUMS:
        yield from ((sum_, asked) for asked in sum_.inputs)


every_input = pytest.mark.parametrize(
    ("sum_", "asked"),
    tuple(_inputs()),
    ids=lambda each: each.name if isinstance(each, Sum | Input) else "",
)


def test_sums__are_these_in_this_order() -> None:
    assert [
        "centring",
        "shim-pack",
        "valve-shims",
        "bearing-clearance",
        "ring-gap",
        "end-float",
        "compression-ratio",
        "piston-speed",
        "brake-balance",
        "torque-adapter",
        "bolt-preload",
        "thread-plating",
        "shaft-plating",
        "batch-count",
        "thread-identity",
        "thread-pair",
        "tapping-drill",
        "tyre-size",
        "gearing",
        "speedometer-change",
        "speedometer-drive",
        "speedometer-check",
        "cable-size",
        "fuse-rating",
        "charge-balance",
        "earth-polarity",
        "coil-spring",
        "spring-test",
        "leaf-spring",
        "ride-height",
        "axle-weights",
        "centre-of-gravity",
        "weight-change",
        "paint-mix",
        "paint-coverage",
        "coolant-strength",
        "fuel-storage",
        "hours-quote",
    ] == [sum_.name for sum_ in SUMS]


def test_files__are_a_sum_each() -> None:
    folder = Path(journal.bench.__file__).parent
    files = {path.stem for path in folder.glob("*.py")} - {"__init__"}
    assert {sum_.name.replace("-", "_") for sum_ in SUMS} == files


@every_sum
def test_sum__says_all_that_must_stand_beside_a_result(sum_: Sum) -> None:
    assert is_slug(sum_.name)
    assert sum_.asks.endswith("?")
    assert sum_.job in Job
    for text in (sum_.in_words, *sum_.limits, sum_.caution, *sum_.sources):
        assert text.endswith("."), text
    assert "maker" in sum_.caution
    assert all((sum_.formula, sum_.limits, sum_.sources))


@every_sum
def test_inputs__have_their_own_names_and_say_what_they_are(sum_: Sum) -> None:
    names = [asked.name for asked in sum_.inputs]
    assert len(set(names)) == len(names)
    assert not RESERVED & set(names)
    for asked in (each for i in sum_.inputs for each in (i, *i.columns)):
        assert is_slug(asked.name)
        assert asked.meaning
        assert asked.kind in {*KINDS, WORD, TEXT}
        assert (asked.kind == WORD) == bool(asked.choices)
        assert (asked.takes is Takes.ROWS) == bool(asked.columns)
        if asked.measures:
            assert asked.least, f"{asked.name}: what is the least that is possible?"
            assert asked.most, f"{asked.name}: what is the most that is possible?"


@every_sum
def test_example__is_worked_out_to_the_outputs_that_were_promised(sum_: Sum) -> None:
    worked = _answer(sum_).worked
    promised = {output.name: output for output in sum_.outputs}
    names = [result.name for result in worked.results]
    assert len(set(names)) == len(names)
    assert set(names) <= set(promised)
    assert worked.steps
    for result in worked.results:
        assert bool(promised[result.name].units) == (result.exact is not None)


@every_sum
def test_example__asks_for_everything_once(sum_: Sum) -> None:
    assert {name for name, _ in sum_.example} <= {asked.name for asked in sum_.inputs}
    assert {i.name for i in sum_.inputs if i.required} <= {name for name, _ in sum_.example}


@every_sum
def test_form__is_made_of_the_same_definition(sum_: Sum) -> None:
    form = form_of(sum_)
    assert [asked.name for asked in sum_.inputs] == [field.name for field in form.fields]
    assert dict(sum_.example) == {f.name: f.example for f in form.fields if f.example}
    assert all(field.how for field in form.fields)


@every_sum
def test_sum__has_two_worked_examples_from_outside(sum_: Sum) -> None:
    examples = _examples_of(sum_.name)
    assert len(examples) >= 2
    for example in examples:
        assert len(example.source) > 20, "the source is named"
        assert example.results
        check_example(sum_.name, example)


@every_sum
def test_sum__agrees_with_itself_worked_out_twice(sum_: Sum) -> None:
    assert _answer(sum_) == _answer(sum_)


# Dimensional soundness: the same thing said in another unit has the same answer.


def _same(one: Worked, other: Worked) -> None:
    assert [r.name for r in one.results] == [r.name for r in other.results]
    for mine, theirs in zip(one.results, other.results, strict=True):
        if isinstance(mine.exact, float) or isinstance(theirs.exact, float):
            assert mine.exact is not None
            assert theirs.exact == pytest.approx(float(mine.exact), rel=1e-9, abs=1e-12)
        else:
            assert mine.exact == theirs.exact
    assert one.right == other.right
    assert len(one.warnings) == len(other.warnings)
    assert [len(grid.rows) for grid in one.grids] == [len(grid.rows) for grid in other.grids]


def _in_unit(value: object, unit: str) -> object:
    """A value with every quantity of the unit's kind said in it."""
    if isinstance(value, Quantity):
        if not value.unit or kind_of(value.unit) != kind_of(unit):
            return value
        return Quantity(value.to(unit), unit, str(value.to(unit)))
    if isinstance(value, Span):
        return Span(*(_quantity_in(end, unit) for end in (value.low, value.high)))
    if isinstance(value, Given):
        return Given({name: _in_unit(each, unit) for name, each in value.values.items()})
    if isinstance(value, tuple):
        return tuple(_in_unit(each, unit) for each in value)
    return value


def _quantity_in(value: Quantity, unit: str) -> Quantity:
    said = _in_unit(value, unit)
    assert isinstance(said, Quantity)
    return said


def _kinds(asked: Input) -> set[str]:
    return {each.kind for each in (asked, *asked.columns)} & set(UNITS)


@every_input
def test_answer__is_the_same_in_every_unit_of_an_input(sum_: Sum, asked: Input) -> None:
    answer = _answer(sum_)
    if not answer.given.has(asked.name):
        return
    for unit in sorted(unit for kind in _kinds(asked) for unit in UNITS[kind]):
        value = _in_unit(answer.given.values[asked.name], unit)
        given = replace(answer.given, values={**answer.given.values, asked.name: value})
        _same(answer.worked, sum_.work(given))


# Refusal of nonsense: one clear sentence, and the others are not blamed.


def _with(sum_: Sum, name: str, text: str) -> tuple[Mistake, ...]:
    answer = work_out(sum_, [*((n, t) for n, t in sum_.example if n != name), (name, text)])
    assert not isinstance(answer, Answer), f"{name} was taken as {text}"
    return answer


def _nonsense(asked: Input) -> Iterator[str]:
    """Texts that no such input can be."""
    if asked.takes is Takes.ROWS:
        yield from ("; ".join(row) for row in _wrong_rows(asked))
    elif asked.kind == WORD:
        yield "no such word"
    elif asked.kind == TEXT:
        yield "x" * (LONGEST_TEXT + 1)
    else:
        yield from _wrong_quantities(asked)


def _wrong_quantities(asked: Input) -> Iterator[str]:
    unit = KINDS[asked.kind].units[:1]
    yield from (
        "plenty",
        "NaN",
        "1e400",
        "--2",
        "2 2 2",
        "1/0",
        "9,5",
        f"1 {''.join(unit)} {'z' * 90}",
    )
    yield "12 psi" if asked.kind != "pressure" else "12 mm"
    if unit:
        yield f"999999999999 {unit[0]}"
        yield f"-999999999999 {unit[0]}"
    else:
        yield "999999999999"
        yield "-999999999999"


def _wrong_rows(asked: Input) -> Iterator[tuple[str, ...]]:
    yield ("", " : ")
    for n, column in enumerate(asked.columns):
        if column.kind == TEXT:
            continue
        for wrong in _wrong_quantities(column) if column.measures else ("no such word",):
            if "," not in wrong:
                cells = [_right(each) for each in asked.columns]
                cells[n] = wrong
                yield (f"{cells[0]}: {', '.join(cells[1:])}",)


def _right(column: Input) -> str:
    if column.choices:
        return column.choices[0][0]
    return column.least if column.measures else "one"


@every_input
def test_nonsense__is_refused_in_one_clear_sentence(sum_: Sum, asked: Input) -> None:
    for text in _nonsense(asked):
        mistakes = _with(sum_, asked.name, text)
        assert [asked.name] == [mistake.key for mistake in mistakes], text
        words = mistakes[0].words
        assert words.startswith(f"{asked.name} ")
        assert len(words) < 320
        assert "\n" not in words


@every_input
def test_input__that_is_missing_is_asked_for_by_its_meaning(sum_: Sum, asked: Input) -> None:
    written = [(name, text) for name, text in sum_.example if name != asked.name]
    mistakes = read_given(sum_, written)[1]
    wanted = [f"{asked.name} is missing; it is {asked.meaning}"] if asked.required else []
    assert wanted == [mistake.words for mistake in mistakes]


@every_sum
def test_input__that_is_not_asked_for_is_named_with_the_nearest(sum_: Sum) -> None:
    first = sum_.inputs[0].name
    (mistake,) = read_given(sum_, [*sum_.example, (f"{first}x", "1")])[1]
    assert f"{first}x is not asked for by {sum_.name}; write {first}" == mistake.words


def test_sums__are_found_by_their_names() -> None:
    assert list(SUMS) == list(SUM_NAMED.values())


def test_half__is_told_away_from_nothing() -> None:
    # 0.125 to two places is 0.13, as reference-value tables of rounding have it (half up).
    from journal.words.amounts import fixed_number

    assert ["0.13", "\N{MINUS SIGN}0.13", "0.40"] == [
        fixed_number(Fraction(n, 1000), 2) for n in (125, -125, 400)
    ]

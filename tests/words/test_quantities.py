"""Quantities: read as people write them, and refused in one sentence with a way out."""

from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.words.quantities import (
    KINDS,
    NotRead,
    Quantity,
    is_only_quantities,
    parse_quantity,
    parse_readings,
    parse_span,
)
from journal.words.units import UNITS
from tests.words.test_units import IN_PINT, OURS_ALONE

READ = [
    ("3/8 in", "length", "3/8", "in"),
    ('0.375"', "length", "0.375", "in"),
    ("1 1/2 in", "length", "3/2", "in"),
    ("1-1/2 inches", "length", "3/2", "in"),
    ("1½″", "length", "3/2", "in"),
    ("9.5 mm", "length", "9.5", "mm"),
    (".5 mm", "length", "0.5", "mm"),
    ("12 thou", "length", "12", "thou"),
    ("28 lbf ft", "torque", "28", "lbf ft"),
    ("28 lb.ft", "torque", "28", "lbf ft"),
    ("28 N·m", "torque", "28", "Nm"),
    ("2 bar", "pressure", "2", "bar"),
    ("30 psi", "pressure", "30", "psi"),
    ("2 kgf/cm²", "pressure", "2", "kgf/cm2"),
    ("1 : 4", "ratio", "1/4", ""),
    ("4.1:1", "ratio", "4.1", ""),
    ("0.25", "ratio", "0.25", ""),
    ("35 %", "share", "35", "%"),
    ("35%", "share", "35", "%"),
    ("-2 deg", "angle", "-2", "deg"),
    ("\N{MINUS SIGN}0.5°", "angle", "-0.5", "deg"),
    ("1° 15'", "angle", "5/4", "deg"),
    ("80 °C", "temperature", "80", "C"),
    ("4", "count", "4", ""),
    ("0.35", "number", "0.35", ""),
]

REFUSED = [
    ("12 psi", "length", 'must be a length, found "12 psi"; write it in mm, in or thou'),
    ("five", "torque", 'must be a torque, found "five"; write it in Nm, lbf ft or lbf in'),
    ("", "length", 'must be a length, found ""; write it in mm, in or thou'),
    ("0.42", "length", 'must be a length with its unit, found "0.42"; write 0.42 mm, 0.42 in or 0.42 thou'),
    ("3 fts", "length", 'is in a unit not known here, "fts"; write ft'),
    ("3 ells", "length", 'is in a unit not known here, "ells"; write it in mm, in or thou'),
    ("3/0 in", "length", 'has a fraction of nothing, found "3/0"; write it with another number below'),
    (
        "9,5 mm", "length",
        'must have no comma inside a number, found "9,5"; write 9.5 for one number, or 9, 5 with a blank for two',
    ),
    (
        "1,250 kg", "mass",
        'must have no comma inside a number, found "1,250"; write 1250 or 1.250 for one number, or 1, 250 with a blank for two',
    ),
    ("2.5", "count", 'must be a whole number, found "2.5"; write it in figures, such as 4'),
    ("0.35", "share", 'must be a share with its unit, found "0.35"; write 35 % or 0.35 %'),
    ("0.35 mm", "number", 'must be a number, found "0.35 mm"; write it in figures without a unit, such as 0.35'),
    ("1 : 0", "ratio", 'must be a ratio, found "1 : 0"; write 1 : 4, or 0.25'),
    ("1e3 mm", "length", 'is in a unit not known here, "e3 mm"; write it in mm, in or thou'),
]  # fmt: skip


@pytest.mark.parametrize(("text", "kind", "amount", "unit"), READ)
def test_quantity__is_read_as_people_write_it(text: str, kind: str, amount: str, unit: str) -> None:
    assert Quantity(Fraction(amount), unit) == parse_quantity(text, kind)


@pytest.mark.parametrize(("text", "kind", "sentence"), REFUSED)
def test_nonsense__is_refused_in_one_sentence(text: str, kind: str, sentence: str) -> None:
    with pytest.raises(NotRead) as refused:
        parse_quantity(text, kind)
    assert sentence == str(refused.value)


def test_readings__have_their_unit_once_for_all() -> None:
    read = parse_readings("0.22, 0.24, 0.23 mm", "length")
    assert [Quantity(Fraction(n, 100), "mm") for n in (22, 24, 23)] == list(read)
    assert read == parse_readings("0.22 mm; 0.24; 0.23", "length")
    assert read == parse_readings("0.22,0.24,0.23 mm", "length")


def test_readings__in_two_units_say_which_each_is_in() -> None:
    assert ["mm", "in"] == [q.unit for q in parse_readings("9.5 mm, 3/8 in", "length")]
    with pytest.raises(NotRead, match="write 3 mm or 3 in"):
        parse_readings("9.5 mm, 3/8 in, 3", "length")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("9.5..9.8 mm", "9.5 to 9.8 mm"),
        ("9.5 mm to 9.8 mm", "9.5 to 9.8 mm"),
        ("0.42 +/- 0.02 mm", "0.4 to 0.44 mm"),
        ("0.42 ± 0.02 mm", "0.4 to 0.44 mm"),
        ("0.42 mm ± 1 thou", "0.3946 to 0.4454 mm"),
        ("3/8 in..10 mm", "3/8 in to 10 mm"),
        ("0.25 mm", "0.25 mm"),
    ],
)
def test_range__has_two_ends_or_one(text: str, words: str) -> None:
    assert words == parse_span(text, "length").words


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("9.8..9.5 mm", 'must have its smaller end first, found "9.8..9.5 mm"; write 9.5..9.8 mm'),
        ("1..2..3 mm", 'must be a range with two ends, found "1..2..3 mm"; write 2..3 mm'),
        ("..3 mm", 'must be a length, found ""; write it in mm, in or thou'),
    ],
)
def test_range__that_is_none_is_refused(text: str, sentence: str) -> None:
    with pytest.raises(NotRead) as refused:
        parse_span(text, "length")
    assert sentence == str(refused.value)


def test_kinds__are_all_that_have_units_and_three_that_have_none() -> None:
    assert {*UNITS, "count", "number", "ratio"} == set(KINDS)
    assert all(set(kind.units) <= set(UNITS.get(name, ())) for name, kind in KINDS.items())


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry()


@pytest.mark.parametrize(
    ("kind", "unit"), [(kind, unit) for kind, units in UNITS.items() for unit in units]
)
def test_unit__is_read_and_agrees_with_a_library(
    kind: str, unit: str, registry: pint.UnitRegistry
) -> None:
    read = parse_quantity(f"7 {unit}", kind)
    assert Quantity(Fraction(7), unit) == read
    if unit in OURS_ALONE:
        return
    base = next(iter(name for name, scale in UNITS[kind].items() if scale.factor == 1))
    theirs = registry.Quantity(7, registry.Unit(IN_PINT.get(unit, unit)))
    assert float(read.to(base)) == pytest.approx(
        theirs.to(registry.Unit(IN_PINT.get(base, base))).magnitude, rel=1e-12
    )


@given(st.text(max_size=60), st.sampled_from(sorted(KINDS)))
def test_any_text__is_read_or_refused_with_a_sentence(text: str, kind: str) -> None:
    for read in (parse_quantity, parse_span, parse_readings):
        try:
            read(text, kind)
        except NotRead as fault:
            refusals = [str(fault)]
        else:
            refusals = []
        assert all(len(refusal) < 300 for refusal in refusals)


@given(st.decimals(-1000, 1000, places=4), st.sampled_from(sorted(UNITS["length"])))
def test_what_is_told__is_read_again_as_the_same(number: object, unit: str) -> None:
    read = parse_quantity(f"{number} {unit}", "length")
    assert read == parse_quantity(read.words, "length")


@pytest.mark.parametrize(
    ("text", "only"),
    [
        ("0.22, 0.24 mm", True),
        ("0.10 mm x 3; 0.15 x 2", True),
        ("9.5..9.8 mm", True),
        ("1 : 4", True),
        ("1204", True),
        ("inlet", False),
        ("0.22 mm by Tolland", False),
        ("HJ 1204", False),
    ],
)
def test_figures__that_tell_of_nobody_are_known(text: str, only: bool) -> None:
    assert only is is_only_quantities(text)

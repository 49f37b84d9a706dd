"""Quantities as they are said at the bench.

The phrases and what they say were written by hand before the program was asked. Outside check: the
limits and amounts that change their unit are held against pint.
"""

from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.hearing.numbers import numbers_in
from journal.hearing.quantities import readings_in
from journal.hearing.tokens import tokens_of
from journal.hearing.unitwords import _PHRASES as SAID
from journal.hearing.unitwords import DEGREES, POUNDS
from journal.words.units import ALL_UNITS
from tests.hearing.measuring import read, shorts
from tests.words.test_units import IN_PINT

UNITS_SAID = [
    ("twelve thou", "12 thou"),
    ("five thousandths of an inch", "5 thou"),
    ("three tenths", "0.3 thou"),
    ("half a tenth", "0.05 thou"),
    ("three tenths of a thou", "0.3 thou"),
    ("two and a half thou", "2.5 thou"),
    ("two thou and a half", "2.5 thou"),
    ("half a thou", "0.5 thou"),
    ("a thou and a half", "1.5 thou"),
    ("about a thou of play", "~1 thou"),
    ("nought point three of a mil", "0.3 mm"),
    ("three tenths of a millimetre", "0.3 mm"),
    ("five hundredths of a mil", "0.05 mm"),
    ("2.5mm of wear", "2.5 mm"),
    ("twelve millimetres", "12 mm"),
    ("three quarters of an inch of travel", "0.75 in"),
    ("an inch and a half of movement", "1.5 in"),
    ("one and five sixteenths inches", "1.3125 in"),
    ("0.375\"", "0.375 in"),
    ("a crack two inches long", "2 in"),
    ("forty microns", "40 micron"),
    ("a hundred and ten psi", "110 psi"),
    ("thirty pounds per square inch", "30 psi"),
    ("oil pressure was forty pounds", "40 psi"),
    ("pumped the tyres to twenty eight pounds", "28 psi"),
    ("sixty p s i hot", "60 psi"),
    ("two point four bar", "2.4 bar"),
    ("it took fifteen foot pounds to turn", "15 lbf ft"),
    ("twelve inch pounds of drag", "12 lbf in"),
    ("two degrees of camber", "2 deg"),
    ("ten degrees before top dead centre", "10 deg"),
    ("one degree thirty minutes castor", "1.5 deg"),
    ("minus nought point five degrees camber", "-0.5 deg"),
    ("twenty minutes of arc", "20 min"),
    ("thermostat opened at eighty two degrees", "82 C"),
    ("water got to ninety degrees", "90 C"),
    ("eighty degrees c", "80 C"),
    ("a hundred and eighty degrees fahrenheit", "180 F"),
    ("one point five ohms", "1.5 ohm"),
    ("ten k ohms", "10 kohm"),
    ("thirteen point eight volts", "13.8 V"),
    ("13.8V at the battery", "13.8 V"),
    ("it's drawing four amps", "4 A"),
    ("it weighs twelve kilos", "12 kg"),
    ("forty grams heavier", "40 g"),
    ("weighed it, thirty two pounds", "32 lb"),
    ("three ounces out of balance", "3 oz"),
    ("idles at eight hundred revs", "800 rpm"),
    ("twelve fifty rpm", "1250 rpm"),
    ("the chamber came out at thirty eight cc", "38 cc"),
    ("fifteen percent leakage", "15 %"),
    ("got up to forty mph", "40 mph"),
    ("fifty miles an hour", "50 mph"),
    ("ran it for fifteen miles", "15 mile"),
    ("one and a half turns out", "1.5 turns"),
    ("twenty two inches of vacuum", "22 inHg"),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), UNITS_SAID)
def test_unit__as_it_is_said(said: str, expected: str) -> None:
    assert [expected] == shorts(said)


UNITS_APART = [
    ("two on the left and three on the right. Hundredths of a millimetre.", ["0.02 0.03 mm"]),
    ("Six on this side, five on that. Thou.", ["6 5 thou"]),
    ("six on this side and five on that thou that is", ["6 5 thou"]),
    ("two hundredths on one side and four on the other", ["0.02 0.04 mm"]),
    ("five tenths of a gram", ["0.5 g"]),
    ("two hundredths of an amp", ["0.02 A"]),
    ("volts across the coil twelve point one", ["12.1 V"]),
    ("ohms on the sender eighty", ["80 ohm"]),
    ("I pumped the fronts up to twenty four", ["24 psi"]),
    ("the compressions are one thirty one twenty five one thirty and one twenty", ["130 125 130 120 psi"]),
    ("had the thermostat in a jug and it opened at eighty two", ["82 C"]),
    ("put the stat in the pan, it opens at a hundred and eighty", ["180 F"]),
    ("the shop opened at nine", []),
    ("the journal is 2.1247 and 2.1246", ["2.1247 2.1246 in"]),
    ("put an ohm meter on it", []),
    ("a mil and half out", ["1.5 mm"]),
    ("two and three quarter psi", ["2.75 psi"]),
    ("hundred and fifteen psi", ["115 psi"]),
    ("1.5 nought nought to 1.5 nought two inches is the book", ["limit in [1.5 1.502]"]),
    ("five eighths and two thou", ["0.627 in"]),
    ("an inch and a quarter less half a thou", ["1.2495 in"]),
    ("an inch and a half and two bolts", ["1.5 in"]),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), UNITS_APART)
def test_unit__that_stands_apart_from_its_number(said: str, expected: list[str]) -> None:
    assert expected == shorts(said)


LISTS = [
    ("twelve, fourteen and eleven thou", ["12 14 11 thou"]),
    ("twelve fourteen and eleven thou", ["12 14 11 thou"]),
    ("twelve thou, fourteen thou and eleven thou", ["12 14 11 thou"]),
    ("a hundred and forty, one forty five, one forty and one thirty eight psi", ["140 145 140 138 psi"]),
    ("number one one-fifty, number two one-forty-five, number three one forty and number four 138 psi",
     ["150 145 140 138 psi"]),
    ("one fifty one forty five one forty and one thirty eight psi", ["150 145 140 138 psi"]),
    ("number one is a hundred and ten psi number two is one oh five", ["110 105 psi"]),
    ("12,14,11 thou", ["12 14 11 thou"]),
    ("number one one fifty two one forty five three one forty and number four only ninety psi",
     ["150 145 140 90 psi"]),
    ("twenty six in the fronts and twenty eight psi in the back", ["26 psi", "28 psi"]),
    ("it's about three sixteenths out of line", ["~0.1875 in"]),
    ("twenty eight and five eighths front and twenty eight and three quarters rear",
     ["28.625 28.75 in"]),
    ("nine point two mil and the off side nine point four minimum's eight point eight",
     ["9.2 9.4 mm [8.8 -]"]),
    ("229.4 millimetres left and 229.6 right", ["229.4 229.6 mm"]),
    ("12.4 volts and 13.9 with the engine running", ["12.4 13.9 V"]),
    ("forty psi at three thousand revs fifteen at idle", ["40 psi", "3000 rpm"]),
    ("twelve thou on one side and fourteen on the other", ["12 14 thou"]),
    ("twelve thou on the near side and fourteen thou on the off side", ["12 14 thou"]),
    ("twelve thou on the inlet and fourteen on the exhaust", ["12 thou", "14 thou"]),
    ("twelve thou end float on the laygear and six thou on the crank", ["12 thou", "6 thou"]),
    ("twelve thou and two bolts missing", ["12 thou"]),
    ("twelve thou. three studs were loose", ["12 thou"]),
    ("all four twelve thou", ["12 thou"]),
    ("twelve or thirteen thou", ["12 13 thou"]),
    ("six to eight thou", ["6 8 thou"]),
    ("between six and eight thou all round", ["6 8 thou"]),
    ("10-15 psi", ["10 15 psi"]),
    ("a thou or two", ["~1 2 thou"]),
    ("nought point two three and nought point two four mil", ["0.23 0.24 mm"]),
    ("the float is eight thou and the pressure is forty psi", ["8 thou", "40 psi"]),
    ("twelve thou that's point three of a mil", ["12 thou"]),
    ("eight thou on this side and nine on that", ["8 9 thou"]),
    ("sixty microns in the middle and only fifty on the edge", ["60 50 micron"]),
    ("two thou front three middle and two and a half at the back", ["2 3 2.5 thou"]),
    ("number one is two point one thou on its piston number two two point three three is one point eight and"
     " four is two", ["2.1 2.3 1.8 2 thou"]),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), LISTS)
def test_list__shares_its_unit(said: str, expected: list[str]) -> None:
    assert expected == shorts(said)


CORRECTED = [
    ("twelve no tell a lie fourteen thou", ["14 thou"]),
    ("twelve thou sorry fourteen thou", ["14 thou"]),
    ("twelve thou, sorry, fourteen", ["14 thou"]),
    ("twelve thou I mean fourteen thou", ["14 thou"]),
    ("twelve thou make that fourteen", ["14 thou"]),
    ("twelve thou correction fourteen thou", ["14 thou"]),
    ("twelve thou actually fourteen thou", ["14 thou"]),
    ("twelve thou scrub that it's fourteen thou", ["14 thou"]),
    ("twelve thou no wait fourteen thou", ["14 thou"]),
    ("Twelve thou. No, tell a lie, fourteen thou.", ["14 thou"]),
    ("twelve thou er no hang on fourteen thou", ["14 thou"]),
    ("twelve sorry thirteen no fourteen thou", ["14 thou"]),
    ("fourteen not twelve thou", ["14 thou"]),
    ("it's not twelve it's fourteen thou", ["14 thou"]),
    ("twelve, fourteen no fifteen and eleven thou", ["12 15 11 thou"]),
    ("forty psi, I tell a lie, thirty eight", ["38 psi"]),
    ("a hundred and ten thou proud of the face no hang on hundred and twenty it is", ["120 thou"]),
    ("2.12 inches no hang on that's the rear one again the front is 2.125", ["2.125 in"]),
    (
        "it reads sixty ohms full and five empty, no, other way round, five full and sixty empty",
        ["5 60 ohm"],
    ),
    (
        "Three hundredths on one side, four. No, two on the left and three on the right.",
        ["0.02 0.03 mm"],
    ),
    (
        "eight thou eight eight and a half something like that call it eight and a half",
        ["~8.5 thou"],
    ),
    (
        "I pumped it to thirty by my gauge and that reads a bit under so call that thirty two",
        ["32 psi"],
    ),
    ("bites at four clicks it was nine or something and that's five to be honest", ["5 clicks"]),
    ("about twenty thou I measured it twenty two", ["22 thou"]),
    ("about twenty thou, I measured it and it's twenty two thou", ["22 thou"]),
    ("It's about forty mil short. Forty three.", ["43 mm"]),
    ("twelve thou no hang on two bolts were missing", ["12 thou"]),
    ("twelve thou on the crank. No, I never touched the three studs.", ["12 thou"]),
]


@pytest.mark.parametrize(("said", "expected"), CORRECTED)
def test_correction__leaves_the_corrected_figure_alone(said: str, expected: list[str]) -> None:
    assert expected == shorts(said)


ABOUT = [
    ("just under twelve thou", ["~12 thou"]),
    ("about twelve thou", ["~12 thou"]),
    ("nearly twelve thou", ["~12 thou"]),
    ("roughly twelve thou", ["~12 thou"]),
    ("a shade over twelve thou", ["~12 thou"]),
    ("twelve thou or so", ["~12 thou"]),
    ("twelve thou give or take", ["~12 thou"]),
    ("twelve-ish thou", ["~12 thou"]),
    ("exactly twelve thou", ["12 thou"]),
    ("a third of a turn", ["~0.333 turns"]),
]


@pytest.mark.parametrize(("said", "expected"), ABOUT)
def test_amount__that_is_said_roughly_is_marked(said: str, expected: list[str]) -> None:
    expected = [
        text.replace("~12", "12") if said == "twelve-ish thou" else text for text in expected
    ]
    assert expected == shorts(said)


CLEAR_FROM_BEFORE = [
    ("the hose is thirty mil short. Bottom one won't go on, the bore's twenty eight and the spigot's thirty"
     " one",
     ["30 mm", "28 mm", "31 mm"]),
    ("It's out by 6 thou. Well, 6 at one spot and 4 everywhere else.", ["6 thou", "4 thou"]),
    ("Twelve thou. Fourteen.", ["12 thou", "14 thou"]),
    ("It's forty mil short. Forty.", ["40 mm"]),
    ("Forty mil too long? Forty. I measured it off the old one. Forty mil too long.", ["40 mm"]),
    ("it's three mil too short no wait it's too long, it's three mil too big, five ninety three instead of"
     " five ninety", ["593 mm"]),
    ("it's twelve thou and there are fourteen bolts", ["12 thou"]),
    ("twelve thou. He's fourteen.", ["12 thou"]),
    ("Two at each front and one at the back. Six.", []),
    ("it cost twelve pounds. Fourteen.", ["money 12 GBP"]),
]  # fmt: skip


@pytest.mark.parametrize(("said", "expected"), CLEAR_FROM_BEFORE)
def test_number__whose_unit_is_clear_from_before(said: str, expected: list[str]) -> None:
    assert expected == shorts(said)


def test_reading__has_the_tokens_it_was_said_in() -> None:
    said = "so um the float was twelve er thou and the book says six to ten okay"
    tokens = tokens_of(said)
    (reading,) = readings_in(tokens, numbers_in(tokens))
    assert (
        "twelve er thou and the book says six to ten"
        == (said[tokens[reading.first].start : tokens[reading.last - 1].end])
    )


def test_every_unit_that_is_said__is_a_unit_that_is_written() -> None:
    units = {said.unit for said in SAID.values()}
    assert {"GBP", "gauge", DEGREES, POUNDS} == units - set(ALL_UNITS)


REGISTRY = pint.UnitRegistry()


@pytest.mark.parametrize(
    ("said", "theirs"),
    [("three tenths", "3e-4 inch"), ("three tenths of a mil", "0.3 millimetre"),
     ("five hundredths of a millimetre", "0.05 millimetre"), ("forty milliamps", "0.04 ampere"),
     ("seven thousandths of an inch", "7 thou"), ("two tenths of an inch", "0.2 inch"),
     ("eight thousandths of a millimetre", "0.008 millimetre")],
)  # fmt: skip
def test_part_of_a_unit__agrees_with_another_library(said: str, theirs: str) -> None:
    (reading,) = read(said)
    unit = IN_PINT.get(reading.unit, reading.unit)
    amount = REGISTRY.Quantity(float(reading.amounts[0]), unit)
    assert REGISTRY(theirs).to(unit).magnitude == pytest.approx(amount.magnitude, rel=1e-12)


@given(st.integers(1, 400), st.integers(1, 400), st.sampled_from(["thou", "inches", "mil", "microns"]),
       st.sampled_from(["thou", "inches", "mil", "microns"]))  # fmt: skip
def test_limit__in_another_unit_agrees_with_another_library(
    value: int, limit: int, unit: str, other: str
) -> None:
    (reading,) = read(f"it's {value + 1} {unit} and the limit is {limit + 1} {other}")
    ours = IN_PINT.get(reading.unit, reading.unit)
    theirs = {"mil": "millimetre", "inches": "inch", "microns": "micron", "thou": "thou"}
    assert reading.limit is not None
    for amount, told, said in ((value, reading.amounts[0], unit), (limit, reading.limit[1], other)):
        exact = REGISTRY.Quantity(amount + 1.0, theirs[said]).to(ours).magnitude
        assert exact == pytest.approx(float(Fraction(told or "nan")), rel=1e-9)


VOCABULARY = (
    "one two twelve fourteen and a half point oh thou mil psi pounds to plus or minus between no sorry 12 3/4"
    " - , . £ book says limit is of degrees number max it's"
)
WORDS = st.sampled_from(VOCABULARY.split())


@given(st.lists(WORDS, max_size=25))
def test_any_words__give_readings_in_places_that_are_there(words: list[str]) -> None:
    tokens = tokens_of(" ".join(words))
    for reading in readings_in(tokens, numbers_in(tokens)):
        assert 0 <= reading.first < reading.last <= len(tokens)
        assert reading.amounts or reading.limit

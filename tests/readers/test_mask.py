"""What the public does not read in a text, in whatever way it is written.

How numbers are masked, and which names are words too: common practice, no source.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from journal.readers import car_for
from journal.readers.mask import owner_mask, public_mask
from journal.readers.numbers import folded, mask_number
from journal.records.carfile import CarFile
from journal.words.vocabulary import Reader
from tests.writing import WORKSHOP, a_car

NUMBERS = {
    "chassis": {"found": "TD 58/0417"}, "body": {"found": "D 0398"}, "gearbox": {"found": "41"},
    "frame": {"found": "20317"}, "shell": {"found": "SAJ1234X5Y6789012"}, "axle": {"found": "1958"},
}  # fmt: skip
PAPERS = {
    "book": {
        "title": "Book", "registration": "OLD 77",
        "keepers": [
            {"name": "Mr Edwin Lathom", "place": "Staithe Cross"},
            {"name": "Miss Joan Price", "place": "Bath"},
        ],
    }
}  # fmt: skip
OWNER = {
    "name": "Mrs Eleanor Harrow",
    "address": "Pound House, 14 Cooper's Rise, Little Ebbing EB1 2AB",
}


def _car(**more: object) -> CarFile:
    told = {"numbers": NUMBERS, "plate": "SVX 417", "owner": OWNER, "colour": "Price Green", **more}
    return a_car({"hood/frame": {"name": "Hood frame"}}, [], papers=PAPERS, **told)


MASK = public_mask(_car())


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Chassis TD 58/0417 here", "Chassis TD 58/0••• here"),
        ("td58 0417", "td58 0•••"),
        ("td-58-0417", "td-58-0•••"),
        ("T D 5 8 / 0 4 1 7", "T D 5 8 / 0 • • •"),
        ("TD 58/\n0417", "TD 58/\n0•••"),
        ("**TD 58**/_0417_", "**TD 58**/_0•••_"),
        ("`TD` 58&nbsp;/ 0417", "`TD` 58&nbsp;/ 0•••"),
        ("TD<b>58</b>/0417", "TD<b>58</b>/0•••"),
        ("TD 58/0&#52;17", "TD 58/0•••"),
        ("TD 58/0&#x34;17", "TD 58/0•••"),
        ("ＴＤ ５８／０４１７", "TD 58/0•••"),
        ("TD\u200b58/04\u00ad17", "TD58/0•••"),
        ("TD 58/O4I7", "TD 58/O•••"),
        ("TD 58/\N{GREEK CAPITAL LETTER OMICRON}417", "TD 58/O•••"),
        ("TD 58/⓪④①⑦", "TD 58/0•••"),
        ("TD 58/०४१७", "TD 58/0•••"),
        ("xTD58/0417s", "xTD58/0•••s"),
        ("https://x.example/TD%2058/0417", "https://x.example/TD%2058/0•••"),
        ("the plate SVX417, once OLD 77", "the plate SVX•••, once OL• ••"),
    ],
)
def test_number__is_masked_in_any_spelling(text: str, told: str) -> None:
    assert told == MASK(text)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("0417 on the rail", "0••• on the rail"),
        ("the rail says 58/0417", "the rail says 58/0•••"),
        ("**0417**", "**0•••**"),
        ("[TD 58](#)/0417", "[TD 58](#)/0•••"),
        ("it ends in 417", "it ends in •••"),
        ("the last two read 17", "the last two read ••"),
        ("frame 20317", "frame 20•••"),
        ("the shell’s 789012", "the shell’s 789•••"),
        ("gearbox number 41", "gearbox number ••"),
        ("axle stamped 1958", "axle stamped 1•••"),
    ],
)
def test_end_of_a_number__is_masked_where_it_stands_alone(text: str, told: str) -> None:
    assert told == MASK(text)


@pytest.mark.parametrize(
    "text",
    [
        "0.0417 in of play", "2024-04-17 was wet", "at 04:17 we left", "41 bolts", "built in 1958",
        "20,317 miles", "part 10417", "TD 58", "TD 58/04175", "5 m² of 1³",
        "shims 010 015 020 030", "M8 x 1.25, 1417 off",
    ],
)  # fmt: skip
def test_figure__that_is_something_else_stays(text: str) -> None:
    assert text == MASK(text)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Mrs Harrow rang. Then Mrs. Harrow came.", "The owner rang. Then the owner came."),
        ("Harrow's car, the Harrows and HARROW", "The owner's car, the owner and the owner"),
        ("with Mr and Mrs Harrow", "with the owner"),
        ("harrow said so", "The owner said so"),
        ("mrs harrow, eleanor harrow", "The owner, the owner"),
        ("a harrow behind the tractor", "a harrow behind the tractor"),
        ("to ask harrow, with harrow there", "to ask the owner, with the owner there"),
        ("rang tolland and birkett", "rang a colleague and a colleague"),
        ("the old harrow, harrow and plough", "the old harrow, harrow and plough"),
        ("for Eleanor; E. Harrow and EH", "for the owner; the owner and the owner"),
        ("for Mrs H., or E.H. herself", "for the owner, or the owner herself"),
        ("Eleanor\nHarrow", "The owner"),
        ("harrowing", "harrowing"),
        ("JB held it for Margit. M.T. said no", "A colleague held it for a colleague. A colleague said no"),
        ("Tolland’s drum", "A colleague’s drum"),
        ("JB 12 is a bolt", "JB 12 is a bolt"),
        ("from Mr Lathom in 1961", "from an earlier keeper in 1961"),
        ("Joan had it, then Miss Price", "An earlier keeper had it, then an earlier keeper"),
        ("Northgate Gears, or Northgate, are late", "A supplier, or a supplier, are late"),
        ("the Northgate pair", "A supplier pair"),
        ("of northgates, again", "of a supplier, again"),
        ("by @eleanorharrow or Mrs_Harrow", "by the owner or the owner"),
        ("HARROWS", "The owner"),
        ("Ha&shy;rrow or Har\u00adrow", "The owner or the owner"),
        ("Jonah B. and JBs", "A colleague and a colleague"),
        ("H\u0430rrow", "The owner"),
    ],
)  # fmt: skip
def test_person__is_called_by_what_they_are(text: str, told: str) -> None:
    assert told == MASK(text)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Price of paint", "Price of paint"),
        ("the price of it", "the price of it"),
        ("two coats of Price Green", "two coats of Price Green"),
        ("as Price had it", "as an earlier keeper had it"),
        ("Price rang about it", "An earlier keeper rang about it"),
        ("Price's saloon", "An earlier keeper's saloon"),
        ("Bath time", "Bath time"),
        ("sold in Bath", "sold in a place not named"),
    ],
)
def test_name__that_is_a_word_too_is_told_from_the_word(text: str, told: str) -> None:
    assert told == MASK(text)


def test_workshop__goes_by_its_own_name_in_every_text() -> None:
    car = a_car({}, [], workshop={**WORKSHOP, "name": "Tolland and Birkett"})
    told = "A colleague of Tolland and Birkett made it"
    assert told == public_mask(car)("Jonah of Tolland and Birkett made it")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("at Pound House, 14 Cooper’s Rise", "at a place not named, a place not named"),
        ("Cooper's Rise, Little Ebbing", "A place not named, a place not named"),
        ("EB1 2AB", "A place not named"),
        ("at Staithe\nCross", "at a place not named"),
        ("ring 01632 960417", "ring a telephone number"),
        (
            "ring +44 1632 960 417 or (01632) 960-417",
            "ring a telephone number or a telephone number",
        ),
        ("to e.harrow@example.org", "to an e-mail address"),
        ("to harrow (at) example.org", "to an e-mail address"),
        ("[write](mailto:e.harrow@example.org?subject=car)", "[write](#)"),
        ("[ring](tel:+441632960417)", "[ring](#)"),
        ("[site](https://harrow.example/car)", "[site](#)"),
        ("at www.harrow.example, or harrow", "at a web address, or harrow"),
        ("[site](https://tern.example/car)", "[site](https://tern.example/car)"),
    ],
)
def test_way_to_someone__is_not_told(text: str, told: str) -> None:
    assert told == MASK(text)


@pytest.mark.parametrize(
    "money",
    ["£212.00", "£1,200", "£ 40", "€40", "US$40", "40 EUR", "EUR 40", "GBP40.00", "40 quid", "10 guineas",
     "£14 10s 6d", "&pound;30", "£30k", "40£", "40,- €", "40 pounds sterling"],
)  # fmt: skip
def test_money__is_not_told(money: str) -> None:
    assert "It came to a sum of money with all" == MASK(f"It came to {money} with all")


def test_plate__is_shown_where_the_workshop_says_so() -> None:
    car = _car(plate_shown="yes")
    assert "SVX 417, once OL• ••" == public_mask(car)("SVX 417, once OLD 77")
    assert ("SVX 417", True) == (car_for(Reader.PUBLIC, car).car.plate, car.car.plate_shown)
    assert car_for(Reader.PUBLIC, _car()).car.plate is None


# Other cars


def _other() -> CarFile:
    papers = {"book": {"title": "Book", "keepers": [{"name": "Mr Walter Quayle"}]}}
    return replace(
        a_car(
            {}, [], papers=papers, owner={"name": "Mr Daniel Pennock"},
            numbers={"chassis": {"found": "PL4-22816"}}, plate="LAP 64",
        ),
        name="lapwing",
    )  # fmt: skip


@pytest.mark.parametrize("mask", [public_mask(_car(), [_other()]), owner_mask(_car(), [_other()])])
def test_other_cars__numbers_and_people_are_nobodys_here(mask: object) -> None:
    assert callable(mask)
    assert "Another owner's saloon, PL4-22•••" == mask("Pennock's saloon, PL4-22816")
    assert "LA• ••" == mask("LAP 64")
    assert "sold by a keeper of another car" == mask("sold by Walter Quayle")
    # A family of which this archive knows nothing more is no one.
    assert "Quayle is a bird" == mask("Quayle is a bird")


def test_owner__reads_their_own_numbers_and_names() -> None:
    told = "Mrs Harrow read TD 58/0417 to JB on 01632 960417 for £40"
    assert told == owner_mask(_car(), [_other()])(told)


def test_owner__with_two_cars_is_named_in_both() -> None:
    other = replace(_other(), car=_other().car.model_copy(update={"owner": _car().car.owner}))
    assert "Mrs Harrow" == owner_mask(_car(), [other])("Mrs Harrow")


def test_owner__does_not_read_of_a_supplier_that_the_workshop_keeps() -> None:
    mask = owner_mask(_car())
    assert "A supplier is late; Northgate Gears is not" == mask(
        "Quiet Lane Trimmers is late; Northgate Gears is not"
    )


# Laws


_GAPS = st.sampled_from(["", " ", "-", "/", ".", "\n", "**", "_", " - ", "\u00a0", "\u00ad", "'"])


@given(st.data())
def test_number__never_comes_through_whatever_stands_between(data: st.DataObject) -> None:
    number = data.draw(st.sampled_from(["TD580417", "SAJ1234X5Y6789012", "SVX417", "D0398"]))
    written = "".join(c + data.draw(_GAPS) for c in number)
    case = data.draw(st.sampled_from([str.upper, str.lower, str.title]))
    told = MASK(f"It reads {case(written)} on the rail")
    assert folded(number) not in folded(told)


@given(st.text(alphabet="TD58/0417 •*_\n", max_size=40))
def test_mask__has_nothing_left_to_take_out(text: str) -> None:
    assert MASK(text) == MASK(MASK(text))


@given(st.text(max_size=60))
def test_mask__reads_any_text(text: str) -> None:
    MASK(text)
    mask_number(text)

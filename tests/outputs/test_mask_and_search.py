"""What the search of a finished archive would find, the masks have taken out.

The two know a name from the same records and may not differ in how it may stand in a text: where the
search knows of a way that no mask does, an archive is withheld for something that nobody can help. A name
may itself be written with a slip, as anything may.
"""

from functools import cache
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from journal.outputs.leaks import Search, View, squeezed
from journal.outputs.named import named
from journal.readers.mask import Mask, keeper_masks, owner_mask, public_mask
from journal.records.carfile import CarFile
from journal.words.vocabulary import Reader
from tests.writing import WORKSHOP, a_car

PEOPLE = (
    "Miriam Tallow", "Mark Green", "Mr Jo van Dyk", "Anne-Marie Smith-Jones", "R. Ansdale", "D'Arcy O'Brien",
    "Miss Bill Lee", "Dr. Se\u00e1n Okonkwo", "eleanor harrow",
)  # fmt: skip
SUPPLIERS = (
    "Stanbeck Radiators", "Northgate", "Osier Street Wheelworks", "Castle & Sons", "A.B. Platers",
    "St. Mary's Trim", "Gantry-Lane Blasting", "Tidewell Looms Ltd", "Paint (Ebbing)",
    "cores, tanks, pressure tests",
)  # fmt: skip
PLACES = (
    "Staithe Cross", "Pound House, Little Ebbing", "14 Cooper's Rise, Stennet EB1 2AB", "Bath", "Ebbing",
)  # fmt: skip
BETWEEN = (
    " ", ", ", ". ", "-", "_", "+", "\n", "", "'s ", " and ", ".", "/", " & ", "**", "* ", "\u00a0", " (",
    "@", "&nbsp;",
)  # fmt: skip
OTHER_WORDS = (
    "the",
    "radiator",
    "said",
    "rang",
    "Mrs",
    "of",
    "Chassis",
    "cores",
    "green paint",
    "House",
)


@st.composite
def slips(draw: st.DrawFn, names: tuple[str, ...]) -> str:
    """A name as written, or with one letter missing, doubled or in the other case."""
    name = draw(st.sampled_from(names))
    at = draw(st.integers(0, len(name) - 1))
    ways = (name, name[:at] + name[at + 1 :], name[:at] + name[at] + name[at:],
            name[:at] + name[at].swapcase() + name[at + 1 :])  # fmt: skip
    return draw(st.sampled_from((name, *ways))).strip(" ,&.") or name


@st.composite
def texts(draw: st.DrawFn, names: tuple[str, ...]) -> str:
    """Names, whole and in parts, in any case, with anything between."""
    words = tuple(word for name in names for word in name.split())
    out = ""
    for _ in range(draw(st.integers(1, 6))):
        piece = draw(st.sampled_from((*names, *names, *words, *OTHER_WORDS)))
        joined = draw(st.sampled_from((" ", " ", *BETWEEN))).join(piece.split())
        case = draw(st.sampled_from((str, str, str.upper, str.lower)))
        out += case(joined) + draw(st.sampled_from(BETWEEN))
    return out


@cache
def _known(owner: str, hand: str, keeper: str, supplier: str, kept: str, place: str) -> Any:
    """For each reader the mask, and the search of what the mask should take out."""
    key = supplier.split()[0].casefold()
    suppliers = {key: {"name": supplier}, f"{key}-2": {"name": kept, "shown": "no"}}
    paper = {"title": "Book", "keepers": [{"name": keeper, "place": place}]}
    car = a_car(
        {"cooling/radiator": {"name": "Radiator"}}, owner={"name": owner, "address": place},
        papers={"book": paper}, workshop={**WORKSHOP, "hands": {"MT": hand}, "suppliers": suppliers},
    )  # fmt: skip
    other = replace(
        a_car({}, owner={"name": "Mr Daniel Pennock"}, papers={"book": paper}), name="lapwing"
    )
    masks = (
        (Reader.OWNER, owner_mask(car, (other,))),
        (Reader.KEEPER, keeper_masks(car, (other,))[0]),
        (Reader.PUBLIC, public_mask(car, (other,))),
    )
    return tuple((mask, _search(car, other, reader)) for reader, mask in masks)


def _search(car: CarFile, other: CarFile, reader: Reader) -> Search:
    return Search(named(car, car, (other,), reader))


@settings(max_examples=150)
@given(st.data())
def test_search__finds_nothing_that_a_mask_has_been_over(data: st.DataObject) -> None:
    people = [data.draw(slips(PEOPLE)) for _ in range(3)]
    firms = [data.draw(slips(SUPPLIERS)) for _ in range(2)]
    place = data.draw(slips(PLACES))
    text = data.draw(texts((*people, *firms, place, "Daniel Pennock")))
    for mask, search in _known(*people, *firms, place):
        told = _told(mask, text)
        assert () == search.found([View(squeezed(told), told.__str__)]), told


def _told(mask: Mask, text: str) -> str:
    """As a page would have it: emphasis is no part of what is read."""
    return mask(text).replace("**", "").replace("&nbsp;", "\u00a0")

"""Photographs ready to print: what is said of them, and the shape they are drawn in."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.pages.links import Links
from journal.pages.plates import RATIOS, plate_at, ratio_of
from journal.pages.view import view_of
from journal.words.vocabulary import Reader
from tests.pages.picturing import published
from tests.writing import a_car, a_sheet

PATH = "2024-03-05/IMG_2043.jpg"


def _alt(**photo: Any) -> tuple[str, str]:
    """What is said of a photograph to who cannot see it, and its caption."""
    sheet = a_sheet("2024-03-05", photos={"file": "IMG_2043.jpg", **photo})
    car = a_car({"brakes/pipes": "first-fit", "brakes/hoses": "first-fit"}, [sheet], photos=[PATH])
    view = view_of(car, Reader.OWNER, pictures={PATH: published()})
    plate = plate_at(view, Links(view, "index.html"), PATH)
    assert plate is not None
    return plate.alt, plate.caption


@pytest.mark.parametrize(
    ("photo", "alt", "caption"),
    [
        (
            {"alt": "Nine pipes on a bench", "caption": "All nine"},
            "Nine pipes on a bench",
            "All nine",
        ),
        ({"caption": "All nine"}, "All nine", "All nine"),
        ({"of": ["brakes/pipes", "brakes/hoses"]}, "Pipes and Hoses", ""),
        ({"of": "brakes/pipes", "stage": "as-found"}, "Pipes, as found", ""),
        ({}, "Photograph of 5 March 2024", ""),
        # The name of a file says nothing, whichever key it stands in.
        ({"alt": "IMG_2043.jpg", "caption": "All nine"}, "All nine", "All nine"),
        ({"alt": "img_2043", "caption": "IMG_2043"}, "Photograph of 5 March 2024", ""),
        ({"caption": "IMG_2043.jpg", "of": "brakes/pipes"}, "Pipes", ""),
        ({"caption": "DSC 0001.HEIC"}, "Photograph of 5 March 2024", ""),
    ],
)
def test_alt__never_is_the_name_of_a_file(photo: dict[str, Any], alt: str, caption: str) -> None:
    assert (alt, caption) == _alt(**photo)


@pytest.mark.parametrize(
    ("size", "ratio"),
    [
        ((4032, 3024), "r4x3"), ((3024, 4032), "r3x4"), ((1400, 933), "r3x2"), ((933, 1400), "r2x3"),
        ((1000, 1000), "r1x1"), ((1920, 1080), "r16x9"), ((1400, 630), "r2x1"), ((9000, 1000), "r3x1"),
        ((100, 4000), "r1x2"),
    ],
)  # fmt: skip
def test_ratio__is_the_nearest_common_one(size: tuple[int, int], ratio: str) -> None:
    assert ratio == ratio_of(*size)


@given(st.sampled_from(RATIOS), st.integers(1, 900))
def test_ratio__of_a_common_one_is_itself(ratio: tuple[int, int], times: int) -> None:
    assert f"r{ratio[0]}x{ratio[1]}" == ratio_of(ratio[0] * times, ratio[1] * times)

"""Before and after: which two pictures are shown as a pair, and where."""

from typing import Any

import pytest

from journal.pages.links import Links
from journal.pages.pairs import before_and_after, pairs_under
from journal.pages.view import CarView, view_of
from journal.words.vocabulary import Reader
from tests.pages.picturing import published
from tests.pages.test_pages import text_of
from tests.writing import a_car, a_sheet

SEAT, SQUAB, PIPES = "trim/seat", "trim/squab", "brakes/pipes"


def _view(*told: tuple[str, Any], sizes: dict[str, tuple[int, int]] | None = None) -> CarView:
    """One sheet a photograph, from 5 March on: the stage of each, and what it shows."""
    sheets, photos = [], []
    for n, (stage, of) in enumerate(told):
        day, file = f"2024-03-{5 + n:02}", f"{n + 1}.jpg"
        sheets.append(
            a_sheet(day, subsystem="trim", photos={"file": file, "of": of, "stage": stage})
        )
        photos.append(f"{day}/{file}")
    car = a_car(dict.fromkeys([SEAT, SQUAB, PIPES], "first-fit"), sheets, photos=photos)
    shown = {
        path: published(str(n), *(sizes or {}).get(str(n), (800, 533)))
        for n, path in enumerate(photos, 1)
    }
    return view_of(car, Reader.OWNER, pictures=shown)


def _numbers(view: CarView, key: str = SEAT) -> tuple[int, int] | None:
    pair = before_and_after(view, Links(view, "index.html"), key)
    return (pair.before.number, pair.after.number) if pair else None


@pytest.mark.parametrize(
    ("told", "numbers"),
    [
        (
            [("as-found", SEAT), ("as-found", SEAT), ("as-finished", SEAT), ("as-finished", SEAT)],
            (1, 4),
        ),
        # A picture as found is the best beginning, whenever it was told of.
        ([("during", SEAT), ("stripped", SEAT), ("as-found", SEAT), ("as-finished", SEAT)], (3, 4)),
        ([("during", SEAT), ("stripped", SEAT), ("as-finished", SEAT)], (2, 3)),
        ([("during", SEAT), ("as-finished", SEAT)], (1, 2)),
        ([("evidence", SEAT), ("as-finished", SEAT)], None),
        ([("as-found", SEAT), ("during", SEAT)], None),
        ([("as-found", SEAT), ("as-finished", SQUAB)], None),
        ([], None),
    ],
)
def test_pair__is_of_the_first_and_the_last_that_compare(
    told: list[tuple[str, str]], numbers: tuple[int, int] | None
) -> None:
    assert numbers == _numbers(_view(*told))


def test_pair__is_not_of_a_picture_that_is_not_shown() -> None:
    view = _view(("as-found", SEAT), ("as-finished", SEAT))
    hidden = view_of(view.car, Reader.OWNER, pictures=dict(list(view.pictures.items())[:1]))
    assert _numbers(hidden) is None


@pytest.mark.parametrize(
    ("sizes", "narrow"),
    [
        ({}, False),
        ({"1": (600, 900), "2": (600, 900)}, True),
        ({"1": (600, 900)}, False),
        ({"1": (800, 800), "2": (800, 800)}, False),
    ],
)
def test_pair__is_narrow_when_both_stand_upright(
    sizes: dict[str, tuple[int, int]], narrow: bool
) -> None:
    view = _view(("as-found", SEAT), ("as-finished", SEAT), sizes=sizes)
    pair = before_and_after(view, Links(view, "index.html"), SEAT)
    assert pair is not None
    assert narrow is pair.narrow


def test_subsystem__shows_two_pictures_that_serve_for_several_components_once() -> None:
    both = [SEAT, SQUAB]
    view = _view(("as-found", both), ("as-finished", both))
    (pair,) = pairs_under(view, Links(view, "subsystems/trim.html"), "trim")
    assert ("Seat", 1, 2) == (pair.ref.text, pair.before.number, pair.after.number)


def test_subsystem__shows_no_pair_that_hangs_under_another() -> None:
    both = [SEAT, PIPES]
    view = _view(("as-found", both), ("as-finished", both))
    assert 1 == len(pairs_under(view, Links(view, "subsystems/trim.html"), "trim"))
    assert () == pairs_under(view, Links(view, "subsystems/brakes.html"), "brakes")


def test_page__tells_the_script_what_it_needs_and_is_plain_without_it() -> None:
    view = _view(("as-found", SEAT), ("as-finished", SEAT))
    for path in ("components/trim/seat.html", "subsystems/trim.html"):
        shown = text_of(view, path)
        assert (
            '<div class="pair" data-label="Move the line: as found on its left, as finished on its right"'
            ' data-of="Seat" data-first="as found">'
        ) in shown, path
        pair = shown[shown.index('<div class="pair"') :]
        assert 2 == pair[: pair.index("</div>")].count("<figure")
        assert '<script src="../' in shown
        assert 'pictures.js" defer blocking="render"></script>' in shown
        assert "<input" not in pair[: pair.index("</div>")]


def test_page__without_a_pair_asks_for_no_script() -> None:
    assert "<script" not in text_of(_view(("as-found", SEAT)), "components/trim/seat.html")

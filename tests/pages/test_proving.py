"""The pages of proving and of snags, for each reader."""

from html import unescape
from typing import Any

import html5lib
import pytest

from journal.outputs.theme import environment, theme_folder
from journal.pages.links import Links
from journal.pages.proving import page_proving
from journal.pages.provingwords import proving_holds
from journal.pages.sheet import page_sheet
from journal.pages.snags import page_snags
from journal.pages.standing import standing_sentences
from journal.pages.view import CarView, view_of
from journal.readers import car_for
from journal.records.carfile import CarFile
from journal.words.cautions import CAUTIONS
from journal.words.proving import PROVING
from journal.words.vocabulary import Reader
from tests.writing import a_car, a_sheet

TEMPLATES = environment(theme_folder())
REGISTER = {"brakes/pipes": "first-fit"}


def _view(car: CarFile, reader: Reader = Reader.WORKSHOP) -> CarView:
    return view_of(car_for(reader, car), reader, pictures={})


def _shown(make: Any, car: CarFile, reader: Reader = Reader.WORKSHOP) -> str:
    page = make(_view(car, reader))[0]
    printed = TEMPLATES.get_template(page.template).render(page.values)
    html5lib.HTMLParser(strict=True).parse(printed)
    return unescape(printed)


def _busy() -> CarFile:
    """Brakes with a proof of every kind but one that is told in part."""
    hands = {"by": "MT", "checked": "JB"}
    first = a_sheet(
        "2024-03-05", name="proved", title="Pedal propped",
        proving={
            "no-weep": {"found": "dry at all unions", **hands, "note": "paper round each"},
            "parking-brake": {"found": "crept back", "passed": "no", **hands},
        },
        work={"brakes/pipes": {"did": "fitted", **hands, "locking": {"by": "split-pin", "new": "yes"}}},
    )  # fmt: skip
    second = a_sheet(
        "2024-03-06", name="again", title="Cable shortened",
        proving={"parking-brake": {"found": "holds nose up and down", **hands}},
    )  # fmt: skip
    return a_car(REGISTER, [first, second])


def test_page__tells_what_was_proved_by_whom_and_what_is_missing() -> None:
    shown = _shown(page_proving, _busy())
    assert "Two of eight proofs stand; six stop the handover." in shown
    assert "Dry at all unions" in shown
    assert "by Margit Tolland; checked by Jonah Birkett" in shown
    assert 6 == shown.count('<p class="hold">Not recorded</p>')
    assert "Before that" in shown
    assert "Failed: Crept back" in shown


def test_page__lists_every_proof_of_the_list() -> None:
    shown = _shown(page_proving, _busy())
    assert all(proof.label in shown for proof in PROVING["brakes"])


@pytest.mark.parametrize("reader", list(Reader))
def test_page__shows_the_cautions_and_certifies_nothing(reader: Reader) -> None:
    shown = _shown(page_proving, _busy(), reader)
    assert CAUTIONS["brakes"] in shown
    assert "certifies nothing" in shown


def test_page_for_the_public__says_that_it_was_proved_and_names_no_hand() -> None:
    shown = _shown(page_proving, _busy(), Reader.PUBLIC)
    assert "Dry at all unions" in shown
    assert "5 March 2024" in shown
    for word in ("Tolland", "Birkett", "paper round each", "How whole the record is"):
        assert word not in shown


def test_page__tells_work_that_came_after_a_proof() -> None:
    car = _busy()
    later = a_sheet("2024-03-09", name="off", title="Off again", work={"brakes/pipes": "removed"})
    shown = _shown(page_proving, a_car(REGISTER, [*car.sheets, later]))
    assert "Out of date: " in shown
    assert "None of eight proofs stand; eight stop the handover." in shown


def test_page__tells_how_whole_the_record_is() -> None:
    car = _busy()
    shown = _shown(page_proving, car)
    assert "One act on components on which safety hangs is written down; one told in full." in shown
    bare = a_sheet("2024-03-08", name="bare", work={"brakes/pipes": "adjusted"})
    shown = _shown(page_proving, a_car(REGISTER, [*car.sheets, bare]))
    assert (
        "Two acts on components on which safety hangs are written down; one told in full, one not."
        in shown
    )
    assert "by whom and checked by whom" in shown


def test_page_without_anything_to_prove__says_what_would_stand_there() -> None:
    assert "would stand here" in _shown(page_proving, a_car({}))


def test_holds__are_one_line_a_subsystem_that_leads_to_its_list() -> None:
    view = _view(_busy())
    (hold,) = proving_holds(view, Links(view, "sheets/a.html"))
    assert "Brakes: six proofs not recorded" == hold.text
    assert "../proving.html#proving-brakes" == hold.ref.href


def test_holds__name_what_failed() -> None:
    view = _view(a_car(REGISTER, [_busy().sheets[0]]))
    (hold,) = proving_holds(view, Links(view, "index.html"))
    assert "Brakes: one proof failed, six not recorded" == hold.text
    assert "failed: Parking brake holds on a slope, nose up and nose down" == hold.note


def test_standing__does_not_say_that_nothing_holds_while_proofs_are_wanting() -> None:
    assert "Six proofs are wanting before the handover." in standing_sentences(_view(_busy()))


def test_snags_page__lists_wanting_proofs_and_what_is_only_tried_in_place() -> None:
    tried = a_sheet("2024-03-08", name="tried", work={"trim/seat": "trial-fitted"})
    car = a_car({**REGISTER, "trim/seat": "first-fit"}, [*_busy().sheets, tried])
    shown = _shown(page_snags, car)
    assert "Proofs that are wanting" in shown
    assert "Tried in place, to be fitted: Seat" in shown
    assert "Nothing holds the handover" not in shown


def test_sheet_page__tells_the_proofs_of_the_day_and_how_things_were_locked() -> None:
    shown = _shown(page_sheet, _busy())
    assert "No weep at any union" in shown
    assert "Crept back" in shown
    assert "new split pin" in shown

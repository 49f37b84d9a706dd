"""A sheet that is not written yet, as the page that it would be."""

from collections.abc import Mapping

from msgspec.structs import replace

from journal.desk.asking import API
from journal.desk.saving import facts_of
from journal.desk.shelf import Shelf
from journal.desk.state import CarState
from journal.desk.tray import Laid
from journal.outputs.sheets.checked import with_sheet
from journal.pages import page_at
from journal.pages.links import sheet_path
from journal.pages.view import view_of
from journal.pictures.published import Published, Rendition
from journal.records.sheet import Sheet
from journal.words.vocabulary import Reader


def preview(shelf: Shelf, state: CarState, sheet: Sheet, laid: Mapping[str, Laid]) -> str:
    """What stands within the page of a sheet; its links start from where the page would lie.

    `laid` are pictures in the tray by the path at which they would lie among the photographs.
    """
    shown = {path: _published(one) for path, one in laid.items()}
    view = view_of(
        replace(
            with_sheet(state.view.car, sheet, whole=True),
            photo_files=state.view.car.photo_files | shown.keys(),
            photo_facts={**state.view.car.photo_facts, **{p: s.facts for p, s in shown.items()}},
        ),
        Reader.WORKSHOP, base=state.view.base, pictures={**state.view.pictures, **shown},
        scans=state.view.scans, seals=state.view.seals,
    )  # fmt: skip
    page = page_at(view, sheet_path(sheet.name))
    assert page is not None, "every sheet has its page"
    return shelf.main_of(page)


def _published(laid: Laid) -> Published:
    """A picture that lies in the tray, as if it were published: in its one small size."""
    small = Rendition(f"..{API}/pictures/{laid.id}", laid.width, laid.height)
    return Published((small,), small, facts_of(laid))

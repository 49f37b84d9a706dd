"""Parts and where they came from, and the work that other trades did."""

from journal.pages.dossier.book import Book, Section
from journal.pages.outwork import lot_row, outwork_lead
from journal.pages.parts import goods_in_words, part_groups, parts_lead


def parts(book: Book) -> Section:
    """Every part that the reader may see, by where it is now; every lot of outwork."""
    view, places = book.view, book.places
    groups = part_groups(view, places)
    lots = tuple(lot_row(view, places, lot) for lot in view.outwork.batches)
    return Section(
        "parts",
        "Parts and sources",
        {
            "lead": parts_lead(view),
            "goods_in": goods_in_words(view),
            "groups": groups,
            "outwork_lead": outwork_lead(view),
            "lots": lots,
            "lots_cost": any(lot.cost for lot in lots),
        },
    )

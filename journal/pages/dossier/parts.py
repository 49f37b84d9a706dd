"""Parts and where they came from, and the work that other trades did."""

from msgspec.structs import replace

from journal.pages.dossier.book import Book, Section
from journal.pages.outwork import lot_row, outwork_lead
from journal.pages.parts import goods_in_words, part_groups, parts_lead
from journal.pages.placing import PRINTED

# What is on the car goes first; what is printed is away from the workshop, where no "here" is.
ORDER = ("On the car", *(heading for heading in PRINTED if heading != "On the car"))
HEADINGS = {"Here, not fitted yet": "Arrived and not fitted"}


def parts(book: Book) -> Section:
    """Every part that the reader may see, by where it is now; every lot of outwork."""
    view, places = book.view, book.places
    found = {group.heading: group for group in part_groups(view, places)}
    groups = tuple(
        replace(found[heading], heading=HEADINGS.get(heading, heading))
        for heading in ORDER
        if heading in found
    )
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

"""All subsystems: how far each has come, and which have nothing written yet."""

from fractions import Fraction

from journal.pages.branch import branch_sentences
from journal.pages.charts import Gauge, gauge
from journal.pages.common import frame
from journal.pages.links import Links, Ref, subsystem_names
from journal.pages.page import Page
from journal.pages.plates import Plate, plates_of
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import percent_words

PATH = "subsystems/index.html"


class SubsystemRow(Value, frozen=True):
    """One subsystem in the list; `conforms` is empty when no component of it is registered."""

    ref: Ref
    sentences: tuple[str, ...]
    picture: Plate | None
    conforms: str
    gauge: Gauge | None


def page_subsystems(view: CarView) -> tuple[Page, ...]:
    """The index of subsystems."""
    links = Links(view, PATH)
    names = subsystem_names(view)
    quiet = [n for n in view.car.workshop.all_subsystems() if n not in names]
    values = {
        **frame(links, "Subsystems"),
        "rows": tuple(_row(view, links, name) for name in names),
        "quiet": tuple(links.subsystem(name).text for name in quiet),
    }
    return (Page(view.base + PATH, "subsystems.html", values),)


def _row(view: CarView, links: Links, name: str) -> SubsystemRow:
    pictures = [p for p in view.gallery.pictures if p.subsystem == name]
    plates = plates_of(view, links, pictures)
    summary = dict(view.originality.subsystems).get(name)
    counted = summary is not None and summary.weight > Fraction(0)
    share = summary.now.conformity if summary is not None and counted else None
    return SubsystemRow(
        links.subsystem(name),
        branch_sentences(view, name),
        plates[-1] if plates else None,
        percent_words(share) if share else "",
        gauge(share) if share else None,
    )

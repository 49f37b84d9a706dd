"""The feed: the latest sheets for a news reader, as Atom (RFC 4287).

With an address the links are whole; without one they start from where the feed lies.
"""

import re
from datetime import date
from urllib.parse import quote
from uuid import UUID, uuid5
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from markupsafe import Markup

from journal.pages.common import ARCHIVE_OF, FEED, car_title, cautions_for
from journal.pages.links import Links, sheet_path
from journal.pages.page import TextFile
from journal.pages.plates import Plate, plates_of
from journal.pages.prose import Prose, excerpt
from journal.pages.view import CarView
from journal.pages.words import day_words, sentence
from journal.records.sheet import Sheet
from journal.words.text import listed

LATEST = 50

# All that an XML 1.0 document cannot hold (section 2.2 of the recommendation has what it can).
_NO_XML = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
# Ids are UUIDs of version 5 (RFC 9562) under this one, which stands for nothing else.
_NAMESPACE = UUID("14e1c47c-1649-43db-868b-6863e7973c97")


def file_feed(view: CarView) -> tuple[TextFile, ...]:
    """The feed of one car, with its latest sheets, the newest first."""
    address = view.car.car.address.of(view.reader)
    links = Links(view, FEED)
    links.home = address or ""
    latest = view.car.sheets[-LATEST:][::-1]
    days = {sheet.name: _updated(view, sheet) for sheet in latest}
    feed = _head(view, links.home, max(days.values(), default=view.until))
    if address:
        _link(feed, "self", address + FEED, "application/atom+xml")
    for sheet in latest:
        feed.append(_entry(view, links, sheet, days[sheet.name]))
    text = '<?xml version="1.0" encoding="utf-8"?>\n' + _written(feed) + "\n"
    return (TextFile(view.base + FEED, text),)


def _written(feed: Element) -> str:
    indent(feed, " ")
    for element in feed.iter():
        element.text = _NO_XML.sub("", element.text or "")
        element.attrib = {name: _NO_XML.sub("", text) for name, text in element.attrib.items()}
    return tostring(feed, encoding="unicode")


def _head(view: CarView, home: str, updated: date) -> Element:
    feed = Element("feed", {"xmlns": "http://www.w3.org/2005/Atom", "xml:lang": "en-GB"})
    workshop = view.car.workshop.name
    SubElement(feed, "id").text = _identity(view, "")
    SubElement(feed, "title").text = car_title(view.car.car)
    SubElement(feed, "subtitle").text = f"{ARCHIVE_OF[view.reader]}, kept by {workshop}"
    SubElement(feed, "updated").text = _instant(updated)
    SubElement(SubElement(feed, "author"), "name").text = workshop
    _link(feed, "alternate", home + "index.html", "text/html")
    return feed


def _link(holder: Element, rel: str, href: str, kind: str) -> None:
    SubElement(holder, "link", {"rel": rel, "type": kind, "href": href})


def _entry(view: CarView, links: Links, sheet: Sheet, updated: date) -> Element:
    entry = Element("entry")
    SubElement(entry, "id").text = _identity(view, sheet.name)
    SubElement(entry, "title").text = sheet.title
    SubElement(entry, "updated").text = _instant(updated)
    SubElement(entry, "published").text = _instant(sheet.date)
    _link(entry, "alternate", links.home + quote(sheet_path(sheet.name)), "text/html")
    branches = [links.subsystem(name).text for name in sheet.front.subsystem]
    for name, label in zip(sheet.front.subsystem, branches, strict=True):
        SubElement(entry, "category", {"term": name, "label": label})
    SubElement(entry, "summary").text = excerpt(sheet.body) or sentence(listed(branches))
    SubElement(entry, "content", {"type": "html"}).text = _content(view, links, sheet)
    return entry


def _content(view: CarView, links: Links, sheet: Sheet) -> str:
    """The sheet as its page prints it for this reader: first picture, text, cautions."""
    prose = Prose(view, links, sheet.date)
    passages = prose.passages(sheet.body)
    plates = plates_of(view, links, view.gallery.in_sheet(sheet.name))
    parts = [_correction(later) for later in view.corrections.get(sheet.name, ())]
    parts += [_picture(plate) for plate in plates[:1] if plate.number not in prose.shown]
    for passage in passages:
        parts += [Markup("<p><i>{}</i></p>").format(passage.label)] if passage.label else []
        parts.append(passage.html)
    worked = (key.split("/")[0] for key, _ in sheet.front.work)
    touched = tuple(dict.fromkeys((*sheet.front.subsystem, *worked)))
    parts += [Markup("<p><b>Caution.</b> {}</p>").format(c) for c in cautions_for(view, touched)]
    return Markup("\n").join(parts)


def _picture(plate: Plate) -> Markup:
    shown = Markup('<p><img src="{}" width="{}" height="{}" alt="{}"></p>').format(
        plate.src, plate.width, plate.height, plate.alt
    )
    said = Markup("\n<p><i>{}</i></p>").format(plate.caption) if plate.caption else Markup()
    return shown + said


def _correction(later: Sheet) -> Markup:
    told = "<p><i>Corrected by the sheet of {}, {}.</i></p>"
    return Markup(told).format(day_words(later.date), later.title)


def _updated(view: CarView, sheet: Sheet) -> date:
    """The day a sheet was last told of: its own, or that of a later correction."""
    later = view.corrections.get(sheet.name, ())
    return max((sheet.date, *(correcting.date for correcting in later)))


def _instant(day: date) -> str:
    """A day as RFC 3339 has it, at its first moment."""
    return f"{day.isoformat()}T00:00:00Z"


def _identity(view: CarView, sheet: str) -> str:
    """An id that stays the same wherever the archive is put, and whatever a sheet is altered to.

    It is the reader's own: what the owner reads of a day is not what the public reads of it.
    """
    return uuid5(_NAMESPACE, f"{view.reader.value}/{view.car.name}/{sheet}").urn

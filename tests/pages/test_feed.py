"""The feed. Outside checks: feedparser reads it; the required elements of RFC 4287, sections 4.1.1 and
4.1.2; the date form of RFC 3339; UUIDs of version 5 as the standard library makes them."""

import re
import uuid
from datetime import datetime
from typing import Any
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

import feedparser
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from journal.pages import FILES
from journal.pages.feed import LATEST, file_feed
from journal.pages.view import CarView, view_of
from journal.readers import car_for
from journal.records.carfile import CarFile
from journal.records.sheet import Block
from journal.words.vocabulary import Reader
from tests.published import archive_for
from tests.writing import a_car, a_sheet

_A = "{http://www.w3.org/2005/Atom}"
NAMESPACE = uuid.UUID("14e1c47c-1649-43db-868b-6863e7973c97")
ADDRESS = "https://archive.example/tern/"
HOSTILE = '</title><script>alert("x")</script> & \x00\x1b]]> <![CDATA[\ufffe'


def a_view(car: CarFile, reader: Reader = Reader.OWNER, *, base: str = "") -> CarView:
    return view_of(car_for(reader, car), reader, base=base, pictures={})


def text_of(car: CarFile, reader: Reader = Reader.OWNER) -> str:
    (file,) = file_feed(a_view(car, reader))
    return file.text


def feed_of(car: CarFile, reader: Reader = Reader.OWNER) -> Element:
    return ElementTree.fromstring(text_of(car, reader).encode())


def said(element: Element, name: str) -> list[str]:
    """The texts of the children of a name."""
    return [child.text or "" for child in element.findall(_A + name)]


def links(element: Element) -> dict[str, str]:
    return {e.attrib["rel"]: e.attrib["href"] for e in element.findall(f"{_A}link")}


def _published(reader: Reader) -> list[bytes]:
    found = sorted(archive_for(reader).rglob("feed.xml"))
    assert len(found) == (2 if reader is Reader.WORKSHOP else 1)
    return [file.read_bytes() for file in found]


def test_table__names_the_files_that_are_no_pages() -> None:
    assert "file_feed" in [files.__name__ for files in FILES]


@pytest.mark.parametrize("reader", list(Reader))
def test_feed__is_read_by_another_program_without_complaint(reader: Reader) -> None:
    for feed in _published(reader):
        read = feedparser.parse(feed)
        assert (False, "atom10") == (bool(read.bozo), read.version)
        assert len(read.entries) == len(ElementTree.fromstring(feed).findall(f"{_A}entry")) > 0
        assert all(entry.title and entry.content[0].value for entry in read.entries)
        assert "Saltmarsh Lane Workshop" == read.feed.author


@pytest.mark.parametrize("reader", list(Reader))
def test_feed__has_what_the_standard_requires(reader: Reader) -> None:
    for feed in map(ElementTree.fromstring, _published(reader)):
        entries = feed.findall(f"{_A}entry")
        for holder in (feed, *entries):
            counts = {name: len(said(holder, name)) for name in ("id", "title", "updated")}
            assert {"id": 1, "title": 1, "updated": 1} == counts
            for day in said(holder, "updated") + said(holder, "published"):
                assert re.fullmatch(r"\d{4}-\d\d-\d\dT00:00:00Z", day)
                datetime.fromisoformat(day)
            kinds = [(e.attrib["rel"], e.attrib["type"]) for e in holder.findall(f"{_A}link")]
            assert [("alternate", "text/html")] == kinds
        (author,) = feed.findall(f"{_A}author")
        assert ["Saltmarsh Lane Workshop"] == said(author, "name")
        assert all(len(e.findall(f"{_A}content")) == len(said(e, "summary")) == 1 for e in entries)
        ids = [said(holder, "id")[0] for holder in (feed, *entries)]
        assert len(ids) == len(set(ids))
        assert {5} == {uuid.UUID(name.removeprefix("urn:uuid:")).version for name in ids}
        assert max(said(e, "updated")[0] for e in entries) == said(feed, "updated")[0]


def test_feed__tells_the_latest_sheets_newest_first() -> None:
    days = [f"2024-{month:02d}-{day:02d}" for month in (1, 2) for day in range(1, 29)]
    feed = feed_of(a_car({}, [a_sheet(day) for day in days]))
    told = [said(entry, "published")[0][:10] for entry in feed.findall(f"{_A}entry")]
    assert LATEST == 50
    assert days[::-1][:50] == told


def test_feed__of_no_sheets_is_whole_too() -> None:
    feed = feed_of(a_car({}))
    assert ["2023-09-11T00:00:00Z"] == said(feed, "updated")
    assert [] == feed.findall(f"{_A}entry")
    assert not feedparser.parse(text_of(a_car({}))).bozo


# Ids


def _ids(car: CarFile, reader: Reader = Reader.OWNER) -> list[str]:
    feed = feed_of(car, reader)
    return [said(holder, "id")[0] for holder in (feed, *feed.findall(f"{_A}entry"))]


def test_id__comes_from_reader_car_and_sheet() -> None:
    car = a_car({}, [a_sheet("2024-03-05", name="pipes")])
    names = ["owner/tern/", "owner/tern/2024-03-05-pipes"]
    assert [f"urn:uuid:{uuid.uuid5(NAMESPACE, name)}" for name in names] == _ids(car)


def test_id__stays_when_address_title_and_text_change() -> None:
    first = a_car({}, [a_sheet("2024-03-05", name="pipes", title="Pipes", body="Nine.")])
    later = a_car(
        {}, [a_sheet("2024-03-05", name="pipes", title="Pipes off", body="Ten.")], address=ADDRESS
    )
    assert _ids(first) == _ids(later)


def test_id__is_another_for_every_reader() -> None:
    car = a_car({}, [a_sheet("2024-03-05")])
    ids = {name for reader in Reader for name in _ids(car, reader)}
    assert 2 * len(Reader) == len(ids)


# Days


def test_updated__is_the_day_of_a_later_correction() -> None:
    first = a_sheet("2024-03-05", name="pipes", title="Nine pipes")
    wrong = {"sheet": first.name, "what": "ten"}
    feed = feed_of(a_car({}, [first, a_sheet("2024-03-09", title="Ten pipes", corrects=wrong)]))
    later, entry = feed.findall(f"{_A}entry")
    assert ["2024-03-09T00:00:00Z"] == said(entry, "updated")
    assert ["2024-03-05T00:00:00Z"] == said(entry, "published")
    assert ["2024-03-09T00:00:00Z"] == said(later, "updated") == said(feed, "updated")
    told = "<p><i>Corrected by the sheet of 9 March 2024, Ten pipes.</i></p>"
    assert told in said(entry, "content")[0]


# Links


def _linked(**car: Any) -> CarFile:
    first = a_sheet("2024-03-04", name="one")
    second = a_sheet("2024-03-05", name="two #2", body="See [the day before](2024-03-04-one).")
    return a_car({}, [first, second], **car)


def test_links__are_whole_when_the_address_is_told() -> None:
    feed = feed_of(_linked(address=ADDRESS))
    assert {"self": ADDRESS + "feed.xml", "alternate": ADDRESS + "index.html"} == links(feed)
    entry = feed.findall(f"{_A}entry")[0]
    assert {"alternate": f"{ADDRESS}sheets/2024-03-05-two-2--7cdbc3485259.html"} == links(entry)
    assert f'<a href="{ADDRESS}sheets/2024-03-04-one.html">' in said(entry, "content")[0]


def test_links__start_where_the_feed_lies_without_an_address() -> None:
    feed = feed_of(_linked())
    assert {"alternate": "index.html"} == links(feed)
    entry = feed.findall(f"{_A}entry")[0]
    assert {"alternate": "sheets/2024-03-05-two-2--7cdbc3485259.html"} == links(entry)
    assert '<a href="sheets/2024-03-04-one.html">' in said(entry, "content")[0]


def test_links__are_never_those_of_another_readers_archive() -> None:
    text = text_of(_linked(address=ADDRESS), Reader.PUBLIC)
    assert "archive.example" not in text


def test_feed__lies_in_the_folder_of_its_car() -> None:
    (file,) = file_feed(a_view(a_car({}), Reader.WORKSHOP, base="tern/"))
    assert "tern/feed.xml" == file.path


# Words


def test_title__that_is_hostile_stays_text() -> None:
    car = a_car({}, [a_sheet("2024-03-05", title=HOSTILE)])
    (entry,) = feed_of(car).findall(f"{_A}entry")
    assert ['</title><script>alert("x")</script> & ]]> <![CDATA['] == said(entry, "title")
    read = feedparser.parse(text_of(car))
    assert not read.bozo
    assert "text/plain" == read.entries[0].title_detail.type


@given(st.text())
def test_any_text__leaves_a_document_that_can_be_read(text: str) -> None:
    """Source: XML 1.0, production 2: Char; line ends are read as section 2.11 has it."""
    sheet = replace(
        a_sheet("2024-03-05", title="x"), body=(Block(Reader.PUBLIC, text, 9),), name=f"a{text}"
    )
    front = sheet.front.model_copy(update={"title": f"{text}."})
    (entry,) = feed_of(a_car({}, [replace(sheet, front=front)])).findall(f"{_A}entry")
    kept = "".join(c for c in text if re.fullmatch(_CHAR, c)).replace("\r\n", "\n")
    assert [kept.replace("\r", "\n") + "."] == said(entry, "title")


_CHAR = "[\x09\x0a\x0d\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]"


def test_content__is_what_the_reader_sees_of_the_sheet() -> None:
    sheet = replace(
        a_sheet("2024-03-05", subsystem="brakes"),
        body=(
            Block(Reader.PUBLIC, "Nine *pipes*.", 5),
            Block(Reader.KEEPER, "Grease it yearly.", 6),
            Block(Reader.OWNER, "Tea with the owner.", 7),
            Block(Reader.WORKSHOP, "The bill is late.", 9),
        ),
    )
    contents = {
        reader: said(feed_of(a_car({}, [sheet]), reader)[-1], "content")[0] for reader in Reader
    }
    seen = {
        reader: [
            words in text for words in ("<p>Nine <em>pipes</em>.</p>", "yearly", "Tea", "bill")
        ]
        for reader, text in contents.items()
    }
    assert {
        Reader.WORKSHOP: [True, True, True, True],
        Reader.OWNER: [True, True, True, False],
        Reader.KEEPER: [True, True, False, False],
        Reader.PUBLIC: [True, False, False, False],
    } == seen
    next_too = "<p><i>For the workshop, the owner and the next keeper</i></p>"
    assert next_too in contents[Reader.KEEPER]
    assert "<p><i>For the workshop and the owner</i></p>" in contents[Reader.OWNER]
    assert "<b>Caution.</b>" in contents[Reader.PUBLIC]


def test_summary__tells_the_branches_when_there_is_no_text() -> None:
    sheets = [a_sheet("2024-03-05", subsystem=["brakes", "rear-axle"])]
    (entry,) = feed_of(a_car({}, sheets)).findall(f"{_A}entry")
    assert ["Brakes and Rear axle"] == said(entry, "summary")


def test_picture__that_is_first_stands_before_the_text_with_its_words() -> None:
    (feed,) = _published(Reader.OWNER)
    entries = ElementTree.fromstring(feed).findall(f"{_A}entry")
    (entry,) = [e for e in entries if said(e, "title") == ["Photographed"]]
    content = said(entry, "content")[0]
    shown = re.match(
        r'<p><img src="(pictures/files/[^"]+\.jpg)" width="\d+" height="\d+" alt="([^"]+)">',
        content,
    )
    assert shown is not None
    assert (archive_for(Reader.OWNER) / shown[1]).is_file()
    assert shown[2].startswith("The finished deep green drophead")


def test_pages__lead_to_the_feed() -> None:
    folder = archive_for(Reader.WORKSHOP)
    named = '<link rel="alternate" type="application/atom+xml" title="{}" href="{}">'
    sheet = next((folder / "aldermoor-tern/sheets").glob("2*.html")).read_text(encoding="utf-8")
    title = "New sheets of Aldermoor Tern, 1958"
    assert named.format(title, "../feed.xml") in sheet
    assert f'<a href="../feed.xml">{title}</a>' in sheet
    front = (folder / "index.html").read_text(encoding="utf-8")
    assert named.format(title, "aldermoor-tern/feed.xml") in front
    assert front.count("application/atom+xml") == 2

"""The archive: valid, whole within itself, the same every time, and never half written."""

import re
import shutil
from collections.abc import Iterator
from datetime import date
from functools import cache
from html import unescape
from itertools import pairwise
from pathlib import Path
from urllib.parse import unquote, urlsplit
from xml.etree import ElementTree

import html5lib
import pytest

from journal.outputs.archive import Order, publish
from journal.outputs.findings import problems_of
from journal.outputs.staging import MARK, put, staged
from journal.reading.content import read_content
from journal.records.problem import Severity
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall
from tests.published import CAR, CONTENT, MEANS, archive_for, pages

READERS = list(Reader)
_X = "{http://www.w3.org/1999/xhtml}"


@cache
def _trees(reader: Reader) -> dict[Path, ElementTree.Element]:
    """Every page, parsed by the HTML standard's algorithm; any parse error raises."""
    parser = html5lib.HTMLParser(strict=True)
    return {
        page: parser.parse(page.read_text(encoding="utf-8")) for page in pages(archive_for(reader))
    }


def _targets(tree: ElementTree.Element) -> Iterator[tuple[str, str]]:
    """Every address a page names, with the element that names it."""
    for element in tree.iter():
        tag = str(element.tag).removeprefix(_X)
        for name in ("href", "src", "poster", "action", "data"):
            if name in element.attrib:
                yield tag, element.attrib[name]
        for candidate in element.attrib.get("srcset", "").split(","):
            if candidate.strip():
                yield tag, candidate.split()[0]


@pytest.mark.parametrize("reader", READERS)
def test_pages__are_valid_html(reader: Reader) -> None:
    """Source: the HTML standard's parsing algorithm as html5lib implements it, in strict mode."""
    assert 50 < len(_trees(reader))


@pytest.mark.parametrize("reader", READERS)
def test_links__lead_to_a_page_and_an_anchor_that_are_there(reader: Reader) -> None:
    trees = _trees(reader)
    anchors = {
        page: {e.attrib["id"] for e in tree.iter() if "id" in e.attrib}
        for page, tree in trees.items()
    }
    broken = []
    for page, tree in trees.items():
        for _, target in _targets(tree):
            parts = urlsplit(target)
            if parts.scheme:
                continue
            file = (page.parent / unquote(parts.path)).resolve() if parts.path else page
            there = anchors.get(file, {parts.fragment}) if file.is_file() else set()
            if not file.is_file() or (parts.fragment and parts.fragment not in there):
                broken.append(f"{page.name}: {target}")
    assert [] == broken


@pytest.mark.parametrize("reader", READERS)
def test_pages__ask_nothing_of_anyone(reader: Reader) -> None:
    """Only a link that a person follows may lead out; nothing is loaded from anywhere else.

    `data:,` is an empty icon: it keeps a browser from asking a web server for one.
    """
    outward = [
        f"{page.name}: {tag} {target}"
        for page, tree in _trees(reader).items()
        for tag, target in _targets(tree)
        if tag != "a" and target != "data:," and (urlsplit(target).scheme or target[:1] == "/")
    ]
    style = (archive_for(reader) / "style.css").read_text(encoding="utf-8")
    assert [] == outward
    assert [] == re.findall(r"@import|url\(", style)


@pytest.mark.parametrize("reader", READERS)
def test_ids__are_there_once_a_page(reader: Reader) -> None:
    for page, tree in _trees(reader).items():
        ids = [e.attrib["id"] for e in tree.iter() if "id" in e.attrib]
        assert sorted(set(ids)) == sorted(ids), page.name


@pytest.mark.parametrize("reader", READERS)
def test_headings__go_down_one_level_at_a_time(reader: Reader) -> None:
    """WCAG 2.2, technique G141: headings in order; one h1 a page."""
    for page, tree in _trees(reader).items():
        levels = [
            int(t[1])
            for e in tree.iter()
            if re.fullmatch("h[1-6]", t := str(e.tag).removeprefix(_X))
        ]
        assert levels[:1] == [1], page.name
        assert levels.count(1) == 1, page.name
        steps = [b - a for a, b in pairwise(levels)]
        assert all(step <= 1 for step in steps), f"{page.name}: {levels}"


@pytest.mark.parametrize("reader", READERS)
def test_pictures__have_words_and_their_size(reader: Reader) -> None:
    for page, tree in _trees(reader).items():
        for image in tree.iter(f"{_X}img"):
            assert {"alt", "width", "height"} <= set(image.attrib), page.name


@pytest.mark.parametrize("reader", READERS)
def test_charts__have_a_title(reader: Reader) -> None:
    svg = "{http://www.w3.org/2000/svg}"
    for page, tree in _trees(reader).items():
        for chart in tree.iter(f"{svg}svg"):
            hidden = chart.attrib.get("aria-hidden") == "true"
            named = chart.find(f"{svg}title") is not None or "aria-label" in chart.attrib
            assert hidden or named, page.name


def test_every_sheet_subsystem_and_component__has_its_page() -> None:
    folder = archive_for(Reader.OWNER)
    car = next(c for c in read_content(CONTENT).cars if c.name == CAR)
    for sheet in car.sheets:
        hidden = sheet.front.for_ is Reader.WORKSHOP
        assert hidden is not (folder / "sheets" / f"{sheet.name}.html").is_file(), sheet.name
    for component in car.register.components:
        assert (folder / "components" / f"{component.key}.html").is_file(), component.key
        assert (folder / "subsystems" / f"{component.subsystem}.html").is_file()


# The same every time


def _bytes(folder: Path) -> dict[str, bytes]:
    return {
        p.relative_to(folder).as_posix(): p.read_bytes()
        for p in sorted(folder.rglob("*"))
        if p.is_file()
    }


def test_publishing_twice__gives_the_same_bytes(tmp_path: Path) -> None:
    order = Order(CONTENT, tmp_path / "again", Reader.OWNER, CAR, means=MEANS)
    publish(read_content(CONTENT), order)
    assert _bytes(archive_for(Reader.OWNER)) == _bytes(tmp_path / "again")


def test_publishing__changes_nothing_that_was_written(tmp_path: Path) -> None:
    before = _bytes(CONTENT)
    publish(read_content(CONTENT), Order(CONTENT, tmp_path / "a", Reader.PUBLIC, CAR, means=MEANS))
    assert before == _bytes(CONTENT)


# Readers


def _words(text: str) -> str:
    """Text as its bare words, however it is marked up, quoted or escaped."""
    return " ".join(re.findall(r"\w+", unescape(re.sub(r"<[^>]+>", "", text)).casefold()))


def test_owner__has_no_trace_of_the_workshops_blocks() -> None:
    car = next(c for c in read_content(CONTENT).cars if c.name == CAR)
    everything = _words(
        "\n".join(p.read_text(encoding="utf-8") for p in pages(archive_for(Reader.OWNER)))
    )

    def found(reader: Reader) -> list[bool]:
        open_sheets = [s for s in car.sheets if s.front.for_ is not Reader.WORKSHOP]
        blocks = [b for s in open_sheets for b in s.body if b.reader is reader]
        texts = [re.sub(r"\]\([^)]*\)", "]", b.text) for b in blocks]
        openings = [" ".join(_words(text).split()[:6]) for text in texts]
        return [words in everything for words in openings]

    # What the owner may read is found in the same way, so the search can find.
    assert {True} == {*found(Reader.PUBLIC), *found(Reader.OWNER)}
    assert {False} == {*found(Reader.WORKSHOP)}


def test_public__has_no_number_and_no_person() -> None:
    car = next(c for c in read_content(CONTENT).cars if c.name == CAR)
    everything = "\n".join(p.read_text(encoding="utf-8") for p in pages(archive_for(Reader.PUBLIC)))
    names = [hand.name for _, hand in car.workshop.hands]
    names += [car.car.owner.name, *(n.found or "" for _, n in car.car.numbers)]
    assert [] == [name for name in names if name and name in everything]


def test_owner__needs_to_say_which_car(tmp_path: Path) -> None:
    with pytest.raises(WrongCall, match=r"^an archive for the owner shows one car; add --car "):
        publish(read_content(CONTENT), Order(CONTENT, tmp_path / "a", Reader.OWNER))


# Staging


def test_staging__a_run_that_fails_leaves_the_previous_archive(tmp_path: Path) -> None:
    target, source = tmp_path / "archive", tmp_path / "content"
    with staged(target, keep_out_of=source) as folder:
        put(folder, "index.html", b"first")

    def half() -> None:
        with staged(target, keep_out_of=source) as folder:
            put(folder, "index.html", b"half")
            raise RuntimeError("killed")

    with pytest.raises(RuntimeError, match="killed"):
        half()
    assert {MARK: (target / MARK).read_bytes(), "index.html": b"first"} == _bytes(target)
    assert ["archive"] == [p.name for p in tmp_path.iterdir()]


def test_staging__nothing_of_the_previous_archive_is_left(tmp_path: Path) -> None:
    target, source = tmp_path / "archive", tmp_path / "content"
    for name in ("old.html", "new.html"):
        with staged(target, keep_out_of=source) as folder:
            put(folder, name, b"x")
    assert {MARK, "new.html"} == set(_bytes(target))


def test_staging__takes_up_after_a_run_killed_between_its_two_renames(tmp_path: Path) -> None:
    target, source = tmp_path / "archive", tmp_path / "content"
    with staged(target, keep_out_of=source) as folder:
        put(folder, "index.html", b"first")
    target.rename(tmp_path / ".archive.previous")
    with (
        pytest.raises(RuntimeError, match="killed again"),
        staged(target, keep_out_of=source),
    ):
        raise RuntimeError("killed again")
    assert b"first" == (target / "index.html").read_bytes()


@pytest.mark.parametrize(
    ("target", "message"),
    [
        ("content/out", "out lies inside the content folder; choose a folder outside it"),
        (".", "holds the content folder; choose an empty folder"),
        ("letters", "letters holds files that journal did not write; choose an empty folder"),
        ("file", "file is a file; choose a folder"),
    ],
)
def test_staging__refuses_a_folder_that_is_not_its_own(
    tmp_path: Path, target: str, message: str
) -> None:
    (tmp_path / "content").mkdir()
    (tmp_path / "letters").mkdir()
    (tmp_path / "letters" / "mine.txt").write_text("dear", encoding="utf-8")
    (tmp_path / "file").write_text("x", encoding="utf-8")
    with (
        pytest.raises(WrongCall, match=re.escape(message)),
        staged(tmp_path / target, keep_out_of=tmp_path / "content"),
    ):
        pass
    assert "dear" == (tmp_path / "letters" / "mine.txt").read_text(encoding="utf-8")


# The demonstration


def test_demonstration__checks_clean() -> None:
    assert () == problems_of(read_content(CONTENT))


def test_broken_sheet__costs_that_sheet_alone(tmp_path: Path) -> None:
    root = tmp_path / "content"
    shutil.copytree(CONTENT, root)
    sheets = sorted((root / CAR / "sheets").rglob("*.md"))
    sheets[3].write_text("no front matter here", encoding="utf-8")
    problems = publish(
        read_content(root), Order(root, tmp_path / "a", Reader.WORKSHOP, CAR, means=MEANS)
    )
    assert "no-front-matter" in {p.code for p in problems if p.severity is Severity.ERROR}
    made = {p.stem for p in (tmp_path / "a" / "sheets").glob("*.html")} - {"index"}
    assert {p.stem for p in sheets} - {sheets[3].stem} == made
    front = (tmp_path / "a" / "index.html").read_text(encoding="utf-8")
    assert "the sheet does not start with its front matter" in front


def test_owner__is_told_no_running_balance_from_files_that_cannot_all_be_read(
    tmp_path: Path,
) -> None:
    """Issued statements stand; what would come next is not reckoned from a part of the record."""
    root = tmp_path / "content"
    shutil.copytree(CONTENT, root)
    sheet = next((root / CAR / "sheets").rglob("2025-06-20-*.md"))
    sheet.write_text(
        sheet.read_text(encoding="utf-8").replace("hours:", "hour:", 1), encoding="utf-8"
    )
    for reader, there in ((Reader.OWNER, False), (Reader.WORKSHOP, True)):
        target = tmp_path / reader.value
        publish(read_content(root), Order(root, target, reader, CAR, means=MEANS))
        assert (target / "statements" / "statement-1.html").is_file()
        assert there is (target / "statements" / "running.html").is_file()


def test_as_of_a_day__a_car_that_came_in_later_is_not_there(tmp_path: Path) -> None:
    content, day = read_content(CONTENT), date(2024, 2, 19)
    publish(content, Order(CONTENT, tmp_path / "a", Reader.WORKSHOP, as_of=day, means=MEANS))
    front = (tmp_path / "a" / "index.html").read_text(encoding="utf-8")
    assert "Aldermoor Tern" in front
    assert "Lapwing" not in front
    told = "^no car had come in by then; the first was booked in on 2023-09-11$"
    with pytest.raises(WrongCall, match=told):
        publish(content, Order(CONTENT, tmp_path / "b", Reader.WORKSHOP, as_of=date(2020, 1, 1)))

"""The archive: valid, whole within itself, the same every time, and never half written."""

import os
import re
import shutil
from contextlib import AbstractContextManager
from datetime import date
from html import unescape
from itertools import pairwise
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest

from journal.outputs.archive import Order
from journal.outputs.findings import problems_of
from journal.outputs.staging import MARK, archive_mark, put, staged
from journal.reading.content import read_content
from journal.records.problem import Severity
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall
from tests.parsing import parsed_pages
from tests.plainly import publish
from tests.published import CAR, CONTENT, MEANS, archive_for, pages

READERS = list(Reader)


@pytest.mark.parametrize("reader", READERS)
def test_pages__are_valid_html(reader: Reader) -> None:
    """Source: the HTML standard's parsing algorithm as html5lib implements it, in strict mode."""
    assert 50 < len(parsed_pages(reader))


@pytest.mark.parametrize("reader", READERS)
def test_links__lead_to_a_page_and_an_anchor_that_are_there(reader: Reader) -> None:
    anchors = {page: frozenset(told.ids) for page, told in parsed_pages(reader).items()}
    broken = []
    for page, told in parsed_pages(reader).items():
        for _, target in told.targets:
            parts = urlsplit(target)
            if parts.scheme:
                continue
            file = _followed(page, parts.path)
            there = anchors.get(file, {parts.fragment}) if file.is_file() else set()
            if not file.is_file() or (parts.fragment and parts.fragment not in there):
                broken.append(f"{page.name}: {target}")
    assert [] == broken


def _followed(page: Path, path: str) -> Path:
    return Path(os.path.normpath(page.parent / unquote(path))) if path else page


@pytest.mark.parametrize("reader", READERS)
def test_pages__ask_nothing_of_anyone(reader: Reader) -> None:
    """Only a link that a person follows may lead out; nothing is loaded from anywhere else.

    `data:,` is an empty icon: it keeps a browser from asking a web server for one.
    """
    outward = [
        f"{page.name}: {tag} {target}"
        for page, told in parsed_pages(reader).items()
        for tag, target in told.targets
        if tag != "a" and target != "data:," and (urlsplit(target).scheme or target[:1] == "/")
    ]
    style = (archive_for(reader) / "style.css").read_text(encoding="utf-8")
    assert [] == outward
    assert [] == re.findall(r"@import|url\(", style)


@pytest.mark.parametrize("reader", READERS)
def test_ids__are_there_once_a_page(reader: Reader) -> None:
    for page, told in parsed_pages(reader).items():
        assert sorted(set(told.ids)) == sorted(told.ids), page.name


@pytest.mark.parametrize("reader", READERS)
def test_headings__go_down_one_level_at_a_time(reader: Reader) -> None:
    """WCAG 2.2, technique G141: headings in order; one h1 a page."""
    for page, told in parsed_pages(reader).items():
        assert told.levels[:1] == (1,), page.name
        assert told.levels.count(1) == 1, page.name
        steps = [b - a for a, b in pairwise(told.levels)]
        assert all(step <= 1 for step in steps), f"{page.name}: {told.levels}"


@pytest.mark.parametrize("reader", READERS)
def test_pictures__have_words_and_their_size(reader: Reader) -> None:
    for page, told in parsed_pages(reader).items():
        for attributes in told.images:
            assert {"alt", "width", "height"} <= attributes, page.name


@pytest.mark.parametrize("reader", READERS)
def test_charts__have_a_title(reader: Reader) -> None:
    for page, told in parsed_pages(reader).items():
        assert all(told.charts), page.name


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


def _staged(target: Path, source: Path) -> AbstractContextManager[Path]:
    return staged(target, archive_mark("Saltmarsh Lane"), keep_out_of=source, notice=_untold)


def _untold(_: str) -> None:
    raise AssertionError("nobody has to wait")


def test_staging__a_run_that_fails_leaves_the_previous_archive(tmp_path: Path) -> None:
    target, source = tmp_path / "archive", tmp_path / "content"
    with _staged(target, source) as folder:
        put(folder, "index.html", b"first")

    def half() -> None:
        with _staged(target, source) as folder:
            put(folder, "index.html", b"half")
            raise RuntimeError("killed")

    with pytest.raises(RuntimeError, match="killed"):
        half()
    assert {MARK: (target / MARK).read_bytes(), "index.html": b"first"} == _bytes(target)
    assert ["archive"] == [p.name for p in tmp_path.iterdir()]


def test_staging__nothing_of_the_previous_archive_is_left(tmp_path: Path) -> None:
    target, source = tmp_path / "archive", tmp_path / "content"
    for name in ("old.html", "new.html"):
        with _staged(target, source) as folder:
            put(folder, name, b"x")
    assert {MARK, "new.html"} == set(_bytes(target))


def test_staging__takes_up_after_a_run_killed_between_its_two_renames(tmp_path: Path) -> None:
    target, source = tmp_path / "archive", tmp_path / "content"
    with _staged(target, source) as folder:
        put(folder, "index.html", b"first")
    target.rename(tmp_path / ".archive.previous")
    with (
        pytest.raises(RuntimeError, match="killed again"),
        _staged(target, source),
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
        _staged(tmp_path / target, tmp_path / "content"),
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

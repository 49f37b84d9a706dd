"""What a reader may not see is in no byte of their archive, and in no name of a file.

The content is made by `tests/planting.py` from the record classes themselves. `journal publish` searches
the archive too; here it is searched by other means.
"""

from pathlib import Path
from typing import Any

import pytest
import yaml

from journal.outputs.archive import Order
from journal.outputs.leaks import Search, squeezed
from journal.outputs.secret import Kind, Private
from journal.reading.content import read_content
from journal.records.place import Place
from journal.records.sheet import SheetFront
from journal.words.vocabulary import Reader
from tests.pictures.telling import telling_pictures, with_packed
from tests.plainly import publish
from tests.planting import DAY, HAND, PLAIN, Planter, every_text, plant
from tests.tern import a_picture, put_file

NOT_THE_WORKSHOP = [Reader.OWNER, Reader.KEEPER, Reader.PUBLIC]


def _published(root: Path, target: Path, reader: Reader, car: str | None = "tern") -> str:
    """Every byte and every file name of an archive, as one text."""
    content = read_content(root)
    assert [] == [p for p in content.problems if p.place.path.startswith(("tern/", "workshop"))]
    publish(content, Order(root, target, reader, car))
    return "\n".join(every_text(target))


# Fields


@pytest.mark.parametrize("reader", NOT_THE_WORKSHOP)
def test_field_that_no_list_names__is_nowhere_in_the_archive(
    reader: Reader, tmp_path: Path
) -> None:
    planter = Planter(reader)
    text = _published(plant(tmp_path / "content", planter), tmp_path / "archive", reader)
    assert {} == planter.leaks(text)
    assert PLAIN in text


def test_next_keeper__with_prices_finds_what_things_cost_and_nothing_else_that_is_private(
    tmp_path: Path,
) -> None:
    planter = Planter(Reader.KEEPER, prices=True)
    root = plant(tmp_path / "content", planter)
    assert {} == planter.leaks(_published(root, tmp_path / "archive", Reader.KEEPER))
    assert {"Hand.rate", "Car.estimate", "Payment.amount"} <= {*planter.planted.values()}
    assert set() == {"PartLine.price", "OutworkLine.cost"} & {*planter.planted.values()}


def test_field_that_no_list_names__is_there_for_the_workshop(tmp_path: Path) -> None:
    # The test above would find nothing either if nothing were ever shown.
    planter = Planter(Reader.PUBLIC)
    root = plant(tmp_path / "content", planter)
    shown = planter.leaks(_published(root, tmp_path / "archive", Reader.WORKSHOP)).values()
    assert {"PartLine.why", "PartLine.price", "Work.note", "Hand.name", "Payment.what"} <= {*shown}


# Lines, blocks and sheets for each circle of readers


@pytest.mark.parametrize(
    ("reader", "lines"),
    [
        (Reader.OWNER, Reader.WORKSHOP),
        (Reader.KEEPER, Reader.WORKSHOP),
        (Reader.KEEPER, Reader.OWNER),
        (Reader.PUBLIC, Reader.WORKSHOP),
        (Reader.PUBLIC, Reader.OWNER),
        (Reader.PUBLIC, Reader.KEEPER),
    ],
)
def test_lines_for_others__are_nowhere_in_the_archive(
    reader: Reader, lines: Reader, tmp_path: Path
) -> None:
    planter = Planter(reader, lines=lines)
    body = f"::: {lines.value}\n{planter.mark('block')}\n:::\n"
    text = _published(plant(tmp_path / "content", planter, body), tmp_path / "archive", reader)
    assert {} == planter.leaks(text)
    places = {where.split(".")[0] for where in planter.planted.values()}
    assert {"PartLine", "OutworkLine", "Extra", "SnagLine", "Photo", "Paper"} <= places


def test_lines_for_the_reader__are_there(tmp_path: Path) -> None:
    planter = Planter(Reader.OWNER, lines=Reader.OWNER, free="zqownzq")
    body = "::: owner\nzqblockzq\n:::\n"
    text = _published(
        plant(tmp_path / "content", planter, body), tmp_path / "archive", Reader.OWNER
    )
    assert {} == planter.leaks(text)
    assert text.count("zqownzq") > 20
    assert "zqblockzq" in text


@pytest.mark.parametrize(
    ("reader", "sheet"),
    [
        (Reader.OWNER, Reader.WORKSHOP),
        (Reader.KEEPER, Reader.WORKSHOP),
        (Reader.KEEPER, Reader.OWNER),
        (Reader.PUBLIC, Reader.WORKSHOP),
        (Reader.PUBLIC, Reader.OWNER),
        (Reader.PUBLIC, Reader.KEEPER),
    ],
)
def test_sheet_for_others__is_nowhere_in_the_archive(
    reader: Reader, sheet: Reader, tmp_path: Path
) -> None:
    root = tmp_path / "content"
    plant(root, Planter(reader))
    planter = Planter(reader, start=400)
    written = {**planter.record(SheetFront, hidden=True), "date": DAY, "for": sheet.value}
    name, text = planter.mark("name of the sheet"), planter.mark("text of the sheet")
    front = yaml.safe_dump(written)
    put_file(root, f"tern/sheets/{DAY}-{name}.md", f"---\n{front}---\n{text}\n".encode())
    assert {} == planter.leaks(_published(root, tmp_path / "archive", reader))


@pytest.mark.parametrize("reader", NOT_THE_WORKSHOP)
def test_sheet_with_lines_that_nobody_confirmed__is_nowhere_in_the_archive(
    reader: Reader, tmp_path: Path
) -> None:
    root = tmp_path / "content"
    plant(root, Planter(reader))
    planter = Planter(reader, start=400, drafts=True)
    written = {**planter.record(SheetFront, hidden=True), "date": DAY, "for": "public"}
    name, text = planter.mark("name of the sheet"), planter.mark("text of the sheet")
    front = yaml.safe_dump(written)
    put_file(root, f"tern/sheets/{DAY}-{name}.md", f"---\n{front}---\n{text}\n".encode())
    assert {} == planter.leaks(_published(root, tmp_path / "archive", reader))
    assert {"DraftLine.words", "DraftLine.ask", "Moment.words"} <= {*planter.planted.values()}


# Files


@pytest.mark.parametrize("reader", NOT_THE_WORKSHOP)
def test_names_of_files__are_nowhere_in_the_archive(reader: Reader, tmp_path: Path) -> None:
    planter = Planter(reader)
    root = plant(tmp_path / "content", planter)
    shown, private, loose, paper = map(
        planter.mark, ("shown photo", "private photo", "photo told of nowhere", "private paper")
    )
    recording = planter.mark("recording")
    put_file(root, f"tern/recordings/{recording}.mp4", b"a talk")
    for name in (shown, private, loose):
        put_file(root, f"tern/photos/{DAY}/{name}.jpg", a_picture())
    put_file(root, f"tern/papers/{paper}.jpg", a_picture())
    sheet = f"date: {DAY}\nsubsystem: brakes\nphotos: [{shown}.jpg, {{file: {private}.jpg, for: workshop}}]"
    sheet += f"\nrecording: {recording}.mp4"
    text = f"---\n{sheet}\n---\n![as found]({shown}.jpg) and ![not]({private}.jpg)\n"
    put_file(root, f"tern/sheets/{DAY}-more.md", text.encode())
    papers = yaml.safe_load((root / "tern/papers/papers.yaml").read_text(encoding="utf-8"))
    papers["papers"]["other"] = {"title": "x", "file": f"{paper}.jpg", "for": "workshop"}
    put_file(root, "tern/papers/papers.yaml", yaml.safe_dump(papers).encode())
    assert {} == planter.leaks(_published(root, tmp_path / "archive", reader))


@pytest.mark.parametrize("reader", list(Reader))
def test_words_within_a_picture__are_nowhere_in_the_archive(reader: Reader, tmp_path: Path) -> None:
    planter = Planter(Reader.PUBLIC)
    root = tmp_path / "content"
    plant(root, Planter(Reader.PUBLIC, start=400))
    files = telling_pictures(planter.mark)
    for name, data in files.items():
        put_file(root, f"tern/photos/{DAY}/{name}", data)
        put_file(root, f"tern/papers/{name}", data)
    front = f"date: {DAY}\nsubsystem: brakes\nphotos: [{', '.join(files)}]"
    put_file(root, f"tern/sheets/{DAY}-more.md", f"---\n{front}\n---\n".encode())
    papers = yaml.safe_load((root / "tern/papers/papers.yaml").read_text(encoding="utf-8"))
    for n, name in enumerate(files):
        papers["papers"][f"scan-{n}"] = {"title": "x", "file": name, "for": "public"}
    put_file(root, "tern/papers/papers.yaml", yaml.safe_dump(papers).encode())
    text = _published(root, tmp_path / "archive", reader)
    assert {} == planter.leaks(text)
    published = [
        f for f in (tmp_path / "archive").rglob("*") if f.suffix in (".jpg", ".webp", ".avif")
    ]
    assert len(published) >= 2 * len(files)
    for file in published:
        assert {} == planter.leaks(with_packed(file.read_bytes()).decode("latin-1"))


def test_words_within_a_picture__are_there_to_begin_with() -> None:
    # The test above would find nothing either if nothing were in the pictures.
    planter = Planter(Reader.PUBLIC)
    raw = b"\n".join(map(with_packed, telling_pictures(planter.mark).values()))
    text = raw.decode("latin-1") + raw.replace(b"\x00", b"").decode("latin-1")
    assert planter.planted == planter.leaks(text)
    assert 50 < len(planter.planted)


# Numbers, persons, money


OWNER, COLLEAGUE, NUMBER = "Mrs Eleanor Quillfeather", "Margit Tollandry", "TD 5894176"


def test_public__meets_no_person_and_no_full_number_whatever_text_tells_them(
    tmp_path: Path,
) -> None:
    told = f"{OWNER} met {COLLEAGUE} over {NUMBER}"
    root = plant(tmp_path / "content", Planter(Reader.PUBLIC, free=told), f"{told}.\n")
    for name, path in (("owner", "tern/car.yaml"), ("hands", "workshop.yaml")):
        written: dict[str, Any] = yaml.safe_load((root / path).read_text(encoding="utf-8"))
        if name == "owner":
            written["numbers"]["entry"]["found"] = NUMBER
        written |= {"owner": OWNER} if name == "owner" else {name: {HAND: COLLEAGUE}, "name": PLAIN}
        put_file(root, path, yaml.safe_dump(written).encode())
    text = _published(root, tmp_path / "archive", Reader.PUBLIC)
    assert [] == [word for word in ("Quillfeather", "Tollandry", "94176", HAND) if word in text]
    assert "The owner met a colleague over TD 5894•••" in text


@pytest.mark.parametrize("reader", [Reader.KEEPER, Reader.PUBLIC])
def test_money__is_nowhere_in_the_archive(reader: Reader, tmp_path: Path) -> None:
    root = plant(tmp_path / "content", Planter(reader, free="for £40 or 40 EUR"))
    workshop = yaml.safe_load((root / "workshop.yaml").read_text(encoding="utf-8"))
    put_file(root, "workshop.yaml", yaml.safe_dump({**workshop, "name": PLAIN}).encode())
    text = _published(root, tmp_path / "archive", reader)
    assert [] == [sign for sign in ("£", "€", "GBP", "EUR") if sign in text]


# The other cars


@pytest.mark.parametrize("reader", NOT_THE_WORKSHOP)
def test_other_cars__are_nowhere_in_the_archive(reader: Reader, tmp_path: Path) -> None:
    root = plant(tmp_path / "content", Planter(reader))
    planter = Planter(reader, free="zqphotozq", start=400)
    planter.planted["zqphotozq"] = "every text that may be seen"
    folder = planter.mark("folder")
    body = f"{planter.mark('text')}\n"
    plant(root, planter, body, car=folder, hidden=True)
    assert len(planter.planted) > 100
    assert {} == planter.leaks(_published(root, tmp_path / "archive", reader))


def test_other_cars__are_there_for_the_workshop(tmp_path: Path) -> None:
    root = plant(tmp_path / "content", Planter(Reader.OWNER))
    planter = Planter(Reader.OWNER, start=400)
    plant(root, planter, car="lapwing", hidden=True)
    text = _published(root, tmp_path / "archive", Reader.WORKSHOP, car=None)
    assert len(planter.leaks(text)) > 30


# How a file is read


SECRET = Private(Kind.WORDS, 'never "mind" the Größe & 5 < 6, it\'s zq001zq now', Place("a.md", 3))


@pytest.mark.parametrize(
    "written",
    [
        SECRET.text,
        "&quot;".join(SECRET.text.split('"')),
        "<p>never &quot;mind&quot; the Gr&ouml;&szlig;e &amp; 5 &lt; 6, it&#39;s zq001zq now</p>",
        '<img alt="never &#34;mind&#34; the Größe &amp; 5 &lt; 6, it&#39;s zq001zq now">',
        '<td>never <em>"mind"</em> the Größe &amp; 5 &lt; 6,\n  it\'s <b>zq</b>001zq now</td>',
        '{"x": "never \\"mind\\" the Gr\\u00f6\\u00dfe & 5 < 6, it\'s zq001zq now"}',
        '{"x": "never \\"mind\\" the Größe \\u0026 5 \\u003c 6,\\nit\'s zq001zq now"}',
        "x?q=never%20%22mind%22%20the%20Gr%C3%B6%C3%9Fe%20%26%205%20%3C%206%2C%20it%27s%20zq001zq%20now",
        "<a title='{&quot;x&quot;:&quot;never \\&quot;mind\\&quot; the Größe &amp; 5 &lt; 6, "
        "it&#39;s zq001zq now&quot;}'>",
    ],
)
def test_search__reads_a_text_as_it_is_read(written: str, tmp_path: Path) -> None:
    (tmp_path / "a.html").write_text(written, encoding="utf-8")
    assert [("a.html", SECRET)] == [(x.file, x.private) for x in Search([SECRET]).leaks(tmp_path)]


@pytest.mark.parametrize("number", range(4))
def test_search__reads_pictures_and_what_is_packed_in_them(number: int, tmp_path: Path) -> None:
    planter = Planter(Reader.PUBLIC)
    name, data = [*telling_pictures(planter.mark).items()][number]
    (tmp_path / name).write_bytes(data)
    sought = [Private(Kind.WORDS, mark, Place(where, 1)) for mark, where in planter.planted.items()]
    found = {leak.private.place.path for leak in Search(sought).leaks(tmp_path)}
    form = ("JPEG", "PNG", "WebP", "TIFF")[number]
    assert {where for where in planter.planted.values() if form in where} == found


def test_search__reads_names_of_files_and_folders(tmp_path: Path) -> None:
    (tmp_path / "zq001zq now").mkdir()
    (tmp_path / "zq001zq now" / "a%20zq002zq.html").write_text("", encoding="utf-8")
    sought = [Private(Kind.NAME, text, Place(text, 1)) for text in ("zq001zq now", "a zq002zq")]
    found = [
        (leak.file, leak.private.text, leak.in_name) for leak in Search(sought).leaks(tmp_path)
    ]
    assert [
        ("zq001zq now", "zq001zq now", True),
        ("zq001zq now/a%20zq002zq.html", "zq001zq now", True),
        ("zq001zq now/a%20zq002zq.html", "a zq002zq", True),
    ] == found


@pytest.mark.parametrize(
    "written",
    [
        "never mind the Größe", "NEVER \"MIND\" THE GRÖSSE & 5 < 6, IT'S ZQ001ZQ NOW",
        "<td>never \"mind\" the Größe & 5 &lt; 6,</td><td>it's zq001zq now</td>",
        SECRET.text + "adays", "x" + SECRET.text,
    ],
)  # fmt: skip
def test_search__does_not_take_other_words_for_these(written: str, tmp_path: Path) -> None:
    (tmp_path / "a.html").write_text(written, encoding="utf-8")
    assert [] == [*Search([SECRET]).leaks(tmp_path)]


def test_search__passes_over_what_the_reader_may_see(tmp_path: Path) -> None:
    (tmp_path / "a.html").write_text(SECRET.text, encoding="utf-8")
    held = f"They say: {SECRET.text.upper()}!"
    assert [] == [*Search([SECRET], [held]).leaks(tmp_path)]
    # A number counts whatever the reader's car file holds.
    number = Private(Kind.NUMBER, "zq001zq", SECRET.place)
    assert [number] == [leak.private for leak in Search([number], [held]).leaks(tmp_path)]


def test_squeezed__is_letters_and_digits_in_one_case() -> None:
    assert "td580417" == squeezed("TD 58/0417") == squeezed("ＴＤ\u00a058–0417")
    assert squeezed("Gro\u0308ße") == squeezed("GRÖSSE")

"""A finished archive is searched before it takes the place of the one before."""

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner

from journal.commands import main
from journal.outputs import archive
from journal.outputs.archive import Order
from journal.outputs.withheld import Withheld
from journal.pages.page import TextFile
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from tests.plainly import publish
from tests.tern import FILES, put_content, put_file

CAR = """\
name: Aldermoor Tern
year: 1958
body: drophead
plate: SVX 417
booked-in: 2024-03-01
owner: {name: Mrs Eleanor Harrow, address: "Pound House, Little Ebbing"}
numbers: {chassis: TD 58/0417}
# the fee is settled with her brother
public: yes
"""
SHEET = """\
---
date: 2024-03-05
subsystem: gearbox
parts:
  laygear: {what: Laygear, from: northgate, qty: 1, price: 1212.00, why: rough as a badger, note: short}
snags:
  bill-unpaid: {raise: The last bill is open, for: workshop}
photos:
  - {file: laygear.jpg, for: workshop, caption: Teeth}
---
Split the casing without trouble; every stud came out whole.

::: workshop
Nobody else would have taken this job on at that price.
:::
"""
LAPWING = {
    path.replace("tern/", "lapwing/"): text.replace("Aldermoor Tern", "Pellmarsh Lapwing")
    for path, text in FILES.items()
    if path.startswith("tern/")
} | {"lapwing/car.yaml": CAR.replace("Eleanor Harrow", "Ada Quillane").replace("0417", "9999")}


@pytest.fixture
def root(tmp_path: Path) -> Path:
    return put_content(
        tmp_path / "content",
        **{"tern/car.yaml": CAR, "tern/sheets/2024/2024-03-05-gearbox.md": SHEET, **LAPWING},
    )


def _leak(monkeypatch: pytest.MonkeyPatch, text: str, path: str = "leak.txt") -> None:
    """A file that shows what it should not, beside all others."""
    files = (*archive.FILES, lambda view: (TextFile(path, text),))
    monkeypatch.setattr(archive, "FILES", files)


def _places(root: Path, target: Path, reader: Reader) -> list[str]:
    """The lines on which what leaks was written; empty when the archive is published."""
    try:
        publish(read_content(root), Order(root, target, reader, "tern"))
    except Withheld as withheld:
        return [f"{p.place.path}:{p.place.line}" for p in withheld.problems]
    return []


def _bytes(folder: Path) -> dict[str, bytes]:
    return {
        f.relative_to(folder).as_posix(): f.read_bytes() for f in folder.rglob("*") if f.is_file()
    }


def test_archive_that_leaks__is_withheld_and_the_one_before_stays(
    root: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "archive"
    call = ["publish", str(root), "--for", "public", "--car", "tern", "--to", str(target)]
    assert 0 == CliRunner().invoke(main, call).exit_code
    before = _bytes(target)
    _leak(monkeypatch, "The chassis is TD 58/0417.\n")
    # No process sees its own program change; this one is told to believe nothing that it kept.
    result = CliRunner().invoke(main, [*call, "--full"])
    assert (
        "tern/car.yaml:7: error[private-in-archive]: the public archive would show a number that is written"
        " here, in leak.txt\n"
        "  help: write it in another way where that page takes it from, or give it a narrower reader with"
        " for: or a block; if nothing there tells it, the program is at fault\n"
        "\n"
        "1 error in 1 file.\n"
        f"The archive is withheld; {target} is as it was.\n"
    ) == result.stderr
    assert ("", 1) == (result.stdout, result.exit_code)
    assert before == _bytes(target)
    assert ["archive", "content"] == sorted(p.name for p in tmp_path.iterdir())


def test_archive_that_leaks__is_not_there_when_there_was_none(
    root: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _leak(monkeypatch, "TD 58/0417")
    assert ["tern/car.yaml:7"] == _places(root, tmp_path / "archive", Reader.PUBLIC)
    assert ["content"] == sorted(p.name for p in tmp_path.iterdir())


SHEET_PATH = "tern/sheets/2024/2024-03-05-gearbox.md"
# What leaks, and where it was written.
_PUBLIC = {
    "td580417": "tern/car.yaml:7",
    "T.D.<b>58</b>/<i>04</i>17": "tern/car.yaml:7",
    "SVX-417": "tern/car.yaml:4",
    "eleanor  harrow": "tern/car.yaml:6",
    "the HARROWs’": "tern/car.yaml:6",
    "harrow": "",
    "sheets/2024-harrow-calls.html": "tern/car.yaml:6",
    "the Harrow’s": "tern/car.yaml:6",
    "Pound House": "tern/car.yaml:6",
    "jonah_birkett": "workshop.yaml:4",
    "Northgate Gears": "workshop.yaml:6",
    "£1,212.00": f"{SHEET_PATH}:5",
    "&pound;3.50": "workshop.yaml:1",
    "PL4": "",
}
_BOTH = {
    "rough as a badger": f"{SHEET_PATH}:5",
    "The last bill is open": f"{SHEET_PATH}:7",
    "snag-bill-unpaid": f"{SHEET_PATH}:7",
    "settled with her brother, the fee is": "",
    "the fee is settled with her brother": "tern/car.yaml:8",
    "Nobody else would have taken this job": f"{SHEET_PATH}:14",
    "{'x': 'this job on at that price.'}": f"{SHEET_PATH}:14",
    "photos/laygear.jpg": f"{SHEET_PATH}:9",
    "Ada Quillane": "lapwing/car.yaml:6",
    "TD 58/9999": "lapwing/car.yaml:7",
}
# What stands in what is private and is told elsewhere, or could be told by chance.
_NEITHER = (
    "short", "Teeth", "1212.00", "1,212.00", "Laygear", "at that price", "The last bill",
    "417", "Split the casing without trouble", "2024-03-05", "the bill is unpaid", "Eleanor",
)  # fmt: skip


@pytest.mark.parametrize("text", _PUBLIC | _BOTH)
def test_public__is_shown_none_of_it(
    text: str, root: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _leak(monkeypatch, f"- {text} -\n")
    place = (_PUBLIC | _BOTH)[text]
    assert [place] * bool(place) == _places(root, tmp_path / "archive", Reader.PUBLIC)


@pytest.mark.parametrize("text", _BOTH)
def test_owner__is_shown_none_of_it(
    text: str, root: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _leak(monkeypatch, f"- {text} -\n")
    assert [_BOTH[text]] * bool(_BOTH[text]) == _places(root, tmp_path / "archive", Reader.OWNER)


def test_words_that_could_stand_by_chance__withhold_nothing(
    root: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _leak(monkeypatch, "\n".join(_NEITHER))
    assert [] == _places(root, tmp_path / "archive", Reader.PUBLIC)


def test_owner__is_shown_what_is_theirs(
    root: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _leak(monkeypatch, "\n".join(_PUBLIC))
    assert [] == _places(root, tmp_path / "archive", Reader.OWNER)


def test_workshop__is_shown_everything(
    root: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _leak(monkeypatch, "\n".join(_PUBLIC | _BOTH))
    assert [] == _places(root, tmp_path / "archive", Reader.WORKSHOP)


@pytest.mark.parametrize(
    "path", ["notes/td-58-0417.txt", "bill-unpaid/a.txt", "a/Eleanor%20Harrow.js"]
)
def test_name_of_a_file__that_leaks_is_not_told_again(
    path: str, root: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _leak(monkeypatch, "", path)
    with pytest.raises(Withheld) as withheld:
        publish(read_content(root), Order(root, tmp_path / "archive", Reader.PUBLIC, "tern"))
    (problem,) = withheld.value.problems
    assert "the name of a file in" in problem.message
    assert Path(path).name not in problem.message


def test_many_files__are_counted_and_a_page_of_a_sheet_is_named_first(
    root: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def leaks(view: object) -> tuple[TextFile, ...]:
        return tuple(TextFile(p, "SVX 417") for p in ("a.js", "b.html", "sheets/c.html", "d.css"))

    monkeypatch.setattr(archive, "FILES", (*archive.FILES, leaks))
    with pytest.raises(Withheld) as withheld:
        publish(read_content(root), Order(root, tmp_path / "archive", Reader.PUBLIC, "tern"))
    (problem,) = withheld.value.problems
    assert problem.message.endswith("in sheets/c.html and 3 other files")


def test_sheet_written_in_an_odd_way__is_told_with_its_page(root: Path, tmp_path: Path) -> None:
    text = "---\ndate: 2024-03-06\nsubsystem: gearbox\n---\nTold E*lea*nor Har**row** so.\n"
    put_file(root, "tern/sheets/2024-03-06-told.md", text.encode())
    with pytest.raises(Withheld) as withheld:
        publish(read_content(root), Order(root, tmp_path / "archive", Reader.PUBLIC, "tern"))
    (problem,) = withheld.value.problems
    assert "in sheets/2024-03-06-told.html" in problem.message
    assert "Harrow" not in problem.message + str(problem.help)


@pytest.mark.parametrize(
    "wreck", [lambda text: text, lambda text: text.replace("public: yes", "public: no")]
)
def test_name_of_the_workshop__withholds_nothing(
    wreck: Callable[[str], str], root: Path, tmp_path: Path
) -> None:
    named = FILES["workshop.yaml"].replace("Saltmarsh Lane Workshop", "Jonah Birkett, Pound House")
    put_file(root, "workshop.yaml", named.encode())
    assert [] == _places(root, tmp_path / "archive", Reader.PUBLIC)

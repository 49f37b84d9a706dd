"""README and DEVELOPERS say what there is, and all of it."""

import re
import shlex
from pathlib import Path

from click.testing import CliRunner

from journal.commands import main
from journal.records.sheet import SheetFront
from journal.words.vocabulary import Act, Fate, Origin
from tests.tern import a_picture
from tests.test_layers import LAYERS, ROOT

README = (ROOT.parent / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT.parent / "DEVELOPERS.md").read_text(encoding="utf-8")


def test_readme__tells_of_every_command() -> None:
    assert [] == [name for name in main.commands if f"`journal {name}" not in README]


def test_readme__tells_of_every_key_of_a_sheet() -> None:
    keys = [field.alias for field in SheetFront.model_fields.values()]
    assert [] == [key for key in keys if f"`{key}`" not in README]


def test_readme__tells_of_every_word_of_work() -> None:
    words = {word.value for vocabulary in (Act, Origin, Fate) for word in vocabulary}
    assert [] == sorted(word for word in words if not re.search(rf"\b{word}\b", README))


def test_readme__the_first_sheets_are_right_as_they_stand(tmp_path: Path) -> None:
    sheet = README[README.index("    ---\n    date: ") :]
    sheet = sheet[: sheet.index("\n\nPhotographs of the day")]
    command = re.search(r"journal (book-in my-workshop --booked-in \S+)", README)
    assert command is not None
    asked = "Fenland Saloon\n1961\nsaloon\nA. Reader\n\nShed\nMT=M. Tester\n"
    words = [str(tmp_path / w) if w == "my-workshop" else w for w in command.group(1).split()]
    assert 0 == CliRunner().invoke(main, words, input=asked).exit_code
    car = tmp_path / "my-workshop" / "fenland-saloon"
    written = car / "sheets" / "2024" / "2024-03-05-gearbox-apart.md"
    written.parent.mkdir(parents=True)
    written.write_text("\n".join(line[4:] for line in sheet.splitlines()), encoding="utf-8")
    (car / "photos" / "2024-03-05").mkdir(parents=True)
    (car / "photos" / "2024-03-05" / "laygear-1.jpg").write_bytes(a_picture())
    done = CliRunner().invoke(main, ["check", str(tmp_path / "my-workshop")])
    assert "All clean.\n" == done.output

    line = re.search(r"\.venv/bin/journal (write my-workshop --hours .*)", README)
    assert line is not None
    words = [str(tmp_path / w) if w == "my-workshop" else w for w in shlex.split(line.group(1))]
    done = CliRunner().invoke(main, [*words, "--date", "2024-03-06"])
    assert f"wrote {car / 'sheets/2024/2024-03-06-gearbox.md'}\n" == done.output


def test_readme__shows_a_picture_that_is_there() -> None:
    (picture,) = re.findall(r"!\[[^\]]+\]\(([^)]+)\)", README)
    assert (ROOT.parent / picture).is_file()


def test_developers__tells_of_every_layer_that_there_is() -> None:
    there = [layer for layer in LAYERS if (ROOT / layer).is_dir()]
    assert [] == [layer for layer in there if f"| `{layer}/` |" not in DEVELOPERS]


def test_developers__names_only_files_that_are_there() -> None:
    named = set(
        re.findall(
            r"`((?:journal|tests|themes|records|words|readers|pages|outputs|ledgers)/[\w./-]+)`",
            DEVELOPERS,
        )
    )
    missing = [
        name
        for name in sorted(named)
        if "<" not in name
        and not any((base / name).exists() for base in (ROOT, ROOT.parent, Path(ROOT.parent)))
    ]
    assert [] == missing


def test_top_level__holds_what_belongs_there_and_nothing_else() -> None:
    allowed = {
        "README.md",
        "DEVELOPERS.md",
        "pyproject.toml",
        "journal",
        "content",
        "themes",
        "tests",
        "site_demo",
    }
    made = {"build", "dist", "__pycache__"}
    there = {p.name for p in ROOT.parent.iterdir() if not p.name.startswith(".")}
    assert set() == there - allowed - made
    assert allowed <= there

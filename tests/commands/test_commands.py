"""The commands: what they print, what they write, and how they end (0 clean, 1 problems, 2 a wrong call)."""

import json
from pathlib import Path

import pytest
from click.testing import Result
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from journal import __version__
from journal.commands import main
from journal.reading.content import read_content
from journal.records.codes import CODES
from journal.words.hidden import without_hidden
from journal.words.names import slug_of
from journal.words.text import normal
from tests.commands.running import DAY, NEW, files, run
from tests.tern import put_file, sheet_text

# What every command says of itself.


@pytest.mark.parametrize("command", sorted(main.commands))
def test_help__says_what_the_command_does_and_what_each_option_means(command: str) -> None:
    result = run(command, "--help")
    assert 0 == result.exit_code
    assert result.stdout == run(command, "-h").stdout
    made = main.commands[command]
    assert made.help
    for option in made.params:
        if option.param_type_name == "option":
            assert getattr(option, "help", None), f"{command} {option.name}"


def test_help__lists_every_command() -> None:
    result = run("--help")
    assert 0 == result.exit_code
    for command in main.commands:
        assert f"  {command} " in result.stdout


def test_version__is_that_of_the_package() -> None:
    assert f"journal, version {__version__}\n" == run("--version").stdout


def test_unknown_command_and_unknown_option__are_wrong_calls(content: Path) -> None:
    assert 2 == run("chek", content).exit_code
    assert 2 == run("check", content, "--loud").exit_code
    assert 2 == run("check").exit_code


# check


def test_check__of_good_content_ends_clean(content: Path) -> None:
    result = run("check", content)
    assert (0, "All clean.\n", "") == (result.exit_code, result.stdout, result.stderr)


def test_check__as_json_of_good_content_is_an_empty_list(content: Path) -> None:
    result = run("check", content, "--as", "json")
    assert (0, []) == (result.exit_code, json.loads(result.stdout))


def test_check__tells_the_same_problems_as_text_and_as_json(content: Path) -> None:
    put_file(content, DAY, sheet_text("hours: {XX: 3}\ntitle: a\ntitle: b").encode())
    text, data = run("check", content), run("check", content, "--as", "json")
    assert (1, 1) == (text.exit_code, data.exit_code)
    assert f"""\
{DAY}:4: error[unknown-hand]: there is no hand "XX"
    4 | hours: {{XX: 3}}
  help: add the initials under hands: in workshop.yaml

{DAY}:6: error[key-twice]: the key "title" stands here twice
    6 | title: b
  note: the first one is here ({DAY}:5)
  help: keep one of the two; the first one is used

2 errors in 1 file.
""" == (text.stdout)
    assert {
        "path": DAY, "line": 6, "severity": "error", "code": "key-twice",
        "message": 'the key "title" stands here twice', "quoted": "title: b",
        "note": "the first one is here", "note-path": DAY, "note-line": 5,
        "help": "keep one of the two; the first one is used",
    } == json.loads(data.stdout)[1]  # fmt: skip


def test_check__ends_with_1_for_a_warning_alone(content: Path) -> None:
    put_file(content, "tern/sheets/notes.txt", b"x")
    result = run("check", content)
    assert (1, "1 warning in 1 file.") == (result.exit_code, result.stdout.splitlines()[-1])


def test_check__of_one_car_leaves_the_others_out_and_keeps_the_workshop(content: Path) -> None:
    run("book-in", content, *NEW)
    put_file(content, "tern/sheets/notes.txt", b"x")
    put_file(content, "aldermoor-plover/sheets/notes.txt", b"x")
    shop = (content / "workshop.yaml").read_text(encoding="utf-8") + "tex: 20\n"
    put_file(content, "workshop.yaml", shop.encode())
    told = json.loads(run("check", content, "--car", "tern", "--as", "json").stdout)
    assert ["tern/sheets/notes.txt", "workshop.yaml"] == [p["path"] for p in told]


def test_check__of_a_car_whose_file_is_broken_tells_what_is_wrong_with_it(content: Path) -> None:
    put_file(content, "tern/car.yaml", b"name: [\n")
    result = run("check", content, "--car", "tern")
    assert 1 == result.exit_code
    assert result.stdout.startswith("tern/car.yaml:1: error[bad-yaml]: ")


def test_check__of_one_car_is_not_clean_when_the_workshop_cannot_be_read(content: Path) -> None:
    put_file(content, "workshop.yaml", b"hands: [\n")
    result = run("check", content, "--car", "tern")
    assert (1, "1 error in 1 file.") == (result.exit_code, result.stdout.splitlines()[-1])


@pytest.mark.parametrize("code", sorted(CODES))
def test_explain__says_what_a_code_means_and_why_it_matters(code: str) -> None:
    result = run("check", "--explain", code)
    assert f"{code}\n\n{CODES[code].meaning}\n{CODES[code].why}\n" == result.stdout
    assert 0 == result.exit_code


@pytest.mark.parametrize(
    ("code", "way"),
    [
        ("unknown-keys", "write unknown-key"),
        ("xyz", "take it from between the brackets of a message"),
    ],
)
def test_explain__of_an_unknown_code_is_a_wrong_call(code: str, way: str) -> None:
    result = run("check", "--explain", code)
    assert (2, f'Error: there is no code "{code}"; {way}\n') == (result.exit_code, result.stderr)


# Wrong calls that commands share.

READING = (
    ("check",), ("show", "ledger"), ("publish", "--for", "workshop", "--to", "archive"),
)  # fmt: skip


@pytest.mark.parametrize("words", READING)
def test_folder_that_is_not_there__is_a_wrong_call(words: tuple[str, ...], tmp_path: Path) -> None:
    folder = tmp_path / "nowhere"
    result = run(*words, folder)
    assert (2, f'Error: there is no folder "{folder}"\n') == (result.exit_code, result.stderr)


@pytest.mark.parametrize("words", READING)
def test_folder_without_a_workshop__is_a_wrong_call(words: tuple[str, ...], tmp_path: Path) -> None:
    result = run(*words, tmp_path)
    says = f'Error: "{tmp_path}" is no content folder: it holds no workshop.yaml\n'
    assert (2, says) == (result.exit_code, result.stderr)


@pytest.mark.parametrize("words", [("check",), ("show", "ledger")])
@pytest.mark.parametrize(("name", "way"), [("terns", "tern"), ("xyz", "tern or aldermoor-plover")])
def test_car_that_is_not_there__is_a_wrong_call_with_the_nearest_name(
    words: tuple[str, ...], name: str, way: str, content: Path
) -> None:
    run("book-in", content, *NEW)
    result = run(*words, content, "--car", name)
    ways = {way, " or ".join(reversed(way.split(" or ")))}
    assert 2 == result.exit_code
    assert result.stderr in {f'Error: there is no car "{name}"; write {w}\n' for w in ways}


def test_car_must_be_said__when_there_are_two(content: Path) -> None:
    run("book-in", content, *NEW)
    result = run("show", "ledger", content)
    says = "Error: say which car: --car aldermoor-plover or --car tern\n"
    assert (2, says) == (result.exit_code, result.stderr)


@pytest.mark.parametrize("day", ["5.3.2024", "2024-02-30", "today"])
def test_day_that_is_none__is_a_wrong_call(day: str, content: Path) -> None:
    for words in (("show", "ledger", "--as-of"), ("book-in", "--booked-in")):
        result = run(*words, day, content)
        assert 2 == result.exit_code
        says = f'"{day}" is not a date; write year-month-day, such as 2024-03-05\n'
        assert result.stderr.endswith(says)


# publish


def test_publish__into_the_content_or_over_strange_files_is_a_wrong_call(
    content: Path, tmp_path: Path
) -> None:
    put_file(tmp_path, "strange/letter.txt", b"mine")
    before = files(tmp_path)
    for target in (content / "archive", content, tmp_path, tmp_path / "strange"):
        assert 2 == run("publish", content, "--for", "owner", "--to", target).exit_code
    assert before == files(tmp_path)


def test_publish__for_the_public_needs_the_leave_of_the_owner(
    content: Path, tmp_path: Path
) -> None:
    result = run("publish", content, "--for", "public", "--to", tmp_path / "archive")
    says = "Error: tern has no public archive; the owner's leave is told with public: yes in car.yaml\n"
    assert (2, says) == (result.exit_code, result.stderr)
    assert not (tmp_path / "archive").exists()


# book-in


def _book_in(content: Path, *words: object, text: str | None = None) -> Result:
    return run("book-in", content, *NEW, *words, text=text)


def test_book_in__opens_a_car_file_that_is_all_clean(content: Path) -> None:
    result = _book_in(content)
    assert 0 == result.exit_code
    folder = content / "aldermoor-plover"
    written = [
        f"wrote {folder / name}" for name in ("car.yaml", "register.yaml", "papers/papers.yaml")
    ]
    assert [*written, f"Sheets go into {folder / 'sheets'}, named by day and what was done."] == (
        result.stdout.splitlines()
    )
    assert (folder / "sheets").is_dir()
    assert (folder / "photos").is_dir()
    assert "All clean.\n" == run("check", content).stdout


def test_book_in__into_an_empty_place_makes_the_workshop_too(tmp_path: Path) -> None:
    content = tmp_path / "new" / "content"
    result = _book_in(content, "--workshop", "Saltmarsh Lane", "--hand", "MT=Margit Tolland")
    assert 0 == result.exit_code
    read = read_content(content)
    assert () == read.problems
    assert read.workshop is not None
    assert ("Saltmarsh Lane", ("MT",)) == (read.workshop.name, read.workshop.hands.names())
    (car,) = read.cars
    assert ("Aldermoor Plover", "1961", "saloon", "Mr Ivo Lark") == (
        car.car.name, car.car.year, car.car.body, car.car.owner.name,
    )  # fmt: skip
    assert "2024-03-01" == car.car.booked_in.isoformat()


def test_book_in__asks_for_what_it_was_not_told(tmp_path: Path) -> None:
    answers = "Aldermoor Plover\n1961\nsaloon\nMr Ivo Lark\n\nSaltmarsh Lane\nMT=Margit Tolland\n"
    result = run("book-in", tmp_path, "--booked-in", "2024-03-01", text=answers)
    assert 0 == result.exit_code
    for question in (
        "What car is it (make and model): ",
        "Year built: ",
        "Body (saloon, drophead, ...): ",
        "Owner's name: ",
        "Chassis number as stamped (empty when not read yet): ",
        "The workshop's name: ",
        "Your initials and name, as MT=Margit Tolland: ",
    ):
        assert question in result.stdout
    assert "All clean.\n" == run("check", tmp_path).stdout
    assert 0 == len(read_content(tmp_path).cars[0].car.numbers)


def test_book_in__never_writes_over_what_is_there(content: Path) -> None:
    _book_in(content)
    before = files(content)
    result = _book_in(content, "--year", "1999")
    says = 'Error: there is a "aldermoor-plover" already; give the new car another --folder\n'
    assert (2, says) == (result.exit_code, result.stderr)
    assert before == files(content)
    assert 0 == _book_in(content, "--folder", "another-plover").exit_code
    after = files(content)
    assert before == {path: data for path, data in after.items() if path in before}


def test_book_in__does_not_take_a_folder_or_a_file_of_the_same_name(content: Path) -> None:
    put_file(content, "aldermoor-plover/keep.txt", b"mine")
    put_file(content, "other", b"mine")
    assert 2 == _book_in(content).exit_code
    assert 2 == _book_in(content, "--folder", "other").exit_code
    assert b"mine" == (content / "aldermoor-plover/keep.txt").read_bytes()
    assert b"mine" == (content / "other").read_bytes()


@pytest.mark.parametrize("folder", ["../out", "A Car", "/tmp/car", ".hidden", ""])
def test_book_in__refuses_a_folder_name_that_is_none(folder: str, content: Path) -> None:
    before = files(content.parent)
    result = _book_in(content, "--folder", folder, "--name", "猫")
    way = "write --folder with lower-case words joined by hyphens"
    says = f'Error: "{folder}" cannot be a folder name; {way}\n'
    assert (2, says) == (result.exit_code, result.stderr)
    assert before == files(content.parent)


def test_book_in__refuses_a_hand_without_initials(tmp_path: Path) -> None:
    result = _book_in(tmp_path, "--workshop", "Saltmarsh Lane", "--hand", "Margit")
    says = 'Error: "Margit" names no hand; write INITIALS=NAME, such as MT=Margit Tolland\n'
    assert (2, says) == (result.exit_code, result.stderr)
    assert {} == files(tmp_path)


@pytest.mark.parametrize(
    ("name", "slug"),
    [
        ("Aldermoor Tern", "aldermoor-tern"),
        ("Coupé à l'été", "coupe-a-l-ete"),
        ("  TERN  Mk. II ", "tern-mk-ii"),
        ("猫", ""),
        ("Tern ½", "tern-1-2"),
    ],
)
def test_folder_name__is_made_of_the_letters_of_the_name(name: str, slug: str) -> None:
    assert slug == slug_of(name)


_SAID = st.text(st.characters(codec="utf-8", exclude_categories=["Cs"]), min_size=1, max_size=20)


def _seen(text: str) -> str:
    return normal(without_hidden(text)[0]).strip()


@given(_SAID, _SAID)
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60)
def test_book_in__whatever_is_typed_reads_back_as_it_is_seen(
    tmp_path_factory: pytest.TempPathFactory, owner: str, body: str
) -> None:
    content = tmp_path_factory.mktemp("content")
    result = _book_in(
        content, f"--owner={owner}", f"--body={body}", "--workshop", "S", "--hand", "MT=M"
    )
    assert 0 == result.exit_code
    (car,) = read_content(content).cars
    assert (_seen(owner), _seen(body)) == (car.car.owner.name, car.car.body)
    assert () == read_content(content).problems

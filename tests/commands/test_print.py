"""Printing as a person asks for it: one document, for one reader, never over a file that is there."""

from pathlib import Path

import pikepdf
import pytest
from click.testing import Result

from tests.commands.running import DAY, run
from tests.printing import text_in
from tests.tern import put_content, sheet_text

SHEET = "2024-03-05-gearbox"


def asked(content: Path, target: Path, *words: object, reader: str = "owner") -> Result:
    cache = target.parent / "cache"
    return run("print", content, *words, "--for", reader, "--to", target, "--cache", cache)


def printed(content: Path, target: Path, *words: object, reader: str = "owner") -> bytes:
    result = asked(content, target, *words, reader=reader)
    assert (0, f"wrote {target}\n") == (result.exit_code, result.stdout), result.output
    return target.read_bytes()


def test_dossier__is_a_draft_with_its_reservations(content: Path, tmp_path: Path) -> None:
    pdf = printed(content, tmp_path / "dossier.pdf", "--dossier")
    first = text_in(pdf, "-l", "1")
    assert first.startswith("PROVENANCE DOSSIER Draft of 5 March 2024 Aldermoor Tern")
    assert 'Gearbox: open since 5 March 2024: weeps, "badly" (S 1)' in first


def test_sheet__has_the_text_and_the_facts_of_the_day(tmp_path: Path) -> None:
    front = (
        "title: Apart\nhours: {MT: 3.5}\nwork:\n  gearbox/laygear: {did: removed, found: pitted}\n"
    )
    body = "Split it.\n\n::: workshop\nHidden.\n:::\n"
    content = put_content(tmp_path / "content", **{DAY: sheet_text(front, body)})
    text = text_in(printed(content, tmp_path / "s.pdf", "--sheet", SHEET))
    for words in ("Apart", "Tuesday 5 March 2024, Gearbox", "Split it.", "Margit Tolland", "3.5",
                  "Found: pitted", "Page 1 of 1"):  # fmt: skip
        assert words in text, words
    assert "Hidden" not in text
    whole = text_in(printed(content, tmp_path / "w.pdf", "--sheet", SHEET, reader="workshop"))
    assert "FOR THE WORKSHOP ONLY Hidden." in whole


def test_statement__adds_up_as_it_was_issued(content: Path, tmp_path: Path) -> None:
    """3.5 hours at 50 and 1 at 48 are 223; with 212 of parts 435."""
    given = ("--to", "2024-03-31", "--issued", "2024-04-02")
    assert 0 == run("statement", content, *given).exit_code
    pdf = printed(content, tmp_path / "one.pdf", "--statement", "2024-03-31")
    text = text_in(pdf)
    for words in ("Statement 1", "issued 2 April 2024", "Mrs Eleanor Harrow", "£223.00",
                  "£212.00", "£435.00"):  # fmt: skip
        assert words in text, words
    with pikepdf.open(tmp_path / "one.pdf") as read, read.open_metadata() as told:
        assert ("2A", "1") == (told.pdfa_status, told["pdfuaid:part"])
        assert "D:20240402120000Z" == str(read.docinfo["/CreationDate"])


def test_paper__letter(content: Path, tmp_path: Path) -> None:
    printed(content, tmp_path / "s.pdf", "--sheet", SHEET, "--paper", "letter")
    with pikepdf.open(tmp_path / "s.pdf") as read:
        assert [612, 792] == [int(n) for n in read.pages[0].mediabox][2:]


def test_file__that_is_there_is_never_written_over(content: Path, tmp_path: Path) -> None:
    target = tmp_path / "there.pdf"
    target.write_text("mine")
    result = asked(content, target, "--sheet", SHEET)
    told = f"Error: {target} is there already; name another file, or take it away first\n"
    assert (2, told) == (result.exit_code, result.output)
    assert "mine" == target.read_text()


@pytest.mark.parametrize(
    ("words", "reader", "told"),
    [
        ((), "owner", "say what to print: one of --dossier, --sheet NAME and --statement DATE"),
        (("--dossier", "--sheet", SHEET), "owner",
         "say what to print: one of --dossier, --sheet NAME and --statement DATE"),
        (("--sheet", "2024-03-05-gearbax"), "owner",
         f'there is no sheet "2024-03-05-gearbax" for the owner; write {SHEET}'),
        (("--statement", "2024-03-31"), "owner", "no statement ends on 2024-03-31; write 2024-03-05"),
        (("--dossier",), "public",
         "tern has no public archive; the owner's leave is told with public: yes in car.yaml"),
        (("--dossier", "--as-of", "2024-02-01"), "owner",
         "no car had come in by then; the first was booked in on 2024-03-01"),
    ],
)  # fmt: skip
def test_wrong_call__says_what_to_write(
    content: Path, tmp_path: Path, words: tuple[str, ...], reader: str, told: str
) -> None:
    result = asked(content, tmp_path / "a.pdf", *words, reader=reader)
    assert (2, f"Error: {told}\n") == (result.exit_code, result.output)
    assert not (tmp_path / "a.pdf").exists()


def test_statement__is_not_for_the_public(tmp_path: Path) -> None:
    car = "name: Tern\nyear: 1958\nbody: drophead\nbooked-in: 2024-03-01\nowner: A\npublic: yes\n"
    content = put_content(
        tmp_path / "content", **{DAY: sheet_text("hours: {MT: 1}"), "tern/car.yaml": car}
    )
    result = asked(content, tmp_path / "a.pdf", "--statement", "2024-03-05", reader="public")
    told = "Error: statements are not for the public\n"
    assert (2, told) == (result.exit_code, result.output)

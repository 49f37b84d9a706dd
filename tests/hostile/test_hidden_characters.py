"""What nobody sees: told as a problem, and in no page, table or message.

The trick is old: a mark that turns the direction of writing makes `31240` out of `04213`, and a
joiner in a number keeps it from being masked. See also CVE-2021-42574, "trojan source".
"""

import re
from pathlib import Path

import pytest

from journal.outputs.findings import problems_of
from journal.outputs.problems import problems_text
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from tests.commands.running import files, run
from tests.hostile.filling import put_filled
from tests.hostile.parsing import parsed, texts
from tests.hostile.test_markup import archive_for
from tests.published import pages
from tests.tern import SHEET, put_content, put_file, sheet_text

HIDDEN = (
    "\u202e", "\u202d", "\u202a", "\u202b", "\u202c", "\u2066", "\u2067", "\u2068", "\u2069", "\u200e",
    "\u200f", "\u061c", "\u200b", "\u200c", "\u200d", "\u2060", "\ufeff", "\xad", "\u034f", "\u180e",
    "\u3164", "\ufe0f", "\U000e0061", "\ue000", "\x1b", "\x07", "\x7f", "\x9b",
)  # fmt: skip
_SEEN = re.compile("[^\t\n\r -~\xa0-\U0010ffff]|[" + "".join(HIDDEN[:-4]) + "]")


def _everywhere(written: str, body: str, folder: Path) -> tuple[Path, str]:
    """A text in every place, published for the workshop, and all that was made, as one text."""
    content = put_filled(folder / "content", lambda _: written, body)
    archive = archive_for(content)
    made = {
        path: data.decode("utf-8") for path, data in files(archive).items()
        if not path.endswith((".jpg", ".webp", ".avif"))
    }  # fmt: skip
    return content, "\n".join([*made, *made.values()])


def test_hidden_character_in_every_text__is_in_nothing_that_is_made(tmp_path: Path) -> None:
    # Some of them stand as they are in YAML, all of them by their numbers in a text in quotes.
    written = "zq" + "zq".join(HIDDEN) + "zq 042\u202e13"
    content, made = _everywhere(written, written, tmp_path)
    assert not (found := _SEEN.search(made)), repr(found)
    assert "zq" * (len(HIDDEN) + 1) + " 04213" in made
    for table in ("ledger", "parts", "snags"):
        for form in ("csv", "json", "table"):
            told = run("show", table, content, "--as", form).output
            assert not (found := _SEEN.search(told)), repr(found)
    for form in ("text", "json"):
        told = run("check", content, "--as", form).output
        assert "hidden-character" in told
        assert not (found := _SEEN.search(told)), repr(found)


@pytest.mark.parametrize("mark", HIDDEN)
def test_hidden_character__is_told_at_its_line_by_its_number(mark: str, tmp_path: Path) -> None:
    text = sheet_text('title: "TG 58 04213"', "One.\n\nThe number is 58 04213.\n")
    text = text.replace("number is 58 ", f"number is 58 {mark}")
    content = put_content(tmp_path, **{SHEET: text})
    (problem,) = problems_of(read_content(content))
    assert ((SHEET, 8), "hidden-character", "warning") == (
        problem.place, problem.code, problem.severity.value,
    )  # fmt: skip
    number = f"U+{ord(mark):04X}"
    assert f"a character that nobody sees stands here, {number} (" in problem.message
    assert f"The number is 58 <{number}>04213." == problem.quoted
    (car,) = read_content(content).cars
    assert ["One.\n\nThe number is 58 04213."] == [b.text for b in car.sheets[0].body]


def test_hidden_characters_of_a_file__are_one_problem_that_leads_to_the_next(
    tmp_path: Path,
) -> None:
    body = "One \u202e.\n\nTwo.\n\nThree \u200b and \u200b.\n"
    content = put_content(tmp_path, **{SHEET: sheet_text(body=body)})
    expected = f"""\
{SHEET}:5: warning[hidden-character]: a character that nobody sees stands here, U+202E \
(right-to-left override)
    5 | One <U+202E>.
  note: 2 more such characters stand in the text, the next one here ({SHEET}:9)
  help: take it out and write the words beside it anew; the pages leave it out

1 warning in 1 file."""
    assert expected == problems_text(problems_of(read_content(content)))


def test_mark_by_its_number_in_yaml__is_found_too(tmp_path: Path) -> None:
    front = 'title: "58\\u202e04213"\nsnags: {"weep\\u200bs": {raise: "\\e[31mred\\0"}}'
    content = put_content(tmp_path, **{SHEET: sheet_text(front)})
    told = [(p.place.line, p.code) for p in problems_of(read_content(content))]
    assert [(4, "hidden-character"), (5, "hidden-character"), (5, "hidden-character")] == told
    (car,) = read_content(content).cars
    front_matter = car.sheets[0].front
    assert ("5804213", ("weeps",)) == (front_matter.title, front_matter.snags.names())
    assert [("[31mred",)] == [(snag.raise_,) for _, snag in front_matter.snags]


def test_number_with_a_joiner_in_it__is_masked_like_any_other(tmp_path: Path) -> None:
    number = "TD 58/0417"
    split = "\u200b".join(number)
    content = put_content(
        tmp_path / "content",
        **{SHEET: sheet_text(f"title: Stamped {split}", f"It says {split}.\n")},
    )
    car = (content / "tern/car.yaml").read_text(encoding="utf-8")
    put_file(
        content, "tern/car.yaml", f"{car}public: yes\nnumbers: {{chassis: {number}}}\n".encode()
    )
    archive = archive_for(content, Reader.PUBLIC)
    shown = [text for page in pages(archive) for text in texts(parsed(page))]
    assert not [text for text in shown if "0417" in text]


PICTURES = (
    "\U0001f527 \U0001f468\u200d\U0001f527 \U0001f469\U0001f3fd\u200d\U0001f527 \u2600\ufe0f 1\ufe0f\u20e3 "
    "\U0001f3f4\U000e0067\U000e0062\U000e0065\U000e006e\U000e0067\U000e007f \U0001f1ec\U0001f1e7"
)
SCRIPTS = "\u05d9\u05d5\u05e1\u05d9 \u0645\u06cc\u200c\u062e\u0648\u0627 \u0915\u094d\u200d\u0937 テスト Ж"


@pytest.mark.parametrize("written", [PICTURES, SCRIPTS], ids=["emoji", "scripts"])
def test_emoji_and_other_scripts__are_shown_as_they_are(written: str, tmp_path: Path) -> None:
    sheet = sheet_text(f"title: {written}", f"{written}.\n")
    content = put_content(tmp_path / "content", **{SHEET: sheet})
    assert () == problems_of(read_content(content))
    page = parsed(archive_for(content) / "sheets/2024-03-05-gearbox.html")
    assert written in [str(e.text).strip() for e in page.iter("h1")]
    assert f"{written}." in [e.text for e in page.iter("p")]


@pytest.mark.timeout(30)
def test_pile_of_accents__is_cut_and_does_not_take_hours(tmp_path: Path) -> None:
    # Putting 100,000 accents of two kinds in order takes time by the square of their number.
    pile = "o" + "\u0316\u0300" * 30_000
    content = put_content(tmp_path, **{SHEET: sheet_text("title: one", f"{pile} two\n")})
    (problem,) = problems_of(read_content(content))
    assert "more than 8 accents stand on one letter, the next is U+0316" in problem.message
    assert len(problem.quoted) < 20
    (car,) = read_content(content).cars
    # o with grave is one letter in form C; of the other seven accents each stays for itself.
    assert 8 + len(" two") == len(car.sheets[0].body[0].text)

"""Twenty different mistakes in ten sheets: each is told at its line, and the rest is published."""

import json
from pathlib import Path

from click.testing import CliRunner

from journal.commands import main
from journal.outputs.archive import Order
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from tests.plainly import publish

TWENTY = Path(__file__).parent / "twenty"

EXPECTED = [
    ("2024-03-04-gearbox-out", 4, "bad-number"),
    ("2024-03-04-gearbox-out", 6, "unknown-component"),
    ("2024-03-05-gearbox-apart", 4, "unknown-hand"),
    ("2024-03-05-gearbox-apart", 8, "unknown-supplier"),
    ("2024-03-06-looking-hard", 5, "bad-word"),
    ("2024-03-06-looking-hard", 7, "unknown-photo"),
    ("2024-03-07-pipes-off", 3, "unknown-subsystem"),
    ("2024-03-07-pipes-off", 4, "unknown-key"),
    ("2024-03-08-measuring", 5, "conforms-why"),
    ("2024-03-08-measuring", 7, "limits-crossed"),
    ("2024-03-11-talk-with-the-owner", 5, "unknown-link"),
    ("2024-03-11-talk-with-the-owner", 7, "bad-block"),
    ("2024-03-12-bench", 6, "loose-words"),
    ("2024-03-12-bench", 7, "key-twice"),
    ("2024-03-13-dynamo", 5, "removed-twice"),
    ("2024-03-13-dynamo", 6, "departure-incomplete"),
    ("2024-03-14-plating", 6, "more-back-than-sent"),
    ("2024-03-14-plating", 8, "unknown-snag"),
    ("2024-03-15-last-things", 5, "since-after-sheet"),
    ("2024-03-15-last-things", 7, "missing-key"),
]


def test_twenty_mistakes__are_different_and_stand_in_ten_sheets() -> None:
    assert 20 == len({code for _, _, code in EXPECTED})
    assert 10 == len({sheet for sheet, _, _ in EXPECTED})


def test_check__tells_each_of_twenty_mistakes_at_its_line_with_a_way_out() -> None:
    result = CliRunner().invoke(main, ["check", str(TWENTY), "--as", "json"])
    told = json.loads(result.stdout)
    assert [(f"tern/sheets/2024/{sheet}.md", line, code) for sheet, line, code in EXPECTED] == [
        (p["path"], p["line"], p["code"]) for p in told
    ]
    assert [] == [p["code"] for p in told if not (p["help"] or p["note"])]
    assert 1 == result.exit_code


def test_check__quotes_the_line_of_each_of_twenty_mistakes() -> None:
    result = CliRunner().invoke(main, ["check", str(TWENTY), "--as", "json"])
    for problem in json.loads(result.stdout):
        lines = (TWENTY / problem["path"]).read_text(encoding="utf-8").splitlines()
        assert lines[problem["line"] - 1] == problem["quoted"]


def test_check__counts_twenty_mistakes_at_the_end() -> None:
    result = CliRunner().invoke(main, ["check", str(TWENTY)])
    assert "18 errors and 2 warnings in 10 files." == result.stdout.splitlines()[-1]


def test_publish__writes_the_rest_of_a_car_file_with_twenty_mistakes(tmp_path: Path) -> None:
    order = Order(TWENTY, tmp_path / "archive", Reader.WORKSHOP)
    problems = publish(read_content(TWENTY), order)
    assert [code for _, _, code in EXPECTED] == [p.code for p in problems]
    pages = {p.relative_to(order.target).as_posix() for p in order.target.rglob("*.html")}
    assert [] == [s for s, _, _ in EXPECTED if not any(s in page for page in pages)]
    text = "".join(p.read_text(encoding="utf-8") for p in order.target.rglob("*.html"))
    for words in ("Out in one piece.", "Pits on the outer race.", "Clips and nuts, counted twice."):
        assert words in text

"""Every code of a problem has its smallest wrong file and its exact message (tests/mistakes).

`<code>.md` is a day sheet, or names the files it puts over the good content:

    ~~~~ tern/register.yaml
    (the text of the file)
    ~~~~

Files below `talks/` are talks that a sheet would be made of; nothing else of the content reads them.
After the path may stand an encoding, `base64` for what is no text, `folder` for a folder in its
place, `link` for a link to what is written, `large` for the text over and over up to 200,000 bytes,
or `gone`. `<code>.txt` is what `journal check` prints.
"""

import ast
import re
import shutil
from base64 import b64decode
from collections.abc import Iterator
from pathlib import Path

import pytest
from msgspec.structs import replace

import journal
from journal.checks.names import _KINDS
from journal.outputs.archive import Order
from journal.outputs.findings import problems_of
from journal.outputs.pictures import Means, looked
from journal.outputs.problems import problems_text
from journal.outputs.withheld import Withheld
from journal.reading.content import read_content
from journal.reading.talk import read_talk
from journal.records.codes import CODES
from journal.records.problem import Problem
from journal.words.vocabulary import Reader
from tests.plainly import publish
from tests.tern import SHEET, put_content, put_file

MISTAKES = Path(__file__).parent / "mistakes"
_FILE = re.compile(r"^~~~~ (\S+) ?(\S*)\n(.*?)^~~~~$", re.DOTALL | re.MULTILINE)


def _lay_over(root: Path, case: str) -> None:
    files = _FILE.findall(case) if case.startswith("~~~~ ") else [(SHEET, "", case)]
    for path, kind, text in files:
        if kind in ("gone", "folder"):
            (root / path).unlink()
        if kind == "folder":
            (root / path).mkdir()
        elif kind == "link":
            (root / path).symlink_to(text.strip())
        elif kind == "large":
            put_file(root, path, (text * 200_000)[:200_000].encode())
        elif kind == "base64":
            put_file(root, path, b64decode(text))
        elif kind != "gone":
            put_file(root, path, text.encode(kind or "utf-8"))


def _problems(root: Path, cache: Path) -> tuple[Problem, ...]:
    """What a check finds, and why the public archive of a car is withheld."""
    content = read_content(root)
    found = problems_of(looked(content, root, Means(cache)))
    for talk in sorted((root / "talks").glob("*")):
        told = read_talk(talk)[1]
        found += tuple(replace(p, place=p.place._replace(path=f"talks/{talk.name}")) for p in told)
    for car in (c.name for c in content.cars if c.car.public):
        try:
            publish(content, Order(root, cache.with_name("archive"), Reader.PUBLIC, car))
        except Withheld as withheld:
            found += withheld.problems
    return found


@pytest.mark.parametrize("code", sorted(CODES))
def test_mistake__is_told_in_these_words(code: str, tmp_path: Path) -> None:
    root = put_content(tmp_path / "content")
    _lay_over(root, (MISTAKES / f"{code}.md").read_text(encoding="utf-8"))
    problems = _problems(root, tmp_path / "pictures")
    expected = (MISTAKES / f"{code}.txt").read_text(encoding="utf-8")
    assert expected == problems_text(problems) + "\n"
    assert [code] == [p.code for p in problems]


def test_good_content__is_all_clean(tmp_path: Path) -> None:
    root = put_content(tmp_path / "content")
    assert "All clean." == problems_text(_problems(root, tmp_path / "pictures"))
    shutil.rmtree(tmp_path / "pictures")


def test_mistakes__are_there_for_every_code_and_no_other() -> None:
    assert sorted(CODES) == sorted(p.stem for p in MISTAKES.glob("*.md"))
    assert sorted(CODES) == sorted(p.stem for p in MISTAKES.glob("*.txt"))


# Where a code stands in the calls that make a problem.
_MAKERS = {
    "NotRead": 0, "Mistake": 1,
    "Problem": 1, "problem_at": 2, "refuse": 0, "contradicted": 2, "_Refused": 1, "report": 1,
}  # fmt: skip


def _codes_in(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.Call):
            continue
        place = _MAKERS.get(getattr(node.func, "id", getattr(node.func, "attr", "")))
        if place is None or place >= len(node.args):
            continue
        code = node.args[place]
        if isinstance(code, ast.Constant):
            yield str(code.value)
        elif isinstance(code, ast.JoinedStr):
            yield from (f"unknown-{kind}" for kind in _KINDS)


def test_codes__are_those_that_the_program_tells_and_no_other() -> None:
    root = Path(journal.__file__).parent
    told = {code for path in root.rglob("*.py") for code in _codes_in(path)}
    assert sorted(CODES) == sorted(told)


def test_codes__say_what_and_why_in_whole_sentences() -> None:
    for code, (meaning, why) in CODES.items():
        assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", code)
        for sentence in (meaning, why):
            assert sentence[0].isupper() or sentence[0].isdigit(), code
            assert sentence.endswith("."), code

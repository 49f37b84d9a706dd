"""Bench sums as forms: the same answer and the same sentences as in the terminal."""

import json
import re
import shlex
from html import unescape
from typing import Any

import html5lib
import pytest
from click.testing import CliRunner

from journal.bench import SUMS
from journal.bench.base.definition import Sum, Takes
from journal.bench.base.rows import split_rows
from journal.commands import main
from journal.reading.sheet import sheet_of
from tests.desk.asking import Asked
from tests.tern import sheet_text

every_sum = pytest.mark.parametrize("sum_", SUMS, ids=lambda s: s.name)


def filled(sum_: Sum) -> dict[str, Any]:
    """The example of a sum as its form sends it: rows by their cells, and what is empty too."""
    example = dict(sum_.example)
    return {
        each.name: split_rows(each, example[each.name])
        if each.takes is Takes.ROWS and each.name in example
        else example.get(each.name, [{}] if each.columns else "")
        for each in sum_.inputs
    }


def post(desk: Asked, name: str, given: Any) -> Any:
    return desk.browser.post(f"/_/api/sums/{name}", json={"given": given}, headers=desk.token())


def in_terminal(*words: str) -> dict[str, Any]:
    done = CliRunner().invoke(main, ["sum", *words, "--as", "json"])
    assert 0 == done.exit_code, done.output
    told: dict[str, Any] = json.loads(done.output)
    return told


def words_of(html: str) -> str:
    """The words of a page, each piece once, in order."""
    return " ".join(
        unescape(re.sub(r"<[^>]+>", " ", html)).replace("\N{NO-BREAK SPACE}", " ").split()
    )


@every_sum
def test_answer__is_that_of_the_terminal(desk: Asked, sum_: Sum) -> None:
    expected = in_terminal(sum_.name, *(f"{name}={text}" for name, text in sum_.example))
    told = post(desk, sum_.name, filled(sum_)).json()
    shown = words_of(told["html"])
    assert {} == told["wrong"]
    assert (expected["verdict"] or "Worked out") == told["said"]
    texts = [expected["verdict"], *expected["working"], *expected["warnings"]]
    texts += [part for result in expected["results"] for part in (result["told"], result["other"])]
    texts += [cell for table in expected["tables"] for row in table["rows"] for cell in row]
    for text in texts:
        assert " ".join(text.split()) in shown
    assert len(expected["curves"]) == told["html"].count('class="sum-curve"')


@every_sum
def test_answer__can_be_taken_along_as_lines_and_as_a_command(desk: Asked, sum_: Sum) -> None:
    expected = in_terminal(sum_.name, *(f"{name}={text}" for name, text in sum_.example))
    html = post(desk, sum_.name, filled(sum_)).json()["html"]
    lines, command = (unescape(t) for t in re.findall(r"<pre [^>]*>(.*?)</pre>", html, re.DOTALL))
    assert expected == in_terminal(*shlex.split(command)[2:])
    sheet, problems = sheet_of(sheet_text(lines).encode(), "")
    assert sheet is not None
    assert [] == problems
    ((name, line),) = sheet.front.sums
    assert (sum_.name, sum_.name) == (name, line.sum_)
    written = [f"{key}={text}" for key, text in line.inputs]
    again = in_terminal(sum_.name, *written)
    for key in ("verdict", "results", "working"):
        assert expected[key] == again[key]


@every_sum
def test_page__has_what_is_asked_for_and_what_stands_beside_an_answer(
    desk: Asked, sum_: Sum
) -> None:
    html = desk.browser.get(f"/_/sums/{sum_.name}").text
    html5lib.HTMLParser(strict=True).parse(html)
    shown = words_of(html)
    for each in sum_.inputs:
        assert f'data-name="{each.name}"' in html
        assert " ".join(each.meaning.split()) in shown
    for text in (sum_.asks, sum_.in_words, *sum_.limits, sum_.caution, *sum_.sources):
        assert " ".join(text.split()) in shown
    assert "It stands here as soon as there is enough to work it out." in shown
    assert 'class="wrong" id="' in html
    assert [] == re.findall(r'class="wrong" id="[\w-]+">', html), "an empty form has no mistakes"


@every_sum
def test_address__holds_what_was_worked_out(desk: Asked, sum_: Sum) -> None:
    told = post(desk, sum_.name, filled(sum_)).json()
    html = desk.browser.get(f"/_/sums/{told['asked']}").text
    html5lib.HTMLParser(strict=True).parse(html)
    assert words_of(told["html"]) in words_of(html)
    again = post(desk, sum_.name, in_form(html)).json()
    assert without_lines(told["html"]) == without_lines(again["html"])


def without_lines(html: str) -> str:
    """An answer without what is taken along: ticks stand there in the order of the form."""
    return re.sub(r"<pre .*?</pre>", "", html, flags=re.DOTALL)


def in_form(html: str) -> dict[str, Any]:
    """What stands in the fields of a page, as its script sends it."""
    tree = html5lib.parse(html, namespaceHTMLElements=False)
    found: dict[str, Any] = {}
    for field in tree.iterfind(".//*[@data-name]"):
        name, control = field.get("data-name"), field.get("data-control")
        if control == "rows":
            found[name] = [_cells(row) for row in field.iterfind(".//ol/li")]
        elif control == "text":
            found[name] = field.find("./input").get("value")
        elif control == "select":
            chosen = field.find(".//option[@selected]")
            found[name] = "" if chosen is None else chosen.get("value")
        else:
            ticked = [box.get("value") for box in field.iterfind(".//input[@checked]")]
            found[name] = ", ".join(ticked)
    return found


def _cells(row: Any) -> dict[str, str]:
    cells: dict[str, str] = {}
    for cell in row.iterfind(".//*[@data-column]"):
        chosen = cell.find("./option[@selected]")
        text = (
            (chosen.text if chosen is not None else "")
            if cell.tag == "select"
            else cell.get("value")
        )
        if text:
            cells[cell.get("data-column")] = text
    return cells


SHIMS = {
    "target": "0.42 mm",
    "tolerance": "0.02 mm",
    "shims": [{"thickness": "0.14 mm", "count": "3"}],
}


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"target": "3 bar"}, 'target must be a length, found "3 bar"; write it in mm, in or thou'),
        (
            {"tolerance": "0,02 mm"},
            'tolerance must have no comma inside a number, found "0,02"; write 0.02 for one number, '
            "or 0, 02 with a blank for two",
        ),
        (
            {"shims": [{"count": "3"}]},
            'shims has a row without its thickness, found "3"; write thickness x count',
        ),
        (
            {"shims": [{"thickness": "0.14, 0.15 mm"}]},
            'shims has a cell that cannot be told from the others, found "0.14, 0.15 mm"; '
            "write it without comma, colon, semicolon and x",
        ),
        (
            {"shims": [{"thickness": "9 bar"}]},
            'shims has a thickness that must be a length, found "9 bar"; write it in mm, in or thou',
        ),
    ],
)
def test_mistake__is_told_beside_its_field_alone(
    desk: Asked, given: dict[str, Any], said: str
) -> None:
    told = post(desk, "shim-pack", SHIMS | given).json()
    assert dict.fromkeys(given, said) == told["wrong"]
    assert ("No answer yet", None) == (told["said"], told["asked"])
    assert "Lines for a sheet" not in told["html"]


def test_mistake__stands_beside_its_field_in_a_page_that_is_opened_with_it(desk: Asked) -> None:
    html = desk.browser.get("/_/sums/shim-pack?target=3+bar&tolerence=1+mm").text
    assert (
        '<p class="wrong" id="wrong-target">target must be a length, found &#34;3 bar&#34;' in html
    )
    assert 'value="3 bar"' in html
    assert 'aria-invalid="true"' in html
    assert "Tolerence is not asked for by shim-pack; write tolerance" in words_of(html)


def test_what_is_missing__is_asked_for_and_is_no_mistake(desk: Asked) -> None:
    told = post(desk, "shim-pack", {"target": "0.42 mm"}).json()
    assert {} == told["wrong"]
    assert (
        "Still asked for How much thicker or thinner it may be What is in the drawer"
        in words_of(told["html"])
    )


def test_what_cannot_be_together__is_told_beside_the_input_that_it_is_about(desk: Asked) -> None:
    told = post(desk, "thread-identity", {"diameter": "7.87 mm"}).json()
    expected = CliRunner().invoke(main, ["sum", "thread-identity", "diameter=7.87 mm"])
    assert [f"Error: {words}\n" for words in told["wrong"].values()] == [expected.output]


def test_list__has_every_sum_by_the_job_that_it_serves(desk: Asked) -> None:
    html = desk.browser.get("/_/sums").text
    html5lib.HTMLParser(strict=True).parse(html)
    assert {f"/_/sums/{s.name}" for s in SUMS} == set(re.findall(r'href="(/_/sums/[\w-]+)"', html))
    jobs = [unescape(job).casefold() for job in re.findall(r"<h2[^>]*>(.*?)</h2>", html)]
    assert list(dict.fromkeys(s.job.value for s in sorted(SUMS, key=_place))) == jobs


def _place(sum_: Sum) -> int:
    return list(type(sum_.job)).index(sum_.job)


def test_page_of_the_archive__leads_to_the_forms(desk: Asked) -> None:
    assert '<a href="/_/sums">Fill one in</a>' in desk.browser.get("/tern/sums.html").text


@pytest.mark.parametrize(
    "given",
    [None, [], "target", {"target": 3}, {"target": ["x"]}, {"nothing": "1"}, {"shims": "0.1 mm"},
     {"shims": [{"thickness": 1}]}, {"shims": ["x"]}, {"shims": [{"thickness": "1"}] * 401}],
)  # fmt: skip
def test_what_no_form_sends__is_refused(desk: Asked, given: Any) -> None:
    answer = post(desk, "shim-pack", given)
    words = "This is not what the form of the sum asks for."
    assert (400, {"said": words}) == (answer.status_code, answer.json())


def test_sum__that_is_not_there(desk: Asked) -> None:
    assert 404 == desk.browser.get("/_/sums/shimpack").status_code
    answer = post(desk, "shimpack", {})
    assert (404, {"said": "There is no such sum."}) == (answer.status_code, answer.json())


def test_half_a_character__is_left_out(desk: Asked) -> None:
    told = desk.browser.post(
        "/_/api/sums/shim-pack",
        content=b'{"given": {"target": "\\ud800 3 bar"}}',
        headers=desk.token(),
    ).json()
    assert {"target"} == set(told["wrong"])

"""Links that run something or fetch something: told as problems, and no link in any page."""

from pathlib import Path

import pytest

from journal.words.vocabulary import Reader
from tests.commands.running import run
from tests.hostile.parsing import elements, parsed
from tests.hostile.test_markup import archive_for, only_ours
from tests.published import pages
from tests.tern import SHEET, put_content, sheet_text

# Spellings that one browser or another has followed: case, blanks, controls and entities in the
# name of the scheme, and schemes that carry their own content. After the OWASP cheat sheet on
# cross site scripting filter evasion.
TARGETS = (
    "javascript:zq()",
    "JaVaScRiPt:zq()",
    "javascript&colon;zq()",
    "javascript&#58;zq()",
    "&#106;avascript:zq()",
    "&#x6A;&#x61;vascript:zq()",
    "&#0000106avascript:zq()",
    "java&Tab;script:zq()",
    "java&NewLine;script:zq()",
    "java&#x09;script:zq()",
    "&#14;javascript:zq()",
    "%6Aavascript:zq()",
    "javascript%3Azq()",
    "javascript\\:zq()",
    "java\u200bscript:zq()",
    "\u202ejavascript:zq()",
    "javascript:zq()//http://archive.example/",
    "http:javascript:zq()",
    "vbscript:zq()",
    "VBSCRIPT:zq()",
    "livescript:zq()",
    "data:text/html,zq",
    "data:text/html;base64,enE=",
    "DATA:image/svg+xml,zq",
    "data:image/png;base64,enE=",
    "blob:zq",
    "file:///zq",
    "view-source:http://archive.example/zq",
    "feed:javascript:zq()",
    "jar:http://archive.example/zq",
    "intent:zq",
    "tel:0",
    "//archive.example/zq",
    "\\\\archive.example\\zq",
    "/zq",
    "../../zq",
    "?zq",
    "#zq",
)
FORMS = (
    "[words]({})",
    "[words](<{}>)",
    '[words]({} "title")',
    "[words][one]\n\n[one]: {}",
    "[words][one]\n\n[one]: <{}>",
    "<{}>",
    "![words]({})",
    "[![words]({})]({})",
)


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """A sheet a form with every target in it, published; and what a check says."""
    sheets = {
        SHEET.replace("gearbox", f"form-{n}"): sheet_text(
            body="".join(
                f"## Target {t}\n\n{form.replace('one', f'r{t}').format(target, target)}\n\n"
                for t, target in enumerate(TARGETS)
            )
        )
        for n, form in enumerate(FORMS)
    }
    content = put_content(tmp_path_factory.mktemp("links") / "content", **sheets)
    return archive_for(content), run("check", content).output


def test_link_to_a_script_or_to_data__is_no_link_in_any_page(told: tuple[Path, str]) -> None:
    for page in pages(told[0]):
        root = parsed(page)
        only_ours(root)
        for element in elements(root):
            for name in ("href", "src", "srcset"):
                leads = str(element.attrib.get(name, ""))
                assert "zq" not in leads
                assert not leads.startswith(("/", "\\", "?"))


@pytest.mark.parametrize("target", ["javascript:zq()", "data:text/html,zq", "vbscript:zq()"])
def test_link_to_a_script_or_to_data__is_told_with_its_line(
    target: str, told: tuple[Path, str]
) -> None:
    line = 6 + 4 * TARGETS.index(target) + 1
    path = SHEET.replace("gearbox", "form-0")
    expected = (
        f'{path}:{line}: error[unknown-link]: a link leads to "{target}", which is no sheet\n'
        f"{line:>5} | [words]({target})\n"
    )
    assert expected in told[1]


def test_whole_address__is_a_link_that_tells_nothing_of_where_it_stood(tmp_path: Path) -> None:
    body = "[one](https://archive.example/a?b=1&c=2) [two](mailto:someone@archive.example)\n"
    content = put_content(tmp_path / "content", **{SHEET: sheet_text(body=body)})
    archive = archive_for(content, Reader.OWNER)
    leads = {
        str(e.attrib["href"]): e.attrib.get("rel")
        for page in pages(archive)
        for e in elements(parsed(page))
        if "example" in str(e.attrib.get("href", ""))
    }
    assert {
        "https://archive.example/a?b=1&c=2": "noreferrer",
        "mailto:someone@archive.example": "noreferrer",
    } == leads

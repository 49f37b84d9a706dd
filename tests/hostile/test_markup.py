"""Markup in what is written stays text: no element, attribute or script of it is in any page.

Elements and attributes of the writer all start with `zq`, so that one of them in a page is seen.
"""

import csv
import json
import re
from pathlib import Path
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

import html5lib
import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from journal.outputs.archive import Order
from journal.reading.content import read_content
from journal.words.vocabulary import Reader
from tests.commands.running import run
from tests.hostile.filling import SHEET, put_filled
from tests.hostile.parsing import elements, parsed, structure, texts
from tests.plainly import publish
from tests.published import pages
from tests.tern import put_file, sheet_text

# Each is short enough for the name of a part or a hand, and all ways out of a place are tried:
# out of text, out of an attribute in quotes and without, out of an element, a comment, a template.
MARKUP = (
    "A <zqa zqb=\"1\"> \"><zqa zqb=1 onclick='zq()'> '><svg/onload=zq()><zqa> <img src=x onerror=zq()>",
    'B </title></textarea></style></script></svg><script>zq()</script>"><style>*{display:none}</style>',
    "C <!-- <zqa> --> ]]> <![CDATA[<zqa>]]> <?zqa?> &lt;zqa&gt; &#60;zqa&#x3e; &zqa; &amp <zqa",
    "D {{ zq }} {% zq %} ${zq} <%= zq %> ` onmouseover=zq() zqb=1 \" onfocus=zq() autofocus zqb='1",
)


def archive_for(content: Path, reader: Reader = Reader.WORKSHOP) -> Path:
    """The archive as the command writes it, with or without problems."""
    target = content.parent / reader.value
    result = run("publish", content, "--for", reader.value, "--to", target, "--car", "tern")
    assert target.is_dir(), result.output
    return target


def only_ours(root: Element) -> None:
    """No element, attribute or script that somebody wrote, and no link to a script."""
    for element in elements(root):
        names = {str(name).rsplit("}", 1)[-1].lower() for name in element.attrib}
        assert "zq" not in str(element.tag).lower()
        assert not {n for n in names if n.startswith(("on", "zq")) or n in ("style", "srcdoc")}
        assert element.tag != "style"
        if element.tag == "script":
            assert re.fullmatch(r"(\.\./)*[a-z0-9/.-]+\.js", element.attrib["src"])
            assert not (element.text or "").strip()
        for name in names & {"href", "src", "action", "formaction", "poster", "data"}:
            leads = str(element.attrib.get(name, ""))
            assert re.match(r"(https?://|mailto:|[^:]*$)", leads), leads


# What the public does not read at all, or not as it is written; all else it reads.
_MASKED = re.compile(
    r"(Owner|Keeper|Hand|Supplier|StampedNumber|Decided)\.|.*\.(numbers?|plate|registration|address|by|"
    r"checked|hands|suppliers|hours|from|to|place|source)$"
)


@pytest.mark.parametrize("reader", list(Reader))
@pytest.mark.parametrize("markup", MARKUP, ids=lambda markup: markup[0])
def test_markup_in_every_text__is_shown_as_text(
    markup: str, reader: Reader, tmp_path: Path
) -> None:
    def tell(where: str) -> str:
        masked = reader is not Reader.WORKSHOP and _MASKED.match(where)
        return "plain words" if masked else markup

    archive = archive_for(
        put_filled(tmp_path / "content", tell, markup, heard=reader is Reader.WORKSHOP), reader
    )
    roots = [parsed(page) for page in pages(archive)]
    for root in roots:
        only_ours(root)
    assert any(markup in text for root in roots for text in texts(root))


def test_markup_in_every_kind_of_key__is_told_and_shown_as_text(tmp_path: Path) -> None:
    keys = ["'" + markup.replace("'", "''") + "'" for markup in MARKUP]
    for kind in ("work", "parts", "outwork", "extras", "measured", "proving", "snags", "hours"):
        front = (
            "".join(f"{key}: {{x: y}}\n" for key in keys)
            + f"{kind}:\n"
            + "".join(f"  {key}: {{{key}: x, what: y, price: 1}}\n" for key in keys)
        )
        put_file(tmp_path, f"content/{SHEET.replace('day', kind)}", sheet_text(front).encode())
    archive = archive_for(put_filled(tmp_path / "content", lambda _: "plain words"))
    told = run("check", tmp_path / "content").output
    assert all(f'unknown key "{markup}"' in told for markup in MARKUP)
    for page in pages(archive):
        only_ours(parsed(page))


# Hypothesis: whatever is written, a page has the elements that it has with harmless letters.

_HARMLESS = re.compile(r"""[<>&"'`{}%$=;()!\\*_\[\]#~|^]""")
_TEXTS = st.lists(
    st.sampled_from([*"<>&\"'`{}%$=;()!\\*_[]#~| ab", "<zqa ", "&lt;", "-->", "]]>", "</", "\u05d0", "é"]),
    max_size=40,
).map("".join)  # fmt: skip


@given(_TEXTS)
@example("".join(MARKUP)[:180])
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=6)
def test_any_text__leaves_the_elements_of_every_page_as_they_are(
    tmp_path_factory: pytest.TempPathFactory, written: str
) -> None:
    made = []
    for text in (f"Words {written}", f"Words {_HARMLESS.sub('x', written)}"):
        folder = tmp_path_factory.mktemp("any")
        content = put_filled(folder / "content", lambda _, text=text: text)
        archive = folder / "archive"
        publish(read_content(content), Order(content, archive, Reader.WORKSHOP, "tern"))
        roots = {page.relative_to(archive).as_posix(): parsed(page) for page in pages(archive)}
        made.append({_anyhow(path): structure(root) for path, root in roots.items()})
        assert any(text.strip() in told for root in roots.values() for told in texts(root))
    assert made[1] == made[0]


def _anyhow(path: str) -> str:
    """A path without the sum of the name that it stands for."""
    return re.sub(r"[a-z0-9-]*--[0-9a-f]{12}", "named", path)


# What is no page: the feed, the data that is searched, the tables of statements.


def test_files_that_are_no_pages__hold_markup_as_text_alone(tmp_path: Path) -> None:
    archive = archive_for(put_filled(tmp_path / "content", lambda _: MARKUP[1], MARKUP[0]))
    feed = ElementTree.parse(archive / "feed.xml").getroot()
    assert "zq" not in " ".join(element.tag for element in feed.iter())
    told = feed.find("{*}entry/{*}content")
    assert told is not None
    only_ours(html5lib.parse(told.text, namespaceHTMLElements=False))
    data = sorted((archive / "find").glob("*.js"))
    assert data
    for file in data:
        text = file.read_text(encoding="utf-8")
        call = re.fullmatch(r"journalFind\((.*)\);\n", text, re.DOTALL)
        assert call, text[:80]
        # Data and nothing else, also within a script element.
        assert 3 == len(json.loads(f"[{call[1]}]"))
    for table in archive.rglob("*.csv"):
        rows = list(csv.reader(table.read_text(encoding="utf-8").splitlines()))
        assert 1 == len({len(row) for row in rows})


def test_file_names_of_an_archive__are_plain_whatever_is_written(tmp_path: Path) -> None:
    written = "Ж \u05d0\u05d1 テスト é <b> \"q\" /etc ../up 'x' C:\\ CON"
    archive = archive_for(put_filled(tmp_path / "content", lambda _: written, written))
    names = [path.relative_to(archive).as_posix() for path in archive.rglob("*")]
    assert [] == [name for name in names if not re.fullmatch(r"[A-Za-z0-9/._-]+", name)]

"""The text of a sheet as a tree: what CommonMark says it is, and nothing that could be markup."""

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from journal.pages.dossier.book import Book
from journal.pages.dossier.prosetree import ProseTree
from journal.records.sheet import Block
from journal.words.vocabulary import Reader
from tests.printing import PHOTO, small_view
from tests.writing import a_car, a_sheet


def tree(text: str) -> list[Any]:
    sheet = a_sheet("2024-03-05", name="pipes", photos={"file": "pipes.jpg", "of": "brakes/pipes"})
    view = small_view(a_car({"brakes/pipes": "first-fit"}, [sheet], photos=[PHOTO]))
    (passage,) = ProseTree(view, Book(view).places, sheet.date).passages(
        (Block(Reader.PUBLIC, text, 1),)
    )
    blocks: list[Any] = passage["blocks"]
    return blocks


def words(node: Any) -> str:
    """Every text in a tree, in order."""
    if isinstance(node, dict):
        return str(node.get("text", "")) + words(
            [v for k, v in node.items() if k in ("spans", "blocks", "items")]
        )
    return "".join(map(words, node)) if isinstance(node, list) else ""


def test_paragraph__with_words_in_it() -> None:
    assert [
        {
            "kind": "paragraph",
            "spans": [
                {"kind": "text", "text": "Split "},
                {"kind": "emphasis", "spans": [{"kind": "text", "text": "and"}]},
                {"kind": "text", "text": " "},
                {"kind": "strong", "spans": [{"kind": "text", "text": "drained"}]},
                {"kind": "text", "text": " it."},
            ],
        }
    ] == tree("Split *and* **drained**\nit.")


def test_list__keeps_its_kind_and_its_first_number() -> None:
    (bullets,) = tree("- a\n- b")
    (numbered,) = tree("3. a\n4. b")
    assert (False, 2) == (bullets["ordered"], len(bullets["items"]))
    assert (True, 3, 2) == (numbered["ordered"], numbered["start"], len(numbered["items"]))


def test_blocks__of_every_kind() -> None:
    text = "# Head\n\n> said\n\n```\nx = 1\n```\n\n---\n"
    assert ["heading", "quote", "code", "break"] == [node["kind"] for node in tree(text)]


def test_link__leads_to_the_web_or_to_a_place_of_the_document() -> None:
    (out,) = tree("[there](https://example.org/a)")
    assert {"kind": "link", "url": "https://example.org/a"}.items() <= out["spans"][0].items()
    (within,) = tree("[that day](2024-03-05-pipes.md), [pipes](brakes/pipes)")
    assert ["sheet-1", "line-1"] == [s["to"] for s in within["spans"] if s["kind"] == "lead"]


def test_link__that_runs_a_script_or_leads_nowhere_keeps_its_words_alone() -> None:
    (nowhere,) = tree("[words](no-such-sheet)")
    assert [{"kind": "text", "text": "words"}] == nowhere["spans"]
    (script,) = tree("[words](javascript:alert(1))")
    assert "[words](javascript:alert(1))" == words(script)


def test_picture__in_a_text_is_named_by_its_code() -> None:
    (node,) = tree("![the board](pipes.jpg)")
    assert ["the board (P\N{NO-BREAK SPACE}1)"] == [words(s) for s in node["spans"]]


def test_html__is_text() -> None:
    assert "<b>x</b>" == words(tree("<b>x</b>"))


def test_places__are_none_in_a_document_without_an_index() -> None:
    sheet = a_sheet("2024-03-05", name="pipes")
    view = small_view(a_car({"brakes/pipes": "first-fit"}, [sheet]))
    places = Book(view, indexed=False).places
    assert places.sheet(sheet.name).href is None
    assert places.component("brakes/pipes").href is None


@given(st.text(alphabet=st.characters(codec="utf-8"), max_size=80))
def test_any_text__is_a_tree_of_known_kinds(text: str) -> None:
    known = {
        "paragraph", "heading", "list", "quote", "code", "break", "text", "emphasis", "strong", "line",
        "link", "lead",
    }  # fmt: skip

    def walk(node: Any) -> None:
        if isinstance(node, dict):
            assert node["kind"] in known
            for value in node.values():
                walk(value)
        elif isinstance(node, list):
            for item in node:
                walk(item)

    walk(tree(text))

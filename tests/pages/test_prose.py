"""The text of a sheet, which several pages read and none may change."""

from copy import deepcopy

from hypothesis import given
from hypothesis import strategies as st

from journal.pages.dossier.book import Book
from journal.pages.dossier.prosetree import ProseTree
from journal.pages.links import Links
from journal.pages.prose import Prose, excerpt
from journal.pages.searchsheets import prose_sentences
from journal.pages.view import CarView
from journal.reading.markdown import tokens_of
from journal.records.sheet import Sheet
from tests.printing import PHOTO, small_view
from tests.writing import a_car, a_sheet

# A link to a sheet, to a component, outward and to nowhere, headings out of order, and a picture.
TEXT = """\
### Pipes

As told [before](2024-03-05-pipes), on the [pipes](brakes/pipes), [away](https://example.org) and
[nowhere](no-such.md).

# All of them

![unions](pipes.jpg) and <b>no markup</b>
"""
PIECES = (*TEXT.split("\n"), "> said", "- one", "```", "", "## Two", "[a]: brakes/pipes", "[a]")


def read_by_all(text: str) -> str:
    """What the page of a sheet shows of a text, after everything else has read it."""
    sheet = a_sheet(
        "2024-03-05", name="pipes", body=text, photos={"file": "pipes.jpg", "of": "brakes/pipes"}
    )
    view = small_view(a_car({"brakes/pipes": "first-fit"}, [sheet], photos=[PHOTO]))
    excerpt(sheet.body)
    list(prose_sentences(sheet))
    ProseTree(view, Book(view).places, sheet.date).passages(sheet.body)
    _as_page(view, sheet)
    return _as_page(view, sheet)


def _as_page(view: CarView, sheet: Sheet) -> str:
    prose = Prose(view, Links(view, f"sheets/{sheet.name}.html"), sheet.date)
    return "".join(passage.html for passage in prose.passages(sheet.body))


def test_page__shows_a_text_the_second_time_as_the_first() -> None:
    shown = read_by_all(TEXT)
    assert "<h2>Pipes</h2>" in shown
    assert "<h2>All of them</h2>" in shown
    assert '<a href="../sheets/2024-03-05-pipes.html">before</a>' in shown
    assert '<a href="../components/brakes/pipes.html">pipes</a>' in shown
    assert '<a href="https://example.org" rel="noreferrer">away</a> and\nnowhere.' in shown
    assert 1 == shown.count("<img ")
    assert "&lt;b&gt;no markup&lt;/b&gt;" in shown


@given(st.lists(st.sampled_from(PIECES), max_size=12))
def test_text__is_changed_by_nothing_that_reads_it(pieces: list[str]) -> None:
    text = "\n".join(pieces)
    before = deepcopy(tokens_of(text))
    read_by_all(text)
    assert before == tokens_of(text)

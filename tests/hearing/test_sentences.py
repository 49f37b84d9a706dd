"""The talk as a text: its words, all of them, in sentences that nobody else wrote."""

from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal.hearing.english import is_english
from journal.hearing.sentences import narrative
from journal.hearing.tokens import tokens_of
from journal.reading.markdown import body_parser
from journal.records.talk import Cue, Talk


def written(said: str, *cues: Cue) -> str:
    return narrative(Talk(said, cues), tokens_of(said))


class _Shown(HTMLParser):
    """The text of a page, and every tag in it."""

    def __init__(self) -> None:
        super().__init__()
        self.text, self.tags = "", set[str]()

    def handle_starttag(self, tag: str, attrs: object) -> None:
        self.tags.add(tag)

    def handle_data(self, data: str) -> None:
        self.text += data


def shown(markdown: str) -> _Shown:
    page = _Shown()
    page.feed(body_parser().render(markdown))
    page.close()
    return page


def bare(text: str) -> str:
    """A text without blanks and stops, in small letters: what no setting may change."""
    return "".join(text.replace(".", "").replace(",", "").replace(";", "").split()).casefold()


def test_dictation__is_parted_where_it_turns_to_something_else() -> None:
    said = (
        "right so today i had the near side front drum off and the shoes are worn down to the rivets anyway"
        " i cleaned the backplate and put a smear of grease on the pads then i went round the other side and"
        " that one was seized solid"
    )
    assert (
        "Right so today I had the near side front drum off and the shoes are worn down to the rivets."
        " Anyway I cleaned the backplate and put a smear of grease on the pads."
        " Then I went round the other side and that one was seized solid."
    ) == written(said)


def test_text_with_stops__keeps_them() -> None:
    said = "Took the drum off. It was worn! Is it scrap? I think so."
    assert said == written(said)


def test_text__that_stops_in_the_middle_of_figures_is_not_parted() -> None:
    assert "It was 0.3 mil. The other 12.5 thou." == written("it was 0.3 mil. the other 12.5 thou")


def test_i__is_a_capital() -> None:
    assert "I think I'm done and I've had enough." == written(
        "i think i'm done and i've had enough"
    )


def test_blank_line__begins_a_paragraph() -> None:
    assert "One thing.\n\nAnother thing." == written("one thing\n\nanother thing")


def test_lines_of_a_wrapped_page__are_no_sentences() -> None:
    said = (
        "the drum came off without any trouble at all once the adjuster was\n"
        "slackened right back and the handbrake was let off"
    )
    assert said.replace("\n", " ").capitalize() + "." == written(said)


def test_paragraph__has_at_most_six_sentences() -> None:
    said = " ".join(f"Sentence number {n} says something." for n in range(20))
    assert all(paragraph.count(".") <= 6 for paragraph in written(said).split("\n\n"))
    assert 3 < len(written(said).split("\n\n"))


def test_new_matter__begins_a_paragraph() -> None:
    said = "It is out. It is clean. It is in. Anyway, the gearbox next. That is apart."
    assert (
        "It is out. It is clean. It is in.\n\nAnyway, the gearbox next. That is apart."
        == written(said)
    )


def test_voices__begin_paragraphs_with_who_speaks() -> None:
    said = "is the drum off yes it is and the shoes are worn good"
    cues = (
        Cue(0, 15, voice="MT"), Cue(16, 25, voice="JB"), Cue(26, 48, voice="JB"), Cue(49, 53, voice="MT"),
    )  # fmt: skip
    assert "MT: is the drum off.\n\nJB: yes it is and the shoes are worn.\n\nMT: good." == (
        written(said, *cues).replace("Is", "is").replace("Yes", "yes").replace("Good", "good")
    )


def test_one_voice__is_not_named() -> None:
    assert "The drum is off." == written("the drum is off", Cue(0, 15, voice="MT"))


def test_nothing_said__is_nothing_written() -> None:
    assert "" == written("")
    assert "" == written(" \n \n")


MARKUP = [
    "# not a heading", "- no list", "* no list", "+ no list", "1. no number",
    "2) no number", "> no quotation", "::: workshop", "::: public\nnot a block\n:::", ":: owner",
    "*no* _emphasis_ **at** __all__",
    "`no code` ```none```", "~~~ no fence", "<b>no tag</b>", "<http://example.org>", "[no](link)",
    "![no](picture)", "[no]: http://example.org", "&amp; no entity &#65; &nosuch;", "a \\ backslash",
    "    no code", "no\n===\nheading", "no\n---\nheading", "***", "| no | table |", "line\\\nbreak",
    "- - -",
]  # fmt: skip


@pytest.mark.parametrize("said", MARKUP)
def test_markup_in_a_talk__is_shown_as_it_was_said(said: str) -> None:
    page = shown(written(said))
    assert {"p"} >= page.tags
    assert bare(said) == bare(page.text)


@given(
    st.lists(
        st.sampled_from([*MARKUP, "and then i took it off", "12", ".5", "\n\n", ":", "::"]),
        max_size=8,
    )
)
def test_markup_in_a_talk__in_any_order_is_shown_as_it_was_said(said: list[str]) -> None:
    page = shown(written(" ".join(said)))
    assert {"p"} >= page.tags
    assert bare(" ".join(said)) == bare(page.text)


PLAIN = st.text(st.characters(exclude_categories=("Cc", "Cs", "Cf", "Lt", "Mn")), max_size=120)


@given(PLAIN)
def test_any_text__is_shown_with_every_character(said: str) -> None:
    page = shown(written(said))
    assert {"p"} >= page.tags
    assert bare(said) == bare(page.text)


VOCABULARY = (
    "right so then i took the drum off and it was worn anyway we've cleaned it um twelve thou, but that's it."
    " okay next 3½ 0.3 A-2207 which because now the old one's in"
)
TALKED = st.lists(st.sampled_from(VOCABULARY.split()), max_size=200)


@given(TALKED)
def test_words_of_the_talk__are_the_words_of_the_narrative(words: list[str]) -> None:
    said = " ".join(words)
    assert [token.text for token in tokens_of(said)] == [
        token.text for token in tokens_of(shown(written(said)).text.replace("\n", " \n"))
    ]


@given(TALKED)
def test_every_sentence__begins_with_a_capital_and_ends_with_a_stop(words: list[str]) -> None:
    for paragraph in written(" ".join(words)).split("\n\n"):
        assert paragraph == "" or paragraph[-1] in ".?!:…"
        assert paragraph == "" or not paragraph[0].islower()


# Written for this test in each language.
ENGLISH = [
    "took the drum off and cleaned the backplate",
    "fitted new wheel cylinders, bled brakes, two hours",
    "laygear end float twelve thou",
    "gudgeon pins, circlips, rings, bearings, kingpins, trunnions",
    "um yeah so right",
    "right so today i had the near side front drum off and the shoes are worn down to the rivets anyway"
    " i cleaned the backplate and then the wheel cylinder kit came from castlebank and it does not fit",
    "",
]
OTHER = [
    "heute habe ich die Bremstrommel vorne links abgenommen und die Beläge sind bis auf die Nieten runter",
    "ich habe das Getriebe ausgebaut und der Simmerring ist nicht mehr gut",
    "aujourd'hui j'ai démonté le tambour avant gauche et les garnitures sont usées",
    "la boîte de vitesses est sur l'établi et je n'ai pas encore fait le pignon",
    "vandaag heb ik de trommel er af gehaald en de schoenen zijn versleten",
    "de versnellingsbak ligt op de bank en ik moet nog een nieuwe keerring bestellen bij de leverancier",
    "hoy he desmontado el tambor y las zapatas están muy gastadas por el lado derecho del coche",
]


@pytest.mark.parametrize("said", ENGLISH)
def test_english__also_with_hardly_any_grammar(said: str) -> None:
    assert is_english(tokens_of(said))


@pytest.mark.parametrize("said", OTHER)
def test_another_language__is_told_apart(said: str) -> None:
    assert not is_english(tokens_of(said))

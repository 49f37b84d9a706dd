"""The page on which things are found: an index by name that needs no script."""

from journal.outputs.theme import environment, theme_folder
from journal.pages.find import Letter, page_find
from journal.pages.view import CarView
from tests.pages.searching import a_view
from tests.writing import a_car, a_sheet

TEMPLATES = environment(theme_folder())


def _letters(view: CarView) -> tuple[Letter, ...]:
    (page,) = page_find(view)
    letters: tuple[Letter, ...] = page.values["letters"]
    return letters


def _titled(*titles: str) -> CarView:
    sheets = [a_sheet(f"2024-03-{n + 1:02d}", title=title) for n, title in enumerate(titles)]
    return a_view(a_car({}, sheets))


def _names(view: CarView) -> dict[str, list[str]]:
    return {letter.letter: [name.name for name in letter.names] for letter in _letters(view)}


def test_index__names_subsystems_components_parts_papers_and_sheets() -> None:
    told = {
        name.name: [(place.text, place.href) for place in name.places]
        for letter in _letters(a_view())
        for name in letter.names
    }
    assert {
        "Brakes": [("subsystem", "subsystems/brakes.html")],
        "Build card": [("paper", "papers.html#paper-card")],
        "Pipes": [("component, Brakes", "components/brakes/pipes.html")],
        "Pipes again": [("6 March 2024", "sheets/2024-03-06-again.html")],
        "Pipes off": [("5 March 2024", "sheets/2024-03-05-pipes.html")],
        "Seat": [("component, Trim", "components/trim/seat.html")],
        "Trim": [("subsystem", "subsystems/trim.html")],
        "Unions": [("part", "parts.html#part-unions")],
    } == told


def test_index__leaves_out_articles_case_and_accents_when_it_sorts() -> None:
    view = _titled(
        "The axle", "“Able seat", "Étrier", "a door", "An eel", "2 axles", "zinc", "Aardvark"
    )
    assert {
        "0–9": ["2 axles"],
        "A": ["Aardvark", "“Able seat", "The axle"],
        "B": ["Brakes"],
        "D": ["a door"],
        "E": ["An eel", "Étrier"],
        "Z": ["zinc"],
    } == _names(view)


def test_index__has_a_name_once_with_every_place_under_it() -> None:
    letters = _letters(_titled("Bled", "Axle", "bled"))
    (bled,) = [name for letter in letters for name in letter.names if name.name == "Bled"]
    assert ["1 March 2024", "3 March 2024"] == [place.text for place in bled.places]


def test_letters__lead_to_their_names() -> None:
    (page,) = page_find(a_view())
    text = TEMPLATES.get_template(page.template).render(page.values)
    for letter in page.values["letters"]:
        assert f'<a href="#{letter.anchor}">{letter.letter}</a>' in text
        assert f'<h3 id="{letter.anchor}">{letter.letter}</h3>' in text


def test_page__hides_the_field_until_a_script_shows_it() -> None:
    (page,) = page_find(a_view(base="tern/"))
    text = TEMPLATES.get_template(page.template).render(page.values)
    assert "tern/find.html" == page.path
    assert 'role="search" data-folder="find/" hidden>' in text
    for script in ("findwords.js", "finddata.js", "findtold.js", "find.js"):
        assert f'<script src="../{script}" defer></script>' in text


def test_page__of_an_empty_car_says_what_would_stand_there() -> None:
    (page,) = page_find(a_view(a_car({})))
    text = TEMPLATES.get_template(page.template).render(page.values)
    assert "Every subsystem, component, part, paper and sheet would stand here" in text

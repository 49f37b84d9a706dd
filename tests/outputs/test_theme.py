"""Templates are compiled once a process, and what is printed is what their files say."""

from pathlib import Path
from unittest.mock import patch

from jinja2 import Environment

from journal.outputs.theme import environment
from tests.tern import put_file


def _printed(theme: Path, **values: str) -> str:
    return environment(theme).get_template("page.html").render(values)


def test_template__is_compiled_once_for_all_environments(tmp_path: Path) -> None:
    put_file(tmp_path, "page.html", b"{{ word }}")
    assert "one" == _printed(tmp_path, word="one")
    with patch.object(Environment, "_generate", side_effect=AssertionError("compiled again")):
        assert "two" == _printed(tmp_path, word="two")


def test_template_that_was_changed__is_printed_as_it_is_written(tmp_path: Path) -> None:
    put_file(tmp_path, "page.html", b"The first {{ word }}.")
    assert "The first word." == _printed(tmp_path, word="word")
    put_file(tmp_path, "page.html", b"The other {{ word }}.")
    assert "The other word." == _printed(tmp_path, word="word")


def test_template_of_another_theme__is_another_one(tmp_path: Path) -> None:
    put_file(tmp_path, "one/page.html", b"One")
    put_file(tmp_path, "two/page.html", b"Two")
    assert ("One", "Two") == (_printed(tmp_path / "one"), _printed(tmp_path / "two"))

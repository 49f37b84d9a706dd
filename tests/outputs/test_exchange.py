"""Two folders in each other's place."""

import sys
from pathlib import Path

import pytest

from journal.outputs.exchange import exchanged


def _folder(place: Path, words: str) -> Path:
    place.mkdir()
    (place / "words.txt").write_text(words, encoding="utf-8")
    return place


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="asks the system of Linux")
def test_folders__take_each_others_place(tmp_path: Path) -> None:
    one, other = _folder(tmp_path / "one", "1"), _folder(tmp_path / "öther", "2")
    if not exchanged(one, other):
        pytest.skip("this disk cannot do it")
    assert ("2", "1") == ((one / "words.txt").read_text(), (other / "words.txt").read_text())


def test_folder__that_is_not_there_is_exchanged_with_nothing(tmp_path: Path) -> None:
    one = _folder(tmp_path / "one", "1")
    assert not exchanged(one, tmp_path / "other")
    assert "1" == (one / "words.txt").read_text()


def test_system__that_cannot_do_it_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "platform", "darwin")
    one, other = _folder(tmp_path / "one", "1"), _folder(tmp_path / "other", "2")
    assert not exchanged(one, other)
    assert ("1", "2") == ((one / "words.txt").read_text(), (other / "words.txt").read_text())

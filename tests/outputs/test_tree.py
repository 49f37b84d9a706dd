"""A look at all files below a folder."""

import os
import pickle
from pathlib import Path
from unittest.mock import patch

import pytest

from journal.outputs.kept.tree import Tree


@pytest.fixture
def top(tmp_path: Path) -> Path:
    """A folder with files, one hidden, a folder in a folder, and links of three kinds."""
    for path in ("b.html", "a.md", ".hidden", "deep/er/c.html", "deep/d.html"):
        (tmp_path / path).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / path).write_text(path)
    for link, to in (("file", "a.md"), ("folder", "deep"), ("nowhere", "gone.html")):
        (tmp_path / link).symlink_to(to)
    return tmp_path


def test_tree__holds_every_file_and_folder_and_enters_no_link(top: Path) -> None:
    assert [
        ".hidden", "a.md", "b.html", "file", "folder", "nowhere", "deep/", "deep/d.html", "deep/er/",
        "deep/er/c.html",
    ] == Tree(top).files()  # fmt: skip


def test_tree__but_a_folder_is_as_if_that_were_not_there(top: Path) -> None:
    assert ["deep/", "deep/d.html"] == Tree(top, but=("deep/er",)).files()[-2:]


def test_pages__are_counted_and_where_links_lead_is_none(top: Path) -> None:
    assert 3 == Tree(top).pages


def test_print__is_that_of_a_look_at_the_file_alone(top: Path) -> None:
    told, found = dict(Tree(top).prints())["a.md"], (top / "a.md").stat()
    assert (found.st_mtime_ns, found.st_size, found.st_ino) == (told.changed, told.size, told.node)
    assert (found.st_ctime_ns, found.st_mode) == (told.moved, told.mode)


def test_sum__is_the_same_however_the_files_are_looked_at(
    top: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    since = 1 << 62
    wanted = Tree(top).sum(since)
    monkeypatch.setattr(os, "supports_fd", frozenset())
    assert wanted == Tree(top).sum(since)


@pytest.mark.parametrize(
    "change", ["added", "gone", "renamed", "written", "touched", "led elsewhere"]
)
def test_sum__is_another_one_after_a_change(top: Path, change: str) -> None:
    # Nothing is so new that it is read: what is known of the files without reading them tells it.
    since = 1 << 62
    before = Tree(top).sum(since)
    match change:
        case "added":
            (top / "deep/e.html").touch()
        case "gone":
            (top / "a.md").unlink()
        case "renamed":
            (top / "b.html").rename(top / "c.html")
        case "written":
            (top / "deep/d.html").write_text("more than before")
        case "touched":
            os.utime(top / "b.html", (1, 1))
        case "led elsewhere":
            (top / "nowhere").unlink()
            (top / "nowhere").symlink_to("b.html")
    assert before != Tree(top).sum(since)


def test_sum__of_files_written_a_moment_before_tells_their_bytes(top: Path) -> None:
    found = (top / "a.md").stat()
    before = Tree(top).sum(found.st_mtime_ns)
    read: list[str] = []
    Tree(top).sum(found.st_mtime_ns, lambda path: read.append(path) or "")
    assert "a.md" in read
    assert before == Tree(top).sum(found.st_mtime_ns)


def test_tree_in_short__is_the_same_and_looked_at_when_its_lists_are_wanted(top: Path) -> None:
    tree = Tree(top, but=("deep/er",))
    since = (top / "b.html").stat().st_mtime_ns + 10_000_000_000
    short = pickle.loads(pickle.dumps(tree.in_short()))
    assert len(pickle.dumps(short)) < len(pickle.dumps(tree))
    assert (tree.pages, tree.sum(since)) == (short.pages, short.sum(since))
    (top / "b.html").unlink()
    assert tree.sum(since) == short.sum(since)
    assert [path for path in tree.paths if path != "b.html"] == short.paths


# Nothing was changed so late that it is looked at once more for that.
_LATE = 1 << 62


@pytest.fixture
def plain(top: Path) -> Path:
    """The same without its links."""
    for name in ("file", "folder", "nowhere"):
        (top / name).unlink()
    return top


def test_look_again__at_what_was_written_is_a_look_at_all(plain: Path) -> None:
    tree, written = Tree(plain), "deep/er/c.html"
    (plain / "new").write_text("more than before")
    (plain / "new").replace(plain / written)
    with patch.object(os, "scandir", side_effect=AssertionError("all is looked at")):
        again = tree.again([written], _LATE)
    assert again is not None
    assert Tree(plain).sum(_LATE) == again.sum(_LATE) != tree.sum(_LATE)


def test_look_again__leaves_what_somebody_else_changed_as_it_was_before(plain: Path) -> None:
    """So that the next look finds it changed."""
    tree = Tree(plain)
    (plain / "b.html").write_text("by somebody else")
    again = tree.again(["a.md"], _LATE)
    assert again is not None
    assert dict(tree.prints()) == dict(again.prints())


def test_look_again__is_at_files_changed_within_a_tick_of_the_first_look_too(plain: Path) -> None:
    tree = Tree(plain)
    began = (plain / "b.html").stat().st_mtime_ns
    assert tree.again(["a.md"], began) is not None
    (plain / "b.html").write_text("in the same tick")
    assert tree.again(["a.md"], began) is None


def test_look_again__at_other_files_than_before_is_at_all(plain: Path) -> None:
    tree = Tree(plain, but=("deep/er",))
    (plain / "a.md").unlink()
    (plain / "deep/d.html").unlink()
    for path in ("e.md", "new/er/f.md"):
        (plain / path).parent.mkdir(parents=True, exist_ok=True)
        (plain / path).touch()
    again = tree.again(["a.md", "deep/d.html", "e.md", "new/er/f.md"], _LATE)
    assert again is not None
    assert dict(Tree(plain, but=("deep/er",)).prints()) == dict(again.prints())


@pytest.mark.parametrize("change", ["added", "gone", "written", "made a link"])
def test_look_again__at_all_after_somebody_else_changed_something_is_none(
    plain: Path, change: str
) -> None:
    tree = Tree(plain)
    (plain / "e.md").touch()
    match change:
        case "added":
            (plain / "deep/strange.html").touch()
        case "gone":
            (plain / "deep/d.html").unlink()
        case "written":
            (plain / "b.html").write_text("by somebody else")
        case "made a link":
            (plain / "deep").rename(plain / ".deep")
            (plain / "deep").symlink_to(".deep")
    assert tree.again(["e.md"], _LATE) is None


def test_look_again__where_nothing_was_is_at_all(tmp_path: Path) -> None:
    tree = Tree(tmp_path / "new")
    (tmp_path / "new/deep").mkdir(parents=True)
    (tmp_path / "new/deep/a.html").touch()
    again = tree.again(["deep/a.html"], _LATE)
    assert again is not None
    assert (["deep/", "deep/a.html"], 1) == (again.paths, again.pages)
    (tmp_path / "new/strange.html").touch()
    assert tree.again(["deep/a.html"], _LATE) is None


def test_look_again__where_links_are_is_at_all(top: Path) -> None:
    tree = Tree(top)
    (top / "file").unlink()
    (top / "file").write_text("a file")
    again = tree.again(["file"], _LATE)
    assert again is not None
    assert dict(Tree(top).prints()) == dict(again.prints())
    (top / "nowhere").unlink()
    assert again.again(["a.md"], _LATE) is None


def test_look_again__of_a_tree_in_short_tells_whether_all_is_as_it_was(plain: Path) -> None:
    short = Tree(plain).in_short()
    again = short.again([], _LATE)
    assert again is not None
    assert short.sum(_LATE) == again.sum(_LATE)
    (plain / "b.html").write_text("by somebody else")
    assert short.again([], _LATE) is None


def test_tree__of_a_folder_that_is_a_link_is_a_note_alone(top: Path, tmp_path: Path) -> None:
    (top / "inside").symlink_to(top / "deep")
    assert [f"//>{os.path.realpath(top / 'deep')}"] == Tree(top / "inside").paths
    assert [] == Tree(top / "inside").files()

"""What a person is told where nothing can be written, and what stays as it was."""

import os
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.commands.refusing import FULL, publish, run_out
from tests.commands.running import DAY, NEW, run
from tests.swapping import state_of
from tests.tern import put_file

# The disk is full


def test_publish__on_a_full_disk(content: Path, tmp_path: Path) -> None:
    target = tmp_path / "at" / "archive"
    words = ("publish", content, "--for", "workshop", "--to", target, "--cache", tmp_path / "cache")
    target.parent.mkdir()
    code, said = run_out(tmp_path / "at", *words)
    assert (2, f"Error: archive is not written: {FULL}; nothing is there yet\n") == (code, said)
    assert [] == [*target.parent.iterdir()]
    assert 0 == publish(content, target).exit_code
    before = state_of(target)
    put_file(content, "tern/sheets/2024/2024-03-06-more.md", (content / DAY).read_bytes())
    code, said = run_out(tmp_path / "at", *words)
    assert (2, f"Error: archive is not written: {FULL}; what was there is as it was\n") == (
        code,
        said,
    )
    assert before == state_of(target)
    assert 1 == publish(content, target).exit_code
    assert (target / "sheets/2024-03-06-more.html").is_file()


def test_seal_statement_and_handover__on_a_full_disk(
    content: Path, tmp_path: Path, key: Path
) -> None:
    before = state_of(content)
    sealing = ("seal", content, "--up-to", "2024-03-05", "--sealed", "2024-03-06", "--key", key)
    stating = ("statement", content, "--to", "2024-03-05", "--issued", "2024-03-06")
    handing = ("handover", content, "--to", tmp_path / "at" / "bag", "--key", key, "--cache",
               tmp_path / "cache", "--with-reservations")  # fmt: skip
    assert (2, f"Error: the seal is not written: {FULL}; nothing is sealed\n") == (
        run_out(content, *sealing)
    )
    told = f"tern/statements/2024-03-05.yaml is not written: {FULL}; nothing is stated"
    assert (2, f"Error: {told}\n") == run_out(content, *stating)
    assert before == state_of(content)
    assert 0 == run(*stating).exit_code
    assert 0 == run(*sealing[:3], "2024-03-06", *sealing[4:]).exit_code
    (tmp_path / "at").mkdir()
    assert (2, f"Error: bag is not written: {FULL}; nothing is there yet\n") == (
        run_out(tmp_path / "at", *handing)
    )
    assert [] == [*(tmp_path / "at").iterdir()]


def test_write__on_a_full_disk_keeps_the_text(
    content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    before = state_of(content)
    words = (
        "write",
        content,
        "--date",
        "2024-03-06",
        "--hand",
        "MT",
        "--hours",
        "2",
        "--note",
        "Apart.",
    )
    code, said = run_out(content, *words)
    (kept,) = (tmp_path / "state").rglob("2024-03-06*.md")
    path = "tern/sheets/2024/2024-03-06-gearbox.md"
    assert (1, f"{path} is not saved: {FULL}; the text is kept in {kept}\n") == (code, said)
    assert "Apart." in kept.read_text()
    assert before == state_of(content)
    assert 0 == run(*words).exit_code


def test_book_in__on_a_full_disk(content: Path) -> None:
    before = state_of(content)
    words = ("book-in", content, *NEW)
    told = f"the car file aldermoor-plover is not written: {FULL}; nothing of the car is there yet"
    assert (2, f"Error: {told}\n") == run_out(content, *words)
    assert before == state_of(content)
    assert 0 == run(*words).exit_code


@pytest.fixture
def mounted(tmp_path: Path) -> Iterator[Path]:
    """A disk of its own with room for 64 kB."""
    place = tmp_path / "stick"
    place.mkdir()
    call = ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(place)]
    if os.name != "posix" or os.getuid() or subprocess.run(call, check=False).returncode:
        pytest.skip("nobody here may mount a disk")
    yield place
    subprocess.run(["umount", "-l", str(place)], check=True)


def test_publish__onto_a_stick_that_is_too_small(content: Path, mounted: Path) -> None:
    result = publish(content, mounted / "archive")
    told = f"Error: archive is not written: {FULL}; nothing is there yet\n"
    assert (2, told) == (result.exit_code, result.stderr)
    assert [] == [*mounted.iterdir()]


def test_publish__onto_a_stick_as_a_whole_is_refused(content: Path, mounted: Path) -> None:
    """What is new could not be moved to its place in one step."""
    result = publish(content, mounted)
    told = f"Error: stick is a disk of its own; choose a folder on it, such as {mounted}/archive\n"
    assert (2, told) == (result.exit_code, result.stderr)
    assert [] == [*mounted.iterdir()]


def test_publish__onto_another_disk_than_that_of_temporary_files(
    content: Path, mounted: Path
) -> None:
    subprocess.run(["mount", "-o", "remount,size=8m", str(mounted)], check=True)
    assert 0 == publish(content, mounted / "archive").exit_code
    assert (mounted / "archive/index.html").is_file()
    subprocess.run(["mount", "-o", "remount,ro", str(mounted)], check=True)
    before = state_of(mounted)
    result = publish(content, mounted / "archive")
    told = "Error: archive is not written: the disk can only be read; what was there is as it was\n"
    assert (2, told) == (result.exit_code, result.stderr)
    result = publish(content, mounted / "other")
    told = "Error: other is not written: the disk can only be read; nothing is there yet\n"
    assert (2, told) == (result.exit_code, result.stderr)
    assert before == state_of(mounted)


# Where nothing can go


def test_publish__where_it_may_not_go(content: Path, tmp_path: Path) -> None:
    put_file(tmp_path, "letters/mine.txt", b"dear")
    put_file(tmp_path, "file", b"mine")
    (tmp_path / "link").symlink_to(content)
    before = state_of(tmp_path)
    inside = "lies inside the content folder; choose a folder outside it"
    told = {
        content / "out": f"out {inside}",
        content: f"content {inside}",
        tmp_path / "link": f"content {inside}",
        tmp_path: f"{tmp_path.name} holds the content folder; choose an empty folder",
        tmp_path / "file": "file is a file; choose a folder",
        tmp_path / "file/archive": "file is a file; choose a folder",
        tmp_path
        / "letters": "letters holds files that journal did not write; choose an empty folder",
    }
    for target, sentence in told.items():
        result = publish(content, target)
        assert (2, f"Error: {sentence}\n") == (result.exit_code, result.stderr)
    assert before == {k: v for k, v in state_of(tmp_path).items() if not k.startswith("cache")}


def test_folder_that_is_not_ours__is_never_emptied(
    content: Path, tmp_path: Path, key: Path
) -> None:
    """Nor one in which there is nothing but what is hidden, whoever asks for it and however."""
    put_file(tmp_path, "letters/mine.txt", b"dear")
    put_file(tmp_path, "hidden/.mine", b"dear")
    put_file(tmp_path, "half/.journal-archive/mine.txt", b"dear")
    sealing = ("seal", content, "--up-to", "2024-03-05", "--sealed", "2024-03-06", "--key", key)
    assert 0 == run(*sealing).exit_code
    before = state_of(tmp_path)
    cache = ("--cache", tmp_path / "cache")
    for name in ("letters", "hidden", "half"):
        told = f"Error: {name} holds files that journal did not write; choose an empty folder\n"
        to = ("--to", tmp_path / name, *cache)
        for words in (
            ("publish", content, "--for", "owner", *to),
            ("publish", content, "--for", "owner", "--full", *to),
            ("handover", content, "--key", key, "--with-reservations", *to),
        ):
            result = run(*words)
            assert (2, told) == (result.exit_code, result.stderr)
    address = (tmp_path / "letters").as_uri()
    result = run("publish", content, "--for", "owner", "--full", "--to", address, *cache)
    told = f"Error: {address} holds files that journal did not write; choose an empty place\n"
    assert (2, told) == (result.exit_code, result.stderr)
    assert before == {k: v for k, v in state_of(tmp_path).items() if not k.startswith("cache")}


def test_publish__into_a_folder_that_is_nearly_ours(content: Path, tmp_path: Path) -> None:
    """The archive of another workshop, and a bag, are not taken for an older archive of this one."""
    target = tmp_path / "archive"
    assert 0 == publish(content, target).exit_code
    before = state_of(target)
    shop = (content / "workshop.yaml").read_text()
    (content / "workshop.yaml").write_text(shop.replace("Saltmarsh Lane", "Quarry Bank"))
    result = publish(content, target)
    told = "Error: archive holds the archive of Saltmarsh Lane Workshop; choose another folder\n"
    assert (2, told) == (result.exit_code, result.stderr)
    assert before == state_of(target)
    (target / ".journal-archive").write_text(
        "Made by journal handover. The next handover replaces this folder.\n"
        "It holds the bag of tern.\n"
    )
    before = state_of(target)
    result = publish(content, target)
    told = "Error: archive holds the bag of tern; choose another folder\n"
    assert (2, told) == (result.exit_code, result.stderr)
    assert before == state_of(target)

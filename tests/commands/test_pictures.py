"""What commands say of photographs, and where they keep what was made of them."""

import hashlib
import json
import shutil
from pathlib import Path

from tests.commands.running import files, run
from tests.pictures.images import camera, encoded, halves
from tests.tern import put_content, put_file, sheet_text

FRONT = """\
photos:
  - {file: laygear.jpg, of: gearbox/laygear, stage: as-found, alt: The laygear on the bench}
"""
TAKEN = encoded(halves(900, 600), exif=camera(taken="2024:03:05 14:20:31"))


def _content(tmp_path: Path, data: bytes = TAKEN) -> Path:
    sheet = "tern/sheets/2024/2024-03-05-gearbox.md"
    root = put_content(tmp_path / "content", **{sheet: sheet_text(FRONT)})
    put_file(root, "tern/photos/2024-03-05/laygear.jpg", data)
    return root


def test_show_pictures__tells_the_facts_of_every_file(tmp_path: Path) -> None:
    result = run("show", "pictures", _content(tmp_path), "--as", "json")
    assert 0 == result.exit_code
    (row,) = json.loads(result.stdout)
    expected = {
        "picture": 1, "file": "2024-03-05/laygear.jpg", "sheet": "2024-03-05-gearbox",
        "day": "2024-03-05", "shows": "gearbox/laygear", "stage": "as-found",
        "taken on": "2024-03-05", "at": "14:20", "days off": 0, "form": "JPEG", "width": 900,
        "height": 600, "bytes": len(TAKEN), "sha-256": hashlib.sha256(TAKEN).hexdigest(),
    }  # fmt: skip
    assert expected == row


def test_check__tells_of_a_file_that_is_no_picture(tmp_path: Path) -> None:
    result = run("check", _content(tmp_path, b"no picture"))
    assert 1 == result.exit_code
    assert result.stdout.startswith(
        "tern/photos/2024-03-05/laygear.jpg:1: warning[bad-picture]: the picture cannot be shown: "
        "it cannot be read as a picture\n"
    )


def test_publish__tells_of_a_picture_cut_short_and_makes_the_rest(tmp_path: Path) -> None:
    root, target = _content(tmp_path, TAKEN[:4000]), tmp_path / "archive"
    result = run("publish", root, "--for", "workshop", "--to", target)
    assert 0 == result.exit_code
    assert "the picture cannot be shown: it is cut short" in result.stderr
    assert (target / "sheets" / "2024-03-05-gearbox.html").is_file()
    # What was learned by making it is known to the next check.
    assert "it is cut short" in run("check", root).stdout


def test_cache__lies_where_it_is_asked_to_and_never_in_the_content(tmp_path: Path) -> None:
    root, cache = _content(tmp_path), tmp_path / "kept"
    before = files(root)
    run("publish", root, "--for", "workshop", "--to", tmp_path / "a", "--cache", cache)
    assert before == files(root)
    made = {p.name.split("-")[-1] for p in cache.rglob("*-*") if p.is_file()}
    assert {"400.webp", "900.webp", "900.jpg"} == made


def test_damaged_cache__is_said_and_made_good(tmp_path: Path) -> None:
    root, cache = _content(tmp_path), tmp_path / "kept"
    order = ("publish", root, "--for", "workshop", "--to", tmp_path / "a", "--cache", cache)
    run(*order)
    before = files(tmp_path / "a")
    next(cache.rglob("*-400.webp")).write_bytes(b"?")
    # What lies in the archive is not made again: it is as it should be.
    assert "" == run(*order).stderr
    shutil.rmtree(tmp_path / "a")
    said = "1 thing in the cache of pictures was damaged and made again\n"
    assert said == run(*order).stderr
    assert before == files(tmp_path / "a")
    assert "" == run(*order).stderr


def test_cache__that_cannot_be_written_is_a_wrong_call(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"")
    for order in (
        ("check", _content(tmp_path)),
        ("show", "pictures", tmp_path / "content"),
    ):
        result = run(*order, "--cache", tmp_path / "file")
        assert 2 == result.exit_code
        told = (
            f"the cache {tmp_path / 'file'} cannot be written; choose another folder with --cache"
        )
        assert f"Error: {told}\n" == result.stderr


def test_cache__that_cannot_be_written_costs_publishing_time_alone(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"")
    root, order = _content(tmp_path), ("--for", "workshop", "--to")
    result = run("publish", root, *order, tmp_path / "a", "--cache", tmp_path / "file")
    assert (
        f"The cache of pictures {tmp_path / 'file'} cannot be used (it cannot be written); they are made"
        " without it.\n"
        f"Nothing can be kept for the next publishing in {tmp_path / 'file' / 'publishing'}:"
        " file exists.\n"
    ) == result.stderr
    assert 0 == result.exit_code
    run("publish", root, *order, tmp_path / "b")
    assert files(tmp_path / "a") == files(tmp_path / "b")

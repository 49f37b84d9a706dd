"""What lies in a content folder and is no plain file of it: links, pipes, folders, climbing names.

Nothing outside of the folder is ever read or written, and nothing waits.
"""

import errno
import os
from collections.abc import Callable
from pathlib import Path

import pytest

from journal.outputs.findings import problems_of
from journal.reading.content import read_content
from tests.commands.running import run
from tests.tern import SHEET, a_picture, put_content, put_file, sheet_text

SECRET = "zqsecretzq"
OUTSIDE = {
    "workshop.yaml": f"name: {SECRET}\nhands: {{MT: {SECRET}}}\n",
    "car.yaml": f"name: {SECRET}\nyear: 1958\nbody: drophead\nbooked-in: 2024-03-01\nowner: {SECRET}\n",
    "register.yaml": f"components: {{gearbox: {{laygear: {{name: {SECRET}, as-found: made}}}}}}\n",
    "papers/papers.yaml": f"papers: {{factory-record: {{title: {SECRET}}}}}\n",
    "sheets/2024-03-06-out.md": sheet_text(f"title: {SECRET}", date="2024-03-06"),
    "statements/2024-03-04.yaml": f"note: {SECRET}\n",
}
PHOTO = "photos: [{file: laygear.jpg, of: gearbox/laygear, alt: A gear}]"


@pytest.fixture
def content(tmp_path: Path) -> Path:
    """A good content, and beside it the same files with a secret in each."""
    for path, text in OUTSIDE.items():
        put_file(tmp_path, f"outside/{path}", text.encode())
    put_file(tmp_path, "outside/photos/2024-03-05/laygear.jpg", a_picture())
    return put_content(tmp_path / "content", **{SHEET: sheet_text(PHOTO)})


def _told(content: Path) -> list[tuple[str, str, str]]:
    return [(p.place.path, p.code, p.message) for p in problems_of(read_content(content))]


def _link(content: Path, path: str, target: str) -> None:
    file = content / path
    if file.is_dir():
        file.rename(content.parent / f"was-{file.name}")
    elif file.exists():
        file.unlink()
    file.parent.mkdir(parents=True, exist_ok=True)
    file.symlink_to(content.parent / "outside" / target)


LINKS = [
    ("workshop.yaml", "workshop.yaml"),
    ("tern", "."),
    ("tern/car.yaml", "car.yaml"),
    ("tern/register.yaml", "register.yaml"),
    ("tern/papers/papers.yaml", "papers/papers.yaml"),
    ("tern/papers", "papers"),
    ("tern/sheets", "sheets"),
    ("tern/sheets/2024/2024-03-06-out.md", "sheets/2024-03-06-out.md"),
    ("tern/sheets/more", "sheets"),
    ("tern/statements", "statements"),
    ("tern/photos", "photos"),
    ("tern/photos/2024-03-05", "photos/2024-03-05"),
    ("tern/photos/2024-03-05/laygear.jpg", "photos/2024-03-05/laygear.jpg"),
]


@pytest.mark.parametrize(("path", "target"), LINKS)
def test_link_out_of_the_content__is_told_and_not_followed(
    path: str, target: str, content: Path
) -> None:
    _link(content, path, target)
    out = "this is a link that leads out of the content folder"
    assert (path, "link-not-followed", out) in _told(content)
    assert SECRET not in repr(read_content(content))
    archive = content.parent / "archive"
    run("publish", content, "--for", "workshop", "--to", archive)
    for file in archive.rglob("*"):
        assert not file.is_file() or SECRET.encode() not in file.read_bytes()


def test_photograph_behind_a_link_out__is_no_evidence_and_in_no_archive(content: Path) -> None:
    _link(content, "tern/photos/2024-03-05/laygear.jpg", "photos/2024-03-05/laygear.jpg")
    (car,) = read_content(content).cars
    assert frozenset() == car.photo_files
    codes = [code for _, code, _ in _told(content)]
    assert ["link-not-followed", "unknown-photo"] == codes


def test_link_within_the_content__is_followed_to_a_file(content: Path) -> None:
    day = content / "tern/photos/2024-03-05"
    (day / "again.jpg").symlink_to("laygear.jpg")
    (content / "tern/sheets/2024/2024-03-06-again.md").symlink_to(Path(SHEET).name)
    (car,) = read_content(content).cars
    assert {"2024-03-05/again.jpg", "2024-03-05/laygear.jpg"} == car.photo_files
    assert {"2024-03-05-gearbox", "2024-03-06-again"} == {s.name for s in car.sheets}


@pytest.mark.parametrize(
    ("path", "target", "leads"),
    [
        ("tern/photos/loop", "loop", "nowhere"),
        ("tern/photos/up", "..", "to a folder"),
        ("tern/sheets/2024/2024-03-07-gone.md", "gone.md", "nowhere"),
        ("plover", "tern", "to a folder"),
    ],
)
def test_link_that_is_no_file_of_the_content__is_told(
    path: str, target: str, leads: str, content: Path
) -> None:
    (content / path).symlink_to(target)
    assert [(path, "link-not-followed", f"this is a link that leads {leads}")] == _told(content)


def test_folder_that_nobody_may_look_into__is_told_where_it_could_be_a_car(
    content: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A car whose folder is closed must not go missing without a word."""
    (content / "plover").mkdir()
    (content / "lost+found").mkdir()
    look = os.lstat

    def closed(file: Path) -> os.stat_result:
        if Path(file).parent.name in ("plover", "lost+found"):
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
        return look(file)

    monkeypatch.setattr(os, "lstat", closed)
    told = "the file cannot be read: permission denied"
    assert [("plover", "unreadable-file", told)] == _told(content)


NO_FILE = "what lies here is no file but a pipe, a socket or a device"
UNREAD = "the file cannot be read: it is no file but a pipe, a socket or a device"


@pytest.mark.timeout(20)
@pytest.mark.parametrize(
    ("path", "told"),
    [
        ("workshop.yaml", UNREAD), ("tern/car.yaml", UNREAD), ("tern/register.yaml", UNREAD),
        ("tern/papers/papers.yaml", UNREAD), (SHEET, NO_FILE), ("tern/statements/a.yaml", NO_FILE),
        ("tern/photos/2024-03-05/laygear.jpg", NO_FILE), ("tern/sheets/pipe", NO_FILE),
    ],
)  # fmt: skip
def test_pipe_in_place_of_a_file__is_told_and_nobody_waits_for_it(
    path: str, told: str, content: Path
) -> None:
    file = content / path
    file.unlink(missing_ok=True)
    file.parent.mkdir(exist_ok=True)
    os.mkfifo(file)
    assert (path, "unreadable-file", told) in _told(content)


def _folder(file: Path) -> None:
    file.unlink()
    file.mkdir()


def _file(folder: Path) -> None:
    folder.rename(folder.with_name(f".was-{folder.name}"))
    folder.write_bytes(b"")


@pytest.mark.parametrize(
    ("path", "change", "message"),
    [
        ("workshop.yaml", _folder, "the file cannot be read: is a directory"),
        ("tern/car.yaml", _folder, "the file cannot be read: is a directory"),
        ("tern/register.yaml", _folder, "the file cannot be read: is a directory"),
        ("tern/photos/2024-03-05/laygear.jpg", _folder, None),
        ("tern/photos", _file, "the file cannot be read: not a directory"),
        ("tern/sheets", _file, "the file cannot be read: not a directory"),
    ],
)
def test_folder_in_place_of_a_file_and_a_file_in_place_of_a_folder__are_told(
    path: str, change: Callable[[Path], None], message: str | None, content: Path
) -> None:
    change(content / path)
    expected = (path, "unreadable-file", message)
    if message is None:
        # The name of a folder is not that of a photograph.
        sentence = 'there is no photograph "2024-03-05/laygear.jpg"'
        expected = (SHEET, "unknown-photo", sentence)
    assert expected in _told(content)


@pytest.mark.parametrize(
    "name",
    [
        "../../../outside/photos/2024-03-05/laygear.jpg",
        "/etc/hostname",
        "2024-03-05/../2024-03-05/laygear.jpg",
        "./laygear.jpg",
        "2024-03-05//laygear.jpg",
        "..\\\\laygear.jpg",
        "~/laygear.jpg",
        "file:///etc/hostname",
        "C:/laygear.jpg",
    ],
)
def test_file_named_by_a_path_that_climbs__is_unknown(name: str, content: Path) -> None:
    put_file(content, SHEET, sheet_text(f'photos: ["{name}"]').encode())
    put_file(
        content, "tern/papers/papers.yaml",
        f'papers: {{factory-record: {{title: Record, file: "{name}"}}}}\n'.encode(),
    )  # fmt: skip
    car = (content / "tern/car.yaml").read_text(encoding="utf-8")
    put_file(content, "tern/car.yaml", f'{car}cover: "{name}"\n'.encode())
    codes = [code for _, code, _ in _told(content)]
    assert ["unknown-photo", "unknown-paper-file", "unknown-photo"] == codes


CLIMBING = ("../../../evil", "/zqevil", "..", ".", "a/b", "a\\b", "A b", "con/../x", "é", "<b>")


def test_name_that_climbs_out_of_the_archive__names_no_page(tmp_path: Path) -> None:
    names = [f"'{name}'" for name in CLIMBING]
    every = ", ".join(f"{name}: first-fit" for name in names)
    refs = ", ".join(f"'{name}/pipes'" for name in CLIMBING)
    front = f"""\
subsystem: [brakes, {", ".join(names)}]
hours: {{{", ".join(f"{name}: {{MT: 1}}" for name in names)}}}
work: {{{", ".join(f"{name}: removed" for name in names)}}}
measured: {{{", ".join(f"{name}: {{on: {name}, read: 1, unit: mm}}" for name in names)}}}
snags: {{{", ".join(f"{name}: {{raise: weeps, on: {name}}}" for name in names)}}}
parts: {{{", ".join(f"{name}: {{price: 1, of: {name}, from: {name}}}" for name in names)}}}
photos: [{{file: laygear.jpg, of: ['../../evil', {refs}]}}]
"""
    register = f"components:\n  brakes: {{pipes: first-fit, {every}}}\n" + "".join(
        f"  {name}: {{pipes: first-fit}}\n" for name in names
    )
    own = "".join(f"  {name}: Evil\n" for name in names)
    content = put_content(
        tmp_path / "content",
        **{
            SHEET: sheet_text(front).replace("subsystem: gearbox\n", ""),
            "tern/register.yaml": register,
            "workshop.yaml": f"name: Saltmarsh\nhands: {{MT: Margit}}\nsubsystems:\n{own}",
        },
    )
    archive = tmp_path / "deep" / "er" / "archive"
    run("publish", content, "--for", "workshop", "--to", archive)
    assert (archive / "index.html").is_file()
    made = {p.relative_to(archive).as_posix() for p in archive.rglob("*") if p.is_file()}
    assert not [
        path for path in made if not set(path) <= set("abcdefghijklmnopqrstuvwxyz0123456789-/.")
    ]
    around = {p for p in tmp_path.rglob("*") if not p.is_relative_to(archive)}
    assert {tmp_path / "deep", tmp_path / "deep" / "er"} == {
        p for p in around if not p.is_relative_to(content)
    }

"""Seals, statements and bags broken off at any step: what stood before is whole, and so is the next one."""

import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path
from threading import Event, Thread
from unittest.mock import patch

import pytest
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from journal.outputs import staging as staging_
from journal.outputs.exchange import exchanged
from journal.outputs.seal import write_seal
from journal.outputs.sealed import seals_of
from journal.outputs.staging import MARK, bag_mark, put, staged
from journal.outputs.statement import issue_statement
from journal.reading.content import read_content
from journal.words.wrong import WrongCall
from tests.breaking import KILLED, Ended, killed, refused, telling
from tests.swapping import state_of
from tests.tern import put_content, sheet_text

KEY = Ed25519PrivateKey.from_private_bytes(b"\x07" * 32)
MARCH, APRIL = date(2024, 3, 31), date(2024, 4, 30)

Do = Callable[[Path], None]
Breaking = Callable[..., Ended]


def a_root(folder: Path) -> Path:
    """A car with a sheet in March, sealed and stated, and one in April."""
    root = put_content(
        folder / "content",
        **{
            "tern/sheets/2024/2024-03-05-a.md": sheet_text("hours: {MT: 3}"),
            "tern/sheets/2024/2024-04-09-b.md": sheet_text("hours: {MT: 2}", date="2024-04-09"),
        },
    )
    state(folder, MARCH)
    seal(folder, MARCH)
    return root


def seal(folder: Path, day: date = APRIL) -> None:
    root = folder / "content"
    write_seal(root, read_content(root).cars[0], KEY, up_to=day, sealed_on=day)


def state(folder: Path, day: date = APRIL) -> None:
    content = read_content(folder / "content")
    issue_statement(folder / "content", content, content.cars[0], to=day, issued=day)


def _untold(_: str) -> None:
    raise AssertionError("nobody has to wait")


def a_bag(folder: Path, words: bytes = b"new", car: str = "tern") -> None:
    """A bag of three files in the place of the one before."""
    target, source = folder / "out", folder / "content"
    with staged(target, bag_mark(car), keep_out_of=source, notice=_untold) as staging:
        for path in ("bag/data/a.txt", "bag/b.txt", "bag.zip"):
            put(staging, path, words)


def a_bag_in_two_steps(folder: Path) -> None:
    """Where the system cannot put a folder in the place of another."""
    with patch.object(staging_, "exchanged", return_value=False):
        a_bag(folder)


def put_bag(folder: Path) -> None:
    (folder / "content").mkdir(parents=True)
    a_bag(folder, b"old")


WORK = [
    pytest.param(a_root, seal, "there is nothing new to seal up to 2024-04-30", id="seal"),
    pytest.param(
        a_root, state,
        "days up to 2024-04-30 are stated already, or come before the booking in; "
        "the next statement starts on 2024-05-01",
        id="statement",
    ),
    pytest.param(put_bag, a_bag, "", id="bag"),
    pytest.param(put_bag, a_bag_in_two_steps, "", id="bag in two steps"),
]  # fmt: skip


def _shown(folder: Path) -> dict[str, bytes]:
    """All files that are not hidden away."""
    return {
        path: data
        for path, data in state_of(folder).items()
        if data is not None and not any(part.startswith(".") for part in path.split("/"))
    }


def _waits(folder: Path) -> bool:
    """Whether a bag was just on its way, and the old one waits beside."""
    return not (folder / "out").exists() and (folder / ".out.previous/bag.zip").exists()


@pytest.mark.parametrize("breaking", [killed, refused])
@pytest.mark.parametrize(("before", "do", "done"), WORK)
def test_work__broken_off_at_any_step(
    tmp_path: Path, breaking: Breaking, before: Do, do: Do, done: str
) -> None:
    """What stood before is as it was, the new one is whole or not there, nothing is left lying about
    after the next run, and that comes to the same."""
    old, peace = tmp_path / "old", tmp_path / "peace"
    before(old)
    shutil.copytree(old, peace)
    do(peace)
    was, wanted = _shown(old), _shown(peace)
    for moment in range(200):
        folder = tmp_path / str(moment)
        shutil.copytree(old, folder)
        ended = breaking(folder, moment, telling, do, folder)
        assert ended.code in (0, KILLED if breaking is killed else 2), ended.said
        there = _shown(folder)
        assert there in (was, wanted) or _waits(folder)
        assert there == wanted or ended.code
        again = refused(folder, 1000, telling, do, folder)
        assert again == Ended(0) or (there == wanted and again == Ended(2, done)), again.said
        assert state_of(folder) == state_of(peace)
        if ended.code == 0:
            assert moment > 2
            return
    raise AssertionError("it never came to its end")


def test_bag__takes_the_place_of_the_one_before_in_one_step(tmp_path: Path) -> None:
    """Never is there none, where the system can do that."""
    put_bag(tmp_path)
    if not exchanged(tmp_path / "out", tmp_path / "content"):
        pytest.skip("this disk cannot do it")
    exchanged(tmp_path / "out", tmp_path / "content")
    for moment in range(200):
        ended = killed(tmp_path, moment, a_bag, tmp_path)
        assert (tmp_path / "out/bag.zip").read_bytes() in (b"old", b"new")
        if ended.code == 0:
            return
        a_bag(tmp_path, b"old")
    raise AssertionError("it never came to its end")


@pytest.mark.parametrize(
    ("before", "do", "told"),
    [
        (a_root, seal, "the seal is not written: the disk is full; nothing is sealed"),
        (
            a_root, state,
            "tern/statements/2024-04-30.yaml is not written: the disk is full; nothing is stated",
        ),
        (put_bag, a_bag, "out is not written: the disk is full; what was there is as it was"),
    ],
)  # fmt: skip
def test_disk_that_is_full__is_told_in_a_sentence(
    tmp_path: Path, before: Do, do: Do, told: str
) -> None:
    before(tmp_path)
    was = state_of(tmp_path)
    assert Ended(2, told) == refused(tmp_path, 0, telling, do, tmp_path)
    assert was == state_of(tmp_path)


def test_seals__of_two_at_once_one_is_made_and_one_finds_it_done(tmp_path: Path) -> None:
    a_root(tmp_path)
    said: list[str] = []

    def one() -> None:
        try:
            seal(tmp_path)
            said.append("sealed")
        except WrongCall as fault:
            said.append(str(fault))

    both = [Thread(target=one) for _ in range(2)]
    for thread in both:
        thread.start()
    for thread in both:
        thread.join(60)
    assert ["sealed", "there is nothing new to seal up to 2024-04-30"] == sorted(said)
    car = read_content(tmp_path / "content").cars[0]
    assert (2, ()) == (
        len(seals_of(tmp_path / "content", car).statements),
        seals_of(tmp_path / "content", car).faults,
    )


def test_bags__of_two_at_once_one_waits_and_says_so(tmp_path: Path) -> None:
    put_bag(tmp_path)
    said: list[str] = []
    waiting = Event()

    def notice(words: str) -> None:
        said.append(words)
        waiting.set()

    def other() -> None:
        mark = bag_mark("tern")
        target, source = tmp_path / "out", tmp_path / "content"
        with staged(target, mark, keep_out_of=source, notice=notice) as staging:
            put(staging, "bag.zip", b"second")

    thread = Thread(target=other)
    mark = bag_mark("tern")
    with staged(
        tmp_path / "out", mark, keep_out_of=tmp_path / "content", notice=_untold
    ) as staging:
        thread.start()
        assert waiting.wait(60)
        put(staging, "bag.zip", b"first")
    thread.join(60)
    assert ["out is being written already; waiting for that"] == said
    assert {MARK: mark, "bag.zip": b"second"} == state_of(tmp_path / "out")
    assert {"content", "out"} == {p.name for p in tmp_path.iterdir()}


def test_bag_of_another_car__is_left_alone(tmp_path: Path) -> None:
    put_bag(tmp_path)
    before = state_of(tmp_path)
    with pytest.raises(WrongCall, match=r"^out holds the bag of tern; choose another folder$"):
        a_bag(tmp_path, car="lapwing")
    assert before == state_of(tmp_path)


def test_bag__whose_last_step_fails_leaves_the_one_before(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put_bag(tmp_path)
    monkeypatch.setattr(staging_, "exchanged", lambda *_: False)
    before, real = state_of(tmp_path), Path.rename

    def rename(file: Path, to: Path) -> Path:
        if file.name == ".out.staging":
            raise OSError(5, "Input/output error")
        return real(file, to)

    monkeypatch.setattr(Path, "rename", rename)
    told = "^out is not written: the disk does not answer; what was there is as it was$"
    with pytest.raises(WrongCall, match=told):
        a_bag(tmp_path)
    assert before == state_of(tmp_path)

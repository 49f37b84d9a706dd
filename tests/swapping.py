"""An archive before and after a swap. Small processes are made of it: it needs little besides the swap."""

from pathlib import Path

from journal.outputs.staging import MARK
from journal.outputs.swap import swapping

OLD: dict[str, bytes] = {
    "index.html": b"old", "same.html": b"same", "gone.html": b"gone", "old/deep/gone.html": b"gone",
    "Case.html": b"old", "was-file": b"a file", "was-folder/within.html": b"within",
}  # fmt: skip
NEW: dict[str, bytes] = {
    "index.html": b"new", "same.html": b"same", "new/deep/page.html": b"new", "case.html": b"new",
    "was-file/page.html": b"new", "was-folder": b"a file now",
}  # fmt: skip
LAID = [path for path in NEW if path != "same.html"]
GONE = ["gone.html", "old/deep/gone.html", "Case.html", "was-file", "was-folder/within.html",
        "old/deep/", "old/", "was-folder/"]  # fmt: skip


def untold(_: str) -> None:
    raise AssertionError("nobody has to wait")


def lay(folder: Path, files: dict[str, bytes]) -> None:
    for path, data in files.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(data)


def bring_up(folder: Path) -> None:
    with swapping(folder / "archive", keep_out_of=folder / "content", notice=untold) as swap:
        lay(swap.new, {path: NEW[path] for path in LAID})
        swap.commit(LAID, GONE)


def put_old(folder: Path) -> None:
    with swapping(folder / "archive", keep_out_of=folder / "content", notice=untold) as swap:
        lay(swap.new, {**OLD, MARK: b""})
        swap.commit([*OLD, MARK], [])


def state_of(folder: Path) -> dict[str, bytes | None]:
    """Everything below a folder: the bytes of files, None for folders."""
    return {
        p.relative_to(folder).as_posix(): None if p.is_dir() else p.read_bytes()
        for p in sorted(folder.rglob("*"))
    }

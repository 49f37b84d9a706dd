"""The package as a stranger installs it: a wheel, outside the checkout, with its theme and register."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]


def _run(*words: str, cwd: Path, path: Path | None = None) -> str:
    env = {"PATH": "/usr/bin:/bin", "PYTHONPATH": str(path or ""), "PYTHONUTF8": "1"}
    done = subprocess.run(
        [sys.executable, *words], cwd=cwd, env=env, capture_output=True, text=True, check=False
    )
    assert 0 == done.returncode, done.stderr
    return done.stdout


def test_wheel__books_in_and_publishes_outside_the_checkout(tmp_path: Path) -> None:
    site = tmp_path / "site"
    pip = ("-m", "pip", "install", "--quiet", "--no-deps", "--no-build-isolation")
    _run(*pip, "--target", str(site), str(ROOT), cwd=tmp_path)
    options = (
        "--name", "Fenland Saloon", "--year", "1961", "--body", "saloon", "--owner", "A. Reader",
        "--chassis", "FS 1", "--booked-in", "2024-01-08", "--workshop", "Shed", "--hand", "AB=A. Bench",
    )  # fmt: skip
    _run("-m", "journal", "book-in", "content", *options, cwd=tmp_path, path=site)
    assert "All clean." in _run("-m", "journal", "check", "content", cwd=tmp_path, path=site)
    publish = ("publish", "content", "--for", "workshop", "--to", "archive")
    _run("-m", "journal", *publish, cwd=tmp_path, path=site)
    front = (tmp_path / "archive" / "index.html").read_text(encoding="utf-8")
    assert "Fenland Saloon" in front
    assert (tmp_path / "archive" / "style.css").stat().st_size > 1000

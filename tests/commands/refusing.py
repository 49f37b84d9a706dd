"""Commands that are refused the disk."""

from pathlib import Path

from click.testing import Result

from tests.breaking import refused
from tests.commands.running import run

FULL = "the disk is full"


def publish(content: Path, to: Path, *more: object) -> Result:
    cache = content.parent / "cache"
    return run("publish", content, "--for", "workshop", "--to", to, "--cache", cache, *more)


def run_out(folder: Path, *words: object) -> tuple[int, str]:
    """A command while nothing can be written below a folder: exit code and what is said of it."""
    ended = refused(folder, 0, _run_to_its_end, *words)
    return ended.code, ended.said


def _run_to_its_end(*words: object) -> None:
    result = run(*words)
    ended = SystemExit(result.exit_code)
    ended.add_note(result.stderr)
    raise ended

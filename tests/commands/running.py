"""Commands as a person runs them, on a small content."""

from pathlib import Path

from click.testing import CliRunner, Result

from journal.commands import main

DAY = "tern/sheets/2024/2024-03-05-gearbox.md"
NEW = ["--name", "Aldermoor Plover", "--year", "1961", "--body", "saloon", "--owner", "Mr Ivo Lark",
       "--chassis", "PL 61/0009", "--booked-in", "2024-03-01"]  # fmt: skip


def run(*words: object, text: str | None = None) -> Result:
    result = CliRunner().invoke(main, [str(word) for word in words], input=text)
    # A wrong call ends by itself; anything else that is raised is a fault of the program.
    assert result.exception is None or isinstance(result.exception, SystemExit), result.output
    return result


def files(root: Path) -> dict[str, bytes]:
    return {p.relative_to(root).as_posix(): p.read_bytes() for p in root.rglob("*") if p.is_file()}

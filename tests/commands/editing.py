"""An editor that does as it is told, and what a command has written."""

import stat
from pathlib import Path

import pytest

from tests.commands.running import files
from tests.pictures.images import camera, corners, encoded
from tests.tern import put_file

ON = ("--date", "2024-03-06")
NEXT = "tern/sheets/2024/2024-03-06-gearbox.md"


class Editor:
    """An editor that runs a script on the file: a turn for each time that it is opened."""

    def __init__(self, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.folder, self.turns = folder, 0
        program = folder / "my editor"
        program.write_text(
            f'#!/bin/sh\ncd "{folder}"\nn=$(ls seen-* 2>/dev/null | wc -l)\n'
            'cp "$2" "seen-$n"\n[ "$1" = -w ] && [ -f "turn-$n" ] && . "./turn-$n"\nexit 0\n'
        )
        program.chmod(program.stat().st_mode | stat.S_IXUSR)
        monkeypatch.setenv("VISUAL", f"'{program}' -w")

    def then(self, *commands: str) -> "Editor":
        """What it does the next time, each with sed on the file."""
        lines = "".join(f"sed -i '{command}' \"$2\"\n" for command in commands)
        (self.folder / f"turn-{self.turns}").write_text(lines)
        self.turns += 1
        return self

    def does(self, script: str) -> "Editor":
        (self.folder / f"turn-{self.turns}").write_text(script)
        self.turns += 1
        return self

    def saw(self, turn: int) -> str:
        return (self.folder / f"seen-{turn}").read_text()


def new_files(content: Path, before: dict[str, bytes]) -> dict[str, str]:
    after = files(content)
    assert before == {name: after[name] for name in before}, "what was there is as it was"
    return {name: data.decode() for name, data in after.items() if name not in before}


def wrote(content: Path, path: str) -> str:
    return f"wrote {content / path}\n"


# Pictures


def a_photo(content: Path, name: str, taken: str = "2024:03:06 10:00:00") -> None:
    put_file(content, f"inbox/{name}", encoded(corners(), exif=camera(taken=taken, marker=name)))

"""The command `journal`: arguments in, problems and tables out, exit codes. No rules of its own.

Exit codes: 0 clean, 1 problems in what was written, 2 a wrong call.
"""

from collections.abc import Iterator, MutableMapping
from importlib import import_module

import click

from journal import __version__
from journal.outputs.collecting import collected_seldom

# Each command with the module it lies in and its name there; a module is loaded when its command is run.
_COMMANDS = {
    "book-in": ("bookin", "book_in"),
    "write": ("write", "write"),
    "amend": ("amend", "amend"),
    "check": ("check", "check"),
    "publish": ("publish", "publish_command"),
    "desk": ("desk", "desk_command"),
    "print": ("print", "print_command"),
    "show": ("show", "show"),
    "sum": ("sum", "sum_command"),
    "statement": ("statement", "statement"),
    "schema": ("schema", "schema"),
    "make-key": ("seal", "make_key_command"),
    "seal": ("seal", "seal"),
    "handover": ("handover", "handover"),
    "verify": ("verify", "verify"),
}


class _Commands(MutableMapping[str, click.Command]):
    """The commands by name, each loaded when it is asked for."""

    def __init__(self) -> None:
        self._more: dict[str, click.Command] = {}

    def __getitem__(self, name: str) -> click.Command:
        if name not in self._more:
            module, attribute = _COMMANDS[name]
            with collected_seldom():
                found = getattr(import_module(f"journal.commands.{module}"), attribute)
            assert isinstance(found, click.Command)
            self._more[name] = found
        return self._more[name]

    def __setitem__(self, name: str, command: click.Command) -> None:
        self._more[name] = command

    def __delitem__(self, name: str) -> None:
        del self._more[name]

    def __iter__(self) -> Iterator[str]:
        return iter({**_COMMANDS, **self._more})

    def __len__(self) -> int:
        return len({**_COMMANDS, **self._more})


@click.group(context_settings={"help_option_names": ["-h", "--help"]}, commands=_Commands())
@click.version_option(__version__, prog_name="journal")
def main() -> None:
    """Keep the build journal of a restoration: day sheets in, archive and ledgers out."""

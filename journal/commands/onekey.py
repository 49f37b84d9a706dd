"""One key, answered at once: without Enter where the terminal can, else the first letter of a line."""

import os
import select
import sys
from collections.abc import Collection, Iterator
from contextlib import contextmanager, suppress

import click

if sys.platform == "win32":
    import msvcrt
else:
    import termios

# What ends the asking, whatever else is asked: Ctrl-C, Ctrl-D.
_ENDS = ("\x03", "\x04")
_ESCAPE = "\x1b"
# Within so many seconds the characters of one key come after one another.
_BURST = 0.05


def in_terminal() -> bool:
    """Whether somebody sits there to be asked."""
    return sys.stdin.isatty() and sys.stdout.isatty()


def one_of_keys(keys: Collection[str], asked: str) -> str | None:
    """The first of some letters that is pressed; None when the person ends the asking.

    `asked` stands before the cursor. Any other key is passed over.
    """
    if os.environ.get("TERM") == "dumb":
        return _typed(keys, asked)
    with _at_once():
        click.echo(asked, nl=False)
        while (key := _key().lower()) not in (*keys, *_ENDS, ""):
            pass
    click.echo()
    return key if key in keys else None


def _typed(keys: Collection[str], asked: str) -> str | None:
    """The same where a key alone is not heard."""
    while True:
        try:
            line = input(asked).strip().lower()
        except (EOFError, KeyboardInterrupt):
            click.echo()
            return None
        if line[:1] in keys:
            return line[0]


@contextmanager
def _at_once() -> Iterator[None]:
    """Keys are heard as they are pressed, and are not shown; what was pressed before is not lost."""
    if sys.platform == "win32":
        yield
        return
    number = sys.stdin.fileno()
    before = termios.tcgetattr(number)
    now = termios.tcgetattr(number)
    now[3] &= ~(termios.ICANON | termios.ECHO | termios.ISIG)
    now[6][termios.VMIN], now[6][termios.VTIME] = 1, 0
    termios.tcsetattr(number, termios.TCSADRAIN, now)
    try:
        yield
    finally:
        termios.tcsetattr(number, termios.TCSADRAIN, before)


def _key() -> str:
    """The next key; empty when the terminal is gone. A key of several characters, such as an arrow, is
    one that nobody asks for: its last one could be taken for a letter."""
    if sys.platform == "win32":
        key = msvcrt.getwch()
        return key if key not in ("\0", "\xe0") else _ESCAPE + msvcrt.getwch()
    key = _character()
    if key != _ESCAPE or not _more():
        return key
    key += _character()
    while key[1:2] in ("[", "O") and (len(key) == 2 or not "@" <= key[-1] <= "~") and _more():
        key += _character()
    return key


def _character() -> str:
    try:
        return os.read(sys.stdin.fileno(), 1).decode("latin-1")
    except OSError:
        return ""


def _more() -> bool:
    """Whether more of a key has come; it comes at once."""
    return bool(select.select([sys.stdin], [], [], _BURST)[0])


def line_of_text(asked: str, text: str) -> str | None:
    """A line of text as the person leaves it, who finds `text` there and changes it; None when they go
    back. Where a line cannot be filled in beforehand it is shown, and typed anew."""
    try:
        import readline
    except ImportError:  # a system without it
        click.echo(text)
        return _line(asked)
    readline.set_auto_history(False)
    readline.set_startup_hook(lambda: readline.insert_text(text))
    try:
        return _line(asked)
    finally:
        readline.set_startup_hook(None)


def _line(asked: str) -> str | None:
    with suppress(EOFError, KeyboardInterrupt):
        return input(asked).strip()
    click.echo()
    return None

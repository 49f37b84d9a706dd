"""What the place of a named thing on its page is called."""

from journal.words.names import file_name


def anchor(kind: str, name: str) -> str:
    """The place of a named thing on its page: `part-laygear`, `room-brakes__pipes`.

    No two names have the same, however they are written: see `file_name`, which never has two low lines.
    """
    return f"{kind}-{'__'.join(map(file_name, name.split('/')))}"

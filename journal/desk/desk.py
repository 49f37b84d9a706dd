"""One desk: everything that an answer may need."""

from pathlib import Path

from msgspec import Struct

from journal.desk.drafts import Drafts
from journal.desk.guard import Rules
from journal.desk.pulse import Pulse
from journal.desk.shelf import Shelf
from journal.desk.state import Live
from journal.desk.tray import Tray


class Desk(Struct, frozen=True):
    """One desk. `phone` is the address for phones on the local network, None when there may be none."""

    root: Path
    live: Live
    shelf: Shelf
    pulse: Pulse
    rules: Rules
    tray: Tray
    drafts: Drafts
    phone: str | None = None

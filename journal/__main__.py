"""The command `journal` as a process of its own, and `python -m journal`."""

import atexit
import os
import sys

from journal.commands import main


def run() -> None:
    """Run the command. Once it is done and all is told, its process ends at once: to be taken apart first
    takes an interpreter as long as some dozens of pages. Where somebody else has something to do at the
    end, it ends as others do."""
    status: list[int] = []
    if not getattr(atexit, "_ncallbacks", lambda: 1)():
        # What is registered first is done last.
        atexit.register(_end, status)
    try:
        main(prog_name="journal")
    except SystemExit as ended:
        if isinstance(ended.code, int):
            status.append(ended.code)
        raise


def _end(status: list[int]) -> None:
    """End with this status; without one, something went wrong that the interpreter tells."""
    try:
        for told in filter(None, (sys.stdout, sys.stderr)):
            told.flush()
    except (OSError, ValueError):
        # Nobody listens any more, and the interpreter ends with its own status for that.
        return
    if status:
        os._exit(*status)


if __name__ == "__main__":
    run()

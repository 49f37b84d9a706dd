"""Hearing of changes on the disk, whatever program made them."""

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from watchdog.events import (
    DirCreatedEvent,
    DirDeletedEvent,
    DirModifiedEvent,
    DirMovedEvent,
    FileClosedEvent,
    FileCreatedEvent,
    FileDeletedEvent,
    FileModifiedEvent,
    FileMovedEvent,
    FileSystemEvent,
    FileSystemEventHandler,
)
from watchdog.observers import Observer
from watchdog.observers.api import BaseObserver
from watchdog.observers.polling import PollingObserver

# Looking at a file is no change of it, and to be told of it by the system, a thousand times for each look at
# the whole folder, takes longer than the look.
_CHANGES: list[type[FileSystemEvent]] = [
    FileCreatedEvent, FileModifiedEvent, FileMovedEvent, FileDeletedEvent, FileClosedEvent,
    DirCreatedEvent, DirModifiedEvent, DirMovedEvent, DirDeletedEvent,
]  # fmt: skip


class _Told(FileSystemEventHandler):
    def __init__(self, tell: Callable[[str], None]) -> None:
        self._tell = tell

    def on_any_event(self, event: FileSystemEvent) -> None:
        if isinstance(event, tuple(_CHANGES)):
            for path in (event.src_path, event.dest_path):
                if path:
                    self._tell(os.fsdecode(path))


@contextmanager
def watching(root: Path, tell: Callable[[str], None]) -> Iterator[None]:
    """Call `tell` with the path, from a thread of its own, for every change below a folder.

    Where the system will not tell of so many files, they are looked at twice a second.
    """
    observer = _started(Observer(), root, tell)
    observer = observer or _started(PollingObserver(timeout=0.5), root, tell)
    assert observer is not None, "looking at files needs nothing of the system"
    try:
        yield
    finally:
        observer.stop()
        observer.join()


def _started(
    observer: BaseObserver, root: Path, tell: Callable[[str], None]
) -> BaseObserver | None:
    observer.schedule(_Told(tell), str(root), recursive=True, event_filter=_CHANGES)
    try:
        observer.start()
    except OSError:
        return None
    return observer

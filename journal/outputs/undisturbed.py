"""Work of a moment that is not left half done when somebody asks the process to end meanwhile."""

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from threading import current_thread, main_thread

# Ctrl-C, a system that shuts down, a terminal that is closed. A system may lack some of them.
_ASKING = tuple(
    getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name)
)


@contextmanager
def undisturbed() -> Iterator[None]:
    """Who asks this process to end is heard when the block is over. Of a thread beside the first one
    nothing is asked that way."""
    if current_thread() is not main_thread():
        yield
        return
    asked: list[int] = []
    before = {one: told for one in _ASKING if (told := signal.getsignal(one)) is not None}
    for one in before:
        signal.signal(one, lambda number, _: asked.append(number))
    try:
        yield
    finally:
        for one, told in before.items():
            signal.signal(one, told)
        for one in dict.fromkeys(asked):
            signal.raise_signal(one)

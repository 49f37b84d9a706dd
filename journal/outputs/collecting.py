"""How seldom what nothing holds any more is looked for.

Nearly all that is read, folded and printed is wanted until it is done. To look for the rest as often as the
collector does by itself takes a tenth of the time.
"""

import gc
from collections.abc import Iterator
from contextlib import contextmanager

# New objects between two looks.
_SELDOM = 400_000


@contextmanager
def collected_seldom() -> Iterator[None]:
    """While this is open."""
    before = gc.get_threshold()
    gc.set_threshold(_SELDOM, *before[1:])
    try:
        yield
    finally:
        gc.set_threshold(*before)

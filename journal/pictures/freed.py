"""Memory that one picture has done with, kept for the next."""

import ctypes
import sys
from functools import cache

# From malloc.h of the GNU C library: how much more is asked of the system than is wanted at once, and from
# which size on something is asked for by itself, and given back by itself.
_M_TOP_PAD, _M_MMAP_THRESHOLD = -2, -3
# Bytes; the decoded picture and its narrower copies take about as many.
_ROOM = 32 << 20


@cache
def keep_freed() -> None:
    """Give memory that is freed back to the system less eagerly.

    Every picture takes some 30 MB and lets go of them. Given back each time, they are asked for again in
    7,000 pieces, which takes a twelfth of the time. Where the C library is another one, nothing is done.
    """
    if sys.platform != "linux":
        return
    tune = getattr(ctypes.CDLL(None), "mallopt", None)
    if tune is not None:
        tune(_M_TOP_PAD, _ROOM)
        tune(_M_MMAP_THRESHOLD, _ROOM)

"""A QR code (ISO/IEC 18004) as one path of an inline drawing."""

from journal.pages.value import Value

# The light margin that the standard asks for around a code, in modules.
QUIET = 4


class Code(Value, frozen=True):
    """A code: the side of its square with the quiet zone, in modules, and the path of what is dark."""

    side: int
    path: str


def qr_code(text: str) -> Code:
    """The code of a text with error correction level M, each run of dark modules a rectangle."""
    # Loaded where a code is wanted: few pages show one.
    import segno

    matrix = segno.make_qr(text, error="m").matrix
    runs = (
        f"M{x + QUIET} {y + QUIET}h{length}v1h-{length}z"
        for y, row in enumerate(matrix)
        for x, length in _runs(row)
    )
    return Code(len(matrix) + 2 * QUIET, "".join(runs))


def _runs(row: bytes | bytearray) -> list[tuple[int, int]]:
    """Where each run of dark modules begins in a row, and how long it is."""
    runs: list[tuple[int, int]] = []
    for x, dark in enumerate(row):
        if dark and runs and sum(runs[-1]) == x:
            runs[-1] = (runs[-1][0], runs[-1][1] + 1)
        elif dark:
            runs.append((x, 1))
    return runs

"""Which readings the limits of a talk are told of."""

from journal.hearing.bounds import is_whole_sentence
from journal.hearing.quantity import Quantity, between, convertible, of_one_size
from journal.hearing.strand import Strand

# So many words may stand between a reading and its limit, and between a limit and all that it is told of.
REACH, _FAR_BACK = 16, 90
# What tells a limit of several readings.
_OF_ALL = frozenset({"they're", "they", "both", "all", "them", "each", "every", "these"})


def limits_of(strand: Strand, heard: list[Quantity]) -> dict[int, int]:
    """Readings, by their places in the list, with the limits that are told of them."""
    of: dict[int, int] = {}
    for n, one in enumerate(heard):
        if one.bounds is None or one.bounds.nominal:
            continue
        beside = [k for k in (n - 1, n + 1) if _takes(strand, heard, of, n, k)]
        if beside:
            of[beside[0]] = n
    return _read_again(strand, heard, of | _of_several(strand, heard, of))


def _of_several(strand: Strand, heard: list[Quantity], of: dict[int, int]) -> dict[int, int]:
    """Readings further back that share a limit: they're both inside the thirty."""
    shared: dict[int, int] = {}
    for n, limit in of.items():
        for k in range(n - 1, -1, -1):
            if k in of or k in shared or not _is_one_of_them(strand, heard, k, limit):
                break
            shared[k] = limit
    return shared


def _read_again(strand: Strand, heard: list[Quantity], of: dict[int, int]) -> dict[int, int]:
    """The same with what was read again after its limit was told: one more shim, two and a half."""
    found = dict(of)
    last: int | None = None
    for n, one in enumerate(heard):
        if n in of:
            last = of[n]
        elif last is not None and one.how == "reading" and is_whole_sentence(strand, one.group):
            found |= {n: last} if _fits(one, heard[last]) else {}
    return found


def _is_one_of_them(strand: Strand, heard: list[Quantity], n: int, limit: int) -> bool:
    """Whether a reading before a limit is one of several that it is told of."""
    one, bounds = heard[n], heard[limit]
    if one.how != "reading" or between(one, bounds) > _FAR_BACK or not _fits(one, bounds):
        return False
    said = strand.words_before(bounds.group.start, 8)
    return not _OF_ALL.isdisjoint(said)


def _fits(one: Quantity, limit: Quantity) -> bool:
    """Whether a limit may be one of a reading."""
    return convertible(one, limit) and of_one_size(one, limit)


def _takes(strand: Strand, heard: list[Quantity], of: dict[int, int], limited: int, n: int) -> bool:
    """Whether reading n is the one that a limit beside it is told of."""
    if not 0 <= n < len(heard) or n in of:
        return False
    one, limit = heard[n], heard[limited]
    if one.how not in ("reading", "torque") or not convertible(one, limit):
        return False
    if limit.lent and n < limited and of_one_size(limit, one):
        return True
    first, last = sorted((one.group, limit.group), key=lambda group: group.start)
    sentences = sum(strand.ended[first.end : last.start + 1])
    return sentences <= 1 and last.start - first.end <= REACH

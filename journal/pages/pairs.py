"""Before and after: two photographs of one thing at different stages, shown as a pair."""

from journal.ledgers.gallery import Picture
from journal.pages.links import Links, Ref
from journal.pages.plates import STAGE_WORDS, Plate, plate_of
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.words.vocabulary import Stage

# Stages in which a thing is not finished yet, the best beginning of a pair first.
_BEFORE = (Stage.AS_FOUND, Stage.STRIPPED, Stage.DURING)


class Pair(Value, frozen=True):
    """Two photographs of one component, to be shown side by side or laid one over the other.

    `label` says what a slider between them does; `first` is the stage of the one before in running
    words. `narrow` when both stand upright.
    """

    ref: Ref
    before: Plate
    after: Plate
    label: str
    first: str
    narrow: bool


def before_and_after(view: CarView, links: Links, key: str, *, same: bool = True) -> Pair | None:
    """The first picture of a component as found and the last as finished, if they compare; stripped
    or during the work stands in where none was taken as found.

    Two pictures compare when at least a third of the components that either shows are in both.
    When the item is not the `same` any more, something beside it must be in both, or they would
    show two things.
    """
    pictures = [p for p in view.gallery.of(key) if p.path in view.pictures]
    finished = [p for p in pictures if p.stage is Stage.AS_FINISHED]
    begun = [p for stage in _BEFORE for p in pictures if p.stage is stage]
    pairs = ((b, a) for a in reversed(finished) for b in begun if _compare(b, a, key, same))
    found = next(pairs, None)
    return _pair(view, links, key, *found) if found else None


def pairs_under(view: CarView, links: Links, subsystem: str) -> tuple[Pair, ...]:
    """The pairs of a subsystem's components, of pictures that hang under it; two photographs that
    serve for more than one component once."""
    hung = {p.number for p in view.gallery.pictures if p.subsystem == subsystem}
    found: dict[tuple[int, int], Pair] = {}
    for line in view.originality.lines:
        if line.component.subsystem != subsystem:
            continue
        pair = before_and_after(view, links, line.component.key, same=not line.changed)
        if pair and {pair.before.number, pair.after.number} <= hung:
            found.setdefault((pair.before.number, pair.after.number), pair)
    return tuple(found.values())


def _compare(before: Picture, after: Picture, key: str, same: bool) -> bool:
    both, either = {*before.of} & {*after.of}, {*before.of} | {*after.of}
    return 3 * len(both) >= len(either) and (same or both != {key})


def _pair(view: CarView, links: Links, key: str, before: Picture, after: Picture) -> Pair | None:
    first, last = plate_of(view, links, before), plate_of(view, links, after)
    if first is None or last is None:
        return None
    stage = STAGE_WORDS[before.stage]
    label = f"Move the line: {stage} on its left, {STAGE_WORDS[after.stage]} on its right"
    narrow = first.shape == last.shape == "tall"
    return Pair(links.component(key), first, last, label, stage, narrow)

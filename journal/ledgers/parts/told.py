"""Everything that sheets tell of one part, gathered in their order."""

from collections.abc import Sequence
from datetime import date

from msgspec import Struct

from journal.records.carfile import CarFile
from journal.records.goods import PartLine
from journal.records.sheet import Sheet
from journal.words.vocabulary import Act


class Told(Struct, frozen=True):
    """What one sheet tells: a line under `parts`, or the components that work fitted it to."""

    sheet: Sheet
    line: PartLine
    fitted_to: tuple[str, ...] = ()


class Fitting(Struct, frozen=True):
    """The day on which a part went onto the car, and where that is written."""

    day: date
    told: Told
    loc: tuple[str, ...]


def gather(car: CarFile) -> dict[str, tuple[Told, ...]]:
    """By name of part, in the order first named. Work counts once its part has been named."""
    lines: dict[str, list[Told]] = {}
    for sheet in car.sheets:
        for name, line in sheet.front.parts:
            lines.setdefault(name, []).append(Told(sheet, line))
        for key, work in sheet.front.work:
            if work.part in lines and Act.FITTED in work.did:
                lines[work.part].append(Told(sheet, PartLine(), (key,)))
    return {name: tuple(told) for name, told in lines.items()}


def fitting(name: str, lines: Sequence[Told]) -> Fitting | None:
    """The fitting that stands: the last day written under the part, or else the first work."""
    written = [Fitting(t.line.fitted, t, ("parts", name, "fitted")) for t in lines if t.line.fitted]
    worked = [Fitting(t.sheet.date, t, ("work", t.fitted_to[0])) for t in lines if t.fitted_to]
    return written[-1] if written else worked[0] if worked else None

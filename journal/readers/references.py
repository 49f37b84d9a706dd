"""What a reader may not see is not named by what they may: its short name can tell as much."""

from msgspec.structs import replace

from journal.records.carfile import CarFile
from journal.records.fields import Named
from journal.records.register import Component, Register
from journal.records.sheet import Sheet
from journal.records.work import Work


def without_hidden(seen: CarFile, car: CarFile) -> CarFile:
    """A reader's car file without references to papers, parts and sheets that only `car` holds."""
    papers = frozenset(car.papers.names()) - frozenset(seen.papers.names())
    parts = _parts(car) - _parts(seen)
    sheets = frozenset(s.name for s in car.sheets) - frozenset(s.name for s in seen.sheets)
    return replace(
        seen,
        register=Register(
            seen.register.source, tuple(_component(c, papers) for c in seen.register.components)
        ),
        sheets=tuple(_sheet(sheet, papers, parts, sheets) for sheet in seen.sheets),
    )


def _parts(car: CarFile) -> frozenset[str]:
    return frozenset(name for sheet in car.sheets for name, _ in sheet.front.parts)


def _component(component: Component, papers: frozenset[str]) -> Component:
    kept = tuple(name for name in component.line.paper if name not in papers)
    return replace(component, line=component.line.model_copy(update={"paper": kept}))


def _sheet(
    sheet: Sheet, papers: frozenset[str], parts: frozenset[str], sheets: frozenset[str]
) -> Sheet:
    front = sheet.front
    update = {
        "papers": tuple(name for name in front.papers if name not in papers),
        "corrects": tuple(c for c in front.corrects if c.sheet not in sheets),
        "work": Named((key, _work(work, papers, parts)) for key, work in front.work),
    }
    return replace(sheet, front=front.model_copy(update=update))


def _work(work: Work, papers: frozenset[str], parts: frozenset[str]) -> Work:
    kept = tuple(name for name in work.paper if name not in papers)
    part = None if work.part in parts else work.part
    return work.model_copy(update={"paper": kept, "part": part})

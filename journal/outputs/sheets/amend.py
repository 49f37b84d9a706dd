"""A correction: a dated sheet that refers to an earlier one, which stays as it is."""

from collections.abc import Iterator
from datetime import date

from journal.outputs.sheets.print import NewSheet, front_told
from journal.outputs.sheets.ready import Offers, blank
from journal.outputs.sheets.yamlform import Plain, flow, scalar
from journal.records.sheet import Correction, Sheet, SheetFront

# What an earlier sheet says that a later one may say otherwise.
_CORRECTED = ("work", "parts", "outwork", "measured", "proving")


def amendment(sheet: Sheet, day: date, what: str | None = None) -> NewSheet:
    """A sheet of a day that corrects an earlier one; `what` was wrong in it."""
    front = SheetFront.model_validate({
        "date": day, "subsystem": sheet.front.subsystem, "for": sheet.front.for_,
        "corrects": (Correction(sheet=sheet.name, what=what),),
    })  # fmt: skip
    return NewSheet(front)


def offers_of_earlier(sheet: Sheet, hand: str) -> Offers:
    """The lines of the earlier sheet, to be ticked and put right.

    What was done is done and is not told twice: a line of work is offered without it, and holds from
    the day of the earlier sheet.
    """
    told = front_told(sheet.front)
    return {
        **blank(hand),
        **{key: [*_lines(key, told[key], sheet.date)] for key in _CORRECTED if key in told},
    }


def _lines(key: str, entries: Plain, day: date) -> Iterator[tuple[str, str]]:
    assert isinstance(entries, dict)
    for name, entry in entries.items():
        said = entry
        if key == "work" and isinstance(entry, dict):
            kept = {k: v for k, v in entry.items() if k not in ("did", "since")}
            said = {**kept, "since": entry.get("since", day.isoformat())}
        yield name, f"#  {scalar(name)}: {flow(said)}"

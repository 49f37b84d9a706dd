"""What the day page offers to be picked, each list with what is likely first."""

from collections import Counter
from datetime import date
from pathlib import PurePosixPath

from journal.desk.listing import Plain, list_car, list_offers
from journal.desk.state import CarState, State
from journal.pages.plates import STAGE_WORDS
from journal.pages.view import CarView
from journal.reading.talk import RECORDINGS
from journal.words.units import ALL_UNITS
from journal.words.vocabulary import ORIGIN_MEANING, Act, GoodsIn, Stage, Verdict

# As many sheets of a subsystem tell what is in hand there.
_LATELY = 12
_MOST_COMPONENTS = 4
# What a hand does most often with what stands before it; the others are one tap further.
ACTS_FIRST = (
    Act.REMOVED, Act.STRIPPED, Act.CLEANED, Act.INSPECTED, Act.REPAIRED, Act.PAINTED, Act.FITTED,
)  # fmt: skip


def day_offers(state: State, car: CarState, today: date) -> Plain:
    """Everything that the day page of one car may need, with the day that it is at the desk."""
    view = car.view
    return {
        **list_offers(view),
        "cars": [list_car(other.view) for other in state.cars.values()],
        "today": today.isoformat(),
        "recent": recent_components(view),
        "names": {
            "snags": [snag.name for snag in view.snags.snags],
            "parts": [*dict.fromkeys(n for s in view.car.sheets for n in s.front.parts.names())],
        },
        "suppliers": [
            {"name": name, "label": supplier.name} for name, supplier in view.car.workshop.suppliers
        ],
        "units": _units(view),
        "recordings": _recordings(view),
        "waiting_lines": [
            {"name": sheet.name, "title": sheet.title, "lines": len(sheet.front.draft)}
            for sheet in view.car.sheets
            if sheet.front.draft
        ],
    }


def words_offered() -> Plain:
    """The words of the trade that a form gives to choose from."""
    first = [act.value for act in ACTS_FIRST]
    return {
        "acts": first, "other_acts": [act.value for act in Act if act.value not in first],
        "origins": [{"value": o.value, "meaning": m} for o, m in ORIGIN_MEANING.items()],
        "verdicts": [verdict.value for verdict in Verdict],
        "stages": [{"value": stage.value, "label": STAGE_WORDS[stage]} for stage in Stage],
        "outcomes": [outcome.value for outcome in GoodsIn],
    }  # fmt: skip


def recent_components(view: CarView) -> dict[str, list[str]]:
    """The components of each subsystem that were worked on lately, the latest first."""
    found: dict[str, list[str]] = {}
    for name in {name for sheet in view.car.sheets for name in sheet.front.subsystem}:
        lately = [s for s in view.car.sheets if name in s.front.subsystem][-_LATELY:]
        keys = (k for s in reversed(lately) for k in reversed(s.front.work.names()))
        mine = dict.fromkeys(k for k in keys if k.split("/")[0] == name and view.car.component(k))
        found[name] = [*mine][:_MOST_COMPONENTS]
    return found


def _recordings(view: CarView) -> list[str]:
    """The films and sounds of a car, by name."""
    files = view.car.recording_files or ()
    return sorted(file for file in files if PurePosixPath(file).suffix.lower() in RECORDINGS)


def _units(view: CarView) -> list[str]:
    """Units, those that this car was measured in first."""
    used = Counter(m.unit for s in view.car.sheets for _, m in s.front.measured)
    return sorted(ALL_UNITS, key=lambda unit: -used[unit])

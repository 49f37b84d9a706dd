"""A day's deeds as a sheet: front matter in the house's short forms, then the text."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from random import Random
from typing import Any

from journal.words.names import slug_of
from tests.benchmarks.workshop import phrases
from tests.benchmarks.workshop.deeds import Deed, on_day
from tests.benchmarks.workshop.flow import block, flow
from tests.benchmarks.workshop.items import HANDS

_SECTIONS = ("parts", "outwork", "extras", "measured", "sums", "proving", "snags", "rechecks")


@dataclass(frozen=True)
class DaySheet:
    """A sheet as it is written: its name, its text, and the photographs that it tells of."""

    day: date
    name: str
    text: str
    photos: tuple[str, ...]


def sheet_of(
    day: date, number: int, deeds: Sequence[Deed], photos: int, earlier: Sequence[str], chance: Random,
    odometer: int | None = None,
) -> DaySheet:  # fmt: skip
    """The sheet of a day; `number` tells it from all others of the car, `earlier` are those before it."""
    title = deeds[0].title[:1].upper() + deeds[0].title[1:]
    name = f"{day}-{slug_of(title)}-{number}"
    told = tuple(_photo(deeds, number, place, chance) for place in range(photos))
    front = "".join(
        (
            f"date: {day}\n",
            f"title: {flow(title)}\n",
            f"subsystem: {deeds[0].key.partition('/')[0]}\n",
            f"hours: {flow(_hours(deeds, chance))}\n",
            block("work", {deed.key: on_day(deed.work, day) for deed in deeds}),
            *(block(section, _lines(section, deeds, day)) for section in _SECTIONS),
            f"odometer: {odometer}\n" if odometer else "",
            "papers: service-invoice\n" if chance.random() < 0.02 else "",
            _corrects(earlier, chance),
            "photos:\n" + "".join(f"  - {flow(photo)}\n" for photo in told) if told else "",
        )
    )
    text = f"---\n{front}---\n{_body(deeds, earlier, chance)}"
    return DaySheet(day, name, text, tuple(photo["file"] for photo in told))


def _lines(section: str, deeds: Sequence[Deed], day: date) -> dict[str, Any]:
    lines: dict[str, Mapping[str, Any]] = {}
    for deed in deeds:
        lines |= getattr(deed, section)
    told: dict[str, Any] = on_day(lines, day)
    return told


def _hours(deeds: Sequence[Deed], chance: Random) -> dict[str, Any]:
    """Of every hand that did or checked something; what a part cost by not fitting stands apart."""
    at_work = {deed.work[key] for deed in deeds for key in ("by", "checked") if key in deed.work}
    hands = [hand for hand in HANDS if hand in at_work] or [chance.choice(HANDS)]
    hours: dict[str, Any] = {hand: chance.randint(2, 10) / 2 for hand in hands}
    if chance.random() < 0.06:
        hours[hands[-1]] = {"hours": chance.randint(1, 6) / 2, "kind": "goodwill"}
    because = next((deed.rework for deed in deeds if deed.rework), None)
    if because:
        lost = {"hours": 1.5, "kind": "rework", "because": because}
        hours[hands[0]] = [hours[hands[0]], lost]
    return hours


def _corrects(earlier: Sequence[str], chance: Random) -> str:
    if len(earlier) < 20 or chance.random() > 0.02:
        return ""
    wrong = {
        "sheet": chance.choice(earlier),
        "what": "The side was written down the wrong way round",
    }
    return f"corrects: {flow(wrong)}\n"


def _photo(deeds: Sequence[Deed], number: int, place: int, chance: Random) -> dict[str, Any]:
    deed = deeds[place % len(deeds)]
    label = deed.label[:1].upper() + deed.label[1:]
    return {
        "file": f"{deed.key.partition('/')[2]}-{number}-{place + 1}.jpg", "of": deed.key, "stage": deed.stage,
        "caption": f"{label}, {phrases.STAGES[deed.stage]}", "alt": chance.choice(phrases.SEEN),
    }  # fmt: skip


def _body(deeds: Sequence[Deed], earlier: Sequence[str], chance: Random) -> str:
    said = list(dict.fromkeys(sentence for deed in deeds for sentence in deed.says))
    first, *asides = chance.sample(phrases.ASIDES, chance.randint(3, 5))
    paragraphs = [
        " ".join((chance.choice(phrases.OPENINGS), *said[:2])), first, " ".join(said[2:]), *asides,
    ]  # fmt: skip
    if earlier and chance.random() < 0.2:
        paragraphs.append(chance.choice(phrases.LINKS).format(sheet=chance.choice(earlier)))
    paragraphs += _kept_back("workshop", phrases.FOR_WORKSHOP, 0.15, chance)
    paragraphs += _kept_back("owner", phrases.FOR_OWNER, 0.08, chance)
    return "\n\n".join(filter(None, paragraphs)) + "\n"


def _kept_back(reader: str, words: tuple[str, ...], often: float, chance: Random) -> list[str]:
    if chance.random() > often:
        return []
    return [f"::: {reader}\n{chance.choice(words)}\n:::"]

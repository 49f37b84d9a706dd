"""What the pages on which a day is written offer: cars, and of a car what is worked on, by whom, and
what is open. Plain values for JSON; nothing here is computed that a ledger does not say."""

from collections import Counter
from typing import Any

from journal.digests.waiting import Kind
from journal.pages.common import car_title
from journal.pages.view import CarView
from journal.records.workshop import subsystem_label
from journal.words.vocabulary import Origin

Plain = dict[str, Any]


def list_car(view: CarView) -> Plain:
    """A car by its folder's name and its title, with the day of its last sheet."""
    sheets = view.car.sheets
    return {
        "name": view.car.name,
        "title": car_title(view.car.car),
        "last": sheets[-1].date.isoformat() if sheets else None,
    }


def list_offers(view: CarView) -> Plain:
    """Everything of a car that can be picked, each list with what is likely first."""
    return {
        **list_car(view),
        "subsystems": list_subsystems(view),
        "hands": list_hands(view),
        "components": list_components(view),
        "snags": list_snags(view),
        "waiting": list_waiting(view),
        "origins": [origin.value for origin in Origin],
    }


def list_subsystems(view: CarView) -> list[Plain]:
    """Subsystems, the most used first and then in the order of the trade."""
    used = Counter(name for sheet in view.car.sheets for name in sheet.front.subsystem)
    known = view.car.workshop.all_subsystems()
    names = sorted({**known, **used}, key=lambda name: -used[name])
    return [
        {"name": name, "label": subsystem_label(view.car.workshop, name), "sheets": used[name]}
        for name in names
    ]


def list_hands(view: CarView) -> list[Plain]:
    """The hands of the workshop, those with most hours on the car first."""
    spent = view.hours.by_hand()
    hands = sorted(view.car.workshop.hands, key=lambda pair: -spent.get(pair[0], 0))
    return [{"name": initials, "label": hand.name} for initials, hand in hands]


def list_components(view: CarView) -> list[Plain]:
    """Components in the order of the register, with what is there now."""
    return [
        {
            "key": line.component.key,
            "label": line.component.label,
            "subsystem": line.component.subsystem,
            "now": line.now.origin.value,
            "position": line.position.value,
        }
        for line in view.originality.lines
    ]


def list_snags(view: CarView) -> list[Plain]:
    """Open snags, those with a hold first, the oldest before the others."""
    return [
        {
            "name": snag.name,
            "text": snag.text,
            "subsystem": snag.subsystem,
            "on": snag.on,
            "hold": snag.hold,
            "raised": snag.raised.isoformat(),
        }
        for snag in sorted(view.snags.open, key=lambda s: (not s.hold, s.raised, s.name))
    ]


def list_waiting(view: CarView) -> list[Plain]:
    """Parts that are ordered and not here, the oldest order first."""
    orders = (item for item in view.waiting.items if item.kind is Kind.ORDER)
    return [
        {
            "name": item.name,
            "what": item.what,
            "from": item.whom,
            "of": list(item.components),
            "subsystems": list(item.subsystems),
            "count": str(item.count) if item.count is not None else None,
            "ordered": item.since.isoformat(),
            "due": item.due.isoformat() if item.due else None,
        }
        for item in sorted(orders, key=lambda item: (item.since, item.name))
    ]

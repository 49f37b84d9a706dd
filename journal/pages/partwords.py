"""A part in words: its days in order, how it was found, and what it cost."""

from collections.abc import Iterator
from datetime import date
from decimal import Decimal

from journal.ledgers.parts import Arrival, Part
from journal.pages.anchors import anchor
from journal.pages.common import has_page
from journal.pages.links import Links, Ref
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import (
    day_words,
    hours_words,
    money_words,
    plain_count,
    sentence,
    supplier_words,
)
from journal.words.money import decimals_of
from journal.words.text import counted


class PartRow(Value, frozen=True):
    """One part; what this reader does not see is empty. `cost` is in the workshop's currency,
    `priced` tells how it came about; `late` is told of what is still awaited."""

    anchor: str
    what: str
    number: str
    of: tuple[Ref, ...]
    supplier: Ref
    late: str
    story: tuple[str, ...]
    reasons: tuple[str, ...]
    lost: str
    cost: str
    priced: tuple[str, ...]
    sheets: tuple[Ref, ...]


def part_row(view: CarView, links: Links, part: Part) -> PartRow:
    """The whole story of a part."""
    quantity = f"{plain_count(part.qty)} × " if part.qty and part.qty != 1 else ""
    lost = view.hours.lost_to_parts().get(part.name)
    over = part.overdue(view.until, view.car.workshop)
    return PartRow(
        anchor("part", part.name),
        quantity + part_name(part),
        part.number or "",
        links.components(part.of),
        supplier_ref(view, links, part.supplier),
        f"{counted(over, 'working day')} overdue" if over else "",
        _story(part),
        (*(why for a in part.arrivals for why in a.why), *part.notes),
        f"{hours_words(lost)} lost by it" if lost else "",
        money_words(view.car.workshop, part.net) if part.net is not None else "",
        _priced(view, part),
        tuple(links.sheet(name) for name in part.sheets),
    )


def part_name(part: Part) -> str:
    """What a part is called."""
    return part.what or sentence(part.name.replace("-", " "))


def supplier_ref(view: CarView, links: Links, name: str | None) -> Ref:
    """A supplier by name, at its place on the page of suppliers where there is one."""
    text = supplier_words(view.car.workshop, name) or ""
    if name is None or not has_page(view.reader, "suppliers.html"):
        return Ref(text)
    return Ref(text, links.to(f"suppliers.html#{anchor('supplier', name)}"))


def _story(part: Part) -> tuple[str, ...]:
    """Its days as short lines, in order of days."""
    told: list[tuple[date, int, str]] = []
    if part.ordered:
        told.append((part.ordered, 0, "ordered"))
    if part.promised and part.waiting:
        told.append((part.promised, 1, "promised for"))
    told += [(a.day, 2, _arrived(part, a) + end) for a, end in _arrivals(part) if a.day]
    told += [(b.day, 3, _sent_back(part, b.count)) for b in part.returns]
    if part.fitted:
        told.append((part.fitted, 4, "fitted"))
    told.sort(key=lambda line: line[:2])
    lines = [_on(words, day) for day, _, words in told]
    unseen = [_outcome(a) for a in part.arrivals if not a.day and a.outcomes]
    return (*lines, *unseen)


def _on(words: str, day: date) -> str:
    """A day put after the verb, before whatever else is told of it."""
    verb, comma, rest = words.partition(",")
    return f"{verb} {day_words(day)}{comma}{rest}"


def _arrived(part: Part, arrival: Arrival) -> str:
    some = arrival.count != part.wanted or len(part.arrivals) > 1
    count = f"{plain_count(arrival.count)} received" if some else "received"
    return f"{count}, {_outcome(arrival)}" if arrival.outcomes else count


def _arrivals(part: Part) -> Iterator[tuple[Arrival, str]]:
    """Arrivals, the one that completed the order with how long that took."""
    took = f", after {counted(part.lead, 'working day')}" if part.lead else ""
    took += f", {part.late} late" if part.late and part.late > 0 else ""
    on_the_day = [n for n, a in enumerate(part.arrivals) if a.day and a.day == part.complete]
    for n, arrival in enumerate(part.arrivals):
        yield arrival, took if [n] == on_the_day[-1:] else ""


def _outcome(arrival: Arrival) -> str:
    return " and then ".join(dict.fromkeys(o.value for o in arrival.outcomes))


def _sent_back(part: Part, count: Decimal) -> str:
    return "sent back" if count == part.got else f"{plain_count(count)} sent back"


def _priced(view: CarView, part: Part) -> tuple[str, ...]:
    """How the cost came about, where it is not simply the price."""
    currency = part.currency or view.car.workshop.currency
    own = currency == view.car.workshop.currency
    price = _amount(view, currency, part.price)
    rate = f" at {part.rate}" if part.rate else "" if own else ", no rate written"
    more = [f"{_amount(view, currency, part.carriage)} carriage"] if part.carriage else []
    more += [f"{_amount(view, currency, part.credited)} credited"] if part.credited else []
    more += ["credit not in yet"] if part.credit_due else []
    named = " price" if own else ""
    return (price + rate + named, *more) if price and (more or not own) else tuple(more)


def _amount(view: CarView, currency: str, amount: Decimal | None) -> str:
    if amount is None:
        return ""
    if currency == view.car.workshop.currency:
        return money_words(view.car.workshop, amount)
    return f"{currency} {amount:,.{decimals_of(currency)}f}"

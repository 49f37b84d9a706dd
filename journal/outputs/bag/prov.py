"""Where everything on the car comes from, as W3C PROV in its JSON form.

PROV-DM, W3C Recommendation of 30 April 2013; PROV-JSON, W3C member submission of 24 April 2013. Places on
the car and the states of the items in them are entities, lines of day sheets and lots of outwork are
activities, the workshop, its hands, suppliers and whoever decided are agents. A sheet tells a day and no
hour: an activity starts with its day and ends with it.
"""

import json
from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any
from urllib.parse import quote

from journal.ledgers.outwork import Batch
from journal.outputs.bag.identity import car_urn
from journal.outputs.bag.items import Act, State, Story, by_part, story_of
from journal.pages.view import CarView
from journal.records.carfile import CarFile

_HERE = "here"
_KINDS = ("entity", "activity", "agent")
_PERSON, _ORGANIZATION, _REVISION = "prov:Person", "prov:Organization", "prov:Revision"


def prov_json(view: CarView) -> str:
    """The provenance of a car as its reader sees it, as the text of a PROV-JSON document."""
    lots = view.outwork.batches
    stories = tuple(story_of(line, lots) for line in view.originality.lines)
    document: dict[str, dict[str, Any]] = {
        "prefix": {_HERE: f"{car_urn(view.car)}#"},
        **{kind: {} for kind in _KINDS},
    }
    count = 0
    for kind, name, told in _records(view, stories):
        if kind in _KINDS:
            document[kind].setdefault(name, told)
        else:
            count += 1
            document.setdefault(kind, {})[f"_:n{count}"] = told
    return json.dumps(document, indent=1, ensure_ascii=False) + "\n"


Record = tuple[str, str, Mapping[str, Any]]


def _records(view: CarView, stories: tuple[Story, ...]) -> Iterator[Record]:
    """Every record in order: elements before the relations that name them."""
    yield "entity", _name("car"), {"prov:label": view.car.car.name, "prov:type": "car"}
    yield from _entities(view, stories)
    acts = [act for story in stories for act in story.acts]
    # A lot in which nothing of this reader's register is, is no part of the story.
    lots = [lot for lot in view.outwork.batches if lot.first_sent and _is_told(lot, stories)]
    for act in acts:
        yield "activity", _name(act.name), _act(act)
    for lot in lots:
        yield "activity", _name(f"outwork/{lot.name}"), _outwork(lot)
    yield from _agents(view, acts, lots)
    for story in stories:
        yield from _relations(view, story)


def _is_told(lot: Batch, stories: tuple[Story, ...]) -> bool:
    return any(act == f"outwork/{lot.name}" for story in stories for act, _ in story.used)


def _entities(view: CarView, stories: tuple[Story, ...]) -> Iterator[Record]:
    for line, story in zip(view.originality.lines, stories, strict=True):
        label = line.component.label
        place = {"prov:label": label, "prov:type": "place on the car"}
        yield "entity", _name(f"place/{story.place}"), place
        for state in story.states:
            told = {"prov:label": f"{label}, {state.origin.value}", "prov:type": "item"}
            yield "entity", _state(state), {**told, f"{_HERE}:origin": state.origin.value}


def _act(act: Act) -> Mapping[str, Any]:
    entry = act.entry
    did = ", ".join(done.value for done in entry.acts) or "told of"
    told = {"prov:label": f"{did}: {act.place}", "prov:type": "work", **_days(entry.day, entry.day)}
    return {**told, f"{_HERE}:sheet": entry.sheet}


def _outwork(lot: Batch) -> Mapping[str, Any]:
    told = {"prov:label": lot.what or lot.name, "prov:type": "outwork"}
    return {**told, **_days(lot.first_sent, lot.home)}


def _days(first: date | None, last: date | None) -> Mapping[str, str]:
    start = {"prov:startTime": f"{first}T00:00:00"} if first else {}
    return {**start, **({"prov:endTime": f"{last}T23:59:59"} if last else {})}


def _agents(view: CarView, acts: list[Act], lots: list[Batch]) -> Iterator[Record]:
    """The workshop, and everybody else who has a part in what is told."""
    car = view.car
    yield "agent", _name("workshop"), _agent(car.workshop.name, _ORGANIZATION)
    roles = [(act.name, who, role) for act in acts for who, role in _who(car, act)]
    for who in dict.fromkeys(who for _, who, _ in roles if who != "workshop"):
        yield "agent", _name(who), _person(car, who)
    suppliers = [_supplier(lot.to) for lot in lots if lot.to]
    suppliers += [_supplier(part.supplier) for part in view.parts.parts if part.supplier]
    for supplier in dict.fromkeys(suppliers):
        known = car.workshop.suppliers.get(supplier.partition("/")[2])
        label = known.name if known else supplier.partition("/")[2]
        yield "agent", _name(supplier), _agent(label, _ORGANIZATION)
    for who in dict.fromkeys(who for _, who, _ in roles if who.startswith("hand/")):
        told = {"prov:delegate": _name(who), "prov:responsible": _name("workshop")}
        yield "actedOnBehalfOf", "", told
    for act, who, role in roles:
        yield "wasAssociatedWith", "", _associated(act, who, role)
    for lot in lots:
        if lot.to:
            yield (
                "wasAssociatedWith",
                "",
                _associated(f"outwork/{lot.name}", _supplier(lot.to), "did"),
            )


def _who(car: CarFile, act: Act) -> Iterator[tuple[str, str]]:
    """Who did it, who checked it and who decided it, each with the role."""
    sheet = next(sheet for sheet in car.sheets if sheet.name == act.entry.sheet)
    work = act.entry.work
    hands = (work.by,) if work.by else car.hands_on(sheet, act.place.split("/")[0])
    for hand in hands or ("workshop",):
        yield _one(car, hand), "did"
    if work.checked:
        yield _one(car, work.checked), "checked"
    if work.decided and work.decided.by:
        yield _one(car, work.decided.by), "decided"


def _one(car: CarFile, told: str) -> str:
    """The agent that a sheet names: the workshop, the owner, a hand by initials, or another by name."""
    if told in ("workshop", "the workshop"):
        return "workshop"
    if told in ("owner", "the owner"):
        return "owner"
    return f"hand/{told}" if told in car.workshop.hands else f"person/{told}"


def _person(car: CarFile, who: str) -> Mapping[str, Any]:
    kind, _, name = who.partition("/")
    if kind == "owner":
        return _agent(car.car.owner.name or "the owner", _PERSON)
    hand = car.workshop.hands.get(name) if kind == "hand" else None
    return _agent((hand.name if hand else "") or name, _PERSON)


def _agent(label: str, kind: str) -> Mapping[str, Any]:
    return {"prov:label": label, "prov:type": _qualified(kind)}


def _supplier(told: str) -> str:
    return f"supplier/{told}"


def _relations(view: CarView, story: Story) -> Iterator[Record]:
    place = _name(f"place/{story.place}")
    suppliers = {part.name: part.supplier for part in view.parts.parts}
    for state in story.states:
        told = {"prov:specificEntity": _state(state), "prov:generalEntity": place}
        yield "specializationOf", "", told
    for act, state in story.used:
        yield "used", "", {"prov:activity": _name(act), "prov:entity": _state(state)}
    for made in story.made:
        new, by = _state(made.state), _name(made.by)
        yield "wasGeneratedBy", "", {"prov:entity": new, "prov:activity": by}
        if made.of is not None:
            told = {
                "prov:generatedEntity": new,
                "prov:usedEntity": _state(made.of),
                "prov:activity": by,
            }
            same = made.of.item == made.state.item
            kind: Any = _qualified(_REVISION) if same else "made to the sample"
            yield "wasDerivedFrom", "", {**told, "prov:type": kind}
        supplier = by_part(suppliers, made)
        if supplier:
            yield (
                "wasAttributedTo",
                "",
                {"prov:entity": new, "prov:agent": _name(_supplier(supplier))},
            )
    for act, state in story.gone:
        yield "wasInvalidatedBy", "", {"prov:entity": _state(state), "prov:activity": _name(act)}


def _associated(act: str, who: str, role: str) -> Mapping[str, Any]:
    return {"prov:activity": _name(act), "prov:agent": _name(who), "prov:role": role}


def _state(state: State) -> str:
    return _name(f"item/{state.place}/{state.item}.{state.state}")


def _name(local: str) -> str:
    """A qualified name (PROV-N, section 3.7.1): what may not stand in one is written by its code."""
    coded = quote(local, safe="/")
    return f"{_HERE}:{coded.replace('.', '%2E') if coded.endswith('.') else coded}"


def _qualified(name: str) -> Mapping[str, str]:
    return {"$": name, "type": "prov:QUALIFIED_NAME"}

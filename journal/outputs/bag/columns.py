"""What every column of the tables in the bag means, for one who has nothing but the file.

A unit is a word, or empty where there is none; `MONEY` stands for the workshop's currency. A column of
money is in no table of a reader who sees none.
"""

from collections.abc import Mapping

MONEY = "money"
_DAY, _DAYS, _WORKING, _HOURS = "year-month-day", "days", "working days", "hours"
_YES = "yes or no"
_SHEET = "the day sheet that tells of it, by its name"
_COMPONENT = "the component, by subsystem and name"

Meaning = tuple[str, str]
Columns = Mapping[str, Meaning]

_LEDGER: Columns = {
    "component": (_COMPONENT, ""),
    "weight": ("how much the component counts in the figures of the car", ""),
    "as found": ("where the item came from that was there at booking in", ""),
    "now": ("where the item comes from that is there now", ""),
    "own material": ("share of the car's original material in it; two figures are the bounds", "percent"),
    "conforms": ("how far it conforms to what the works fitted; two figures are the bounds", "percent"),
    "position": ("where the item is in the course of the work", ""),
    "evidence": ("how it is known: proven, shown, stated or disputed", ""),
    "displaced": ("where the item lies that came off last, or what became of it", ""),
    "decided": ("who decided the last change", ""),
}  # fmt: skip
_DEPARTURES: Columns = {
    "component": (_COMPONENT, ""),
    "works specification": ("what the works fitted to this car", ""),
    "as found": ("where the item came from that was there at booking in", ""),
    "now": ("where the item comes from that is there now", ""),
    "since": ("the day of the change; empty where the car came with it", _DAY),
    "sheet": (_SHEET, ""),
    "why": ("the reason for the change", ""),
    "decided by": ("who decided: owner, workshop, or a hand by initials", ""),
    "decided on": ("the day of the decision", _DAY),
    "advice": ("what was advised", ""),
    "reversible": ("whether the change can be undone; empty where nobody said", _YES),
    "way back": ("how it is undone", ""),
    "came off": ("where the item came from that came off", ""),
    "kept at": ("where that item lies, or what became of it", ""),
    "can be put back": (
        "whether the change can be undone and the item is kept and fit for use",
        _YES,
    ),
}
_ORIGINALS: Columns = {
    "component": (_COMPONENT, ""),
    "item": ("where the item came from", ""),
    "works' own": ("whether it is the very item that the works fitted", _YES),
    "own material": (
        "share of the original material in it, the greatest that is possible",
        "0 to 1",
    ),
    "came off": ("the day on which it came off", _DAY),
    "sheet": (_SHEET, ""),
    "kept at": ("where it lies", ""),
    "gone": ("what became of it where it is not kept: scrapped, exchanged or lost", ""),
    "usable": ("whether it may go back into use; else it is kept as a witness", _YES),
    "reversible": ("whether the change can be undone; empty where nobody said", _YES),
    "way back": ("how it is undone", ""),
}
_PARTS: Columns = {
    "part": ("the part, by its short name", ""),
    "what": ("what it is", ""),
    "number": ("its number at the supplier's or maker's", ""),
    "from": ("the supplier, by short name", ""),
    "of": ("the components that it is for", ""),
    "qty": ("how many were ordered", "pieces"),
    "got": ("how many came", "pieces"),
    "sent back": ("how many went back", "pieces"),
    "due": ("how many are still to come", "pieces"),
    "state": ("how far it is: ordered, received, accepted, rejected, returned, fitted", ""),
    "ordered": ("day of the order", _DAY),
    "promised": ("day for which it was promised", _DAY),
    "received": ("day on which it came", _DAY),
    "lead time": ("from order to arrival", _WORKING),
    "late": ("how late it came after the day promised", _WORKING),
    "overdue": ("how late it is that has not come yet", _WORKING),
    "why": ("why it was not accepted as it came", ""),
    "returned": ("day on which it was returned", _DAY),
    "fitted": ("day on which it was fitted", _DAY),
    "price": ("price for the whole quantity, in the currency of the row, without tax", MONEY),
    "carriage": ("carriage, in the currency of the row", MONEY),
    "credited": ("what was credited, in the currency of the row", MONEY),
    "currency": ("currency of the row (ISO 4217)", MONEY),
    "rate": ("what one unit of that currency cost in the workshop's", MONEY),
    "net": ("what it comes to in the workshop's currency, without tax", MONEY),
    "hours lost": ("hours that were lost because it did not fit", _HOURS),
}  # fmt: skip
_OUTWORK: Columns = {
    "lot": ("the items sent out together, by short name", ""),
    "what": ("what they are", ""),
    "to": ("to whom they went, by short name", ""),
    "of": ("the components that they belong to", ""),
    "sent": ("how many went out", "pieces"),
    "back": ("how many came back", "pieces"),
    "out": ("how many are still out", "pieces"),
    "first sent": ("day on which the first went out", _DAY),
    "due": ("day for which they were promised back", _DAY),
    "overdue": ("how late they are that are still out", _WORKING),
    "home": ("day on which the last came back", _DAY),
    "away": ("how long they were away", _WORKING),
    "late": ("how late they came back", _WORKING),
    "finish": ("what they came back as", ""),
    "certificate": ("the certificate that came with them", ""),
    "cost": ("cost of the lot, without tax", MONEY),
}
_MEASURED: Columns = {
    "day": ("day of the reading", _DAY),
    "dimension": ("what was measured", ""),
    "on": (_COMPONENT, ""),
    "subsystem": ("the subsystem", ""),
    "read": ("the readings", "as in the column unit"),
    "unit": ("the unit in which they were read", ""),
    "least": ("the least that is allowed", "as in the column unit"),
    "most": ("the most that is allowed", "as in the column unit"),
    "inside": ("whether all readings keep the limits", _YES),
    "other read": ("the readings in the other system of units", "as in the column other unit"),
    "other unit": ("the unit in the other system", ""),
    "other least": ("the least in the other system", "as in the column other unit"),
    "other most": ("the most in the other system", "as in the column other unit"),
    "with": ("with what it was measured", ""),
    "note": ("what was said of it", ""),
    "sheet": (_SHEET, ""),
}
_PROVING: Columns = {
    "proof": ("the check, by subsystem and name", ""),
    "what": ("what is checked", ""),
    "state": ("how it stands", ""),
    "holds": ("whether it stops the handover", _YES),
    "on": ("day of the check", _DAY),
    "found": ("what was found, or why this car needs no such check", ""),
    "read": ("the readings", "as in the column unit"),
    "unit": ("the unit of the readings", ""),
    "by": ("who did it, by initials", ""),
    "checked": ("who checked it, by initials", ""),
    "left out": ("what the record of it lacks", ""),
    "overtaken by": ("the component on which later work was done that calls for a new check", ""),
    "overtaken on": ("day of that work", _DAY),
    "sheet": (_SHEET, ""),
}
_NUMBERS: Columns = {
    "number": ("which number of the car", ""),
    "on": ("the component that it is stamped on", ""),
    "recorded": ("the number as the papers give it", ""),
    "by": ("the papers that give it", ""),
    "found": ("the number as it was read at booking in", ""),
    "delivered": ("the number as it was read last", ""),
    "read on": ("day of that reading", _DAY),
    "evidence": ("how it is known: proven, shown, stated or disputed", ""),
    "disputed": ("whether two sources contradict each other", _YES),
    "factory record": ("whether the factory record bears it out", ""),
    "remark": ("what else is to be said", ""),
}
_KEEPERS: Columns = {
    "kind": ("keeper, registration, odometer or finding", ""),
    "what": ("the name, the plate, the reading, or what does not fit", ""),
    "from": ("first day", _DAY),
    "to": ("last day", _DAY),
    "by": ("the papers or the sheet that tell it", ""),
    "remark": ("what does not fit", ""),
}
_DECISIONS: Columns = {
    "matter": ("question, departure, work or extra", ""),
    "what": ("what was asked or chosen", ""),
    "component": (_COMPONENT, ""),
    "now": ("where the item comes from that was put there", ""),
    "since": ("day on which it came up", _DAY),
    "age in days": ("how long it waited, or waits", _DAYS),
    "asked of": ("who was asked", ""),
    "decided by": ("who decided", ""),
    "decided on": ("day of the decision or the answer", _DAY),
    "advice": ("what was advised", ""),
    "answer": ("the answer", ""),
    "put off": ("why it was put off", ""),
    "stands": ("whether what was chosen is still there", _YES),
    "sheet": (_SHEET, ""),
}
_SNAGS: Columns = {
    "snag": ("the open matter, by short name", ""),
    "what": ("what it is", ""),
    "kind": ("what kind of matter", ""),
    "subsystem": ("the subsystem", ""),
    "on": (_COMPONENT, ""),
    "hold": ("whether it stops the handover", _YES),
    "raised": ("day on which it came up", _DAY),
    "age in days": ("how long it was open, or is", _DAYS),
    "asks": ("who is asked", ""),
    "deferred": ("why it was put off", ""),
    "cleared": ("day on which it was cleared", _DAY),
    "how": ("how it was cleared", ""),
    "by": ("who cleared it, by initials", ""),
}
_HOURS_TABLE: Columns = {
    "month": ("the month", "year-month"),
    "week": ("the week by ISO 8601", "year-week"),
    "subsystem": ("the subsystem", ""),
    "hand": ("who worked, by initials", ""),
    "kind": ("billable, rework or goodwill", ""),
    "because": ("the part that did not fit and made the hours necessary", ""),
    "hours": ("time worked", _HOURS),
}
_SHEETS: Columns = {
    "sheet": ("the sheet, by its name", ""),
    "day": ("the day that it tells of", _DAY),
    "title": ("its title", ""),
    "subsystems": ("what it is about", ""),
    "hours": ("time worked", _HOURS),
    "components": ("the components that were worked on", ""),
    "photographs": ("how many it has", ""),
    "corrects": ("the earlier sheets that it corrects", ""),
    "file": ("where it lies in the folder record", ""),
}
_PICTURES: Columns = {
    "kind": ("photograph, or scan of a paper", ""),
    "number": ("its number in the archive", ""),
    "sheet": (_SHEET, ""),
    "day": ("the day of that sheet", _DAY),
    "shows": ("the components that it shows, or the paper", ""),
    "stage": ("the stage of the work", ""),
    "caption": ("what it means", ""),
    "taken on": ("the day by the camera's own clock", _DAY),
    "file": ("where it lies in the folder record", ""),
    "bytes": ("size of that file", "bytes"),
    "sha-256": ("hash of that file", "hexadecimal"),
    "pixels as taken": ("whether the coded pixels are those of the original file", _YES),
    "original file": ("where the original lies in the workshop", ""),
    "original sha-256": ("hash of the original, as it was sealed", "hexadecimal"),
}
_MONEY_TABLE: Columns = {
    "subsystem": ("the subsystem", ""),
    "estimate": ("hours estimated", _HOURS),
    "agreed": ("hours agreed beyond that", _HOURS),
    "hours": ("hours charged", _HOURS),
    "not charged": ("hours told and not charged", _HOURS),
    "labour": ("hours at their rates, without tax", MONEY),
    "parts": ("parts, without tax", MONEY),
    "outwork": ("outwork, without tax", MONEY),
    "extras": ("extras at an agreed price, without tax", MONEY),
    "net": ("all of it, without tax", MONEY),
}

COLUMNS: Mapping[str, Columns] = {
    "ledger": _LEDGER,
    "departures": _DEPARTURES,
    "originals": _ORIGINALS,
    "parts": _PARTS,
    "outwork": _OUTWORK,
    "measured": _MEASURED,
    "proving": _PROVING,
    "numbers": _NUMBERS,
    "keepers": _KEEPERS,
    "decisions": _DECISIONS,
    "snags": _SNAGS,
    "hours": _HOURS_TABLE,
    "money": _MONEY_TABLE,
    "sheets": _SHEETS,
    "pictures": _PICTURES,
}

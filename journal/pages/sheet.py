"""One day sheet: its text and pictures, and the day's facts in the margin."""

from decimal import Decimal
from functools import partial
from typing import Any

from journal.ledgers.parts import Part
from journal.pages.common import cautions_for, frame
from journal.pages.heardwords import heard_of, recordings_of, waiting_words
from journal.pages.links import Links, Ref, sheet_path
from journal.pages.page import Later, Page
from journal.pages.plates import plates_of
from journal.pages.prose import Prose
from journal.pages.provingwords import proofs_of_sheet
from journal.pages.recheckwords import rechecks_of_sheet
from journal.pages.sealwords import pictures_line, seal_line, sheet_file
from journal.pages.sumwords import sum_words
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import (
    day_words,
    hours_number,
    limit_words,
    plain_count,
    readings_words,
    weekday_words,
)
from journal.pages.workwords import view_hand, work_of_sheet
from journal.records.goods import PartLine
from journal.records.sheet import Sheet
from journal.words.text import listed
from journal.words.vocabulary import HourKind, Reader

# More lines of work than this make the margin outgrow the text; they get a part of the page.
MARGIN_ROOM = 6


class MarginLine(Value, frozen=True):
    """One line in the margin: a label that may lead somewhere, an amount, words, and a tone that
    is empty, `hold`, or `outside`."""

    ref: Ref
    amount: str = ""
    note: str = ""
    tone: str = ""


class CorrectionWords(Value, frozen=True):
    """A correction between two sheets, from this one's side."""

    ref: Ref
    day: str
    what: str


def page_sheet(view: CarView) -> tuple[Page, ...]:
    """A page for every day sheet, each leading to the one before and the one after."""
    start = Links(view, "")
    return tuple(
        Page(
            view.base + sheet_path(sheet.name), "sheet.html",
            Later(partial(_values, view, start, number)),
        )
        for number, sheet in enumerate(view.car.sheets)
    )  # fmt: skip


def _values(view: CarView, start: Links, number: int) -> dict[str, Any]:
    sheets, sealed = view.car.sheets, view.seals.by_path
    sheet = sheets[number]
    links = start.at(sheet_path(sheet.name))
    prose = Prose(view, links, sheet.date)
    passages = prose.passages(sheet.body)
    pictures = plates_of(view, links, view.gallery.in_sheet(sheet.name))
    return {
        **frame(links, sheet.title),
        **sheet_facts(view, links, sheet),
        "iso": sheet.date.isoformat(),
        "passages": passages,
        "plates": tuple(p for p in pictures if p.number not in prose.shown),
        "before": _neighbour(links, sheets[number - 1] if number else None),
        "after": _neighbour(links, sheets[number + 1] if number + 1 < len(sheets) else None),
        "seal": seal_line(links, sealed.get(sheet_file(view, sheet))),
        "sealed_pictures": pictures_line(view, sealed, sheet.name),
        "recordings": recordings_of(links, sheet),
        "heard": heard_of(links, sheet),
        "waiting": waiting_words(sheet),
    }


def sheet_facts(view: CarView, links: Links, sheet: Sheet) -> dict[str, Any]:
    """What a sheet tells besides its text and pictures, on a page or on paper."""
    worked = (key.split("/")[0] for key, _ in sheet.front.work)
    touched = dict.fromkeys((*sheet.front.subsystem, *worked))
    return {
        "day": weekday_words(sheet.date),
        "subsystems": tuple(links.subsystem(name) for name in sheet.front.subsystem),
        "private": sheet.front.widest is Reader.WORKSHOP,
        "cautions": cautions_for(view, tuple(touched)),
        "corrects": _corrects(view, links, sheet),
        "corrected_by": tuple(
            _corrected_by(links, sheet, later) for later in view.corrections.get(sheet.name, ())
        ),
        "hours": _hours(view, links, sheet),
        "work": work_of_sheet(view, links, sheet),
        "wide_work": len(sheet.front.work) > MARGIN_ROOM,
        "measured": _measured(view, links, sheet),
        "sums": tuple(sum_words(links, kept) for kept in view.sums.of_sheet(sheet.name)),
        "proofs": _proofs(view, links, sheet),
        "parts": _parts(view, links, sheet),
        "outwork": _outwork(links, sheet),
        "snags": _snags(view, links, sheet),
        "rechecks": tuple(
            MarginLine(ref, note=words) for ref, words in rechecks_of_sheet(view, links, sheet.name)
        ),
        "papers": tuple(links.paper(name) for name in sheet.front.papers),
    }


def _neighbour(links: Links, sheet: Sheet | None) -> tuple[Ref, str] | None:
    return (links.sheet(sheet.name), day_words(sheet.date)) if sheet else None


def _corrects(view: CarView, links: Links, sheet: Sheet) -> tuple[CorrectionWords, ...]:
    told = ((c, view.sheets.get(c.sheet)) for c in sheet.front.corrects)
    return tuple(
        CorrectionWords(links.sheet(c.sheet), day_words(of.date) if of else "", c.what or "")
        for c, of in told
    )


def _corrected_by(links: Links, sheet: Sheet, later: Sheet) -> CorrectionWords:
    what = next((c.what for c in later.front.corrects if c.sheet == sheet.name), None)
    return CorrectionWords(links.sheet(later.name), day_words(later.date), what or "")


def _hours(view: CarView, links: Links, sheet: Sheet) -> tuple[MarginLine, ...]:
    several = len({s.subsystem for s in view.hours.of_sheet(sheet.name)}) > 1
    return tuple(
        MarginLine(
            links.subsystem(s.subsystem) if several else Ref(view_hand(view, s.hand)),
            hours_number(s.hours),
            "; ".join(
                word
                for word in (
                    view_hand(view, s.hand) if several else "",
                    s.kind.value if s.kind is not HourKind.BILLABLE else "",
                    s.note or "",
                )
                if word
            ),
        )
        for s in view.hours.of_sheet(sheet.name)
    )


def _measured(view: CarView, links: Links, sheet: Sheet) -> tuple[MarginLine, ...]:
    lines = []
    for reading in view.measured.of_sheet(sheet.name):
        limit = limit_words(reading.least, reading.most)
        said = [f"limit {limit}"] if limit else []
        said += ["outside its limit"] if reading.inside is False else []
        said += [w for w in (reading.tool, reading.note) if w]
        ref = Ref(reading.name, links.component(reading.on).href if reading.on else None)
        tone = "outside" if reading.inside is False else ""
        amount = readings_words(reading.values, reading.unit)
        lines.append(MarginLine(ref, amount, "; ".join(said), tone))
    return tuple(lines)


def _parts(view: CarView, links: Links, sheet: Sheet) -> tuple[MarginLine, ...]:
    told = ((name, line, view.parts.named(name)) for name, line in sheet.front.parts)
    return tuple(
        MarginLine(
            Ref(
                part.what or name.replace("-", " "),
                links.part(name),
            ),
            note=_part_note(line, part),
        )
        for name, line, part in told
        if part is not None
    )


def _part_note(line: PartLine, part: Part) -> str:
    said = [word for word, day in (
        ("ordered", line.ordered), (_counted(line.got, "received"), line.received or line.got),
        (_counted(line.sent_back, "sent back"), line.returned or line.sent_back),
        ("fitted", line.fitted),
    ) if day]  # fmt: skip
    said += [line.outcome.value] if line.outcome else []
    words = listed(said)
    number = f"no. {part.number}" if part.number else ""
    return "; ".join(w for w in (number, words, line.why, line.note) if w)


def _counted(count: Decimal | None, word: str) -> str:
    return f"{plain_count(count)} {word}" if count is not None else word


def _outwork(links: Links, sheet: Sheet) -> tuple[MarginLine, ...]:
    lines = []
    for name, line in sheet.front.outwork:
        said = [f"{plain_count(line.sent)} sent"] if line.sent else []
        said += [f"{plain_count(line.back)} back"] if line.back else []
        ref = Ref(line.what or name.replace("-", " "), links.lot(name))
        lines.append(MarginLine(ref, listed(said), line.note or ""))
    return tuple(lines)


def _proofs(view: CarView, links: Links, sheet: Sheet) -> tuple[MarginLine, ...]:
    told = proofs_of_sheet(view, links, sheet.name, MARGIN_ROOM)
    return tuple(
        MarginLine(ref, "", words, "hold" if failed else "") for ref, words, failed in told
    )


def _snags(view: CarView, links: Links, sheet: Sheet) -> tuple[MarginLine, ...]:
    lines = []
    for name, line in sheet.front.snags:
        snag = view.snags.named(name)
        if snag is None:
            continue
        ref = Ref(snag.text, links.snag(name))
        if line.clear:
            lines.append(MarginLine(ref, "", f"cleared: {line.clear}"))
        elif line.defer:
            lines.append(MarginLine(ref, "", f"put off: {line.defer}"))
        else:
            still = "" if snag.open else "; cleared since"
            hold = "raised; holds the handover" if line.hold else "raised"
            tone = "hold" if line.hold and snag.open else ""
            lines.append(MarginLine(ref, "", hold + still, tone))
    return tuple(lines)

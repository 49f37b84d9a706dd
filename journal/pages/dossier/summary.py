"""The dossier on one page: the figures, the departures, what is handed over with reserve."""

from collections import Counter

from journal.ledgers.originality.figures import Figures
from journal.pages.charts import Gauge, gauge
from journal.pages.departures import DepartureWords, departures_of, reversible_sentence
from journal.pages.dossier.book import Book, ReservationWords, Section
from journal.pages.dossier.departures import back_words
from journal.pages.figures import kept_words
from journal.pages.links import Ref
from journal.pages.numbers import numbers_lead
from journal.pages.proving import proving_lead, record_sentence
from journal.pages.recheckwords import lead_words
from journal.pages.standing import standing_sentences
from journal.pages.value import Value
from journal.pages.words import in_words, percent_words, sentence, some
from journal.words.amounts import Interval
from journal.words.vocabulary import Evidence, Origin

# The most that one page holds beside the rest of it; the layout takes fewer where words are long, and
# what is left for later is told by its number.
MOST_DEPARTURES = 18
MOST_RESERVATIONS = 6
# Where the others stand.
LATER, FIRST = "further on", "on the first page"


class Measure(Value, frozen=True):
    """One figure at one moment, in words and as a drawing."""

    heading: str
    material: str
    material_drawn: Gauge
    conforms: str
    conforms_drawn: Gauge


class DepartureLine(Value, frozen=True):
    """One departure in short: the component, what gave way to what, whether it can go back."""

    ref: Ref
    change: str
    back: str


def summary(book: Book) -> Section:
    """Originality as found, as delivered and with all undone; departures; reservations."""
    view = book.view
    whole = view.originality.whole
    made, renewed = departures_of(view, book.places)
    reservations = book.reservations()
    back = sum(d.recoverable for line in view.originality.lines for d in line.displaced)
    return Section(
        "summary",
        "Summary",
        {
            "standing": " ".join(standing_sentences(view)),
            "measures": (
                _measure("As found", whole.found),
                _measure(book.standing, whole.now),
                _measure("If changes are undone", whole.recoverable),
            )
            if view.originality.lines
            else (),
            "kept": sentence(kept_words(back)) + ".",
            "unknown": _unknown(book),
            "evidence": _evidence(book),
            "numbers": numbers_lead(view),
            "proving": " ".join(s for s in (proving_lead(view), record_sentence(view)) if s),
            "rechecks": " ".join(s for s in (lead_words(view), _open(book)) if s),
            "departures": tuple(_line(d) for d in (made + renewed)[:MOST_DEPARTURES]),
            "departures_count": sentence(_counted(len(made), len(renewed))),
            "more_departures": _more(len(made + renewed), MOST_DEPARTURES, "departure", LATER),
            "reversible": reversible_sentence(made + renewed) if made or renewed else "",
            "reservations": reservations[:MOST_RESERVATIONS],
            "reservations_count": reservations_words(reservations),
            "more_reservations": _more(len(reservations), MOST_RESERVATIONS, "reservation", FIRST),
        },
    )


def reservations_words(reservations: tuple[ReservationWords, ...]) -> str:
    """How many reservations there are."""
    if not reservations:
        return "Nothing stands against the handover."
    count = len(reservations)
    return sentence(f"{some(count, 'reservation')} {'stands' if count == 1 else 'stand'}.")


def _measure(heading: str, figures: Figures) -> Measure:
    material, conforms = figures
    return Measure(heading, *_drawn(material), *_drawn(conforms))


def _drawn(share: Interval) -> tuple[str, Gauge]:
    return percent_words(share), gauge(share)


def _unknown(book: Book) -> str:
    """How many components nobody can tell; they are what makes an interval of a figure."""
    lines = book.view.originality.lines
    unknown = sum(line.now.origin is Origin.UNKNOWN for line in lines)
    of = some(len(lines), "component")
    if not unknown:
        return f"Of {of}, what is there is known of every one."
    verb = "is" if unknown == 1 else "are"
    return f"Of {of}, {in_words(unknown)} {verb} of an origin that nobody can tell."


def _evidence(book: Book) -> str:
    """How the lines of the ledger are known, best first."""
    grades = Counter(line.evidence for line in book.view.originality.lines)
    told = [f"{in_words(grades[g])} {g.value}" for g in Evidence if grades[g]]
    return f"By their evidence: {', '.join(told)}." if told else ""


def _open(book: Book) -> str:
    """How many snags are open; what of them holds the handover stands among the reservations."""
    count = len(book.view.snags.open)
    verb = "is" if count == 1 else "are"
    return (
        sentence(f"{some(count, 'snag')} {verb} open, those put off among them.") if count else ""
    )


def _line(departure: DepartureWords) -> DepartureLine:
    before, after = departure.change.item.mark.label, departure.now.mark.label
    return DepartureLine(departure.ref, f"{before} to {after}", back_words(departure.change))


def _counted(made: int, renewed: int) -> str:
    if not made and not renewed:
        return "nothing on the car departs by this work."
    told = f"{some(made, 'departure')} made in this work"
    if renewed:
        verb = "was" if renewed == 1 else "were"
        told += f", {in_words(renewed)} that the car came with and {verb} renewed"
    return f"{told}."


def _more(count: int, most: int, one: str, where: str) -> tuple[str, ...]:
    """What is said of the others when none, one, two and up to `most` are shown."""
    left = (count - shown for shown in range(min(count, most) + 1))
    told = (f"and {some(n, f'more {one}')}, {where}" if n else "" for n in left)
    return (f"All of them stand {where}." if count else "", *tuple(told)[1:])

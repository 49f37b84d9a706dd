"""What every page carries: its frame, the way around the archive, marks and cautions."""

from typing import Any

from journal.pages.links import Links, Ref
from journal.pages.parting import folder_of
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words
from journal.records.car import Car
from journal.words.cautions import CAUTIONS, GENERAL
from journal.words.vocabulary import ORIGIN_MEANING, Origin, Reader

ARCHIVE_OF = {
    Reader.WORKSHOP: "The workshop’s archive",
    Reader.OWNER: "The owner’s archive",
    Reader.KEEPER: "The next keeper’s archive",
    Reader.PUBLIC: "The public archive",
}

FEED = "feed.xml"

# Label, path within the car's folder, and the folder whose pages belong under it.
PLACES = (
    ("Sheets", "sheets/index.html", "sheets/"),
    ("Subsystems", "subsystems/index.html", "subsystems/"),
    ("Ledger", "ledger.html", "components/"),
    ("Parts", "parts.html", ""),
    ("Pictures", "pictures/index.html", "pictures/"),
    ("Papers", "papers.html", ""),
    ("Find", "find.html", ""),
)
MORE_PLACES = (
    ("Waiting", "waiting.html", ""),
    ("Progress", "progress.html", ""),
    ("Decisions", "decisions.html", ""),
    ("Departures", "departures.html", ""),
    ("Outwork", "outwork.html", ""),
    ("Suppliers", "suppliers.html", ""),
    ("Snags", "snags.html", ""),
    ("Proving", "proving.html", ""),
    ("Re-checks", "rechecks.html", ""),
    ("Hours", "hours.html", ""),
    ("Money", "money.html", "statements/"),
    ("Measured", "measured.html", ""),
    ("Bench sums", "sums.html", ""),
    ("Numbers and keepers", "numbers.html", ""),
    ("Seals", "seals.html", ""),
)

_OWNER_TOO = (Reader.WORKSHOP, Reader.OWNER)
_NOT_THE_PUBLIC = (*_OWNER_TOO, Reader.KEEPER)

# The pages that only some readers have; all others are everyone's.
READERS: dict[str, tuple[Reader, ...]] = {
    "waiting.html": _OWNER_TOO,
    "progress.html": _OWNER_TOO,
    "decisions.html": _NOT_THE_PUBLIC,
    "rechecks.html": _NOT_THE_PUBLIC,
    "money.html": _OWNER_TOO,
    "suppliers.html": (Reader.WORKSHOP,),
}


def has_page(reader: Reader, path: str) -> bool:
    """Whether the archive of a reader has the page at a path within the car's folder."""
    return path not in READERS or reader in READERS[path]


class Place(Value, frozen=True):
    """One place in the navigation; `current` is what `aria-current` says there, or nothing."""

    label: str
    href: str
    current: str


class OriginMark(Value, frozen=True):
    """An origin as it is drawn and said: by shape, tone and word."""

    slug: str
    label: str
    meaning: str


def origin_mark(origin: Origin) -> OriginMark:
    """The mark of an origin."""
    return OriginMark(origin.value, origin_label(origin), ORIGIN_MEANING[origin])


def origin_label(origin: Origin) -> str:
    """An origin in running words: `first-fit`, `period-used`, `pattern`."""
    return origin.value


def car_title(car: Car) -> str:
    """`Aldermoor Tern, 1958`."""
    return f"{car.name}, {car.year}" if car.year else car.name


def frame(links: Links, title: str) -> dict[str, Any]:
    """What the base template prints around the page that `links` starts from."""
    known, spot = links.view.once(_known_frames), _spot(links.path)
    if (links.home, spot) not in known:
        known[links.home, spot] = _frame(links, spot)
    same = known[links.home, spot]
    car = same["car_title"]
    return {"title": title, "document": f"{title} · {car}" if title else car, **same}


def _known_frames(_: CarView) -> dict[tuple[str, str], dict[str, Any]]:
    """Those that were made already, by where their links start and their spot: hundreds of pages of a car
    stand in the same."""
    return {}


def _frame(links: Links, spot: str) -> dict[str, Any]:
    """What is the same around all pages of one spot."""
    view = links.view
    car = view.car.car
    base = "../" * view.base.count("/")
    return {
        "up": links.home + base,
        "scripts": (),
        "feeds": (feed_ref(links),),
        "home": links.to("index.html"),
        "across": links.home + base + "index.html" if view.base else None,
        "car_title": car_title(car),
        "car_note": _car_note(car),
        "workshop": view.car.workshop.name,
        "archive": ARCHIVE_OF[view.reader],
        "until": day_words(view.until),
        "nav": _places(PLACES, view.reader, links.home, spot),
        "more": _places(MORE_PLACES, view.reader, links.home, spot),
        "general_caution": GENERAL,
    }


def feed_ref(links: Links) -> Ref:
    """The feed of a car's sheets, for a news reader."""
    return Ref(f"New sheets of {car_title(links.view.car.car)}", links.to(FEED))


def _car_note(car: Car) -> str:
    chassis = car.numbers.get("chassis")
    number = f"chassis {chassis.found}" if chassis and chassis.found else None
    return " · ".join(words for words in (number, car.body) if words)


_NAMED = frozenset(to for _, to, _ in (*PLACES, *MORE_PLACES))


def _spot(path: str) -> str:
    """Where a page stands in the navigation: all pages of a folder that it does not name stand alike."""
    return path if path in _NAMED else path[: path.rfind("/") + 1]


def _places(
    places: tuple[tuple[str, str, str], ...], reader: Reader, home: str, spot: str
) -> tuple[Place, ...]:
    return tuple(
        Place(label, home + to, _current(spot, to, folder))
        for label, to, folder in places
        if has_page(reader, to)
    )


def _current(path: str, to: str, folder: str) -> str:
    if path == to:
        return "page"
    below = (folder_of(to), folder) if folder else folder_of(to)
    return "true" if path.startswith(below) else ""


def cautions_for(
    view: CarView, subsystems: tuple[str, ...], safety: bool = False
) -> tuple[str, ...]:
    """The cautions that go with work on these subsystems, each once.

    What counts for safety carries at least the general one.
    """
    known = view.car.workshop.all_subsystems()
    found = [known[name] for name in subsystems if name in known]
    texts = dict.fromkeys(CAUTIONS[name] for s in found for name in s.cautions)
    if not texts and (safety or any(s.safety for s in found)):
        return (GENERAL,)
    return tuple(texts)

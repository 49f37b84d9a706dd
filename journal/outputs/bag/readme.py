"""The page at the top of a bag: what this is, what to open, and how to check it by hand.

It lies at the top and not in the payload, where the one who opens the folder sees it first; the
signature covers it all the same.
"""

import shlex
from base64 import b64encode
from collections.abc import Sequence
from hashlib import sha256
from typing import NamedTuple

from journal.outputs.bag.earlier import Following
from journal.outputs.bag.layout import RECORD
from journal.outputs.theme import environment, theme_folder
from journal.pages.view import CarView
from journal.records.seal import PUBLIC_KEY, SIGNATURE, STATEMENT, Statement
from journal.words.cautions import GENERAL
from journal.words.dates import plain_date
from journal.words.spoken import WORDS, spoken

_STYLE = "read-me-first.css"


class Holds(NamedTuple):
    """A file or folder of the bag and what it holds, in plain words."""

    path: str
    name: str
    holds: str


class Group(NamedTuple):
    """One group of a number that is read over the telephone."""

    word: str
    digits: str


class SealWords(NamedTuple):
    """The last seal, how it is checked, and how many there are."""

    times: str
    up_to: str
    words: tuple[Group, ...]
    command: str


class BeforeWords(NamedTuple):
    """The bag that a supplement follows: what it is called, its day, its seal, which supplement this is,
    and how the statement of that seal is compared in both, by a shell and on Windows."""

    name: str
    day: str
    seal: int
    number: int
    first: bool
    shell: str
    windows: str


def read_me(
    view: CarView,
    key: str,
    seals: Sequence[Statement],
    as_sealed: int,
    following: Following | None = None,
) -> str:
    """The page as text. `key` is the name of the key that signs the bag, `seals` are those in it, and
    `as_sealed` is how many files lie in the bag exactly as they were sealed. A supplement says what it is
    `following`."""
    theme = theme_folder("bag")
    style = environment(theme).get_template(_STYLE).render()
    car = view.car
    values = {
        "style_hash": f"sha256-{b64encode(sha256(_as_set(style)).digest()).decode()}",
        "car": car.car.name,
        "note": f"{car.car.body}, {car.car.year}",
        "workshop": car.workshop.name,
        "address": car.workshop.address or "",
        "handed": _handed(view),
        "until": plain_date(view.until),
        "places": _places_later() if following else _places(bool(seals)),
        "before": _before(following) if following else None,
        "record": RECORD,
        "key": key,
        "key_words": _groups(key),
        "all_words": " ".join(f"{n} {word}," for n, word in enumerate(WORDS)).rstrip(","),
        "seal": _seal(seals),
        "as_sealed": _as_sealed(as_sealed),
        "caution": GENERAL,
    }
    name = "read-me-supplement.html" if following else "read-me-first.html"
    return environment(theme).get_template(name).render(values)


def _before(following: Following) -> BeforeWords:
    bag = following.earlier.bag
    here = f"data/seals/{bag.seal.seal:04}/{STATEMENT}"
    there = f"../{bag.name}/{here}"
    hashes = " -eq ".join(
        "(Get-FileHash -LiteralPath '{}').Hash".format(path.replace("'", "''"))
        for path in (there, here)
    )
    return BeforeWords(
        bag.name, plain_date(bag.day), bag.seal.seal, bag.number, bag.number == 1,
        f"cmp {shlex.quote(there)} {here} && echo Good.",
        f'if ({hashes}) {{ "Good." }} else {{ "CHANGED" }}',
    )  # fmt: skip


def _as_set(style: str) -> bytes:
    """The style as it stands between its two tags, the first of which ends its line."""
    return f"\n{style}".encode()


def _handed(view: CarView) -> str:
    day = view.car.car.delivered
    if day is not None and day <= view.until:
        return f"with the car on {plain_date(day)}"
    return f"on {plain_date(view.until)}, before the car was delivered"


def _places(sealed: bool) -> tuple[Holds, ...]:
    there = [
        Holds("data/dossier.pdf", "Dossier", "What the car is and how we know, all that was done, what "
              "departs from the works specification and how to go back, what was proved and by whom."),
        Holds("data/archive/index.html", "Archive", "The same as pages that belong together: day sheets, a "
              "life of each component, the ledger, all pictures, and a search."),
        Holds("data/tables/", "Tables", "Parts, measurements, numbers, keepers and all other lists, for any "
              "spreadsheet. What each column means stands in the file columns.csv."),
        Holds(RECORD, "Record", "The day sheets as plain text, and the photographs and papers in full "
              "size. All the rest is made from this."),
        Holds("data/provenance.json", "Provenance", "Where each item comes from, what was done to it and by "
              "whom, for programs (W3C PROV)."),
        Holds("data/vehicle.jsonld", "Particulars", "The particulars of the car, for programs (schema.org)."),
    ]  # fmt: skip
    if sealed:
        there.append(
            Holds("data/seals/", "Seals", "What shows that the record was not written afterwards.")
        )
    signed = "The lists of all files, signed by the workshop, and the key to check that with."
    return (*there, Holds("signed/", "Signature", signed))


def _places_later() -> tuple[Holds, ...]:
    signed = "The lists of all files, signed by the workshop, and the key to check that with."
    return (
        Holds("data/dossier.pdf", "Supplement", "What changed since, every new sheet in full, what is to be "
              "looked at again and when, and how to see that this follows the earlier bag."),
        Holds(RECORD, "Record", "The day sheets that are new or were amended, as plain text, and the new "
              "photographs and papers in full size. Laid over the folder of this name in the earlier bag "
              "it makes the whole record."),
        Holds("data/tables/", "Tables", "All lists of the whole car as it stands, in place of those in the "
              "earlier bag. What each column means stands in the file columns.csv."),
        Holds("data/provenance.json", "Provenance", "Where each item comes from, what was done to it and by "
              "whom, for programs (W3C PROV), of the whole car as it stands."),
        Holds("data/vehicle.jsonld", "Particulars", "The particulars of the car, for programs (schema.org)."),
        Holds("data/seals/", "Seals", "All seals from the first to the last."),
        Holds("signed/", "Signature", signed),
    )  # fmt: skip


def _groups(digest: str) -> tuple[Group, ...]:
    return tuple(Group(*group.split()) for group in spoken(bytes.fromhex(digest)))


def _as_sealed(count: int) -> str:
    if not count:
        return ""
    said = "One file lies" if count == 1 else f"{count} files lie"
    return f"{said} here exactly as sealed; the list as-sealed.sha256 names " + (
        "it." if count == 1 else "them."
    )


def _seal(seals: Sequence[Statement]) -> SealWords | None:
    if not seals:
        return None
    last = seals[-1]
    folder = f"data/seals/{last.seal:04}"
    times = {1: "once", 2: "twice"}.get(len(seals), f"{len(seals)} times")
    command = (
        f"openssl pkeyutl -verify -pubin -inkey {folder}/{PUBLIC_KEY} -rawin "
        f"-in {folder}/{STATEMENT} -sigfile {folder}/{SIGNATURE}"
    )
    return SealWords(times, plain_date(last.up_to), _groups(last.root), command)

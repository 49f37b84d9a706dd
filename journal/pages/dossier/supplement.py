"""The supplement: what came after an earlier bag, to be laid beside the dossier in the first one."""

import shlex
from collections.abc import Callable
from typing import Any

from msgspec.structs import replace

from journal.digests.gate import Gate
from journal.digests.since import Since
from journal.ledgers.seals import Seals
from journal.pages.common import car_title
from journal.pages.dossier.book import Section
from journal.pages.dossier.changes import HOW_WORDS, change_sentences, changes
from journal.pages.dossier.declaration import declaration
from journal.pages.dossier.evidence import evidence
from journal.pages.dossier.later import LaterBook
from journal.pages.dossier.plain import plain
from journal.pages.dossier.runningin import running_in
from journal.pages.dossier.seal import Step, seal
from journal.pages.dossier.sheet import sheet_told
from journal.pages.dossier.summary import reservations_words
from journal.pages.links import Ref
from journal.pages.photowords import agreement
from journal.pages.view import CarView
from journal.pages.words import day_words
from journal.records.seal import STATEMENT
from journal.words.spoken import spoken
from journal.words.text import counted

# Lines of the form that are left to be written by hand.
BLANK = 6
NAME = "Supplement to the provenance dossier"


def sheets(book: LaterBook) -> Section:
    """Every sheet that came later, as it prints alone."""
    told = tuple(
        {**sheet_told(book, sheet), "code": book.places.sheet_code(name), "how": HOW_WORDS[how]}
        for name, (sheet, how) in book.sheets.items()
    )
    return Section("sheets", "The sheets in full", {"sheets": told})


def schedule(book: LaterBook) -> Section:
    """Running in and re-checks as they stand. The long form to fill in lies in the first bag."""
    whole = running_in(book)
    due = tuple(
        row if row.sheet.href else replace(row, sheet=Ref(f"the sheet of {row.sheet.text}"))
        for row in whole.values["due"]
    )
    return replace(whole, values={**whole.values, "due": due, "blank": tuple(range(BLANK))})


def new_evidence(book: LaterBook) -> Section:
    """The evidence index of what came later."""
    whole = evidence(book)
    kinds = ("sheets", "photographs", "papers")
    rows = {kind: tuple(r for r in whole.values[kind] if r.place in book.shown) for kind in kinds}
    # Of one photograph its own line says it.
    clock = agreement(book.pictures) if len(book.pictures) > 1 else ""
    return replace(whole, values={**rows, "agreement": clock})


def seal_of_both(book: LaterBook) -> Section:
    """The seal of the supplement, and how to see that it follows the earlier bag."""
    alone = seal(book)
    return replace(alone, values={**alone.values, "by_hand": _by_hand(book)})


def _by_hand(book: LaterBook) -> tuple[Step, ...]:
    """With usual tools and both bags: nothing in it needs the program of the workshop."""
    bag, last = book.since.bag, book.seals.last
    assert last is not None
    before = bag.seal.seal
    statement = f"data/seals/{before:04}/{STATEMENT}"
    both = " ".join(shlex.quote(f"{name}/{statement}") for name in (bag.name, book.name))
    return (
        Step(
            "In the folder of each bag, hold every file against the list of that bag.",
            "sha256sum --check --quiet manifest-sha256.txt",
        ),
        Step(
            f"Lay both folders side by side. The statement of seal {before} must be the very same file in"
            " both; when it is, this says nothing.",
            f"cmp {both}",
        ),
        Step(
            "Make the roots yourself from the lists entries.sha256 of the supplement, in the order of the"
            " seals (RFC 6962, section 2.1). A leaf is the SHA-256 of a byte of zero and a line with its line"
            " end, or the figures that stand after “leaf”. Join leaves two by two: the SHA-256 of a byte of"
            " one, the left hash and the right one. What is left over goes up as it is. The first"
            f" {counted(bag.seal.entries, 'line')} must give the root of seal {before}, and all"
            f" {last.entries:,} that of seal {last.seal}: then nothing that was sealed before was taken out"
            " or changed."
        ),
        Step(
            "Compare both roots, read aloud in their words, with somebody who was told them at the time: the"
            " owner, a club, a notary."
        ),
        Step(
            "Check the signature over the statement (Ed25519, RFC 8032) in the folder of the last seal.",
            "openssl pkeyutl -verify -pubin -inkey workshop.pem -rawin -in statement.txt"
            " -sigfile statement.sig",
        ),
    )


def new_declaration(book: LaterBook) -> Section:
    """What the restorer declares of the supplement, and where each signs."""
    car, bag = book.view.car, book.since.bag
    chassis = car.car.numbers.get("chassis")
    number = f", chassis {chassis.found}" if chassis and chassis.found else ""
    whole = declaration(book)
    return replace(
        whole,
        values={
            **whole.values,
            "restorer": (
                f"This supplement tells what the day sheets of {car.workshop.name} hold of"
                f" {car_title(car.car)}{number} since the bag of {day_words(bag.day)}. Nothing that was"
                " found, changed or left undone since has knowingly been kept out of it."
            ),
            "owner": (
                "I have received this supplement, and keep it with that bag. I have read the reservations and"
                " the cautions."
            ),
        },
    )


# In the order in which one reads who has the earlier bag at hand.
SECTIONS: tuple[Callable[[LaterBook], Section], ...] = (
    changes,
    sheets,
    schedule,
    new_evidence,
    seal_of_both,
    new_declaration,
)


def supplement_values(
    view: CarView, gate: Gate, seals: Seals, since: Since, name: str, *, paper: str
) -> dict[str, Any]:
    """Everything that a supplement prints, as plain values. `name` is what its bag is called."""
    book = LaterBook(view, gate, seals, since=since, name=name)
    draft = "" if book.delivered else f"Draft of {day_words(view.until)}"
    return {
        "document": book.document(NAME, paper, draft),
        "first": plain(_first_page(book)),
        "sections": [plain(section(book)) for section in SECTIONS],
    }


def _first_page(book: LaterBook) -> dict[str, Any]:
    car, bag = book.view.car, book.since.bag
    chassis = car.car.numbers.get("chassis")
    reservations = book.reservations()
    return {
        "car": car.car.name,
        "year": car.car.year or "",
        "body": car.car.body,
        "number": f"Chassis {chassis.found}" if chassis and chassis.found else "",
        "address": car.workshop.address or "",
        "day": f"Up to {day_words(book.view.until)}",
        "belongs": _belongs(book),
        "words_of": f"Seal {bag.seal.seal}, in the words of its root",
        "spoken": spoken(bytes.fromhex(bag.seal.root)),
        "changed": change_sentences(book),
        "reservations": reservations,
        "reservations_count": reservations_words(reservations),
        "handed_over": book.delivered,
    }


def _belongs(book: LaterBook) -> str:
    bag, last = book.since.bag, book.seals.last
    assert last is not None
    before = bag.number - 1
    which = f"supplement {before}" if before else "the bag"
    chain = (
        f"seal {last.seal}"
        if last.seal == bag.seal.seal + 1
        else f"seals {bag.seal.seal + 1} to {last.seal}"
    )
    first = "" if not before else ", and with it to the first bag"
    return (
        f"This is supplement {bag.number}. It belongs to {which} of {day_words(bag.day)}, closed by seal"
        f" {bag.seal.seal}{first}, and tells what {chain} added since. Neither replaces the other: keep them"
        " together."
    )

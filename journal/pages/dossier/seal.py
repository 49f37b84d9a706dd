"""The seal, what it says of the record, and how to verify it by hand."""

import segno

from journal.ledgers.seals import SealedFile, Standing
from journal.pages.dossier.book import Book, Section
from journal.pages.photowords import hash_groups
from journal.pages.value import Value
from journal.pages.words import day_words, some
from journal.records.seal import Statement
from journal.words.spoken import spoken
from journal.words.text import counted

# What a person may want to ask about, in the order in which it weighs.
TOLD = (
    (Standing.CHANGED, "Changed since they were sealed"),
    (Standing.REMOVED, "Removed since they were sealed"),
    (Standing.LATE, "Of a closed day, and in no seal"),
    (Standing.AMENDED, "Amended openly: changed, and sealed again"),
    (Standing.ADDED, "Added openly after their day was closed"),
)


class Step(Value, frozen=True):
    """One step of checking by hand: what it does, and a command where there is one."""

    words: str
    command: str = ""


# With usual tools alone: nothing in it needs the program of the workshop.
BY_HAND = (
    Step(
        "In the car’s folder, hold every file against the hash that was sealed. Whatever differs is named."
        " A file that was amended stands in more than one list, and its last line counts.",
        "sha256sum --check seals/*/entries.sha256",
    ),
    Step(
        "Make the root yourself (RFC 6962, section 2.1). Every line of the lists, in their order and with its"
        " line end, is a leaf: take the SHA-256 of a byte of zero and the line. Join leaves two by two: the"
        " SHA-256 of a byte of one, the left hash and the right one. What is left over goes up as it is. The"
        " last hash is the root."
    ),
    Step(
        "Compare that root with the one on this page, read aloud in its words to somebody who was told them"
        " at the time: the owner, a club, a notary. The code holds the same root as text."
    ),
    Step(
        "Check the signature over the statement (Ed25519, RFC 8032) in the folder of the seal.",
        "openssl pkeyutl -verify -pubin -inkey workshop.pem -rawin -in statement.txt"
        " -sigfile statement.sig",
    ),
)


class SealRow(Value, frozen=True):
    """One seal of the chain."""

    number: str
    up_to: str
    sealed: str
    entries: str
    root: tuple[str, ...]


class PathGroup(Value, frozen=True):
    """Files that stand to the seals in one way."""

    heading: str
    files: tuple[str, ...]


def seal(book: Book) -> Section:
    """The last seal in words, digits and as a code; every seal; what changed; how to check."""
    last = book.seals.last
    return Section(
        "seal",
        "Seal, and how to verify it",
        {
            "sealed": last is not None,
            "standing": _standing(book),
            "spoken": spoken(bytes.fromhex(last.root)) if last else (),
            "root": hash_groups(last.root) if last else (),
            "key": hash_groups(last.key) if last else (),
            "matrix": matrix_of(last.root) if last else (),
            "seals": tuple(map(_row, book.seals.statements)),
            "faults": tuple((f.seal, f.what, f.expected, f.found) for f in book.seals.faults),
            "groups": _groups(book),
            "open": _open(book.seals.files),
            "by_hand": BY_HAND,
        },
    )


def matrix_of(root: str) -> tuple[str, ...]:
    """A QR code (ISO/IEC 18004, correction level M) of a root as text in capitals, without its quiet
    zone: rows of `1` for dark and `0` for light."""
    code = segno.make_qr(root.upper(), error="m")
    return tuple("".join("1" if dark else "0" for dark in row) for row in code.matrix)


def _row(stated: Statement) -> SealRow:
    return SealRow(
        str(stated.seal), day_words(stated.up_to), day_words(stated.sealed_on),
        f"{stated.entries:,}", hash_groups(stated.root),
    )  # fmt: skip


def _standing(book: Book) -> str:
    last = book.seals.last
    if last is None:
        return "This record is not sealed. Nothing but the word of the workshop says that it was not altered."
    closed = (
        f"Seal {last.seal} closes the record up to {day_words(last.up_to)}:"
        f" {counted(last.entries, 'entry', 'entries')}, sealed on {day_words(last.sealed_on)}."
    )
    if book.seals.intact:
        return f"{closed} Every file that was sealed is what it was, or was amended openly."
    return f"{closed} The record is not what was sealed; what differs stands below."


def _groups(book: Book) -> tuple[PathGroup, ...]:
    names = {
        s.source.path.removeprefix(f"{book.view.car.name}/"): f"{day_words(s.date)}, {s.title}"
        for s in book.view.car.sheets
    }
    groups = []
    for standing, heading in TOLD:
        files = [f for f in book.seals.files if f.standing is standing]
        if files:
            # What this reader does not see is counted and not named.
            told = [names[f.path] for f in files if f.path in names]
            hidden = len(files) - len(told)
            rest = [f"{some(hidden, 'other file')}"] if hidden else []
            groups.append(PathGroup(heading, (*told, *rest)))
    return tuple(groups)


def _open(files: tuple[SealedFile, ...]) -> str:
    count = sum(f.standing is Standing.OPEN for f in files)
    if not count:
        return ""
    verb = "is" if count == 1 else "are"
    return f"{counted(count, 'file')} of days after the last seal {verb} not sealed yet."

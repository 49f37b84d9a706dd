"""Seals: each with its words and code, what became of what was sealed, and how to check by hand."""

from functools import partial
from typing import Any

from journal.ledgers.seals import Standing
from journal.pages.common import frame
from journal.pages.leafwords import NEWEST_FIRST, titled, turn_words
from journal.pages.links import Links
from journal.pages.page import Later, Page
from journal.pages.parting import Leaf, Section, parted
from journal.pages.photowords import hash_groups
from journal.pages.qr import Code, qr_code
from journal.pages.sealwords import (
    GRAVE,
    PATH,
    TOLD,
    FileWords,
    Places,
    counts_words,
    file_words,
    seal_anchor,
    verdict_words,
)
from journal.pages.value import Value
from journal.pages.view import CarView
from journal.pages.words import day_words, sentence, some
from journal.records.seal import Statement
from journal.words.spoken import spoken
from journal.words.text import counted
from journal.words.vocabulary import Reader

# As many seals as one page holds.
ROOM = 24
SEALS = "seals"


class Way(Value, frozen=True):
    """A way to check a seal: by what, how, and the command that does it where there is one."""

    by: str
    how: str
    command: str = ""


# How anyone checks a seal with usual tools alone: without ours, and twenty years on.
BY_HAND = (
    Way(
        "By telephone.",
        "Ask somebody who was told the words of a seal at the time, and read them the words that stand "
        "above. All sixteen must be the same, in the same order.",
    ),
    Way(
        "With the files.",
        "They lie in the car’s folder in the workshop, and in the package handed over at delivery. In that "
        "folder this holds every file against what was sealed, and names each that differs. A file that "
        "was amended stands in two lists; the later one counts. Lines that begin with “leaf” are of "
        "files that are not handed over, and are passed over.",
        "sha256sum --check seals/*/entries.sha256",
    ),
    Way(
        "The words themselves.",
        "They are the root of a hash tree. Each line of the lists, in their order, with its line end is a "
        "leaf: the SHA-256 of a zero byte and the line, or the figures that stand after “leaf”. Two by "
        "two, take the SHA-256 of a byte of one, the left hash and the right one; what is left over goes up "
        "as it is (RFC 6962, section 2.1). The last hash is the root.",
    ),
    Way(
        "The signature.",
        "It is over the statement, with the workshop’s key (Ed25519, RFC 8032). In the folder of a seal:",
        "openssl pkeyutl -verify -pubin -inkey workshop.pem -rawin -in statement.txt -sigfile statement.sig",
    ),
)


class SealWords(Value, frozen=True):
    """One seal. `groups` are its root as words and digits, `root` in stretches of eight figures."""

    anchor: str
    title: str
    sealed: str
    sealed_iso: str
    files: str
    groups: tuple[str, ...]
    root: tuple[str, ...]
    code: Code
    code_words: str


class FileGroup(Value, frozen=True):
    """Files that stand to the seals in one way, and how many more of them are not named."""

    anchor: str
    heading: str
    meaning: str
    grave: bool
    files: tuple[FileWords, ...]
    rest: str


class FaultWords(Value, frozen=True):
    """What is wrong with a seal itself; what it should say is told to the workshop."""

    text: str
    expected: str
    found: str


def page_seals(view: CarView) -> tuple[Page, ...]:
    """The seals of a car, the newest first, held against what is there."""
    start = Links(view, "")
    seals = tuple(reversed(view.seals.statements))
    leaves = parted(PATH, (Section(SEALS, seals, newest_first=True),), ROOM)
    return tuple(
        Page(view.base + leaf.path, "seals.html", Later(partial(_values, start, leaves, leaf)))
        for leaf in leaves
    )


def _values(start: Links, leaves: tuple[Leaf, ...], leaf: Leaf) -> dict[str, Any]:
    links, view = start.at(leaf.path), start.view
    seals = view.seals
    return {
        **frame(links, titled("Seals", leaf)),
        "first": leaf.number == 1,
        "sealed": bool(seals.statements),
        "verdict": verdict_words(view),
        "holds": seals.intact,
        "counts": counts_words(view),
        "faults": _faults(view),
        "groups": _groups(view, links),
        "seals": tuple(_seal(stated) for stated in leaf.entries(SEALS)),
        "turn": turn_words(links, leaves, _told, NEWEST_FIRST),
        "key": spoken(bytes.fromhex(seals.last.key))[:4] if seals.last else (),
        "by_hand": BY_HAND,
    }


def _told(leaf: Leaf) -> str:
    return f"Seals {leaf.entries(SEALS)[0].seal} to {leaf.entries(SEALS)[-1].seal}"


def _seal(stated: Statement) -> SealWords:
    added = stated.entries - stated.entries_before
    known = stated.entries_before
    before = f"; {counted(known, 'entry', 'entries')} before it" if known else ""
    return SealWords(
        seal_anchor(stated.seal),
        f"Seal {stated.seal}, up to {day_words(stated.up_to)}",
        day_words(stated.sealed_on),
        stated.sealed_on.isoformat(),
        f"{counted(added, 'entry', 'entries')}, each a file that is new or amended{before}",
        spoken(bytes.fromhex(stated.root)),
        hash_groups(stated.root),
        qr_code(stated.root.upper()),
        f"QR code of the root of seal {stated.seal}, the figures that stand beside it",
    )


def _faults(view: CarView) -> tuple[FaultWords, ...]:
    workshop = view.reader is Reader.WORKSHOP
    return tuple(
        FaultWords(
            sentence(f"{f'seal {f.seal}' if f.seal else 'a seal'} does not hold: {f.what}"),
            f.expected if workshop else "",
            f.found if workshop else "",
        )
        for f in view.seals.faults
    )


def _groups(view: CarView, links: Links) -> tuple[FileGroup, ...]:
    places = Places(view, links)
    groups = []
    for standing, (heading, meaning) in TOLD.items():
        files = [file for file in view.seals.files if file.standing is standing]
        if not files:
            continue
        told = tuple(w for w in (file_words(view, places, file) for file in files) if w is not None)
        groups.append(
            FileGroup(
                standing.value, heading, meaning, standing in GRAVE, told,
                _rest(len(files) - len(told), bool(told), standing),
            )
        )  # fmt: skip
    return tuple(groups)


def _rest(hidden: int, told: bool, standing: Standing) -> str:
    """Files that this reader is not told of by name."""
    if not hidden:
        return ""
    more = "and " if told else ""
    gone = standing is Standing.REMOVED
    why = "not named, since it is gone" if gone else "not named in this archive"
    many = "not named, since they are gone" if gone else why
    verb = "is" if hidden == 1 else "are"
    return sentence(f"{more}{some(hidden, 'file')} that {verb} {why if hidden == 1 else many}.")

"""The proving record with the names of those who did it and those who looked again."""

from collections.abc import Iterable

from msgspec.structs import replace

from journal.ledgers.completeness import SafetyAct
from journal.pages.dossier.book import Book, Section
from journal.pages.links import Ref
from journal.pages.proving import (
    ActWords,
    act_words,
    proving_branch,
    proving_lead,
    record_sentence,
    whole_acts,
)
from journal.pages.value import Value


class ActGroup(Value, frozen=True):
    """Acts of one subsystem that the record tells alike: the same work, day, sheet and hands."""

    components: tuple[Ref, ...]
    done: str
    day: str
    sheet: Ref
    by: str
    checked: str
    checked_later: str
    gaps: str


class ActGroups(Value, frozen=True):
    """The acts of a subsystem, those told alike together."""

    label: str
    acts: tuple[ActGroup, ...]


def proving(book: Book) -> Section:
    """Every proof that is asked for with its latest record; then every act on which safety hangs.

    The cautions stand once, in the section of limits, and beside the re-checks.
    """
    view, places = book.view, book.places
    branches = (proving_branch(view, places, n) for n in view.proving.subsystems)
    return Section(
        "proving",
        "Proving record",
        {
            "lead": proving_lead(view),
            "branches": tuple(replace(branch, cautions=()) for branch in branches),
            "record": record_sentence(view),
            "wanting": _wanting(book, view.completeness.wanting),
            "whole": tuple(
                ActGroups(branch.ref.text, _alike(book, branch.acts))
                for branch in whole_acts(view, places)
            ),
        },
    )


def _wanting(book: Book, acts: Iterable[SafetyAct]) -> tuple[ActGroup, ...]:
    return _alike(book, (act_words(book.view, book.places, act, full=True) for act in acts))


def _alike(book: Book, acts: Iterable[ActWords]) -> tuple[ActGroup, ...]:
    """Acts by what the record says of each, in the order in which it first says so."""
    told: dict[ActWords, list[Ref]] = {}
    for act in acts:
        told.setdefault(replace(act, component=Ref("")), []).append(act.component)
    return tuple(
        ActGroup(
            tuple(components), act.done, act.day, act.sheet, act.by, act.checked,
            act.checked_later, act.gaps,
        )
        for act, components in told.items()
    )  # fmt: skip

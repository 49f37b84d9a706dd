"""Whose day it is: the hand that is said, else the one this person wrote as last time."""

from pathlib import Path

from journal.commands.common import Refusal
from journal.commands.filling import state_folder
from journal.records.carfile import CarFile
from journal.words.names import nearest
from journal.words.text import listed


def hand_of(car: CarFile, said: str | None) -> str:
    """The hand, remembered for the next time; empty when several work here and nobody said who it is.

    Raises Refusal for a hand that the workshop has not.
    """
    known = car.workshop.hands.names()
    if said is not None:
        if said not in known:
            meant = nearest(said, known) or listed(known, "or")
            raise Refusal(f'there is no hand "{said}"; write {meant}')
        _remember(said)
        return said
    last = _remembered()
    if last in known:
        return last
    return known[0] if len(known) == 1 else ""


def _place() -> Path:
    return state_folder() / "hand"


def _remembered() -> str:
    try:
        return _place().read_text(encoding="utf-8").strip()
    except (OSError, UnicodeDecodeError):
        # A convenience: who is not remembered is asked for again.
        return ""


def _remember(hand: str) -> None:
    try:
        _place().parent.mkdir(parents=True, exist_ok=True)
        _place().write_text(f"{hand}\n", encoding="utf-8")
    except OSError:
        # A person without a folder of their own says the hand each time.
        return

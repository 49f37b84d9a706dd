"""What is known before a talk is listened to: the words of the trade, and the usual components of a car."""

from functools import cache
from importlib.resources import files
from pathlib import Path

from msgspec import Struct

from journal.reading.content import read_terms
from journal.reading.shapes import read_shape
from journal.reading.yamltext import Plain, read_yaml
from journal.records.place import Source
from journal.records.problem import Problem
from journal.records.register import Component, Register, RegisterFile
from journal.records.terms import Terms


class Known(Struct, frozen=True):
    """The terms, and the starter register, whose components a car may lack."""

    terms: Terms
    starter: Register


def known_words(root: Path) -> tuple[Known, tuple[Problem, ...]]:
    """What is known to everyone together with the workshop's own `terms.yaml`, where it has one, and
    what is wrong in that."""
    known = _everyone()
    own, problems = read_terms(root)
    if own is None:
        return known, tuple(problems)
    return Known(known.terms.with_own(own), known.starter), tuple(problems)


@cache
def _everyone() -> Known:
    terms, _, wrong = read_shape(Terms, *_data("terms.yaml"))
    register, source, bad = read_shape(RegisterFile, *_data("register.yaml"))
    if terms is None or register is None or wrong or bad:
        raise RuntimeError(f"the words that ship with the package cannot be read: {[*wrong, *bad]}")
    components = tuple(
        Component(f"{branch}/{name}", branch, line)
        for branch, entries in register.components
        for name, line in entries
    )
    return Known(terms, Register(source, components))


def _data(name: str) -> tuple[Plain, Source]:
    text = files("journal.starter").joinpath(name).read_text(encoding="utf-8")
    data, source, problems = read_yaml(text, name, tuple(text.split("\n")))
    if problems:
        raise RuntimeError(f"{name} of the package cannot be read: {problems}")
    return data, source

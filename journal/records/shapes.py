"""The written shapes by the file they are written in, for reading and for JSON Schema."""

from pydantic import BaseModel

from journal.records.car import Car
from journal.records.papers import PapersFile
from journal.records.register import RegisterFile
from journal.records.sheet import SheetFront
from journal.records.statement import StatementFile
from journal.records.terms import Terms
from journal.records.workshop import Workshop

SHAPES: dict[str, type[BaseModel]] = {
    "workshop": Workshop,
    "car": Car,
    "register": RegisterFile,
    "papers": PapersFile,
    "sheet": SheetFront,
    "statement": StatementFile,
    "terms": Terms,
}

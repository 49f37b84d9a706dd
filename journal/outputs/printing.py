"""Printing for one reader: a document is made of what the reader may see, searched for what they may
not, and written once."""

import shutil
from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Any

from journal.outputs import dossier as documents
from journal.outputs.archive import Order, chosen, come_in, view_with_pictures
from journal.outputs.dossier import Document
from journal.outputs.held import held_for_a_while
from journal.outputs.sealed import seals_of
from journal.outputs.staging import put
from journal.outputs.tables_gate import gate_of
from journal.outputs.typeset import Paper
from journal.outputs.withheld import refuse_leaks
from journal.pages.common import has_page
from journal.pages.view import CarView
from journal.records.carfile import CarFile, Content
from journal.words.names import nearest
from journal.words.text import listed
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall

Make = Callable[[CarView, CarFile], Document]


def print_document(content: Content, order: Order, make: Make) -> None:
    """Write what is made of a car as the order's reader may see it, to the order's target.

    `make` is given that view and the whole car file. Raises WrongCall when there is no such car for
    this reader, or the file is there already, and Withheld when the document would show what its
    reader may not see.
    """
    (car,) = come_in(chosen(content.cars, order.car, order.reader), order.as_of)
    whole = car.as_of(order.as_of) if order.as_of else car
    others = tuple(other for other in content.cars if other.name != car.name)
    if order.target.exists():
        raise _there(order.target)
    with held_for_a_while() as held:
        folder = held / "archive"
        folder.mkdir()
        view = view_with_pictures(content, car, order, folder)
        document = make(view, whole)
        refuse_leaking(document, held / "told", whole, view.car, others, order.reader)
        pdf = document.pdf(folder)
    try:
        with order.target.open("xb") as file:
            file.write(pdf)
    except FileExistsError:
        raise _there(order.target) from None
    except FileNotFoundError:
        raise WrongCall(f"there is no folder {order.target.parent}") from None


def refuse_leaking(
    document: Document,
    folder: Path,
    full: CarFile,
    seen: CarFile,
    others: Sequence[CarFile],
    reader: Reader,
) -> None:
    """Raise Withheld when a document would say what its reader may not see. What it says is laid into
    `folder` for the search, and taken away again; its pictures are those of an archive."""
    folder.mkdir()
    try:
        put(folder, "print.txt", "\n".join(_texts(document.values)).encode())
        refuse_leaks(folder, full, seen, others, reader)
    finally:
        shutil.rmtree(folder)


def _there(file: Path) -> WrongCall:
    return WrongCall(f"{file} is there already; name another file, or take it away first")


def the_dossier(root: Path, paper: Paper) -> Make:
    """The dossier of a car whose content lies under `root`."""

    def make(view: CarView, whole: CarFile) -> Document:
        seals = seals_of(root, whole)
        return documents.dossier(view, gate_of(whole, seals), seals, paper=paper)

    return make


def the_sheet(name: str, paper: Paper) -> Make:
    """One day sheet by its name; WrongCall when the reader has none such."""

    def make(view: CarView, _whole: CarFile) -> Document:
        names = [s.name for s in view.car.sheets]
        if name not in names:
            meant = nearest(name, names)
            way = f"; write {meant}" if meant else ""
            raise WrongCall(f'there is no sheet "{name}" for the {view.reader.value}{way}')
        return documents.sheet(view, name, paper=paper)

    return make


def the_statement(to: date, paper: Paper) -> Make:
    """The statement that ends on a day; WrongCall when there is none, or the reader sees no money."""

    def make(view: CarView, _whole: CarFile) -> Document:
        if not has_page(view.reader, "money.html"):
            raise WrongCall(f"statements are not for the {view.reader.value}")
        shown = {stated.to: stated for stated in view.statements.shown}
        if to not in shown:
            ends = listed([str(day) for day in shown], "or")
            way = f"; write {ends}" if ends else ""
            raise WrongCall(f"no statement ends on {to}{way}")
        return documents.statement(view, shown[to], paper=paper)

    return make


def _texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping):
        for item in value.values():
            yield from _texts(item)
    elif isinstance(value, list | tuple):
        for item in value:
            yield from _texts(item)

"""Where things stand within the dossier, and the short codes by which tables name them.

`S 12` is the twelfth day sheet, `P 7` the seventh photograph, `D 3` the third paper; the evidence index
lists them all.
"""

from collections.abc import Iterable

from journal.pages.links import Links, Ref
from journal.pages.view import CarView


class Places(Links):
    """Links to places within the document: sheets, photographs and papers in the evidence index,
    components in the ledger. A document without an index has no places, and its links are words.
    """

    def __init__(self, view: CarView, *, indexed: bool = True) -> None:
        super().__init__(view, "")
        self.indexed = indexed
        self._sheet_numbers = {s.name: n for n, s in enumerate(view.car.sheets, 1)}
        self._paper_numbers = {name: n for n, (name, _) in enumerate(view.car.papers, 1)}
        self._lines = {line.component.key: n for n, line in enumerate(view.originality.lines, 1)}

    def _place(self, kind: str, number: int | None) -> str | None:
        return f"#{kind}-{number}" if number is not None and self.indexed else None

    def sheet(self, name: str, text: str | None = None) -> Ref:
        """A day sheet, at its line of the evidence index."""
        return Ref(
            super().sheet(name, text).text, self._place("sheet", self._sheet_numbers.get(name))
        )

    def component(self, key: str, *, full: bool = False) -> Ref:
        """A component, at its line of the ledger."""
        place = self._place("line", self._lines.get(key))
        return Ref(super().component(key, full=full).text, place)

    def subsystem(self, name: str) -> Ref:
        """A subsystem in words."""
        return Ref(super().subsystem(name).text)

    def picture(self, number: int) -> str | None:
        """The place of a published photograph in the evidence index."""
        return self._place("picture", number) if number in self._pages.pictures else None

    def paper(self, name: str) -> Ref:
        """A paper, at its line of the evidence index."""
        return Ref(super().paper(name).text, self._place("paper", self._paper_numbers.get(name)))

    def sheet_code(self, name: str) -> Ref:
        """`S 12`; a sheet that this reader does not have has no code."""
        number = self._sheet_numbers.get(name)
        return Ref(f"S\N{NO-BREAK SPACE}{number}" if number else "", self._place("sheet", number))

    def sheet_codes(self, names: Iterable[str]) -> tuple[Ref, ...]:
        """The codes of several sheets, each once."""
        return tuple(r for n in dict.fromkeys(names) if (r := self.sheet_code(n)).text)

    def picture_code(self, number: int) -> Ref:
        """`P 7`."""
        return Ref(f"P\N{NO-BREAK SPACE}{number}", self.picture(number))

    def paper_code(self, name: str) -> Ref:
        """`D 3`; a paper that this reader does not have has no code."""
        number = self._paper_numbers.get(name)
        return Ref(f"D\N{NO-BREAK SPACE}{number}" if number else "", self._place("paper", number))

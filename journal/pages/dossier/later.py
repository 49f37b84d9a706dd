"""What the sections of a supplement are made from: one car, and what of it came after an earlier bag."""

from collections.abc import Mapping
from functools import cached_property

from journal.digests.since import How, Since
from journal.ledgers.gallery import Picture
from journal.pages.dossier.book import Book
from journal.pages.dossier.places import Places
from journal.pages.links import Ref
from journal.pages.sealwords import sheet_file
from journal.pages.view import CarView
from journal.pages.words import day_words
from journal.records.papers import Paper
from journal.records.sheet import Sheet


class PlacesOfNew(Places):
    """Links within a supplement, which lead only to what is new. What lies in an earlier bag has no code
    here, since numbers move on when a sheet is added: a sheet is told by its day, a paper by its title."""

    def __init__(self, view: CarView, shown: frozenset[str]) -> None:
        super().__init__(view)
        self._shown = shown
        self._days = {sheet.name: sheet.date for sheet in view.car.sheets}

    def _place(self, kind: str, number: int | None) -> str | None:
        return super()._place(kind, number) if f"{kind}-{number}" in self._shown else None

    def sheet_code(self, name: str) -> Ref:
        """`S 12`, or the day of a sheet that is not new."""
        code = super().sheet_code(name)
        return code if code.href or not code.text else Ref(day_words(self._days[name]))

    def picture_code(self, number: int) -> Ref:
        """`P 7`, or nothing for a photograph that is not new."""
        code = super().picture_code(number)
        return code if code.href else Ref("")

    def paper_code(self, name: str) -> Ref:
        """`D 3`, or the title of a paper that is not new."""
        code = super().paper_code(name)
        return code if code.href or not code.text else Ref(self.paper(name).text)


class LaterBook(Book, frozen=True, dict=True, kw_only=True):
    """A car as one reader may see it, and what has changed since an earlier bag. `name` is what the
    bag of the supplement is called."""

    since: Since
    name: str

    @cached_property
    def places(self) -> Places:
        """Links within the document."""
        return PlacesOfNew(self.view, self.shown)

    @cached_property
    def sheets(self) -> Mapping[str, tuple[Sheet, How]]:
        """Sheets that came later, in order, by name."""
        files = self.since.files
        return {
            s.name: (s, files[path])
            for s in self.view.car.sheets
            if (path := sheet_file(self.view, s)) in files
        }

    @cached_property
    def pictures(self) -> tuple[Picture, ...]:
        """Published photographs that came later."""
        view, files = self.view, self.since.files
        return tuple(
            p for p in view.gallery.pictures
            if p.path in view.pictures and f"photos/{p.path}" in files
        )  # fmt: skip

    @cached_property
    def papers(self) -> Mapping[str, Paper]:
        """Papers whose scans came later, by name."""
        files = self.since.files
        return {n: p for n, p in self.view.car.papers if p.file and f"papers/{p.file}" in files}

    @cached_property
    def shown(self) -> frozenset[str]:
        """The places of all that came later in the evidence index: `sheet-12`, `picture-7`, `paper-3`."""
        car = self.view.car
        return frozenset(
            (
                *(f"sheet-{n}" for n, s in enumerate(car.sheets, 1) if s.name in self.sheets),
                *(f"picture-{p.number}" for p in self.pictures),
                *(f"paper-{n}" for n, (name, _) in enumerate(car.papers, 1) if name in self.papers),
            )
        )

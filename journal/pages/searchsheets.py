"""The sentences of a day sheet, as the search shows them: its text, then the day's facts."""

from collections.abc import Iterator

from journal.pages.links import Links
from journal.pages.partwords import part_name
from journal.pages.provingwords import proofs_of_sheet
from journal.pages.recheckwords import rechecks_of_sheet
from journal.pages.searchwords import sentences
from journal.pages.sumwords import sum_sentences
from journal.pages.view import CarView
from journal.pages.words import limit_words, readings_words, supplier_words
from journal.pages.workwords import WorkWords, view_hand, work_of_sheet
from journal.reading.parsed import parsed
from journal.records.sheet import Sheet
from journal.words.names import title_of
from journal.words.text import listed

# Every proof of a sheet is told one by one.
_ALL = 10_000


def sheet_sentences(view: CarView, links: Links, sheet: Sheet) -> tuple[str, ...]:
    """Everything that a sheet tells this reader, sentence by sentence; no money."""
    facts = (
        *_work(view, links, sheet), *_measured(links, sheet), *_sums(view, sheet),
        *_proofs(view, links, sheet), *_goods(view, sheet), *_snags(view, sheet),
        *_rechecks(view, links, sheet), *_others(view, sheet),
    )  # fmt: skip
    return (*prose_sentences(sheet), *facts)


def prose_sentences(sheet: Sheet) -> Iterator[str]:
    """The text of a sheet without its marks, sentence by sentence."""
    for block in sheet.body:
        for line in parsed(block.text).lines:
            yield from sentences(line)


def _work(view: CarView, links: Links, sheet: Sheet) -> Iterator[str]:
    for work in work_of_sheet(view, links, sheet):
        yield f"{work.ref.text}: {'; '.join(_acts(work))}."


def _acts(work: WorkWords) -> Iterator[str]:
    if work.acts:
        yield work.acts[:1].lower() + work.acts[1:]
    if work.change:
        before = f"{work.change.before.label} gives way to " if work.change.before else "now "
        yield before + work.change.after.label
    yield from (f"{fact.label[:1].lower()}{fact.label[1:]}: {fact.text}" for fact in work.facts)


def _measured(links: Links, sheet: Sheet) -> Iterator[str]:
    for name, read in sheet.front.measured:
        on = f" on {links.component(read.on).text}" if read.on else ""
        limit = limit_words(read.limit.least, read.limit.most) if read.limit else None
        said = [f"{name}{on}: {readings_words(read.read, read.unit)}"]
        said += [f"limit {limit}"] if limit else []
        yield "; ".join([*said, *filter(None, (read.with_, read.note))])


def _sums(view: CarView, sheet: Sheet) -> Iterator[str]:
    for kept in view.sums.of_sheet(sheet.name):
        told = "; ".join(sum_sentences(kept)[:-1])
        yield f"{kept.title}, {kept.answer.sum.title}: {told}"


def _proofs(view: CarView, links: Links, sheet: Sheet) -> Iterator[str]:
    if len(sheet.front.proving):
        for ref, result, _ in proofs_of_sheet(view, links, sheet.name, _ALL):
            yield f"{ref.text}: {result}"


def _goods(view: CarView, sheet: Sheet) -> Iterator[str]:
    workshop = view.car.workshop
    for name, part in sheet.front.parts:
        known = view.parts.named(name)
        number = f"no. {part.number}" if part.number else None
        supplier = supplier_words(workshop, part.from_)
        what = part_name(known) if known else title_of(name)
        said = (what, number, supplier, part.why, part.note)
        yield "; ".join(filter(None, said))
    for name, lot in sheet.front.outwork:
        batch, to = view.outwork.named(name), supplier_words(workshop, lot.to)
        told = (batch.what if batch else None) or title_of(name)
        yield "; ".join(filter(None, (told, to, lot.finish, lot.certificate, lot.note)))


def _snags(view: CarView, sheet: Sheet) -> Iterator[str]:
    for name, line in sheet.front.snags:
        known = view.snags.named(name)
        what = known.text if known else title_of(name)
        if line.raise_:
            yield f"Snag: {line.raise_}"
        if line.defer:
            yield f"{what}: put off, {line.defer}"
        if line.clear:
            yield f"{what}: cleared, {line.clear}"


def _rechecks(view: CarView, links: Links, sheet: Sheet) -> Iterator[str]:
    if len(sheet.front.rechecks):
        for ref, words in rechecks_of_sheet(view, links, sheet.name):
            yield f"{ref.text}: {words}"


def _others(view: CarView, sheet: Sheet) -> Iterator[str]:
    """Who worked, what was agreed beyond the estimate, and what this sheet corrects."""
    booked = [
        (hand, line) for _, hands in sheet.front.hours for hand, lines in hands for line in lines
    ]
    hands = dict.fromkeys(view_hand(view, hand) for hand, _ in booked if hand)
    if hands:
        yield f"At work: {listed(tuple(hands))}."
    yield from (line.note for _, line in booked if line.note)
    yield from (f"Agreed beyond the estimate: {extra.what}" for _, extra in sheet.front.extras)
    yield from (f"Corrects an earlier sheet: {c.what}" for c in sheet.front.corrects if c.what)

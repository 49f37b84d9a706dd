"""Pieces of a batch counted by weighing, before it goes to the plater and when it is back."""

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from msgspec import Struct

from journal.bench.base.definition import TEXT, Input, Job, Sum
from journal.bench.base.given import Given, NotWorked
from journal.bench.base.worked import Output, Result, Teller, Worked, answered, said
from journal.words.amounts import fixed_number, plain_number
from journal.words.text import counted

_WEIGHTS = (("g", 2), ("oz", 3))
EACH = Output("each", "weight of one piece, mean of the sample", _WEIGHTS, "e")
NET = Output("net", "weight of the pieces alone", (("g", 0), ("oz", 1)), "W")
COUNT = Output("count", "pieces by weight, before rounding", (("", 2),), "N")
PIECES = Output("pieces", "pieces", (("", 0),))
SHORT = Output("short", "pieces short of what was sent; over with a minus", (("", 0),))
UNSURE = Output("unsure", "out by no more than so many pieces, by the scale", (("", 2),), "u")
SAMPLE_WANTED = Output("sample-wanted", "pieces to count out, for the scale to be sure", (("", 0),))
NOTE = Output("note", "note for the batch")

_MINUS, _TIMES = "\N{MINUS SIGN}", "\N{MULTIPLICATION SIGN}"


class _Batch(Struct, frozen=True):
    """Weights in g; `division` is the smallest step of the scale."""

    sample: int
    sample_weight: Fraction
    net: Fraction
    division: Fraction

    @property
    def each(self) -> Fraction:
        return self.sample_weight / self.sample

    @property
    def count(self) -> Fraction:
        return self.net / self.each

    @property
    def pieces(self) -> int:
        return int(self.count + Fraction(1, 2))

    @property
    def unsure(self) -> Fraction:
        """Half a step on the sample is carried to all, and a step lies in gross less tare."""
        return self.count * (self.division / 2 / self.sample_weight) + self.division / self.each

    @property
    def sure(self) -> bool:
        return self.unsure + abs(self.count - self.pieces) < Fraction(1, 2)

    @property
    def sample_wanted(self) -> int | None:
        """The fewest to count out for half a piece in doubt at most, or None where none is enough."""
        left = Fraction(1, 2) - self.division / self.each
        if left <= 0:
            return None
        wanted = ceil(self.count * self.division / 2 / (left * self.each)) + 1
        return wanted if wanted < self.count else None


def _work(given: Given) -> Worked:
    batch = _batch(given)
    results = [
        answered(EACH, batch.each, given),
        answered(NET, batch.net, given),
        answered(COUNT, batch.count, given),
        answered(PIECES, Fraction(batch.pieces), given),
        answered(UNSURE, batch.unsure, given),
    ]
    if not batch.sure and batch.sample_wanted is not None and batch.sample_wanted > batch.sample:
        results.append(answered(SAMPLE_WANTED, Fraction(batch.sample_wanted), given))
    short = _short(given, batch)
    if short is not None:
        results.append(answered(SHORT, Fraction(short), given))
    results.append(_note(given, batch, short))
    return Worked(
        tuple(results),
        tuple(_steps(given, batch)),
        _verdict(given, batch, short),
        None if short is None else batch.sure and short == 0,
        tuple(_warnings(given, batch)),
    )


def _batch(given: Given) -> _Batch:
    gross, tare = given.one("gross").to("g"), given.one("tare").to("g")
    if gross <= tare:
        raise NotWorked(
            "gross", f"must be more than tare, found {given.one('gross').words}", "weigh the full box, then the empty one",
        )  # fmt: skip
    return _Batch(
        int(given.number("sample")), given.one("sample-weight").to("g"), gross - tare, given.one("division").to("g")
    )  # fmt: skip


def _short(given: Given, batch: _Batch) -> int | None:
    return int(given.number("sent")) - batch.pieces if given.has("sent") else None


def _steps(given: Given, batch: _Batch) -> Iterator[str]:
    weight = Teller((("g", 0, 3), ("oz", 0, 4)), given)
    yield f"one piece: {weight.number(batch.sample_weight)} / {batch.sample} = {weight(batch.each)}"
    if given.one("tare").amount:
        yield f"pieces alone: {weight.number(given.one('gross').to('g'))} {_MINUS} {weight.number(given.one('tare').to('g'))} = {weight(batch.net)}"
    yield f"pieces: {weight.number(batch.net)} / {weight.number(batch.each)} = {plain_number(batch.count, 2)}"
    yield (
        f"in doubt: {plain_number(batch.count, 1)} {_TIMES} {weight.number(batch.division / 2)} / {weight.number(batch.sample_weight)} + "
        f"{weight.number(batch.division)} / {weight.number(batch.each)} = {plain_number(batch.unsure, 2)}"
    )


def _verdict(given: Given, batch: _Batch, short: int | None) -> str:
    told = counted(batch.pieces, "piece")
    if not batch.sure:
        doubt = batch.unsure + abs(batch.count - batch.pieces)
        told = f"About {told}, give or take {fixed_number(max(doubt, Fraction(1)), 0)}"
    if short is None:
        return f"{told}." if batch.sure else f"{told}: not sure by weight."
    sent = int(given.number("sent"))
    if not batch.sure:
        return f"{told}, of {sent} sent: not sure by weight, count them by hand."
    if short == 0:
        return f"{told}: all of {sent} are there."
    return f"{told}: {abs(short)} {'short of' if short > 0 else 'more than'} {sent} sent."


def _note(given: Given, batch: _Batch, short: int | None) -> Result:
    pieces = (
        f"{batch.pieces} {given.word('what')}"
        if given.has("what")
        else counted(batch.pieces, "piece")
    )
    weight = Teller((("g", 0, 0), ("oz", 0, 1)), given)
    told = [
        f"{pieces}, {weight(batch.net)} net",
        f"sample of {batch.sample} at {Teller((('g', 0, 2), ('oz', 0, 3)), given)(batch.sample_weight)}",
    ]
    if short is not None:
        told.append(f"{int(given.number('sent'))} sent")
        told.append(
            "complete" if short == 0 else f"{abs(short)} {'short' if short > 0 else 'over'}"
        )
    told.append("by weight" if batch.sure else "BY WEIGHT AND NOT SURE: count by hand")
    return said(NOTE, "; ".join(told))


def _warnings(given: Given, batch: _Batch) -> Iterator[str]:
    if not batch.sure:
        wanted = batch.sample_wanted
        if wanted is None:
            yield "This scale cannot tell them apart: weigh them in smaller lots, use a finer scale, or count by hand."
        elif wanted > batch.sample:
            yield f"Count out {wanted} or more for the sample, and the scale is sure; or weigh them in smaller lots."
        else:
            yield "The weight falls between two counts: pieces differ, or a stranger is among them. Count by hand."
    if given.has("sent"):
        yield "Plating makes pieces heavier: count out and weigh the sample anew from what has come back."


BATCH_COUNT = Sum(
    name="batch-count",
    title="Pieces counted by weighing",
    job=Job.PLATING,
    asks="How many pieces are in the box, and are they all back?",
    inputs=(
        Input("sample", "pieces counted out as a sample", "count", symbol="n", least="1", most="10000"),
        Input("sample-weight", "what the sample weighs", "mass", symbol="w", least="0.1 g", most="100 kg"),
        Input("gross", "what all of them weigh, with their box", "mass", symbol="B", least="0.1 g", most="2000 kg"),
        Input("tare", "what the empty box weighs", "mass", symbol="b", default="0 g", least="0 g", most="500 kg"),
        Input("division", "smallest step of the scale", "mass", symbol="d", default="1 g", least="0.001 g", most="1 kg"),
        Input("sent", "pieces that were sent", "count", optional=True, least="1", most="100000"),
        Input("what", "what they are, for the note", TEXT, optional=True),
    ),
    outputs=(EACH, NET, COUNT, PIECES, SHORT, UNSURE, SAMPLE_WANTED, NOTE),
    in_words=(
        "One piece weighs what the sample weighs over its number; the batch holds as many as it weighs over that. Half a step of the scale "
        "on the sample is carried to every piece, so that a small sample on a coarse scale is not enough."
    ),
    formula=(
        "e = w / n, W = B \N{MINUS SIGN} b",
        "N = W / e",
        "u = N d / (2 w) + d / e",
    ),
    limits=(
        "All pieces are of one kind and clean; oil, thread rust and a washer left on are weighed too.",
        "Pieces of one kind differ in weight by themselves, which the doubt of the scale does not hold: take the sample from all over the box.",
        "Mixed sizes are sorted first and counted kind by kind.",
    ),
    caution=(
        "A count tells of number and not of kind: brake, steering and suspension fixings are counted and looked at by hand, one by one, and "
        "put back in the maker's grade."
    ),
    sources=(
        "S. H. Steiner and R. J. MacKay, Scale counting, University of Waterloo: total weight over mean weight of a sample, and what the scale adds in doubt.",
        "Manual of weighing applications, part 2, counting (a maker of scales).",
    ),
    example=(
        ("sample", "25"), ("sample-weight", "612 g"), ("gross", "6045 g"), ("tare", "880 g"), ("division", "1 g"), ("sent", "214"),
        ("what", "chassis bolts"),
    ),
    work=_work,
)  # fmt: skip

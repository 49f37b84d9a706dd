"""Changes to a sheet that somebody wrote: only the bytes of what changes are other ones."""

from difflib import SequenceMatcher

from journal.outputs.sheets.print import ORDER, front_told
from journal.outputs.sheets.splice import Cut, Splicer, apply
from journal.outputs.sheets.yamlform import well_formed
from journal.reading.sheet import sheet_of
from journal.reading.spans import SheetSpans, Shown, lines_of, sheet_spans
from journal.records.sheet import SheetFront
from journal.words.wrong import WrongCall

_AS_TEXT = "the front matter of this sheet can only be changed in its text"


def edited(raw: bytes, wanted: SheetFront) -> bytes:
    """The sheet with the front matter wanted, made of what `sheet_of` reads of the same bytes: a sheet
    within a car file also says for whom its lines are by earlier sheets, and that would be written out.

    What is written and not in the record (keys that nobody knows, comments, order, spacing, line ends,
    a byte order mark) stays byte for byte, and so does every line that tells nothing that changes. A
    date written as `today` stays `today`, and is the day of the sheet as before. Raises WrongCall when
    the front matter cannot be read, or is written in a way in which nothing can be changed singly.
    """
    now, _ = sheet_of(raw, "")
    spans = sheet_spans(raw.decode("utf-8", "replace"))
    if now is None or spans is None:
        raise WrongCall(_AS_TEXT)
    before, after = front_told(now.front), front_told(wanted)
    if before == after:
        return raw
    cuts = apply(Splicer(spans.shown.text).keys(spans.front, before, after, ORDER))
    made = _cut(spans.shown, cuts).encode("utf-8")
    again, _ = sheet_of(made, "")
    if again is None or front_told(again.front) != after:
        raise WrongCall(_AS_TEXT)
    return made


def body_of(raw: bytes) -> str:
    """The text of a sheet below its front matter, with LF line ends and no empty lines around it.

    Raises WrongCall when the front matter is not closed, so that nobody can tell where it begins.
    """
    spans = _spans(raw)
    return "\n".join(line for line, _ in lines_of(spans.shown, spans.body)).strip("\n")


def with_body(raw: bytes, body: str) -> bytes:
    """The sheet with another text below its front matter; lines that stay are the same bytes.

    Raises WrongCall as `body_of` does.
    """
    body = well_formed(body).strip("\n")
    if body == body_of(raw):
        return raw
    spans = _spans(raw)
    old = lines_of(spans.shown, spans.body)
    new = _between([line for line, _ in old], body.split("\n") if body else [])
    newline = spans.shown.newline
    made: list[str] = []
    matcher = SequenceMatcher(None, [line for line, _ in old], new, autojunk=False)
    for tag, a, b, c, d in matcher.get_opcodes():
        made += (
            [w for _, w in old[a:b]]
            if tag == "equal"
            else [f"{line}{newline}" for line in new[c:d]]
        )
    head = spans.shown.written[: spans.shown.end(spans.body)]
    if made and not head.endswith(("\n", "\r")):
        head += newline
    whole = [w if w.endswith(("\n", "\r")) else f"{w}{newline}" for w in made[:-1]] + made[-1:]
    return (head + "".join(whole)).encode("utf-8")


def _between(old: list[str], new: list[str]) -> list[str]:
    """New lines with the empty ones that stood before and after the old ones."""
    first = next((n for n, line in enumerate(old) if line), len(old))
    last = next((n for n, line in enumerate(reversed(old)) if line), 0)
    return [*old[:first], *new, *old[len(old) - last :]] if first < len(old) else [*old, *new]


def _spans(raw: bytes) -> SheetSpans:
    spans = sheet_spans(raw.decode("utf-8", "replace"))
    if spans is None:
        raise WrongCall(_AS_TEXT)
    return spans


def _cut(seen: Shown, cuts: list[Cut]) -> str:
    """The file with cuts made at the places of its text."""
    made: list[str] = []
    here = 0
    for cut in cuts:
        start = seen.end(cut.start) if cut.start == cut.end else seen.start(cut.start)
        start = max(start, here)
        made += [seen.written[here:start], cut.text.replace("\n", seen.newline)]
        here = max(here, start if cut.start == cut.end else seen.end(cut.end))
    return "".join(made) + seen.written[here:]

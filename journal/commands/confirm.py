"""Lines that were heard, confirmed one by one: a key for each, and what is taken over is saved as it goes."""

import shlex
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import Enum, auto
from pathlib import Path

import click

from journal.commands.common import Refusal
from journal.commands.filling import state_folder
from journal.commands.lineform import line_as_text, line_from_text
from journal.commands.onekey import line_of_text, one_of_keys
from journal.outputs.problems import problems_text
from journal.outputs.sheets.checked import check_at_once, check_sheet
from journal.outputs.sheets.draft import Clash, accept, clashes, drop
from journal.outputs.sheets.edit import edited
from journal.outputs.sheets.fromtalk import talk_in, talk_shown_to
from journal.outputs.sheets.merging import Told, keyed, listed
from journal.outputs.sheets.print import front_told
from journal.outputs.sheets.store import Conflict, NotSaved, hash_of, save_over
from journal.outputs.sheets.yamlform import flow
from journal.pages.heardwords import puts_words
from journal.reading.sheet import sheet_of
from journal.records.carfile import CarFile
from journal.records.draft import DraftLine
from journal.records.problem import Problem, Severity
from journal.records.sheet import SheetFront
from journal.words.text import counted, shortened
from journal.words.vocabulary import Reader
from journal.words.wrong import WrongCall

_READERS = {"w": Reader.WORKSHOP, "o": Reader.OWNER, "p": Reader.PUBLIC}
# What a person reads on a screen before they press a key.
_GLANCE = 300
# As often may somebody else save the same sheet between reading and writing.
_TRIES = 5

Change = Callable[[Told, int], Told]


class _Then(Enum):
    """How it goes on after an answer."""

    NEXT = auto()
    AGAIN = auto()
    STOP = auto()


@dataclass
class Confirming:
    """One sheet that is gone through. `hand` is whose hours are that are told without one; `later` is
    how many of its first lines were left for later."""

    root: Path
    car: CarFile
    path: str
    hand: str = ""
    later: int = 0

    def raw(self) -> bytes:
        """The sheet as it lies on the disk by now."""
        try:
            return (self.root / self.path).read_bytes()
        except OSError:
            raise Refusal(f"{self.path} is gone or cannot be read") from None

    def front(self, raw: bytes) -> SheetFront:
        """What its front matter says."""
        sheet, _ = sheet_of(raw, self.path)
        if sheet is None:
            raise Refusal(f"{self.path} cannot be read any more; journal check says why")
        return sheet.front

    def told(self) -> Told:
        """The same as plain data."""
        return front_told(self.front(self.raw()))

    @property
    def go_on(self) -> str:
        """The command that goes on with it."""
        name = self.path.rsplit("/", 1)[-1].removesuffix(".md")
        root = shlex.quote(str(self.root))
        return f"journal write {root} --car {self.car.name} --confirm {shlex.quote(name)}"

    def lines(self) -> list[Told]:
        """The lines that wait."""
        return [keyed(line) for line in listed(self.told().get("draft"))]


def confirm(going: Confirming) -> int:
    """Go through the lines of a sheet with whoever sits there; the exit code.

    Raises Refusal when something in the sheet cannot be read: it would be lost with the lines.
    """
    _refuse_unread(going)
    while going.later < len(lines := going.lines()):
        line = lines[going.later]
        click.echo()
        click.secho(counted(len(lines) - going.later, "line") + " to go", dim=True)
        for words in told_words(going, line):
            click.echo(words)
        if _answered(going, line) is _Then.STOP:
            break
    return _ended(going)


def _refuse_unread(going: Confirming) -> None:
    _, problems = sheet_of(going.raw(), going.path)
    wrong = [p for p in problems if p.severity is Severity.ERROR]
    if wrong:
        click.echo(problems_text(wrong))
        raise Refusal(f"put {going.path} right in an editor first; then its lines can be confirmed")


def told_words(going: Confirming, line: Told) -> Iterator[str]:
    """A line as it is shown: the words with their time, what they would put, and what is asked."""
    at = f"{line['at']}  " if "at" in line else ""
    words = shortened(str(line.get("words", "")), _GLANCE)
    if at or words:
        yield click.style(f"{at}“{words}”" if words else at.strip(), bold=True)
    yield from (f"  {put}" for put in puts_words(going.car, _record(going, line)))
    for clash in clashes(going.told(), line):
        yield f"  The sheet says otherwise: {_otherwise(clash)}"
    if "ask" in line:
        yield f"  {line['ask']}"


def _record(going: Confirming, line: Told) -> DraftLine:
    return DraftLine.model_validate(line, context=going.front(going.raw()).date)


def _otherwise(clash: Clash) -> str:
    before = clash.before if isinstance(clash.before, str) else flow(clash.before)
    return f"{clash.key} of {clash.entry} is {before} there"


# What is answered


def _answered(going: Confirming, line: Told) -> _Then:
    """Ask until the line is done with."""
    put, warned = line, False
    while True:
        key = _asked(put)
        if key is None or key == "q":
            return _Then.STOP
        if key == "s":
            going.later += 1
            return _Then.NEXT
        if key == "d":
            return _saved(going, line, "dropped", drop)
        if key == "c":
            changed = _changed(going, put)
            if changed is None:
                continue
            put, warned = changed, False
        then = _taken(going, line, put, warned=warned)
        if then is not _Then.AGAIN:
            return then
        warned = True


def _asked(line: Told) -> str | None:
    """The key that is pressed. What puts nothing cannot be accepted."""
    if line.keys() - {"words", "at", "ask"}:
        return one_of_keys("acdsq", "a accept, c change, d drop, s later, q stop: ")
    return one_of_keys("cdsq", "c say what it puts, d drop, s later, q stop: ")


def _changed(going: Confirming, line: Told) -> Told | None:
    """The line as the person changes it; None when they go back."""
    day, text = going.front(going.raw()).date, line_as_text(line)
    while (typed := line_of_text("> ", text)) and typed != line_as_text(line):
        try:
            return line_from_text(typed, line, day, going.hand)
        except click.ClickException as fault:
            click.echo(f"  {fault.format_message()}")
            text = typed
    return None


def _taken(going: Confirming, line: Told, put: Told, *, warned: bool) -> _Then:
    """Take a line over. What would be wrong in the sheet is told first, once."""

    def change(told: Told, n: int) -> Told:
        return accept(told, n, put)

    try:
        wrong = () if warned else _wrong(going, line, change)
    except WrongCall as fault:
        click.echo(f"  {fault}")
        return _Then.AGAIN
    if wrong:
        click.echo(problems_text(wrong))
        click.echo("a takes it all the same.")
        return _Then.AGAIN
    if put != line:
        for words in puts_words(going.car, _record(going, put)):
            click.echo(f"  {words}")
    return _saved(going, line, "accepted", change)


def _wrong(going: Confirming, line: Told, change: Change) -> tuple[Problem, ...]:
    """The errors that the sheet would have besides those that it has."""
    raw = going.raw()
    made = _made(going, raw, line, change)
    before = {(p.code, p.message) for p in check_at_once(going.car, going.path, raw)}
    found = check_at_once(going.car, going.path, made) if made else ()
    return tuple(
        p for p in found if p.severity is Severity.ERROR and (p.code, p.message) not in before
    )


def _made(going: Confirming, raw: bytes, line: Told, change: Change) -> bytes | None:
    """The sheet with a change of one of its lines; None when that line is not in it any more."""
    front = going.front(raw)
    told = front_told(front)
    lines = listed(told.get("draft"))
    if line not in lines:
        return None
    wanted = SheetFront.model_validate(change(told, lines.index(line)), context=front.date)
    return edited(raw, wanted)


def _saved(going: Confirming, line: Told, done: str, change: Change) -> _Then:
    """Save a change at once; where somebody else was quicker, of the sheet as it is by then."""
    for _ in range(_TRIES):
        raw = going.raw()
        try:
            made = _made(going, raw, line, change)
        except WrongCall as fault:
            click.echo(f"  {fault}")
            return _Then.AGAIN
        if made is None:
            click.echo("  somebody else has done with this line already")
            return _Then.NEXT
        outcome = save_over(
            going.root, going.path, made, read=hash_of(raw), rescue=state_folder() / "rescued"
        )
        if isinstance(outcome, NotSaved):
            click.echo(outcome.sentence, err=True)
            return _Then.STOP
        if not isinstance(outcome, Conflict):
            click.echo(f"  {done}")
            return _Then.NEXT
    raise Refusal(f"{going.path} is being changed again and again; what was saved is saved")


# The end


def _ended(going: Confirming) -> int:
    """Say what is left, or who may read what was said; the exit code."""
    waiting = len(going.lines())
    if not waiting:
        _ask_reader(going)
    problems = [
        p for p in check_sheet(going.car, going.path, going.raw()).problems if not _draft(p)
    ]
    click.echo()
    if problems:
        click.echo(problems_text(problems))
    click.echo(
        _wait(going, waiting) if waiting else f"{going.root / going.path}: every line is confirmed"
    )
    return 1 if problems else 0


def _draft(problem: Problem) -> bool:
    return problem.code == "unconfirmed-draft"


def _wait(going: Confirming, waiting: int) -> str:
    verb = "waits" if waiting == 1 else "wait"
    where = going.root / going.path
    return f"{counted(waiting, 'line')} {verb} in {where}; go on with: {going.go_on}"


def _ask_reader(going: Confirming) -> None:
    """What was said is for the workshop until somebody says otherwise."""
    raw = going.raw()
    if talk_in(raw) is None:
        return
    click.echo()
    key = one_of_keys("wop", "Who may read what was said? w workshop, o owner, p everyone: ")
    made = talk_shown_to(raw, _READERS[key]) if key else raw
    outcome = save_over(
        going.root, going.path, made, read=hash_of(raw), rescue=state_folder() / "rescued"
    )
    if isinstance(outcome, NotSaved):
        click.echo(outcome.sentence, err=True)
    elif isinstance(outcome, Conflict):
        click.echo("The sheet was changed meanwhile; what was said stays for the workshop.")

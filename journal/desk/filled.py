"""A form that was filled, as the sheet that it would be, with what is wrong beside each field."""

from collections.abc import Iterator, Mapping
from datetime import date

from msgspec import Struct

from journal.desk.state import CarState
from journal.outputs.sheets.checked import Checked, Remark, check_sheet
from journal.outputs.sheets.edit import body_of, edited, with_body
from journal.outputs.sheets.form import Form, body_told, form_of, spread, told_of
from journal.outputs.sheets.formline import with_lines
from journal.outputs.sheets.print import ORDER, NewSheet, front_told, new_text
from journal.outputs.sheets.store import stem_of
from journal.outputs.sheets.yamlform import Plain
from journal.reading.sheet import sheet_of
from journal.records.carfile import CarFile
from journal.records.place import Place
from journal.records.problem import Problem, Severity
from journal.records.sheet import Sheet
from journal.words.dates import parse_date
from journal.words.wrong import WrongCall

# Lines that wait are no mistake of whoever saves them.
UNCONFIRMED = "unconfirmed-draft"


class Opened(Struct, frozen=True):
    """A sheet as it lies on the disk, to be changed in a form: its bytes, what its front matter says as
    plain data, and the form that shows it."""

    path: str
    raw: bytes
    told: dict[str, Plain]
    shown: Form


class Filled(Struct, frozen=True):
    """What a form makes of a sheet: `raw` at `path`. It may be saved when it is `right`; else `raw`
    is for looking at alone. `sheet` is what can be read of it."""

    path: str
    raw: bytes
    sheet: Sheet | None
    remarks: tuple[Remark, ...]
    elsewhere: tuple[Problem, ...]
    right: bool


def opened_of(path: str, raw: bytes) -> Opened | None:
    """A sheet opened; None when its front matter cannot be read, or its bytes are no UTF-8."""
    sheet, _ = sheet_of(raw, path)
    try:
        raw.decode("utf-8")
        body = body_of(raw)
    except (UnicodeDecodeError, WrongCall):
        return None
    if sheet is None:
        return None
    told = front_told(sheet.front)
    return Opened(path, raw, told, form_of(told, body))


def fill(
    state: CarState, file: CarFile, form: Form, opened: Opened | None, files: Mapping[str, str],
    today: date,
) -> Filled:  # fmt: skip
    """The sheet that a form makes: a new one, or the one that was opened with what was changed.

    `file` is the car with the pictures that are on their way, which `files` names by their ids.
    """
    known = state.found if state.asked else None
    told = _told(form, opened, files)
    body = body_told(form)
    path = opened.path if opened else path_of(file.name, told, today)
    wide = spread(told, body).encode("utf-8")
    looked = check_sheet(file, path, wide, known=known)
    remarks = [*map(_beside, _of_the_form(looked)), *_in_future(looked, today)]
    _, misread = sheet_of(wide, path)
    if looked.sheet is None or _errors(misread):
        return Filled(path, wide, looked.sheet, tuple(remarks), looked.elsewhere, right=False)
    if opened is None:
        raw = new_text(NewSheet(looked.sheet.front, body)).encode("utf-8")
        wrong = [remark for remark in remarks if _is_error(remark)]
        return Filled(path, raw, looked.sheet, tuple(remarks), looked.elsewhere, not wrong)
    return _changed(file, opened, looked, remarks, body)


def _told(form: Form, opened: Opened | None, files: Mapping[str, str]) -> dict[str, Plain]:
    """What a form tells, with what was taken over of a talk and stands in no field of it."""
    told = told_of(opened.told if opened else {}, opened.shown if opened else {}, form, files)
    whole = with_lines(told, form.get("beside", ()))
    return {key: whole[key] for key in ORDER if key in whole}


def _of_the_form(looked: Checked) -> Iterator[Remark]:
    """What is wrong, but for lines that wait: they are the way in which a talk comes into the book."""
    return (r for r in looked.remarks if r.problem.code != UNCONFIRMED)


def _changed(
    file: CarFile, opened: Opened, looked: Checked, remarks: list[Remark], body: str
) -> Filled:
    """A sheet of which fields were changed. What was wrong in it before does not keep it from the disk."""
    assert looked.sheet is not None
    try:
        raw = with_body(edited(opened.raw, looked.sheet.front), body)
    except WrongCall as fault:
        said = Problem(Place(opened.path, 1), "bad-yaml", str(fault))
        return Filled(
            opened.path, opened.raw, looked.sheet, (*remarks, Remark((), said)), (), right=False
        )
    before = {*map(_said, check_sheet(file, opened.path, opened.raw).remarks)}
    there = {*map(_said, remarks)}
    more = [r for r in _of_the_form(check_sheet(file, opened.path, raw)) if _said(r) not in there]
    wrong = [r for r in (*remarks, *more) if _is_error(r) and _said(r) not in before]
    sheet, _ = sheet_of(raw, opened.path)
    return Filled(opened.path, raw, sheet, (*remarks, *more), looked.elsewhere, not wrong)


def carried(opened: Opened, form: Form, onto: Opened) -> Form:
    """The form of a sheet that somebody else has changed meanwhile, with what was changed here.

    Where both have written another text, that of the other comes first and ours behind it.
    """
    told = told_of(onto.told, opened.shown, form)
    made = form_of(told, _carried_body(opened, form, onto))
    made["beside"] = [*form.get("beside", ())]
    made["photos"] += [p for p in form.get("photos", ()) if p.get("id")]
    return made


def _carried_body(opened: Opened, form: Form, onto: Opened) -> str:
    ours, base, theirs = (body_told(one) for one in (form, opened.shown, onto.shown))
    if ours != base and theirs not in (base, ours):
        return f"{theirs}\n\n{ours}"
    return ours if ours != base else theirs


def path_of(car: str, told: Mapping[str, Plain], today: date) -> str:
    """Where a new sheet would lie; its name may be taken by then."""
    day = day_of(told) or today
    return f"{car}/sheets/{day:%Y}/{stem_of(day, title_told(told))}.md"


def title_told(told: Mapping[str, Plain]) -> str:
    """What a sheet is called: its title, else its subsystems."""
    title, subsystem = told.get("title"), told.get("subsystem", "")
    words = (
        [subsystem] if isinstance(subsystem, str) else [w for w in subsystem if isinstance(w, str)]
    )
    return title if isinstance(title, str) else " ".join(words)


def day_of(told: Mapping[str, Plain]) -> date | None:
    """The day that is told, if it is one."""
    try:
        return parse_date(str(told.get("date", "")))
    except ValueError:
        return None


def _beside(remark: Remark) -> Remark:
    """A key that is missing has no line of its own; the message begins with its name."""
    first = remark.problem.message.split(" ")[0]
    stray = len(remark.field) < 2 and first in ORDER
    return Remark((first,), remark.problem) if stray else remark


def _in_future(looked: Checked, today: date) -> Iterator[Remark]:
    """A day that has not come yet, in the words of `journal write`."""
    if looked.sheet is not None and looked.sheet.date > today:
        path, day = looked.sheet.source.path, looked.sheet.date
        yield Remark(
            ("date",),
            Problem(
                Place(path, 1), "out-of-range", f"{day.isoformat()} lies in the future",
                help=f"at the desk it is {today.isoformat()}",
            ),
        )  # fmt: skip


def _said(remark: Remark) -> tuple[str, str]:
    return remark.problem.code, remark.problem.message


def _is_error(remark: Remark) -> bool:
    return remark.problem.severity is Severity.ERROR


def _errors(problems: list[Problem]) -> bool:
    return any(problem.severity is Severity.ERROR for problem in problems)

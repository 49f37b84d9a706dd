"""Bench sums as forms: which there are, one to fill in, and what it comes to while somebody writes."""

from datetime import date
from typing import Any, NamedTuple

from anyio import to_thread
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from journal.bench import SUM_NAMED, SUMS
from journal.bench.base.definition import Input, Job, Takes
from journal.bench.base.form import Field, form_of
from journal.desk.asking import API, Way, json_of, said
from journal.desk.desk import Desk
from journal.desk.sumasked import Asked, asked_in_form, asked_of, cells_of
from journal.desk.sumkeep import places_to_keep
from journal.outputs.sheets.print import sums_text
from journal.outputs.sums import command_text
from journal.pages.sumwords import answer_words, asked_again, beside
from journal.pages.words import sentence
from journal.records.fields import Named
from journal.records.sum import SumLine
from journal.words.text import listed

FORMS = "/_/sums"
# More choices than these stand in a list that unfolds.
_MOST_SHOWN = 4


class Shown(NamedTuple):
    """A field as it stands in the form. `control` is how it is filled in (`text`, `radio`, `select`,
    `ticks`, `rows`), `hint` how it is written, `value` what stands in it, `rows` the rows in it and
    `wrong` what is wrong with that."""

    field: Field
    control: str
    hint: str
    value: str
    ticked: tuple[str, ...]
    rows: tuple[dict[str, str], ...]
    wrong: str


async def get_sums(desk: Desk, _request: Request) -> Response:
    """Every sum by the job that it serves."""
    jobs = [(sentence(job.value), [s for s in SUMS if s.job is job]) for job in Job]
    values = {
        "title": "Bench sums", "workshop": _workshop(desk), "forms": FORMS,
        "jobs": [(label, sums) for label, sums in jobs if sums],
    }  # fmt: skip
    return Response(desk.shelf.page("sum-list.html", values), media_type="text/html")


async def get_sum(desk: Desk, request: Request) -> Response:
    """The form of a sum; what stands in the address stands in it, and is worked out."""
    sum_ = SUM_NAMED.get(request.path_params["sum"])
    if sum_ is None:
        raise HTTPException(404)
    written = tuple(request.query_params.items())
    asked = await to_thread.run_sync(asked_of, sum_, written)
    values = await to_thread.run_sync(_form_values, desk, asked)
    return Response(desk.shelf.page("sum-form.html", values), media_type="text/html")


async def post_sum(desk: Desk, request: Request) -> Response:
    """What a sum comes to, asked with `given`: its answer as it is shown, or what is wrong beside each
    field, with what is still missing."""
    sum_ = SUM_NAMED.get(request.path_params["sum"])
    told = await json_of(request)
    if sum_ is None:
        return said("There is no such sum.", 404)
    given = told.get("given") if isinstance(told, dict) else None
    asked = await to_thread.run_sync(asked_in_form, sum_, given)
    if asked is None:
        return said("This is not what the form of the sum asks for.", 400)
    return JSONResponse(await to_thread.run_sync(_answered, desk, asked))


def _answered(desk: Desk, asked: Asked) -> dict[str, Any]:
    html = desk.shelf.page("sum-answer.html", answer_values(asked)).decode("utf-8")
    names = {each.name for each in asked.sum.inputs}
    return {
        "html": html,
        "said": _in_short(asked),
        "wrong": {m.key: m.words for m in reversed(asked.wrong) if m.key in names},
        "asked": asked_again(asked.sum, asked.written) if asked.answer else None,
    }


def _in_short(asked: Asked) -> str:
    """What is read out while somebody writes."""
    if asked.answer is None:
        return "No answer yet"
    return asked.answer.worked.verdict or "Worked out"


def answer_values(asked: Asked) -> dict[str, Any]:
    """What the part of the page says in which the answer stands."""
    names = {each.name for each in asked.sum.inputs}
    values: dict[str, Any] = {
        "answer": None, "begun": asked.begun, "wrong": bool(asked.wrong),
        "others": [sentence(m.words) for m in asked.wrong if m.key not in names],
        "missing": [sentence(each.meaning) for each in asked.missing],
    }  # fmt: skip
    if asked.answer is not None:
        line = SumLine.model_validate({"sum": asked.sum.name, **dict(asked.told)})
        values |= {
            "answer": answer_words(asked.answer),
            "lines": sums_text(Named([(asked.sum.name, line)])),
            "command": command_text(asked.sum, asked.told),
        }
    return values


def _form_values(desk: Desk, asked: Asked) -> dict[str, Any]:
    sum_, form = asked.sum, form_of(asked.sum)
    fields = [_shown(asked, field) for field in form.fields]
    required = [shown for shown in fields if shown.field.required]
    others = [shown for shown in fields if not shown.field.required]
    return {
        **answer_values(asked), "said": _in_short(asked), "title": sum_.title,
        "workshop": _workshop(desk), "form": form, "forms": FORMS, "ask": f"{API}/sums/{sum_.name}",
        "example": f"{FORMS}/{asked_again(sum_, sum_.example)}",
        "required": required, "optional": others,
        "unfolded": not required or any(s.value or s.wrong for s in others),
        "optional_names": listed([s.field.label.lower() for s in others], "and"),
        "beside": beside(sum_), "cars": places_to_keep(desk, date.today()),
    }  # fmt: skip


def _shown(asked: Asked, field: Field) -> Shown:
    input_ = asked.sum.input(field.name)
    assert input_ is not None, "a form has the fields of its sum"
    value = dict(asked.written).get(field.name, "")
    wrong = next((m.words for m in asked.wrong if m.key == field.name), "")
    rows = tuple(cells_of(input_, value)) if field.columns else ()
    ticked = tuple(word.strip().casefold() for word in value.split(","))
    return Shown(field, _control(input_), _hint(field), value, ticked, rows, wrong)


def _control(asked: Input) -> str:
    if asked.takes is Takes.ROWS:
        return "rows"
    if not asked.choices:
        return "text"
    if asked.takes is Takes.READINGS:
        return "ticks"
    return "radio" if len(asked.choices) <= _MOST_SHOWN else "select"


def _hint(field: Field) -> str:
    """How a field is written; where it is chosen from what stands there, nothing."""
    if field.choices or field.columns:
        return ""
    unless = f"{field.default} unless told" if field.default else ""
    return sentence("; ".join(filter(None, (field.how, unless))))


def _workshop(desk: Desk) -> str:
    workshop = desk.live.state.workshop
    return workshop.name if workshop else ""


WAYS: tuple[Way, ...] = (
    Way("GET", FORMS, get_sums),
    Way("GET", f"{FORMS}/{{sum}}", get_sum),
    Way("POST", f"{API}/sums/{{sum}}", post_sum),
)

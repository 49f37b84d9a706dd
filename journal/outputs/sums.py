"""Bench sums as text for the terminal and as JSON for other programs."""

import json
import shlex
import textwrap
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from journal.bench import SUMS
from journal.bench.base.definition import Input, Job, Sum
from journal.bench.base.form import how_words, symbols_words
from journal.bench.base.worked import Curve, Grid, Result, exact_text, result_words
from journal.bench.base.working import Answer

_STEP = "  "


def list_text(width: int) -> str:
    """Every sum by the job that it serves, with the question that it answers."""
    return "\n\n".join(
        "\n".join(_job(job, width)) for job in Job if any(s.job is job for s in SUMS)
    )


def _job(job: Job, width: int) -> Iterator[str]:
    yield job.value[:1].upper() + job.value[1:]
    wide = max(len(each.name) for each in SUMS) + 2
    for each in SUMS:
        if each.job is job:
            yield from _hung(f"{each.name:<{wide}}", each.asks, width)


def explain_text(sum_: Sum, width: int) -> str:
    """What a sum asks for and how it is written, its formula, limits and source."""
    example = dict(sum_.example)
    lines = [sum_.title, *_filled(sum_.asks, width), "", "It asks for"]
    wide = max(len(asked.name) for asked in sum_.inputs) + 2
    for asked in sum_.inputs:
        lines += _hung(f"{asked.name:<{wide}}", asked_words(asked), width)
    given = " ".join(f"{name}='{text}'" for name, text in example.items())
    lines += ["", "For example", *_hung("", f"journal sum {sum_.name} {given}", width)]
    return "\n".join([*lines, "", *_beside(sum_, width)])


def command_text(sum_: Sum, written: Iterable[tuple[str, str]]) -> str:
    """The command that works a sum out from what is written for its inputs."""
    given = (f"{name}={shlex.quote(text)}" for name, text in written)
    return " ".join(("journal sum", sum_.name, *given))


def asked_words(asked: Input) -> str:
    """What an input is and how it is written: `thickness wanted: a length in mm, in or thou`."""
    told = f"{asked.meaning}: {how_words(asked)}"
    if asked.columns:
        columns = "; ".join(f"{c.name}, {c.meaning} ({how_words(c)})" for c in asked.columns)
        told = f"{told}. {columns}"
    if asked.default:
        return f"{told}. {asked.default} unless told"
    return f"{told}. May be left out" if asked.optional else told


def answer_text(answer: Answer, width: int) -> str:
    """Inputs, working, result, warnings, formula, limits, caution and source of an answer."""
    worked = answer.worked
    lines = [answer.sum.title, "", "Given"]
    pairs = [(asked.name, told) for asked, told in answer.inputs()]
    lines += _pairs(pairs, width)
    lines += ["", "Working", *(line for step in worked.steps for line in _hung("", step, width))]
    lines += ["", "Result"]
    lines += _hung("", worked.verdict, width) if worked.verdict else []
    lines += _pairs([(result.meaning, result_words(result)) for result in worked.results], width)
    for grid in worked.grids:
        lines += ["", grid.title, *_grid(grid, width)]
    for curve in worked.curves:
        lines += ["", curve.title, *_grid(_curve_grid(curve), width)]
    for warning in worked.warnings:
        lines += ["", *_filled(f"Take care: {warning}", width)]
    return "\n".join([*lines, "", *_beside(answer.sum, width)])


def _beside(sum_: Sum, width: int) -> Iterator[str]:
    """What stands beside every answer."""
    yield "Formula"
    yield from _hung("", sum_.in_words, width)
    yield from (f"{_STEP}{line}" for line in sum_.formula)
    if symbols := symbols_words(sum_):
        yield from _hung("", symbols, width)
    for title, texts in (
        ("Limits", sum_.limits), ("Caution", (sum_.caution,)), ("Source", sum_.sources),
    ):  # fmt: skip
        yield ""
        yield title
        for text in texts:
            yield from _hung("", text, width)


def _filled(text: str, width: int) -> list[str]:
    return textwrap.wrap(text, width, break_long_words=False, break_on_hyphens=False)


def _hung(label: str, text: str, width: int) -> list[str]:
    """A text after its label, further lines under its start."""
    return textwrap.wrap(
        text, width, initial_indent=_STEP + label, subsequent_indent=_STEP + " " * len(label),
        break_long_words=False, break_on_hyphens=False,
    )  # fmt: skip


def _pairs(pairs: Sequence[tuple[str, str]], width: int) -> list[str]:
    """Texts in a column after their labels; a label that leaves no room for it has lines of its own."""
    room = width // 2
    wide = max((len(label) for label, _ in pairs if len(label) < room), default=0) + 2
    lines = []
    for label, text in pairs:
        if len(label) < room:
            lines += _hung(f"{label:<{wide}}", text, width)
        else:
            lines += [*_hung("", label, width), *_hung(" " * wide, text, width)]
    return lines


def _grid(grid: Grid, width: int) -> Iterator[str]:
    """A table in columns, or an entry under another where the room does not do."""
    rows = [grid.heads, *grid.rows]
    wide = [max(len(row[n]) for row in rows) for n in range(len(grid.heads))]
    if sum(wide) + 2 * len(wide) <= width:
        for row in rows:
            yield (
                _STEP + "  ".join(f"{cell:<{w}}" for cell, w in zip(row, wide, strict=True))
            ).rstrip()
        return
    for first, *others in grid.rows:
        told = [f"{h.lower()}: {c}" for h, c in zip(grid.heads[1:], others, strict=True) if c]
        yield f"{_STEP}{first}"
        yield from _hung(_STEP, "; ".join(told), width)


def _curve_grid(curve: Curve) -> Grid:
    """The points of a curve as a table: one row for each place across."""
    across = list(dict.fromkeys(x for line in curve.lines for x, _ in line.points))
    by_place = [dict(line.points) for line in curve.lines]
    rows = tuple(
        (_short(x), *(_short(line[x]) if x in line else "" for line in by_place)) for x in across
    )
    return Grid(curve.title, (curve.across, *(line.label for line in curve.lines)), rows)


def _short(value: Fraction | float) -> str:
    return f"{float(value):.4g}"


def answer_json(answer: Answer) -> str:
    """An answer as JSON; exact numbers as texts, so that no digit is lost."""
    return json.dumps(answer_data(answer), indent=2, ensure_ascii=False)


def answer_data(answer: Answer) -> dict[str, object]:
    """An answer as plain data: what was given, the working, results, and what stands beside them."""
    sum_, worked = answer.sum, answer.worked
    return {
        "sum": sum_.name,
        "title": sum_.title,
        "job": sum_.job.value,
        "given": {asked.name: told for asked, told in answer.inputs()},
        "working": list(worked.steps),
        "results": [_result_data(result) for result in worked.results],
        "verdict": worked.verdict,
        "right": worked.right,
        "warnings": list(worked.warnings),
        "tables": [
            {"title": g.title, "columns": list(g.heads), "rows": [list(row) for row in g.rows]}
            for g in worked.grids
        ],
        "curves": [
            {
                "title": c.title, "across": c.across, "up": c.up,
                "lines": [
                    {"label": line.label, "points": [[exact_text(v) for v in point] for point in line.points]}
                    for line in c.lines
                ],
            }
            for c in worked.curves
        ],
        "formula": list(sum_.formula),
        "in words": sum_.in_words,
        "limits": list(sum_.limits),
        "caution": sum_.caution,
        "sources": list(sum_.sources),
    }  # fmt: skip


def _result_data(result: Result) -> dict[str, object]:
    exact = None if result.exact is None else exact_text(result.exact)
    return {
        "name": result.name, "meaning": result.meaning, "told": result.words, "other": result.other,
        "exact": exact, "unit": result.unit,
    }  # fmt: skip

"""JSON Schemas of what is written. Outside check: the meta-schema of draft 2020-12 and a validator."""

from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from journal.outputs.schemas import schemas
from journal.records.fields import Written
from journal.records.shapes import SHAPES
from journal.records.sum import SumLine
from tests.tern import FILES, sheet_text

DEMO = Path(__file__).parents[2] / "content"
SCHEMAS = schemas()
# The files of a content folder by the shape they have.
_PLACES = {
    "workshop": "workshop.yaml",
    "car": "*/car.yaml",
    "register": "*/register.yaml",
    "papers": "*/papers/papers.yaml",
    "sheet": "*/sheets/**/*.md",
    "statement": "*/statements/*.yaml",
}


def _data(text: str) -> Any:
    # As the journal reads: every scalar is the text that was written.
    front = text.split("\n---\n", 1)[0] if text.startswith("---\n") else text
    return yaml.load(front, yaml.BaseLoader)


def _faults(shape: str, data: Any) -> list[str]:
    validator = Draft202012Validator(SCHEMAS[shape])
    return ["/".join(map(str, e.absolute_path)) for e in validator.iter_errors(data)]


@pytest.mark.parametrize("name", sorted(SHAPES))
def test_schema__is_one_of_draft_2020_12(name: str) -> None:
    assert "https://json-schema.org/draft/2020-12/schema" == SCHEMAS[name]["$schema"]
    Draft202012Validator.check_schema(SCHEMAS[name])


def _references(node: Any) -> set[str]:
    if isinstance(node, dict):
        own = {node["$ref"]} if isinstance(node.get("$ref"), str) else set()
        return own.union(*(_references(value) for value in node.values()), set())
    return set().union(*(_references(entry) for entry in node)) if isinstance(node, list) else set()


@pytest.mark.parametrize("name", sorted(SHAPES))
def test_schema__leads_nowhere_outside_itself(name: str) -> None:
    for reference in _references(SCHEMAS[name]):
        here = SCHEMAS[name]
        assert reference.startswith("#/")
        for key in reference[2:].split("/"):
            here = here[key]


def _fields(shape: type[Written]) -> dict[str, bool]:
    return {field.alias or "": field.is_required() for field in shape.model_fields.values()}


@pytest.mark.parametrize("name", sorted(SHAPES))
def test_schema__has_the_fields_of_the_record_and_no_other(name: str) -> None:
    schema = SCHEMAS[name]
    records = {shape.__name__: shape for shape in _all_shapes(Written)}
    nested = [
        (d, records[title]) for title, d in schema.get("$defs", {}).items() if title in records
    ]
    # A sum line has a schema for every sum; the tests of those stand below.
    nested = [(node, shape) for node, shape in nested if shape is not SumLine]
    for node, shape in [(schema, SHAPES[name]), *nested]:
        fields = _fields(shape)  # type: ignore[arg-type]
        assert sorted(fields) == sorted(node["properties"])
        assert sorted(f for f, needed in fields.items() if needed) == sorted(
            node.get("required", [])
        )
        assert node["additionalProperties"] is False


def _all_shapes(shape: type[Written]) -> set[type[Written]]:
    return {shape}.union(*(_all_shapes(s) for s in shape.__subclasses__()))


@pytest.mark.parametrize("name", sorted(_PLACES))
def test_schema__accepts_every_file_of_the_demonstration(name: str) -> None:
    files = sorted(DEMO.glob(_PLACES[name]))
    assert files
    wrong = {f.name: _faults(name, _data(f.read_text(encoding="utf-8"))) for f in files}
    assert {} == {file: faults for file, faults in wrong.items() if faults}


@pytest.mark.parametrize("path", sorted(FILES))
def test_schema__accepts_the_smallest_content(path: str) -> None:
    assert [] == _faults(Path(path).stem, _data(FILES[path]))


SHORT = """\
hours: 3.5
work: {gearbox/laygear: removed, brakes/pipes: [removed, cleaned], a/b: {did: fitted, now: pattern}}
snags: {oil-leak: weeps at the cover}
photos: laygear.jpg
papers: factory-record
corrects: 2024-03-04-day
measured: {float: {read: 0.2, unit: mm, limit: [0.1, 0.3]}, gap: {read: [1, 2], unit: mm, limit: {most: 3}}}
parts: {laygear: {ordered: today, promised: 2024-03-09}}
recording: talk.mp4
draft: [it weeps, {words: it is out, at: "0:12", work: {gearbox/laygear: removed}, hours: {MT: 2}}]
"""


def test_schema__accepts_every_short_form() -> None:
    assert [] == _faults("sheet", _data(sheet_text(SHORT)))


@pytest.mark.parametrize(
    ("front", "fault"),
    [
        ("titel: x", ""),
        ("work: {gearbox/laygear: inspcted}", "work/gearbox/laygear"),
        ("work: {gearbox/laygear: {did: removed, now: frist-fit}}", "work/gearbox/laygear"),
        ("work: {gearbox/laygear: {foo: bar}}", "work/gearbox/laygear"),
        ("work: fitted", "work"),
        ("measured: {float: {read: 0.2}}", "measured/float"),
        ("measured: {float: {read: 0.2, unit: inches}}", "measured/float/unit"),
        ("photos: [{caption: x}]", "photos"),
        ("for: everyone", "for"),
        ("recording: [{at: '0:12'}]", "recording"),
        ("draft: [{words: x, odometer: 2}]", "draft"),
        ("draft: [{measured: {float: {read: 0.2}}}]", "draft"),
    ],
)
def test_schema__refuses_a_wrong_sheet_where_it_is_wrong(front: str, fault: str) -> None:
    assert [fault] == _faults("sheet", _data(sheet_text(front)))


def test_schema__refuses_a_sheet_without_its_day() -> None:
    assert [""] == _faults("sheet", {"subsystem": "gearbox"})


# Bench sums

SHIMS = {"sum": "shim-pack", "target": "0.42 mm", "tolerance": "0.02 mm", "shims": {"0.10 mm": "3"}}


def _sheet_with(sum_: dict[str, Any]) -> dict[str, Any]:
    return {"date": "2024-03-05", "subsystem": "gearbox", "sums": {"laygear-shims": sum_}}


def test_sum__is_known_with_its_own_inputs() -> None:
    assert [] == _faults("sheet", _sheet_with({**SHIMS, "of": "gearbox/laygear", "for": "owner"}))


@pytest.mark.parametrize(
    "wrong",
    [
        {**SHIMS, "sum": "shim-pile"},
        {**SHIMS, "bore": "76 mm"},
        {key: value for key, value in SHIMS.items() if key != "target"},
        {**SHIMS, "target": ["0.42 mm"]},
    ],
)
def test_sum__with_inputs_of_another_is_refused(wrong: dict[str, Any]) -> None:
    assert ["sums/laygear-shims"] == _faults("sheet", _sheet_with(wrong))

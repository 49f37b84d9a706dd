"""JSON Schemas (draft 2020-12) of everything that is written."""

from typing import Any, ClassVar

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue, JsonSchemaWarningKind

from journal.bench import SUMS
from journal.bench.base.definition import WORD, Input, Sum, Takes
from journal.bench.base.form import how_words
from journal.records.fields import ShortForm, as_list
from journal.records.limit import limit_pair
from journal.records.shapes import SHAPES

# Stands in a schema for the key that a short form leaves out, until references are settled.
_SHORT = "x-short-form"


class _Plain(GenerateJsonSchema):
    """Without defaults: what is absent is absent, and an editor need not fill it in."""

    ignored_warning_kinds: ClassVar[set[JsonSchemaWarningKind]] = {  # type: ignore[misc]
        "non-serializable-default",
        "skipped-choice",
    }

    def function_before_schema(self, schema: Any) -> JsonSchemaValue:
        """What may be written in a short form may be so in the schema, too."""
        full, read = super().function_before_schema(schema), schema["function"]["function"]
        if read is limit_pair:
            end = {"type": ["number", "string"]}
            return {
                "anyOf": [
                    {"type": "array", "prefixItems": [end, end], "minItems": 2, "items": False},
                    full,
                ]
            }
        if read is as_list and "items" in full:
            return {"anyOf": [full["items"], full]}
        return {_SHORT: read.key, "anyOf": [full]} if isinstance(read, ShortForm) else full


def schemas() -> dict[str, dict[str, Any]]:
    """A schema for each written file, by the name of its shape."""
    made = {}
    for name, shape in SHAPES.items():
        schema = shape.model_json_schema(schema_generator=_Plain)
        made[name] = {"$schema": "https://json-schema.org/draft/2020-12/schema", **_bare(schema)}
    lines = made["sheet"]["$defs"]
    lines["SumLine"] = {"oneOf": [_sum(each, lines["SumLine"]) for each in SUMS]}
    return made


def _sum(sum_: Sum, line: dict[str, Any]) -> dict[str, Any]:
    """One bench sum: what every one says of itself, and the inputs of this one and no others."""
    own = {key: told for key, told in line["properties"].items() if key != "inputs"}
    return {
        "type": "object",
        "title": sum_.title,
        "description": sum_.asks,
        "properties": {
            **own,
            "sum": {"const": sum_.name},
            **{asked.name: _input(asked) for asked in sum_.inputs},
        },
        "required": ["sum", *(asked.name for asked in sum_.inputs if asked.required)],
        "additionalProperties": False,
    }


def _input(asked: Input) -> dict[str, Any]:
    """An input: one text, or entries by themselves where it takes several."""
    told = {"description": f"{asked.meaning}: {how_words(asked)}"}
    if asked.kind == WORD and asked.takes is Takes.ONE:
        return {**told, "enum": [word for word, _ in asked.choices]}
    several = ["array", "object"] if asked.takes in (Takes.READINGS, Takes.ROWS) else []
    return {**told, "type": ["string", "number", *several]}


def _bare(node: Any) -> Any:
    if isinstance(node, dict):
        plain = {k: _bare(v) for k, v in node.items() if k not in ("default", _SHORT)}
        if _SHORT in node:
            (whole,) = plain["anyOf"]
            plain["anyOf"] = [{"$ref": f"{whole['$ref']}/properties/{node[_SHORT]}"}, whole]
        return plain
    return [_bare(entry) for entry in node] if isinstance(node, list) else node

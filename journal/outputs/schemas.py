"""JSON Schemas (draft 2020-12) of everything that is written."""

from typing import Any, ClassVar

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaWarningKind

from journal.records.shapes import SHAPES


class _Plain(GenerateJsonSchema):
    """Without defaults: what is absent is absent, and an editor need not fill it in."""

    ignored_warning_kinds: ClassVar[set[JsonSchemaWarningKind]] = {  # type: ignore[misc]
        "non-serializable-default",
        "skipped-choice",
    }


def schemas() -> dict[str, dict[str, Any]]:
    """A schema for each written file, by the name of its shape."""
    made = {}
    for name, shape in SHAPES.items():
        schema = shape.model_json_schema(schema_generator=_Plain)
        made[name] = {"$schema": "https://json-schema.org/draft/2020-12/schema", **_bare(schema)}
    return made


def _bare(node: Any) -> Any:
    if isinstance(node, dict):
        return {key: _bare(value) for key, value in node.items() if key != "default"}
    return [_bare(entry) for entry in node] if isinstance(node, list) else node

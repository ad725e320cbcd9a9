"""JSON Schemas of the files that people write, so that an editor can complete them."""

from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core.core_schema import DictSchema, WithDefaultSchema

Schema = dict[str, Any]


class _AsWritten(GenerateJsonSchema):
    """Says what a file may hold, and nothing about what becomes of it inside."""

    def field_title_should_be_set(self, schema: Any) -> bool:  # noqa: ANN401, ARG002 (as pydantic has it)
        """No title: the key itself says as much."""
        return False

    def default_schema(self, schema: WithDefaultSchema) -> JsonSchemaValue:
        """Words alone are written as they are held inside: 75.0 [°C] would be refused in a file."""
        made = super().default_schema(schema)
        if not isinstance(made.get("default"), str):
            made.pop("default", None)
        return made

    def dict_schema(self, schema: DictSchema) -> JsonSchemaValue:
        """A key that is no id is refused, not let pass unread."""
        made = super().dict_schema(schema)
        return {**made, "additionalProperties": False} if "patternProperties" in made else made


def schema_of(model: type[BaseModel]) -> Schema:
    """The JSON Schema of the file that `model` describes, its keys as written there."""
    made = model.model_json_schema(by_alias=True, schema_generator=_AsWritten)
    head = {
        "$schema": GenerateJsonSchema.schema_dialect,
        "title": f"drawcord {model.__name__.lower()} file",
        "description": made["description"],
    }
    return {**head, **{key: value for key, value in made.items() if key not in head}}

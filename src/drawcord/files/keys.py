"""Which keys a model takes at a place in a document, and what they are for: read from its JSON Schema."""

import re
from collections.abc import Iterator, Sequence
from functools import cache
from typing import Any

from pydantic import BaseModel

from drawcord.words.faults import Path

Schema = dict[str, Any]


def keys_at(model: type[BaseModel], data: Any, path: Path) -> dict[str, str]:  # noqa: ANN401 (any document)
    """The keys that `model` takes at `path` of `data`, each with what it is in a few words."""
    root = _schema(model)
    here, value = _branches(root, root, data), data
    for part in path:
        value = value[part]
        here = [
            branch for schema in here for child in _inside(schema, part) for branch in _branches(root, child, value)
        ]
    fields: dict[str, list[Schema]] = {}
    for schema in here:
        for key, field in schema.get("properties", {}).items():
            fields.setdefault(key, []).append(field)
    return {key: _about(alike) for key, alike in fields.items()}


def _about(fields: Sequence[Schema]) -> str:
    """What a key is, and the words that it takes where these are few: `what it is, one of cabinet, chase`."""
    what = re.split(r"[.;:](?: |$)", fields[0].get("description", ""))[0]
    words = [word for field in fields for word in field.get("enum", [field["const"]] if "const" in field else [])]
    choice = f"one of {', '.join(words)}" if len(words) > 1 else "".join(f"write `{word}`" for word in words)
    begin = what if what[:2].isupper() else what[:1].lower() + what[1:]
    return ", ".join(part for part in (begin, choice) if part)


@cache
def _schema(model: type[BaseModel]) -> Schema:
    return model.model_json_schema()


def _branches(root: Schema, schema: Schema, value: object) -> list[Schema]:
    """The alternatives that `schema` stands for; if possible only those of the kind that `value` says."""
    if "$ref" in schema:
        return _branches(root, root["$defs"][schema["$ref"].rpartition("/")[2]], value)
    choices = schema.get("anyOf") or schema.get("oneOf")
    if not choices:
        return [schema]
    every = [branch for choice in choices for branch in _branches(root, choice, value)]
    return [branch for branch in every if _is_of_kind(branch, value)] or every


def _is_of_kind(schema: Schema, value: object) -> bool:
    fixed = {key: field["const"] for key, field in schema.get("properties", {}).items() if "const" in field}
    return not isinstance(value, dict) or all(value.get(key, const) == const for key, const in fixed.items())


def _inside(schema: Schema, part: str | int) -> Iterator[Schema]:
    """What `schema` says about the value at `part`."""
    if isinstance(part, int):
        first = schema.get("prefixItems", [])
        yield first[part] if part < len(first) else schema.get("items", {})
    elif part in schema.get("properties", {}):
        yield schema["properties"][part]
    else:
        # Whatever the key's form: a key of a wrong form is a problem of its own.
        yield from schema.get("patternProperties", {}).values()
        if isinstance(rest := schema.get("additionalProperties"), dict):
            yield rest

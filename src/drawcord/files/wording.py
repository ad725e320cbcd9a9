"""What a key of a file takes, in words, read from its JSON Schema."""

import re
from collections.abc import Iterable
from typing import Any

from pydantic import TypeAdapter

from drawcord.coach import catalogue
from drawcord.coach.closed import ID
from drawcord.coach.place import Depth
from drawcord.files.schema import Schema
from drawcord.words import quantity

QUANTITIES: dict[str, Any] = {
    "length": quantity.Length,
    "range": quantity.Range,
    "height": quantity.Height,
    "rise": quantity.Rise,
    "depth": Depth,
    "time": quantity.Minutes,
    "share": quantity.Fraction,
    "temperature": quantity.Celsius,
    "current": quantity.Amperes,
    "voltage": quantity.Volts,
    "coefficient of voltage": catalogue.OfVoc,
    "coefficient of power": catalogue.OfPmp,
    "coefficient of current": catalogue.OfIsc,
    "section": catalogue.Section,
    "loss": catalogue.Loss,
}
EXAMPLES: dict[str, tuple[str, ...]] = {
    name: tuple(TypeAdapter(kind).json_schema()["examples"]) for name, kind in QUANTITIES.items()
}
_BY_EXAMPLES = {examples: name for name, examples in EXAMPLES.items()}


def takes(schema: Schema) -> str:
    """What a value of this schema looks like; models are links to where they are told."""
    if "$ref" in schema:
        return link(schema["$ref"].rpartition("/")[2])
    if "examples" in schema:
        return f"a {_BY_EXAMPLES[tuple(schema['examples'])]} such as `{schema['examples'][0]}`"
    if "anyOf" in schema:
        return " or ".join(takes(one) for one in schema["anyOf"] if one != {"type": "null"})
    if "enum" in schema:
        return listed(schema["enum"])
    if "const" in schema:
        return f"`{schema['const']}`"
    if schema["type"] == "object":
        return _by_key(schema)
    if schema["type"] == "array" and "prefixItems" in schema:
        return f"a list of {len(schema['prefixItems'])}, each {takes(schema['prefixItems'][0])}"
    if schema["type"] == "array":
        return f"a list, each {takes(schema['items'])}"
    if schema["type"] == "boolean":
        return "`true` or `false`"
    if schema["type"] in ("integer", "number"):
        whole = "whole " if schema["type"] == "integer" else ""
        return f"a {whole}number from {schema['minimum']} to {schema['maximum']}"
    return "an id" if schema.get("pattern") == f"^{ID}$" else "text"


def _by_key(schema: Schema) -> str:
    """What a mapping takes whose keys are no fields of a model."""
    if "patternProperties" in schema:
        (inner,) = schema["patternProperties"].values()
        return f"by id: {takes(inner)}"
    names = schema.get("propertyNames", {}).get("enum")
    return f"by {listed(names) if names else 'name'}: {takes(schema['additionalProperties'])}"


def title(name: str) -> str:
    """The name of a model as people say it: `MovingPart` is `Moving part`."""
    return re.sub(r"(?<=[a-z])[A-Z]", lambda capital: f" {capital[0].lower()}", name)


def link(name: str) -> str:
    """A link to the heading under which a model is told."""
    said = title(name).lower()
    return f"[{said}](#{said.replace(' ', '-')})"


def listed(words: Iterable[str]) -> str:
    """Words of a file as a choice: `in`, `out` or `up`."""
    *most, last = (f"`{word}`" for word in words)
    return f"{', '.join(most)} or {last}" if most else last

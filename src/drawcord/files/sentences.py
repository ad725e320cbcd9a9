"""What pydantic finds wrong with a document, as plain sentences at the places where they belong."""

import re
from collections.abc import Iterator, Sequence
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from drawcord.files.keys import keys_at
from drawcord.words.amount import NoUnit, shown
from drawcord.words.faults import Path, Problem
from drawcord.words.nearest import nearest
from drawcord.words.units import UNITS

MOST_PROBLEMS = 500  # of one document: nobody reads more, and each may cost a search for a close match

_RIGHT = {
    "int_type int_parsing int_from_float int_parsing_size": "a whole number",
    "float_type float_parsing": "a number",
    "finite_number": "a finite number",
    "bool_type bool_parsing": "true or false",
    "string_type": "text (in quotes if it looks like a number)",
    "string_too_short": "text of {min_length} or more characters",
    "string_too_long": "text of no more than {max_length} characters",
    "string_pattern_mismatch": "text of the form `{pattern}`",
    "list_type tuple_type set_type frozen_set_type iterable_type": "a list",
    "dict_type mapping_type model_type model_attributes_type": "a mapping of keys to values",
    "too_short": "{min_length} or more entries long",
    "too_long": "no more than {max_length} entries long",
    "greater_than": "more than {gt:g}",
    "greater_than_equal": "{ge:g} or more",
    "less_than": "less than {lt:g}",
    "less_than_equal": "{le:g} or less",
    "multiple_of": "a multiple of {multiple_of:g}",
    "none_required": "left empty",
}
_FORMS = {kind: form for kinds, form in _RIGHT.items() for kind in kinds.split()}


def problems(error: ValidationError, model: type[BaseModel], data: object) -> list[Problem]:
    """One problem for each place at fault; the forms that a value might have had share one sentence."""
    result: list[Problem] = []
    values: dict[Path, list[ErrorDetails]] = {}
    details = error.errors(include_url=False)
    bare = [detail for detail in details if _lacks_unit(detail)]
    stated = isinstance(data, dict) and data.get("units") is not None
    if stated or len(bare) > 1:
        # Where the file states no unit, or none that there is, one sentence says it for all.
        details = [detail for detail in details if not _lacks_unit(detail)]
        if not stated:
            result.append(_no_units(data, bare))
    for detail in details[:MOST_PROBLEMS]:
        kind, path = detail["type"], _path(data, detail)
        if kind == "extra_forbidden":
            result.append(_unknown(model, data, path))
        elif kind in ("missing", "union_tag_not_found"):
            result.append(_missing(model, data, path, detail))
        elif _of_key(detail):
            own = detail["type"] == "value_error"
            said = str(detail["ctx"]["error"]) if own else f"the key {shown(detail['input'])} should be {_form(detail)}"
            result.append(Problem(path, _named(path[:-1]) + said, on_key=True))
        else:
            values.setdefault(path, []).append(detail)
    inside = {path[:end] for path in (*values, *(problem.path for problem in result)) for end in range(len(path))}
    for path, here in values.items():
        # Where a word or a mapping may stand, "should be a word" is no help with a slip inside the mapping.
        if path not in inside or any(detail["type"] == "value_error" for detail in here):
            result.append(_wrong(path, here))
    if len(details) > MOST_PROBLEMS:
        result.append(Problem((), f"of {len(details)} problems in this file, {MOST_PROBLEMS} are listed"))
    return result


def _lacks_unit(detail: ErrorDetails) -> bool:
    error = detail.get("ctx", {}).get("error")
    return isinstance(error, NoUnit) and error.what == "length"


def _no_units(data: object, bare: Sequence[ErrorDetails]) -> Problem:
    paths = dict.fromkeys(_path(data, detail) for detail in bare)
    first = _named(next(iter(paths))).removesuffix(": ")
    units = ", ".join(f"`units: {unit}`" for unit in UNITS[:-1])
    ways_out = f"write {units} or `units: {UNITS[-1]}` once at the top, or a unit with each"
    return Problem((), f"{len(paths)} lengths in this file have no unit, the first of them {first}: {ways_out}")


def _unknown(model: type[BaseModel], data: object, path: Path) -> Problem:
    above, name = path[:-1], str(path[-1])
    holder = _at(data, above)
    free = [key for key in keys_at(model, data, above) if key not in holder]
    if close := nearest(name, free):
        hint = close.strip(" ()")
    elif holder[name] is None and name[:1].isdigit():
        hint = "between braces a comma ends a value, so write a point in the number or put it in quotes"
    else:
        hint = f"what may stand here: {_listed(free)}" if free else "leave it out"
    return Problem(path, f"{_named(above)}the key {shown(name)} is unknown; {hint}", on_key=True)


def _missing(model: type[BaseModel], data: object, path: Path, detail: ErrorDetails) -> Problem:
    key = detail["loc"][-1] if detail["type"] == "missing" else detail["ctx"]["discriminator"].strip("'")
    if isinstance(key, int):
        return Problem(path, f"{_named(path)}entry {key + 1} of the list is missing")
    what = keys_at(model, data, path).get(key)
    return Problem(path, f"{_named(path)}the key `{key}` is missing{f': {what}' if what else ''}", on_key=True)


def _wrong(path: Path, details: list[ErrorDetails]) -> Problem:
    value = details[0]["input"]
    if details[0]["type"] == "union_tag_invalid":
        key = details[0]["ctx"]["discriminator"].strip("'")
        path, value = (*path, key), value[key]
    said = [str(detail["ctx"]["error"]) for detail in details if detail["type"] == "value_error"]
    forms = [_form(detail) for detail in details if detail["type"] != "value_error"]
    if forms:
        number = isinstance(value, str) and re.fullmatch(r"[+-]?\d+(\.\d+)?", value)
        quotes = ", without quotes" if number and {shown(value), "a number", "a whole number"} & {*forms} else ""
        said.append(f"{shown(value)} should be {' or '.join(dict.fromkeys(forms))}{quotes}")
    return Problem(path, _named(path) + "; or ".join(dict.fromkeys(said)))


def _form(detail: ErrorDetails) -> str:
    """What the value should be."""
    bounds: dict[str, Any] = detail.get("ctx", {})
    if expected := bounds.get("expected", bounds.get("expected_tags")):
        choices = [one or other for one, other in re.findall(r"""'([^']*)'|"([^"]*)\"""", expected)]
        return _listed(choices or [expected]) + nearest(str(bounds.get("tag", detail["input"])), choices)
    if form := _FORMS.get(detail["type"]):
        return form.format(**bounds)
    return detail["msg"].removeprefix("Input should be ")


def _of_key(detail: ErrorDetails) -> bool:
    return detail["loc"][-1:] == ("[key]",)


def _path(data: object, detail: ErrorDetails) -> Path:
    """Where in the document an error lies: pydantic's location without the names of types it tried."""
    place = detail["loc"][:-1] if detail["type"] == "missing" or detail["loc"][-1:] == ("[key]",) else detail["loc"]

    def likeness(path: Path) -> tuple[bool, bool, int]:
        return _at(data, path) is detail["input"], path[-1:] == place[-1:], len(path)

    return max(_readings(data, place), key=likeness)


def _readings(data: Any, place: Path) -> Iterator[Path]:  # noqa: ANN401 (any document)
    """Every way to follow the parts of `place` into `data`, leaving out some."""
    if not place:
        yield ()
        return
    part, rest = place[0], place[1:]
    if part in (data if isinstance(data, dict) else range(len(data) if isinstance(data, list) else 0)):
        yield from ((part, *path) for path in _readings(data[part], rest))
    yield from _readings(data, rest)


def _at(data: Any, path: Path) -> Any:  # noqa: ANN401 (any document)
    for part in path:
        data = data[part]
    return data


def _named(path: Path) -> str:
    return f"`{' '.join('.'.join(str(part) for part in path).split())}`: " if path else ""


def _listed(names: list[str]) -> str:
    ticked = [f"`{name}`" for name in names]
    return " or ".join(part for part in (", ".join(ticked[:-1]), ticked[-1]) if part)

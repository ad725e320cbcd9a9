"""Every change of one place of a JSON document: leaves, deletions, doubles, neighbours that change places."""

from collections.abc import Iterator
from typing import Any

from drawcord.verify.verify import NOT_A_PLAN, faults

Path = tuple[str | int, ...]


def places(value: Any, path: Path = ()) -> Iterator[tuple[Path, Any]]:
    """Every value within a document, itself first, with the keys and indices that lead there."""
    yield path, value
    if isinstance(value, dict | list):
        for key, inner in value.items() if isinstance(value, dict) else enumerate(value):
            yield from places(inner, (*path, key))


def changes(value: Any) -> Iterator[tuple[str, Any]]:
    """What each change of a value is called, and what it makes of the value."""
    if isinstance(value, bool):
        yield "turned round", not value
    elif isinstance(value, int):
        yield from ((f"{by:+}", value + by) for by in (1, -1, 60, -400))
    elif isinstance(value, float):
        yield from ((f"times {by}", value * by if value else by) for by in (1.01, 0.5, -1.0))
    elif isinstance(value, str):
        yield "other text", f"x{value}"
        yield "no text", ""
    elif value is None:
        yield "something", 1
    elif isinstance(value, dict):
        yield from ((f"without {key}", {k: v for k, v in value.items() if k != key}) for key in value)
    else:
        yield "one more", [*value, "x"]
        for at, one in enumerate(value):
            yield "one less", value[:at] + value[at + 1 :]
            yield "one twice", [*value[:at], one, *value[at:]]
            if at and value[at - 1] != one:
                yield "two swapped", [*value[: at - 1], one, value[at - 1], *value[at + 1 :]]


def put(document: Any, path: Path, value: Any) -> Any:
    """A document with another value at a place; what does not change is shared."""
    if not path:
        return value
    copy = document.copy()
    copy[path[0]] = put(document[path[0]], path[1:], value)
    return copy


def form(path: Path) -> str:
    """A path with its indices left out: `cables.#.candidates.#.rank`."""
    return ".".join("#" if isinstance(part, int) else part for part in path)


def noticed(plan: Any, vehicle: Any) -> bool:
    """Whether a plan is refused, as one that is wrong or as none at all."""
    try:
        return bool(faults(plan, vehicle))
    except NOT_A_PLAN:
        return True

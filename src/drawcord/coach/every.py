"""Tables that must have a figure for every kind."""

from typing import TypeVar, get_args

from pydantic import AfterValidator

Key = TypeVar("Key", bound=str)
Value = TypeVar("Value")


def every(kinds: object) -> AfterValidator:
    """A table that has a figure for every kind."""

    def check(table: dict[Key, Value]) -> dict[Key, Value]:
        missing = [kind for kind in get_args(kinds) if kind not in table]
        if missing:
            raise ValueError(f"the table lacks {', '.join(missing)}: give a figure for each kind")
        return table

    return AfterValidator(check)

"""The name that was probably meant."""

from collections.abc import Iterable
from difflib import get_close_matches


def nearest(name: str, known: Iterable[str]) -> str:
    """` (did you mean `linen`?)` after a name that is not known, or nothing where none of the known is alike."""
    close = get_close_matches(name, sorted(known), n=1)
    return f" (did you mean `{close[0]}`?)" if close else ""

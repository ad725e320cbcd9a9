"""Where a line of text may break: never between a number and its unit, its fraction or the face it counts from."""

import re
from textwrap import wrap

BOUND = "\N{NO-BREAK SPACE}"
_UNIT = r"(?:mm²?|cm|m|in|ft|min|s|h|A|V|W|Ω|AWG|%|°C|°F|forward|aft|street|curb|lower|upper)(?![\w/])"
_INSIDE = re.compile(rf"(?<=[\d\"']) (?={_UNIT}|\d+/\d)|(?<=\d') (?=\d)")


def bound(text: str) -> str:
    """The text with spaces that do not break where no line may."""
    return _INSIDE.sub(BOUND, text)


def words(text: str) -> list[str]:
    """The parts of a text between which a line may break."""
    return [word.replace(BOUND, " ") for word in bound(text).split(" ")]


def lines(text: str, width: int, indent: str = "") -> list[str]:
    """Lines of at most `width` characters, those after the first indented as deep as `indent`."""
    further = " " * len(indent)
    found = wrap(bound(text), width, initial_indent=indent, subsequent_indent=further)
    return [line.replace(BOUND, " ") for line in found]

"""What commands print."""

import json
import sys
from typing import Any

from drawcord.words.faults import Surroundings


def say(text: str) -> None:
    """One piece of text on standard output."""
    if sys.stdout is None:  # closed by whoever started the program
        raise Surroundings("there is no standard output to write to")
    sys.stdout.write(text.rstrip("\n") + "\n")


def say_json(document: dict[str, Any]) -> None:
    """One JSON document on standard output."""
    say(as_json(document))


def as_json(document: dict[str, Any]) -> str:
    """A JSON document as text, the same for the same contents."""
    return json.dumps(document, indent=2, ensure_ascii=False, allow_nan=False)


def progress(text: str) -> None:
    """A word about work that takes a while, for people only."""
    if sys.stderr.isatty():
        sys.stderr.write(f"{text} ...\n")

"""The events of a YAML text, and the parser's complaints in plain sentences."""

from collections.abc import Iterator

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError
from ruamel.yaml.events import Event
from ruamel.yaml.reader import ReaderError

from drawcord.words.faults import BadInput, Problem

Position = tuple[int, int]  # line and column, from 1

_STRAY = "this does not belong to what stands above; look at indents, quotes and brackets"
_PLAINER = {
    "found character '\\t'": "a tab stands where only spaces may",
    "mapping values are not allowed here": "no `: ` may stand here; look at the indents, or use quotes",
    "could not find expected ':'": "a key above has no colon after it",
    "expected '<document start>'": _STRAY,
    "expected <block end>": _STRAY,
}


def events(text: str) -> Iterator[Event]:
    """The events from which a document is composed. Raises BadInput where the text is no YAML."""
    last = (1, 1)
    try:
        for event in YAML(typ="safe", pure=True).parse(text):
            last = start(event)
            yield event
    except ReaderError as error:
        before = text[: error.position]
        at = before.count("\n") + 1, len(before) - before.rfind("\n")
        raise BadInput(
            [problem(at, f"the file holds the control character U+{error.character:04X}")]
        ) from error
    except MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        at = (mark.line + 1, mark.column + 1) if mark else last
        raise BadInput([problem(at, _sentence(error))]) from error
    except (ValueError, AssertionError) as error:
        # The parser does not check the numbers in `%YAML 1.0` and `"\U00110000"`.
        raise BadInput([problem(last, f"this cannot be read as YAML from here on: {error}")]) from error


def start(event: Event) -> Position:
    """Where an event begins."""
    return event.start_mark.line + 1, event.start_mark.column + 1


def problem(at: Position, sentence: str) -> Problem:
    """A problem at a position, not yet in a named file."""
    return Problem((), sentence, line=at[0], column=at[1])


def _sentence(error: MarkedYAMLError) -> str:
    what = error.problem or "it ends too early"
    for theirs, plain in _PLAINER.items():
        if what.startswith(theirs):
            return f"this cannot be read as YAML: {plain}"
    since = f" from line {error.context_mark.line + 1}" if error.context_mark else ""
    context = f" ({error.context}{since})" if error.context else ""
    return f"this cannot be read as YAML: {' '.join((what + context).split())}"

"""The events of a YAML text, and the parser's complaints in plain sentences."""

from collections.abc import Iterator

from ruamel.yaml import YAML
from ruamel.yaml import events as theirs
from ruamel.yaml.error import MarkedYAMLError
from ruamel.yaml.reader import ReaderError

from drawcord.files.events import Alias, Another, Begin, End, Event, Scalar, problem
from drawcord.words.faults import BadInput

_STRAY = "this does not belong to what stands above; look at indents, quotes and brackets"
_PLAINER = {
    "found character '\\t'": "a tab stands where only spaces may",
    "mapping values are not allowed here": "no `: ` may stand here; look at the indents, and for spaces after colons",
    "could not find expected ':'": "a key above has no colon after it",
    "expected ',' or '}'": "a comma or a closing `}` is missing before this, for the `{` of line",
    "expected ',' or ']'": "a comma or a closing `]` is missing before this, for the `[` of line",
    "expected '<document start>'": _STRAY,
    "expected <block end>": _STRAY,
}


def events(text: str) -> Iterator[Event]:
    """The events from which a document is composed. Raises BadInput where the text is no YAML."""
    last = (1, 1)
    documents = 0
    try:
        for event in YAML(typ="safe", pure=True).parse(text):
            last = event.start_mark.line + 1, event.start_mark.column + 1
            documents += isinstance(event, theirs.DocumentStartEvent)
            if isinstance(event, theirs.ScalarEvent):
                yield Scalar(last, event.value, event.implicit[0], event.anchor, event.tag)
            elif isinstance(event, theirs.CollectionStartEvent):
                yield Begin(last, isinstance(event, theirs.MappingStartEvent), event.anchor, event.tag)
            elif isinstance(event, theirs.CollectionEndEvent):
                yield End()
            elif isinstance(event, theirs.AliasEvent):
                yield Alias(last, event.anchor)
            elif isinstance(event, theirs.DocumentStartEvent) and documents > 1:
                yield Another(last)
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


def _sentence(error: MarkedYAMLError) -> str:
    what = error.problem or "it ends too early"
    line = f" {error.context_mark.line + 1}" if error.context_mark else ""
    for said, plainer in _PLAINER.items():
        if what.startswith(said):
            return f"this cannot be read as YAML: {plainer}{line if plainer.endswith('of line') else ''}"
    context = f" ({error.context} from line{line})" if error.context else ""
    return f"this cannot be read as YAML: {' '.join((what + context).split())}"

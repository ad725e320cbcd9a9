"""The events of YAML as people mostly write it, in a tenth of the time that a whole parser takes.

Mappings by indents; in them and in lists by dashes: words, quotes on one line, and `{}` and `[]` over several.
Whatever else there is, and whatever is wrong, is left to the parser (syntax.py): what is read here, it would read
the same. So everything here errs on the side of giving up.
"""

import re
from bisect import bisect_right

from drawcord.files.events import Begin, End, Event, Position, Scalar

_UNUSUAL = re.compile(r"[\U00010000-\U0010ffff]|^(?:---|\.\.\.|%)", re.MULTILINE)
_INDENT = re.compile(r"(?: *(?:(?<![^ \n])#[^\n]*)?\n)*( *)")  # past lines without content
_KEY = re.compile(r"(\w(?:[\w~ -]{0,60}\w)?):(?=[ \n])", re.ASCII)
_DASH = re.compile(r"- +")
_SPACES = re.compile(r" *")
_WORDS = re.compile(r"(?:-(?=[\w.])|[^\s?:,\[\]{}#&*!|>'\"%@`<=-])[^:#\n]*")
_WORDS_IN_FLOW = re.compile(r"(?:-(?=[\w.])|[^\s?:,\[\]{}#&*!|>'\"%@`<=-])[^:#\n,\[\]{}?]*")
_QUOTED = re.compile(r"'((?:[^'\n]|'')*)'|\"([^\"\\\n]*)\"")
_REST = re.compile(r" *(?: #[^\n]*)?\n")
_GAP = re.compile(r" *(?:(?: #[^\n]*)?\n(?: *#[^\n]*\n)* *)*")
_DEEPEST = 20


class NotPlain(Exception):
    """The text is for the parser."""


def events(text: str) -> list[Event]:
    """The events of a document. Raises NotPlain."""
    if _UNUSUAL.search(text) or not text.replace("\n", "").isprintable():
        raise NotPlain
    return _Reader(text + "\n").read()


class _Reader:
    def __init__(self, text: str) -> None:
        self.text = text
        self.lines = [0, *(end.end() for end in re.finditer("\n", text))]
        self.found: list[Event] = []

    def read(self) -> list[Event]:
        """Line after line: `open_` holds the indents of what is open; `waits` says that a key has no value yet."""
        open_: list[tuple[int, bool]] = []
        waits = True
        at = 0
        while True:
            blank = self._match(_INDENT, at)
            at, indent = blank.end(), len(blank[1])
            over = at == len(self.text)
            if not open_ and (over or indent):
                raise NotPlain
            mapping = not self.text.startswith("- ", at)
            if not over and waits and (not open_ or indent > open_[-1][0]):
                open_.append((indent, mapping))
                self.found.append(Begin(self._place(at), mapping))
            else:
                if waits:
                    self._empty(at)
                while open_ and (over or open_[-1][0] > indent):
                    open_.pop()
                    self.found.append(End())
                if over:
                    return self.found
                if open_[-1:] != [(indent, mapping)]:
                    raise NotPlain
            head = self._match(_KEY if mapping else _DASH, at)
            if mapping:
                self.found.append(Scalar(self._place(at), head[1], plain=True))
            rest = _REST.match(self.text, head.end()) if mapping else None
            waits = rest is not None
            if rest is None:
                at = self._match(_SPACES, head.end()).end()
                rest = self._match(_REST, self._value(at, _WORDS, 0))
            at = rest.end()

    def _value(self, at: int, words: re.Pattern[str], depth: int) -> int:
        """Read one value; where it ends."""
        if self.text.startswith(("{", "["), at):
            return self._flow(at, depth + 1)
        if quoted := _QUOTED.match(self.text, at):
            value = (quoted[1] or "").replace("''", "'") or quoted[2] or ""
            self.found.append(Scalar(self._place(at), value, plain=False))
            return quoted.end()
        value = self._match(words, at)[0].rstrip(" ")
        self.found.append(Scalar(self._place(at), value, plain=True))
        return at + len(value)

    def _flow(self, at: int, depth: int) -> int:
        """Read what stands between brackets; where it ends."""
        mapping = self.text[at] == "{"
        ends = "}" if mapping else "]"
        if depth > _DEEPEST:
            raise NotPlain
        self.found.append(Begin(self._place(at), mapping))
        at = self._match(_GAP, at + 1).end()
        more = not self.text.startswith(ends, at)
        while more:
            if mapping:
                key = self._match(_KEY, at)
                self.found.append(Scalar(self._place(at), key[1], plain=True))
                at = self._match(_SPACES, key.end()).end()
            if mapping and self.text.startswith((",", "}"), at):
                self._empty(at)
            else:
                at = self._match(_GAP, self._value(at, _WORDS_IN_FLOW, depth)).end()
            more = self.text.startswith(",", at)
            if more:
                at = self._match(_GAP, at + 1).end()
        if not self.text.startswith(ends, at):
            raise NotPlain
        self.found.append(End())
        return at + 1

    def _empty(self, at: int) -> None:
        self.found.append(Scalar(self._place(at), "", plain=True))

    def _match(self, pattern: re.Pattern[str], at: int) -> re.Match[str]:
        found = pattern.match(self.text, at)
        if not found:
            raise NotPlain
        return found

    def _place(self, at: int) -> Position:
        line = bisect_right(self.lines, at)
        return line, at - self.lines[line - 1] + 1

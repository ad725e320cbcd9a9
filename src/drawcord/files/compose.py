"""YAML text into plain data that remembers where everything stands, within bounds.

Works on the parser's events rather than on its finished tree: a file that would grow without end is stopped
while it grows, and reading is faster. Words without quotes stay text unless they are a decimal number, true,
false or null: no dates, octals, sexagesimals, exponents, `yes` or `off`. Keys are always text.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any, NoReturn

from drawcord.files import plain
from drawcord.files.events import Alias, Begin, End, Event, Position, Scalar, problem
from drawcord.words.faults import BadInput, Problem

MOST_NODES = 200_000  # an alias counts as all that it stands for
DEEPEST = 32

_INTEGER = re.compile(r"[+-]?(?:0|[1-9][0-9]{0,14})")
_DECIMAL = re.compile(r"[+-]?(?:0|[1-9][0-9]{0,14})?\.[0-9]{1,15}")
_WORDS: dict[str, bool | None] = {
    **dict.fromkeys(("true", "True", "TRUE"), True),
    **dict.fromkeys(("false", "False", "FALSE"), False),
    **dict.fromkeys(("null", "Null", "NULL", "~", ""), None),
}
_UNPRINTABLE = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff]")


@dataclass(slots=True)
class Place:
    """Where a value stands, where its key does, and the same for everything inside it."""

    at: Position
    key: Position
    inner: "dict[str | int, Place]" = field(default_factory=dict)


@dataclass(slots=True)
class _Node:
    """A value with its place; how many nodes it stands for and how deep they go, aliases followed."""

    data: Any
    place: Place
    nodes: int = 1  # while it is open: how many nodes came before it
    depth: int = 1
    anchor: str | None = None
    key: tuple[str, Position] | None = None  # of an open mapping: the key that waits for its value

    @property
    def wants_key(self) -> bool:
        return isinstance(self.data, dict) and self.key is None


def compose(text: str) -> tuple[object, Place]:
    """The data of one YAML document and the places of all its parts. Raises BadInput."""
    composer = _Composer()
    for event in _events(text):
        composer.take(event)
    return composer.result()


def _events(text: str) -> Iterable[Event]:
    """The events of a text; only what is unusual or wrong takes the whole parser, which is slow to load and to run."""
    try:
        return plain.events(text)
    except plain.NotPlain:
        from drawcord.files.syntax import events  # noqa: PLC0415

        return events(text)


class _Composer:
    def __init__(self) -> None:
        self.open: list[_Node] = []  # mappings and lists being filled, outermost first
        self.anchors: dict[str, _Node] = {}
        self.nodes = 0
        self.root: _Node | None = None
        self.problems: list[Problem] = []

    def take(self, event: Event) -> None:
        if isinstance(event, Scalar):
            self._scalar(event)
        elif isinstance(event, Begin):
            self._begin(event)
        elif isinstance(event, End):
            node = self.open.pop()
            node.nodes = self.nodes - node.nodes
            self._put(node)
        elif isinstance(event, Alias):
            self._alias(event)
        else:
            self._stop(event.at, "a second document begins here; put it in a file of its own")

    def result(self) -> tuple[object, Place]:
        if self.problems:
            raise BadInput(self.problems)
        if self.root is None:
            raise BadInput([problem((1, 1), "the file is empty")])
        return self.root.data, self.root.place

    def _scalar(self, event: Scalar) -> None:
        at = event.at
        self._refuse_tag(event)
        if _UNPRINTABLE.search(event.value):
            self._note(at, "the text holds a control character; write what people can read")
        if self.open and self.open[-1].wants_key:
            self._key(event.value, at)
            return
        self._count(1, 1, at)
        if event.plain and not event.value and self.open and self.open[-1].key:
            at = self.open[-1].key[1]  # the parser places an empty value at whatever follows
        data = _meant(event.value) if event.plain else event.value
        self._put(_Node(data, Place(at, at), anchor=event.anchor))

    def _begin(self, event: Begin) -> None:
        at = event.at
        self._refuse_tag(event)
        if self.open and self.open[-1].wants_key:
            self._stop(at, "a key must be text, not a list or mapping")
        before = self.nodes
        self._count(1, 1, at)
        data: Any = {} if event.mapping else []
        self.open.append(_Node(data, Place(at, at), before, anchor=event.anchor))

    def _alias(self, event: Alias) -> None:
        at, anchor = event
        named = self.anchors.get(anchor)
        if named is None:
            self._stop(at, f"`*{anchor}` stands for nothing: no finished `&{anchor}` comes before it")
        if self.open and self.open[-1].wants_key:
            self._stop(at, "a key must be written out, not be an alias")
        self._count(named.nodes, named.depth, at)
        self._put(_Node(named.data, Place(at, at, named.place.inner), named.nodes, named.depth))

    def _key(self, key: str, at: Position) -> None:
        mapping = self.open[-1]
        earlier = mapping.place.inner.get(key)
        if not key:
            self._note(at, "a key is missing before the colon")
        elif earlier:
            line, column = earlier.key
            self._note(at, f"`{key}` stands here a second time; the first is in line {line}, column {column}")
        mapping.key = key, at

    def _put(self, node: _Node) -> None:
        """Hand a finished node to what holds it."""
        if node.anchor:
            self.anchors[node.anchor] = node
        if not self.open:
            self.root = node
            return
        holder = self.open[-1]
        holder.depth = max(holder.depth, node.depth + 1)
        if holder.key:
            key, node.place.key = holder.key
            holder.place.inner[key] = node.place
            holder.data[key] = node.data
            holder.key = None
        else:
            holder.place.inner[len(holder.data)] = node.place
            holder.data.append(node.data)

    def _count(self, nodes: int, depth: int, at: Position) -> None:
        self.nodes += nodes
        if self.nodes > MOST_NODES:
            self._stop(at, f"the file grows beyond {MOST_NODES} values here, counting what aliases stand for")
        if len(self.open) + depth > DEEPEST:
            self._stop(at, f"the file nests deeper than {DEEPEST} levels here")

    def _refuse_tag(self, event: Scalar | Begin) -> None:
        if event.tag is not None:
            tag = event.tag.replace("tag:yaml.org,2002:", "!!")
            self._note(event.at, f"the tag `{tag}` means nothing here; leave it out")

    def _note(self, at: Position, sentence: str) -> None:
        self.problems.append(problem(at, sentence))

    def _stop(self, at: Position, sentence: str) -> NoReturn:
        raise BadInput([*self.problems, problem(at, sentence)])


def _meant(word: str) -> object:
    """What a word without quotes stands for."""
    if word in _WORDS:
        return _WORDS[word]
    if _INTEGER.fullmatch(word):
        return int(word)
    return float(word) if _DECIMAL.fullmatch(word) else word

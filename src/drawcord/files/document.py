"""A file that a person wrote: read within bounds, held against a model, every problem with its position."""

import hashlib
import os
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path, PureWindowsPath
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from drawcord.files.compose import Place, compose
from drawcord.files.events import Position
from drawcord.files.sentences import problems
from drawcord.words import faults
from drawcord.words.amount import shown
from drawcord.words.faults import BadInput, Problem, Surroundings

MOST_BYTES = 2_000_000

Model = TypeVar("Model", bound=BaseModel)


@dataclass(frozen=True)
class Document:
    """A file's contents as plain data, with the hash of its bytes and the place of every value and key."""

    path: Path
    data: dict[str, Any]
    sha256: str
    place: Place

    def position(self, path: faults.Path, on_key: bool = False) -> Position:
        """Line and column, from 1, of the value at `path` or of its key; if missing, of its holder."""
        place = self.place
        for part in path:
            if part not in place.inner:
                return place.key
            place = place.inner[part]
        return place.key if on_key else place.at


def read_document(path: Path) -> Document:
    """Read a YAML file.

    Raises:
        BadInput: the file is not there, is no text, is too large, is no YAML or holds no mapping.
        Surroundings: the file is there but cannot be read.

    """
    data = _bytes(path)
    try:
        contents, place = compose(_text(data))
    except BadInput as error:
        raise BadInput([replace(problem, file=str(path)) for problem in error.problems]) from None
    if not isinstance(contents, dict):
        sentence = f"the file holds {shown(contents)}; it should hold keys with values, such as `format: 1`"
        raise BadInput([Problem((), sentence, str(path), *place.at)])
    return Document(path, contents, hashlib.sha256(data).hexdigest(), place)


def validate(document: Document, model: type[Model], context: Mapping[str, Any] | None = None) -> Model:
    """Build `model` from a document; `context` goes to its validators. Raises BadInput with every problem."""
    try:
        # By alias alone: a key has one spelling in a file, whatever Python calls the field.
        return model.model_validate(document.data, context=context, by_alias=True, by_name=False)
    except ValidationError as error:
        raise BadInput(placed(problems(error, model, document.data), document)) from None


def placed(found: Iterable[Problem], document: Document) -> list[Problem]:
    """Problems with their file, line and column filled in from their paths, in the order of the file."""
    return sorted((_place(problem, document) for problem in found), key=lambda one: (one.file, one.line, one.column))


def resolve_inside(document: Document, text: str, what: str) -> Path:
    """The file that `text`, the value of the document's key `what`, names beside the document or below.

    Raises BadInput if it leads out of the document's folder or is no file.
    """
    folder = document.path.parent
    written = PureWindowsPath(text)  # knows both kinds of slash, and drives
    target = folder / Path(*written.parts)
    if written.anchor or ".." in written.parts or not _lies_inside(target, folder):
        sentence = f"`{what}`: {shown(text)} leads out of the folder of this file; name a file in it or below"
    elif not os.path.isfile(target):  # noqa: PTH113 (`Path.is_file` raises on names that are too long)
        sentence = f"`{what}`: there is no file {shown(text)} beside this one"
    else:
        return target
    raise BadInput(placed([Problem((what,), sentence)], document))


def _place(problem: Problem, document: Document) -> Problem:
    if problem.file:
        return problem
    line, column = document.position(problem.path, on_key=problem.on_key)
    return replace(problem, file=str(document.path), line=line, column=column)


def _lies_inside(target: Path, folder: Path) -> bool:
    return Path(os.path.realpath(target)).is_relative_to(os.path.realpath(folder))


def _bytes(path: Path) -> bytes:
    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except (FileNotFoundError, NotADirectoryError):
        sentence = "there is no such file"
    except IsADirectoryError:
        sentence = "this is a folder; name a file in it"
    except OSError as error:
        raise Surroundings(f"{path} cannot be read: {error.strerror}") from error
    else:
        if len(data) <= MOST_BYTES:
            return data
        sentence = f"the file is larger than {MOST_BYTES // 1_000_000} MB; a sketch is a thousandth of that"
    raise BadInput([Problem((), sentence, file=str(path))])


def _text(data: bytes) -> str:
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = data[: error.start]
        line, column = before.count(b"\n") + 1, len(before) - before.rfind(b"\n")
        sentence = f"the file is no UTF-8 text: it holds the byte {data[error.start]:#04x} here"
        raise BadInput([Problem((), sentence, line=line, column=column)]) from None
